// The page of a batch says at its top that the house asks of it: the questions stand far down, in its journal.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, expect, test, vi } from 'vitest';
import type { Batch as BatchTold } from '../data/answers';
import { bench } from '../data/bench.svelte';
import type { Entry } from '../data/entry';
import { Problem } from '../data/problem';
import Ledger from '../ledger/Ledger.svelte';
import Batch from './Batch.svelte';

vi.setConfig({ testTimeout: 30_000 });
afterEach(() => vi.restoreAllMocks());

const at = '2026-11-17T11:20:00.000Z';
const entry = (id: string, batch: string): Entry => ({
  id,
  batch,
  stage: 'mash',
  kind: 'mash temperature',
  version: 1,
  at,
  clock_ahead_ms: 0,
  who: '',
  body: { temperature_C: 6.6 },
});
function houseOf(batch: string) {
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
      ? Promise.resolve({ entries: [entry('a', batch), entry('b', batch)] })
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
