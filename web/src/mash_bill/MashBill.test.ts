import { configure, render, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import type { EntryWish } from '../data/entry';
import { Problem } from '../data/problem';
import MashBill from './MashBill.svelte';
import { ternPlan } from './plan_of_tern_8';

const recipe = 'name = "Tern 9"\n\n[[mash_bill]]\ningredient = "rye-malt"\nmass = "4 kg" # ours\n';
const kit = '[[vessel]]\nname = "tub"\ntotal = "40 L"\n';
const answers: Record<string, unknown> = {
  '/batches/b': {
    name: 'Tern 9',
    plan: { entry: 'p', at: '2026-11-15T19:00:00.000Z', recipe, kit, earlier: 0 },
  },
  '/house': { batches: [], notes: [], puzzles: [] },
  '/tables': {
    ingredients: [{ id: 'rye-malt', name: 'Rye malt', kind: 'malt' }],
    yeasts: [],
    species: [],
    toasts: [],
  },
};
const figure = (planned: number, name: string, stage = 'Ferment') => ({
  stage,
  name,
  unit: '',
  decimals: 4,
  planned,
});
const planOf = (gravity: number) => ({
  ...ternPlan,
  figures: {
    original_gravity: figure(gravity, 'original gravity'),
    wash_percent_vol: figure(8.9, 'wash'),
    hearts_pure_alcohol_L: figure(2, 'pure alcohol in the hearts', 'Spirit run'),
    bottles: figure(6, 'bottles', 'Bottle'),
  },
  mash_bill: { ...ternPlan.mash_bill, mass_kg: 4, dry_kg: 3.8, lines: [], enzymes: undefined },
  uses: { ...ternPlan.uses, costs: { currency: 'crowns', amount: 100 * gravity, lines: [] } },
  legal_classes: {
    permission: 'No finding is permission to use this name.',
    classes: [
      {
        id: 'w',
        name: 'Whisky',
        jurisdiction: 'Somewhere',
        document: 'A text',
        place: '1',
        standing: 'from memory',
        ruling: 'breaks',
        rules: [{ id: 'r', ruling: 'breaks', demands: 'three years', says: 'six months', at: '2' }],
      },
    ],
  },
  findings: [
    {
      weight: 'caution',
      code: 'c',
      stage: 'Mash bill',
      says: 'Little enzyme.',
      remedy: 'More malt.',
    },
  ],
});
// How long to wait, not how quick it has to be: the whole page in jsdom takes seconds where other
// work has the machine.
configure({ asyncUtilTimeout: 20_000 });
vi.setConfig({ testTimeout: 60_000 });

let recorded: Omit<EntryWish, 'who'>[];

beforeEach(() => {
  recorded = [];
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => answers[path] as never);
  vi.spyOn(bench, 'record').mockImplementation(async (wish) => {
    recorded.push(wish);
    return wish as never;
  });
});
const plans = (answer: (body: { recipe: string }) => unknown) =>
  vi
    .spyOn(bench.api, 'post')
    .mockImplementation(async (_path, body) => answer(body as { recipe: string }) as never);

test('the plan follows what is typed; keeping it records the text with its remarks', async () => {
  plans((body) => planOf(body.recipe.includes('5 kg') ? 1.07 : 1.06));
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  expect(screen.getByText(/Little enzyme/)).toBeTruthy();
  const mass = screen.getByLabelText('Mass');
  await userEvent.clear(mass);
  await userEvent.type(mass, '5');
  await screen.findAllByText('1.0700');
  await userEvent.click(screen.getByRole('button', { name: 'Keep' }));
  expect(recorded).toEqual([
    {
      batch: 'b',
      stage: 'mash bill',
      kind: 'batch planned',
      body: { recipe: recipe.replace('4 kg', '5 kg'), kit },
    },
  ]);
});

test('a fault of the house stands at its field, counted from 1, and cannot be kept', async () => {
  plans((body) => {
    if (!body.recipe.includes('8 L')) return planOf(1.06);
    const errors = [
      { field: 'mash_bill[1].mass', value: '8 L', accepted: 'a mass', file: 'recipe' },
    ];
    throw new Problem({ title: 'No', status: 422, errors });
  });
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  const mass = screen.getByLabelText('Mass');
  await userEvent.clear(mass);
  await userEvent.type(mass, '8 L');
  await screen.findByText('“8 L” was given; accepted: a mass.');
  expect(mass.getAttribute('aria-invalid')).toBe('true');
  expect(screen.getByText('As before the last change.')).toBeTruthy();
  // Beside the figures themselves too: they are not of what stands in the field.
  expect(
    screen.getByText(/The figures below are those of before the last change, which has a fault\./),
  ).toBeTruthy();
  expect(screen.queryByRole('button', { name: 'Keep' })).toBeNull();
  await userEvent.clear(mass);
  await userEvent.type(mass, '5 kg');
  await waitFor(() => expect(screen.queryByText(/The figures below are those/)).toBeNull());
});

