import { cleanup, render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import type { EntryWish } from '../data/entry';
import { Problem } from '../data/problem';
import House from './House.svelte';

const line = {
  batch: 'b8',
  name: 'Tern 8',
  invented: true,
  first: '2026-11-15T19:00:00.000Z',
  last: '2026-11-25T15:02:00.000Z',
  entries: 108,
  struck: 1,
  planned: true,
  pitched: true,
  racked: true,
  puzzles: 1,
  next: {
    what: 'A spirit run is stopped: resume it',
    stage: 'spirit run',
    since: '2026-11-25T15:02:00.000Z',
    standing: 'now',
  },
  runs: [
    {
      entry: 'r',
      at: '2026-11-25T12:00:00.000Z',
      run: 'spirit run',
      standing: 'stopped',
      allotted: false,
    },
  ],
};
const kit = '[[vessel]]\nname = "tub"\ntotal = "40 L"\n';
const answers: Record<string, unknown> = {
  '/house': {
    batches: [line],
    notes: [],
    puzzles: [],
    kit: { entry: 'k', at: line.first, text: kit },
  },
  '/examples': {
    examples: [{ name: 'Tern 7', remark: 'Oats and rye.', recipe: 'name = "Tern 7"\n', kit: 'K' }],
  },
};
let recorded: Omit<EntryWish, 'who'>[];

beforeEach(() => {
  recorded = [];
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => answers[path] as never);
  vi.spyOn(bench, 'record').mockImplementation(async (wish) => {
    recorded.push(wish);
    return wish as never;
  });
  vi.stubGlobal('scrollTo', () => undefined);
});

async function begin(way: string) {
  render(House);
  await screen.findByText('Tern 8');
  await userEvent.click(screen.getByRole('button', { name: 'Begin a batch' }));
  await userEvent.click(screen.getByRole('radio', { name: way }));
}
const go = () => userEvent.click(screen.getByRole('button', { name: 'Begin' }));

test('a batch stands with what it needs next, its mark and its puzzles', async () => {
  render(House);
  const card = within((await screen.findByText('Tern 8')).closest('article')!);
  expect(card.getByText('invented')).toBeTruthy();
  const next = card.getByRole<HTMLAnchorElement>('link', {
    name: 'A spirit run is stopped: resume it',
  });
  expect(next.pathname).toBe('/batch/b8/spirit-run');
  expect(card.getByText(/One entry does not fit/)).toBeTruthy();
});

test('what a batch needs next has its time, what it rests on, and is told when overdue', async () => {
  answers['/house'] = {
    ...(answers['/house'] as object),
    batches: [
      {
        ...line,
        next: {
          what: 'Rack the wash',
          stage: 'ferment',
          since: '2026-11-20T08:00:00.000Z',
          standing: 'waits',
          due: '2026-11-21T08:00:00.000Z',
          late_after: '2026-11-22T08:00:00.000Z',
          due_by: 'the ferment’s forecast',
        },
      },
    ],
  };
  render(House);
  const card = within((await screen.findByText('Tern 8')).closest('article')!);
  expect(card.getByText(/overdue: it was due 21 November/)).toBeTruthy();
  expect(card.getByText('Time by the ferment’s forecast.')).toBeTruthy();
  answers['/house'] = { ...(answers['/house'] as object), batches: [line] };
});

test('a few questions make a batch for the kit of the house', async () => {
  await begin('A few questions');
  await userEvent.type(screen.getByLabelText(/Litres of wash/), '25');
  await userEvent.type(screen.getByLabelText('Name of the batch'), 'Tern 9');
  await go();
  expect(recorded.map((wish) => wish.kind)).toEqual(['batch begun', 'batch planned']);
  expect(recorded[1]!.body['kit']).toBe(kit);
  expect(recorded[1]!.body['recipe']).toContain('fill_to = "25 L"');
  expect(location.pathname).toBe(`/batch/${recorded[0]!.batch}/mash-bill`);
});

