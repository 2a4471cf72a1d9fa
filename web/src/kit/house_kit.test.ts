import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { Problem } from '../data/problem';
import { read } from '../data/toml_text';
import { draft, plainKit, vesselsOf } from '../house/new_batch';
import { fitted, renamedWords } from './house_kit';
import Kit from './Kit.svelte';

const plain = plainKit(30);
const recipe = draft('Barn 2', 24, 'rye-malt', vesselsOf(plain)!);
const own = [
  '[[vessel]]',
  'name = "tub"',
  'total = "60 L"',
  '[[vessel]]',
  'name = "keeve"',
  'total = "45 L"',
  '',
].join('\n');

test('a recipe of other vessels gets those that the kit has, and keeps the rest of its text', () => {
  const { recipe: fits, renamed } = fitted(`${recipe}# a remark\n`, own);
  expect(read(fits)).toMatchObject({ mash: { vessel: 'keeve' }, ferment: { vessel: 'tub' } });
  expect(fits.split('\n').filter((line, i) => line !== recipe.split('\n')[i])).toHaveLength(4);
  expect(fits).toContain('# a remark');
  expect(renamedWords(renamed)).toBe(
    'Its recipe names “keeve” in place of “mash tub”. Its recipe names “tub” in place of “fermenter”.',
  );
  expect(fitted(recipe, plain)).toEqual({ recipe, renamed: [] });
});

let recorded: Record<string, unknown>[];
let refuses: Problem | undefined;

beforeEach(() => {
  recorded = [];
  refuses = undefined;
  localStorage.clear();
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => {
    if (path === '/house')
      return {
        batches: [],
        cleanings: [],
        airs: [],
        kit: { text: own, at: '2026-03-22T08:00:00Z' },
      } as never;
    return { name: 'Barn 2', airs: [], plan: { recipe, kit: plain } } as never;
  });
  vi.spyOn(bench.api, 'post').mockImplementation(async () => {
    if (refuses) throw refuses;
    return { findings: [] } as never;
  });
  vi.spyOn(bench, 'record').mockImplementation(async (wish) => {
    recorded.push(wish as never);
    return { id: 's', who: '', version: 1, ...wish } as never;
  });
});
const button = () => screen.findByRole('button', { name: 'Plan this batch with the house’s kit' });

test('a batch begun with the plain kit takes the house’s by one button, as an entry', async () => {
  render(Kit, { batch: 'b' });
  await userEvent.click(await button());
  expect(
    await screen.findByText(/planned with the house’s kit now\. Its recipe names “keeve”/),
  ).toBeTruthy();
  expect(recorded).toEqual([
    {
      batch: 'b',
      stage: 'mash bill',
      kind: 'batch planned',
      body: { recipe: fitted(recipe, own).recipe, kit: own },
    },
  ]);
});

test('a kit with which there is no plan is not taken, and the house’s sentence says why', async () => {
  render(Kit, { batch: 'b' });
  const take = await button();
  refuses = new Problem({
    title: 'It cannot be planned',
    status: 422,
    errors: [{ field: 'recipe.wood.in', value: 'the little cask', accepted: 'a cask of the kit' }],
  });
  await userEvent.click(take);
  expect(await screen.findByText(/the little cask.*a cask of the kit/)).toBeTruthy();
  expect(recorded).toEqual([]);
});