test('a draft outlives the page and can be let go', async () => {
  plans(() => planOf(1.06));
  const { unmount } = render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  await userEvent.type(screen.getByLabelText('Mass'), '0');
  unmount();
  render(MashBill, { batch: 'b' });
  expect((await screen.findByLabelText<HTMLInputElement>('Mass')).value).toBe('4 kg0');
  await userEvent.click(await screen.findByRole('button', { name: 'Back to what is kept' }));
  expect(screen.getByLabelText<HTMLInputElement>('Mass').value).toBe('4 kg');
});

test('a plan kept on another device is shown; a draft begun before is said to be overtaken', async () => {
  const anew = recipe.replace('4 kg', '5 kg');
  const planned = (text: string) => ({
    name: 'Tern 9',
    plan: { entry: text, at: '2026-11-15T19:00:00.000Z', recipe: text, kit, earlier: 0 },
  });
  const hearers: (() => void)[] = [];
  vi.spyOn(bench, 'hear').mockImplementation((heard) => {
    hearers.push(() => heard('entry', undefined as never));
    return () => undefined;
  });
  const hear = () => hearers.forEach((heard) => heard());
  plans(() => planOf(1.06));
  const before = answers['/batches/b'];
  try {
    render(MashBill, { batch: 'b' });
    const mass = await screen.findByDisplayValue<HTMLInputElement>('4 kg');
    answers['/batches/b'] = planned(anew);
    hear();
    await screen.findByDisplayValue('5 kg');
    expect(screen.queryByText(/as a draft/)).toBeNull();
    await userEvent.clear(mass);
    await userEvent.type(mass, '6 kg');
    answers['/batches/b'] = planned(recipe);
    hear();
    await screen.findByText(/Another plan of this batch was kept/);
    expect(screen.getByDisplayValue('6 kg')).toBeTruthy();
  } finally {
    answers['/batches/b'] = before;
  }
});

test('a second variant stands beside the first with the difference', async () => {
  plans((body) => planOf(body.recipe.includes('5 kg') ? 1.07 : 1.06));
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  await userEvent.click(screen.getByRole('button', { name: 'A variant beside it' }));
  const mass = screen.getByLabelText('Mass');
  await userEvent.clear(mass);
  await userEvent.type(mass, '5');
  await screen.findAllByText('1.0700');
  expect(await screen.findByText('+0.0100')).toBeTruthy(); // the second against the first
  expect(screen.getByText('+1.00')).toBeTruthy(); // and of the cost
  // Each stage names the columns again, for a page on which the table's head has scrolled away.
  const again = [...document.querySelectorAll('tr.stage')].map((row) =>
    [...row.querySelectorAll('td')].map((cell) => cell.textContent),
  );
  expect(again.length).toBeGreaterThan(1);
  for (const heads of again) expect(heads).toEqual(['First', 'Second', 'Difference']);
});

test('a proposal changes nothing before it is taken over, and a fault stands at its field', async () => {
  const wishes: unknown[] = [];
  vi.spyOn(bench.api, 'post').mockImplementation(async (path, body) => {
    const { recipe: text, volume } = body as { recipe: string; volume?: string };
    if (path === '/plan') return planOf(text.includes('5 kg') ? 1.07 : 1.06) as never;
    wishes.push(volume);
    if (volume !== '5 L') {
      const errors = [{ field: 'volume', value: volume!, accepted: 'at most 6 L' }];
      throw new Problem({ title: 'No', status: 422, errors });
    }
    const changes = [{ path: 'mash_bill[1].mass', value: '5 kg' }];
    return { says: 'Every amount times 1.250.', factor: 1.25, changes } as never;
  });
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  const volume = screen.getByLabelText('Spirit');
  await userEvent.type(volume, '90');
  await userEvent.click(screen.getByRole('button', { name: 'Work it out' }));
  expect(await screen.findByText('“90 L” was given; accepted: at most 6 L.')).toBeTruthy();
  await userEvent.clear(volume);
  await userEvent.type(volume, '5');
  await userEvent.click(screen.getByRole('button', { name: 'Work it out' }));
  expect(await screen.findByText('Every amount times 1.250.')).toBeTruthy();
  expect(wishes).toEqual(['90 L', '5 L']);
  expect(screen.getByLabelText<HTMLInputElement>('Mass').value).toBe('4 kg');
  await userEvent.click(screen.getByRole('button', { name: 'Take it over' }));
  expect(screen.getByLabelText<HTMLInputElement>('Mass').value).toBe('5 kg');
  expect(screen.queryByText('Every amount times 1.250.')).toBeNull();
});

