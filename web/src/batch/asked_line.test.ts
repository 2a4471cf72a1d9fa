// The page of a batch says at its top that the house asks of it: the questions stand far down, in its journal.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, expect, test, vi } from 'vitest';
import type { Batch as BatchTold } from '../data/answers';
import { bench } from '../data/bench.svelte';
import type { Entry, Stage } from '../data/entry';
import { Problem } from '../data/problem';
import Bottle from '../bottle/Bottle.svelte';
import Ledger from '../ledger/Ledger.svelte';
import Batch from './Batch.svelte';

vi.setConfig({ testTimeout: 30_000 });
afterEach(() => vi.restoreAllMocks());

const at = '2026-11-17T11:20:00.000Z';
const entry = (id: string, batch: string, stage: Stage): Entry => ({
  id,
  batch,
  stage,
  kind: 'mash temperature',
  version: 1,
  at,
  clock_ahead_ms: 0,
  who: '',
  body: { temperature_C: 6.6 },
});
function houseOf(batch: string, stage: Stage = 'mash') {
  const ask = (of: string, why: string) => ({ entry: of, why, counts: true });
  const told = {
    batch,
    name: 'Tern 9',
    first: at,
    last: at,
    closed: false,
    account: [],
    lots: [],
    notes: [],
    runs: [],
    ferment: { readings: [] },
    mash: {},
    puzzles: [ask('a', 'So cold?'), ask('a', 'So late?'), ask('b', 'So cold?')],
  } as unknown as BatchTold;
  vi.spyOn(bench.api, 'get').mockImplementation(((path: string) =>
    path.endsWith('/entries')
      ? Promise.resolve({ entries: [entry('a', batch, stage), entry('b', batch, stage)] })
      : path === `/batches/${batch}`
        ? Promise.resolve(told)
        : Promise.reject(new Problem({ title: 'None', status: 404 }))) as typeof bench.api.get);
  vi.spyOn(bench, 'waiting').mockResolvedValue([]);
}

test('one line at the top of the batch leads to what is asked, and the next answer does not jump there', async () => {
  houseOf('asked-line-1');
  render(Batch, { batch: 'asked-line-1' });
  const link = await screen.findByRole('link', { name: 'The house asks about 2 entries' });
  const heading = await screen.findByRole('heading', { name: 'Asked about' });
  expect(link.compareDocumentPosition(heading) & Node.DOCUMENT_POSITION_FOLLOWING).toBeTruthy();
  expect(
    link.compareDocumentPosition(screen.getByRole('navigation', { name: 'Stages of the batch' })) &
      Node.DOCUMENT_POSITION_FOLLOWING,
  ).toBeTruthy();
  await userEvent.click(link);
  expect(document.activeElement).toBe(heading);
  expect(location.hash).toBe('');
});

test('the ledger of the batch says so too', async () => {
  houseOf('asked-line-2');
  render(Ledger, { batch: 'asked-line-2' });
  const link = await screen.findByRole<HTMLAnchorElement>('link', {
    name: 'The house asks about 2 entries',
  });
  expect(link.pathname + link.hash).toBe('/batch/asked-line-2#asked');
});

test('the page of a stage tells what is asked of an entry of it that made nothing', async () => {
  houseOf('asked-line-3', 'bottle');
  render(Bottle, { batch: 'asked-line-3' });
  expect(await screen.findByText('So late?')).toBeTruthy();
  expect(screen.getByText('It is asked of 2 entries.')).toBeTruthy();
});

test('and nothing of another stage', async () => {
  houseOf('asked-line-4', 'mash');
  render(Bottle, { batch: 'asked-line-4' });
  await vi.waitFor(() =>
    expect(bench.api.get).toHaveBeenCalledWith('/batches/asked-line-4/entries'),
  );
  await new Promise((then) => setTimeout(then, 20));
  expect(screen.queryByText('So late?')).toBeNull();
});
