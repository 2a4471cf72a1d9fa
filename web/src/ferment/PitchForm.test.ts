// What cannot be meant is told at its field before it is kept.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Plan } from '../data/answers';
import { bench } from '../data/bench.svelte';
import { set } from '../data/settings.svelte';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import PitchForm from './PitchForm.svelte';

vi.setConfig({ testTimeout: 60_000 });

test('kilograms for grams of yeast are refused at the field, and its range is named', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({ ingredients: [], yeasts: [] } as never);
  vi.spyOn(bench.api, 'post').mockResolvedValue({} as never);
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  render(PitchForm, {
    bench,
    batch: 'b',
    plan: ternPlan as unknown as Plan,
    onkept: () => undefined,
  });
  const user = userEvent.setup();
  const into = async (label: string, text: string) => {
    await user.clear(screen.getByLabelText(label));
    await user.type(screen.getByLabelText(label), text);
  };
  await into('Wort', '150');
  // It is more than the fermenter holds, which is asked about and can be kept.
  await screen.findByText(/more than the fermenter of the plan holds: 140\.0\sL to its brim/);
  await into('reads', '1.058');
  await into('so much of it', '26 kg');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(screen.getByText(/^“26 kg” was given; accepted: 3\.0\sg to 1500\sg/)).toBeTruthy();
  expect(screen.getByLabelText('so much of it').getAttribute('aria-invalid')).toBe('true');
  expect(record).not.toHaveBeenCalled();
  await into('so much of it', '26 g');
  await into('Wort', '9999');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(screen.getByText(/^“9999” was given; accepted: up to 1400\sL/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  // A pitch into nothing was kept, and no ferment could be reckoned of it.
  await into('Wort', '0 L');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(screen.getByText(/^“0 L” was given; accepted: a volume over nought such as/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await into('Wort', '150');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(record).toHaveBeenCalledOnce();
  expect(record.mock.calls[0]![0].body).toMatchObject({ mass_g: 26, volume: { volume_L: 150 } });
});

const drafts = () => Object.keys(localStorage).filter((key) => key.startsWith('lynearm-typing-'));
const planWith = (yeast_g: number): Plan => {
  const plan = structuredClone(ternPlan) as unknown as Plan;
  plan.ferment.yeast_g = yeast_g;
  return plan;
};

test('a pitch that is typed and not told stands after the page was left, until it is told', async () => {
  const yeasts = [
    { id: 'one', name: 'Yeast one' },
    { id: 'two', name: 'Yeast two' },
  ];
  vi.spyOn(bench.api, 'get').mockResolvedValue({ ingredients: [], yeasts } as never);
  vi.spyOn(bench.api, 'post').mockResolvedValue({} as never);
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  record.mockClear();
  const show = (yeast_g: number, batch = 'pitch left') =>
    render(PitchForm, { bench, batch, plan: planWith(yeast_g), onkept: () => undefined });
  const value = (label: string) => screen.getByLabelText<HTMLInputElement>(label).value;
  const user = userEvent.setup();

  // What the form offers by itself is no draft, and follows the plan.
  const untouched = show(80);
  await screen.findByRole('option', { name: 'Yeast two' });
  expect(value('so much of it')).toMatch(/^80\sg$/);
  expect(drafts()).toEqual([]);
  untouched.unmount();

  const typed = show(80);
  await user.type(screen.getByLabelText('Wort'), '41.5');
  await user.type(screen.getByLabelText('reads'), '1.058');
  await user.selectOptions(screen.getByLabelText('Yeast'), await screen.findByText('Yeast two'));
  await user.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  typed.unmount();
  const other = show(80, 'another pitch');
  expect(value('Wort')).toBe('');
  other.unmount();

  set({ units: 'us' });
  const left = show(95);
  await screen.findByRole('option', { name: 'Yeast two' });
  expect(value('Wort')).toBe('41.5 L');
  expect(value('reads')).toBe('1.058');
  expect(value('Yeast')).toBe('two');
  expect(value('so much of it')).toMatch(/^3\.35\soz$/); // by the plan as it is now
  expect(value('as warm as')).toBe('77'); // nobody typed it
  expect(screen.getByLabelText('The yeast went in at')).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(record.mock.calls[0]![0].body).toMatchObject({ volume: { volume_L: 41.5, at_C: 25 } });
  expect(drafts()).toEqual([]);
  left.unmount();
  show(95);
  expect(value('Wort')).toBe('');
  expect(screen.queryByLabelText('The yeast went in at')).toBeNull();
});

test('of a pitch that is emptied again nothing is left', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({ ingredients: [], yeasts: [] } as never);
  render(PitchForm, { bench, batch: 'emptied', plan: planWith(80), onkept: () => undefined });
  await userEvent.type(screen.getByLabelText('Wort'), '41');
  expect(drafts()).toEqual(['lynearm-typing-pitch of emptied']);
  await userEvent.clear(screen.getByLabelText('Wort'));
  expect(drafts()).toEqual([]);
});