test('a gravity names what reaches it, and nothing is asked before an ingredient is chosen', async () => {
  const asked: { recipe: string; want: string }[] = [];
  vi.spyOn(bench.api, 'post').mockImplementation(async (path, body) => {
    if (path === '/plan') return planOf(1.06) as never;
    asked.push(body as { recipe: string; want: string });
    const changes = [{ path: 'ferment.fill_to', value: '64.751 L' }];
    return { says: 'Filled to 64.8 L.', factor: 1, changes } as never;
  });
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  const user = userEvent.setup();
  await user.selectOptions(screen.getByLabelText('I want'), 'replace');
  await user.click(screen.getByRole('button', { name: 'Work it out' }));
  expect(screen.getByText('Choose an ingredient first.')).toBeTruthy();
  expect(asked).toEqual([]);
  await user.selectOptions(screen.getByLabelText('I want'), 'gravity');
  expect(screen.getByLabelText<HTMLSelectElement>('Reached by').value).toBe('water');
  await user.type(screen.getByLabelText('Gravity'), '1.07');
  await user.click(screen.getByRole('button', { name: 'Work it out' }));
  await screen.findByText('64.8 L');
  expect(screen.getByText('64.751 L')).toBeTruthy(); // what was worked out, beside it
  expect(asked[0]!.recipe).toContain('gravity_by = "water"');
});

test('a class says which rule it breaks, where that stands, and that it is no permission', async () => {
  plans(() => planOf(1.06));
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  expect(screen.getAllByText('three years: six months')).toHaveLength(2); // summed up, and in full
  expect(screen.getByText(/A text, 1/)).toBeTruthy();
  expect(screen.getByText(/No finding is permission/)).toBeTruthy();
});

test('the count of findings in the line that stays leads to the first of them', async () => {
  const led = vi.fn();
  Element.prototype.scrollIntoView = led; // jsdom has none
  try {
    plans(() => planOf(1.06));
    render(MashBill, { batch: 'b' });
    await userEvent.click(await screen.findByRole('link', { name: '1 × caution' }));
    expect(led).toHaveBeenCalledOnce();
    expect(document.activeElement?.textContent).toMatch(/Little enzyme/);
  } finally {
    delete (Element.prototype as Partial<Element>).scrollIntoView;
  }
});

test('a mass with a decimal comma is read; one that can be read in two ways is asked about there', async () => {
  const asked: string[] = [];
  plans(({ recipe: of }) => {
    asked.push(of);
    if (!of.includes('1,234')) return planOf(1.06);
    const errors = [
      { field: 'mash_bill[1].mass', value: '1,234 kg', accepted: 'a mass', file: 'recipe' },
    ];
    throw new Problem({ title: 'No', status: 422, errors });
  });
  render(MashBill, { batch: 'b' });
  await screen.findAllByText('1.0600');
  const mass = screen.getByLabelText('Mass');
  await userEvent.clear(mass);
  await userEvent.type(mass, '6,7 kg');
  await waitFor(() => expect(asked.at(-1)).toContain('mass = "6.7 kg" # ours'));
  expect(mass.getAttribute('aria-invalid')).toBeNull();
  await userEvent.clear(mass);
  await userEvent.type(mass, '1,234 kg');
  // Said once, in the words of the other forms.
  await screen.findByText('“1,234 kg” can be read in two ways: write 1234 or 1.234.');
  await waitFor(() => expect(asked.at(-1)).toContain('1,234 kg'));
  await waitFor(() => expect(screen.queryByRole('button', { name: 'Keep' })).toBeNull());
  expect(screen.queryByText(/“1,234 kg” was given/)).toBeNull();
});