test('what is missing or no volume is told at its field, and nothing is recorded', async () => {
  await begin('A few questions');
  await userEvent.type(screen.getByLabelText(/Litres of wash/), '25 kg');
  await go();
  expect(screen.getByText(/“25 kg” was given; accepted: a volume/)).toBeTruthy();
  expect(recorded).toEqual([]);
});

test('a few questions want no name: one is offered', async () => {
  await begin('A few questions');
  await screen.findByText('Left empty: Batch 1.');
  await go();
  expect(recorded[0]!.body['name']).toBe('Batch 1');
  expect(recorded[1]!.body['recipe']).toContain('name = "Batch 1"');
});

test('an example brings its own kit and is marked as invented', async () => {
  await begin('An example');
  await screen.findByLabelText('Example');
  await go();
  expect(recorded[0]!.body).toEqual({ name: 'Tern 7', remark: 'Oats and rye.', invented: true });
  expect(recorded[1]!.body['kit']).toBe('K');
});

test('a recipe file is read, and one that is none is told', async () => {
  vi.spyOn(bench.api, 'post').mockResolvedValue({} as never);
  await begin('A recipe file');
  const input = screen.getByLabelText('Recipe file');
  await userEvent.upload(input, new File(['name = '], 'bad.toml', { type: 'text/plain' }));
  expect(await screen.findByText(/This is no TOML at line 1/)).toBeTruthy();
  const recipe = 'name = "Small rye"\n\n[[mash_bill]]\ningredient = "rye-malt"\n';
  await userEvent.upload(input, new File([recipe], 'recipe.toml', { type: 'text/plain' }));
  await screen.findByText('Left empty: Small rye.');
  await go();
  expect(recorded[1]!.body['recipe']).toBe(recipe);
});

test('a recipe file that no plan comes of says why, and begins a batch only when asked again', async () => {
  const errors = [
    { field: 'mash_bill[1].ingredient', value: 'rye-mallt', accepted: 'rye-malt', line: 4 },
  ];
  vi.spyOn(bench.api, 'post').mockRejectedValue(new Problem({ title: 'x', status: 422, errors }));
  await begin('A recipe file');
  const recipe = 'name = "Small rye"\n\n[[mash_bill]]\ningredient = "rye-mallt"\n';
  const file = new File([recipe], 'recipe.toml', { type: 'text/plain' });
  await userEvent.upload(screen.getByLabelText('Recipe file'), file);
  await screen.findByText('Left empty: Small rye.');
  await go();
  expect(
    await screen.findByText(/Line 4, mash_bill\[1\]\.ingredient: “rye-mallt” was given; accepted/),
  ).toBeTruthy();
  expect(recorded).toEqual([]);
  await userEvent.click(screen.getByRole('button', { name: 'Begin all the same' }));
  expect(recorded.map((wish) => wish.kind)).toEqual(['batch begun', 'batch planned']);
});

test('what was typed of a batch to begin survives the page being left, until it is begun or left by its button', async () => {
  await begin('A few questions');
  await userEvent.type(screen.getByLabelText(/Litres of wash/), '25');
  await userEvent.type(screen.getByLabelText('Name of the batch'), 'Tern 9');
  cleanup();
  render(House);
  expect(await screen.findByText('As you left it: not begun yet.')).toBeTruthy();
  expect(screen.getByLabelText<HTMLInputElement>(/Litres of wash/).value).toBe('25');
  await go();
  expect(recorded[0]!.body['name']).toBe('Tern 9');
  cleanup();
  await begin('A recipe file');
  expect(screen.queryByText('As you left it: not begun yet.')).toBeNull();
  const recipe = 'name = "Small rye"\n\n[[mash_bill]]\ningredient = "rye-malt"\n';
  await userEvent.upload(screen.getByLabelText('Recipe file'), new File([recipe], 'rye.toml'));
  await screen.findByText('Left empty: Small rye.');
  cleanup();
  render(House);
  expect(await screen.findByText('“rye.toml” stands here as it was chosen.')).toBeTruthy();
  expect(screen.getByText('Left empty: Small rye.')).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Leave' }));
  cleanup();
  render(House);
  expect(await screen.findByRole('button', { name: 'Begin a batch' })).toBeTruthy();
});
