// The page of strips: what is left of the wash, and where a run begun puts the page.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { newEntry, type Entry, type EntryWish } from '../data/entry';
import { NoAnswer } from '../data/problem';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import Run from './Run.svelte';

const at = '2026-11-20T08:00:00.000Z';
const strip = (entry: string, wash_L_20C: number) => ({
  entry,
  at,
  run: 'strip',
  standing: 'ended',
  ended: { entry: `${entry} end`, at: '2026-11-20T10:00:00.000Z' },
  charge_L_20C: wash_L_20C,
  wash_L_20C,
  lots: [],
  readings: [],
  jars: [],
});
const batch = {
  batch: 'strips',
  name: 'Tern 9',
  ferment: { readings: [], racked: { entry: 'k', at, clear_L_20C: 52 } },
  runs: [strip('one', 15)],
};
let kept: Entry[];

beforeEach(() => {
  kept = [];
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => {
    if (path === '/batches/strips') return batch as never;
    if (path === '/lots') return { lots: [] } as never;
    throw new NoAnswer('not there');
  });
  vi.spyOn(bench.api, 'post').mockRejectedValue(new NoAnswer('not there'));
  vi.spyOn(bench, 'waiting').mockImplementation(async () => [...kept]);
  vi.spyOn(bench, 'record').mockImplementation(async (wish: Omit<EntryWish, 'who'>) => {
    const entry = newEntry({ ...wish, who: '' });
    kept.push(entry);
    bench.outbox = { ...bench.outbox, waiting: kept.length };
    return entry;
  });
});

test('of the wash is left what strips at home and on this device did not take', async () => {
  kept = [
    newEntry({
      batch: 'strips',
      stage: 'strip',
      kind: 'run begun',
      who: '',
      body: { run: 'strip', charge: { volume_L: 12, at_C: 20 }, wash_L_20C: 12 },
    }),
  ];
  kept.push(
    newEntry({
      batch: 'strips',
      stage: 'strip',
      kind: 'run ended',
      who: '',
      body: { run: kept[0]!.id },
    }),
  );
  render(Run, { batch: 'strips', kind: 'strip' });
  await userEvent.click(await screen.findByRole('button', { name: 'Another run' }));
  expect(await screen.findByText(/^25\.0.L is left of 52\.0.L racked$/)).toBeTruthy();
});

test('of a run that goes, what the house asks about is not offered again', async () => {
  const filled = { entry: 'slip', at };
  const goes = {
    ...strip('one', 20),
    standing: 'running',
    ended: undefined,
    jars: [{ jar: 1, as_filled_mL: 15_000, filled, notes: [] }],
  };
  const told = { ...batch, batch: 'd', runs: [goes], puzzles: [{ entry: 'slip', why: 'much' }] };
  vi.mocked(bench.api.get).mockImplementation(async (path) => {
    if (path === '/batches/d') return told as never;
    throw new NoAnswer('not there');
  });
  render(Run, { batch: 'd', kind: 'strip' });
  await userEvent.click(await screen.findByRole('button', { name: 'Next jar' }));
  expect(screen.getByText(/How much did it hold/)).toBeTruthy();
  expect(screen.queryByText(/as before/)).toBeNull();
});

test('when all wash was stripped the page says so, and counts no strips that are to come', async () => {
  const all = { ...batch, batch: 'c', runs: [strip('one', 26), strip('two', 25.8)] };
  vi.mocked(bench.api.get).mockImplementation(async (path) => {
    if (path === '/batches/c') return all as never;
    if (path === '/batches/c/plan') return ternPlan as never; // which has four strips
    throw new NoAnswer('not there');
  });
  render(Run, { batch: 'c', kind: 'strip' });
  expect(await screen.findByText(/No wash is left to strip\./)).toBeTruthy();
  expect(screen.getByText(/Tern 9, 2 of 2/)).toBeTruthy();
  expect(screen.getByRole('button', { name: 'Another run, of feints' })).toBeTruthy();
});

test('a correction on this device of what a strip took counts, and is no run of its own', async () => {
  kept = [
    newEntry({
      batch: 'strips',
      stage: 'strip',
      kind: 'run begun',
      who: '',
      corrects: 'one',
      body: { run: 'strip', charge: { volume_L: 20, at_C: 20 }, wash_L_20C: 20 },
    }),
  ];
  render(Run, { batch: 'strips', kind: 'strip' });
  await userEvent.click(await screen.findByRole('button', { name: 'Another run' }));
  expect(await screen.findByText(/^32\.0.L is left of 52\.0.L racked$/)).toBeTruthy();
});

test('a run begun brings the page to its top, also one told as of an earlier time', async () => {
  bench.told_ms = Date.now() - 3 * 3_600_000;
  const record = vi.mocked(bench.record);
  const now = record.getMockImplementation()!;
  record.mockImplementation((wish) =>
    now({ ...wish, at: new Date(bench.told_ms!).toISOString() } as typeof wish),
  );
  render(Run, { batch: 'strips', kind: 'strip' });
  await userEvent.click(await screen.findByRole('button', { name: 'Another run' }));
  await userEvent.type(screen.getByLabelText('Volume'), '12');
  const top = vi.spyOn(document.documentElement, 'scrollTop', 'set');
  await userEvent.click(screen.getByRole('button', { name: /start the run/ }));
  expect(await screen.findByText('End the run')).toBeTruthy();
  expect(top).toHaveBeenCalledWith(0);
  bench.told_ms = undefined;
});

test('what is asked of a strip that is not shown, or of its low wines, stands on the page too, once', async () => {
  const puzzles = [
    { entry: 'one', why: 'With this charge 90.0 L of the wash went in.' },
    { entry: 'two end', why: 'More is left in the pot than was charged.' },
    { entry: 'gauged', why: 'The low wines hold more than the charge held.' },
    { entry: 'elsewhere', why: 'The cask is too full.' },
  ];
  const lot = (entry: string, of: string) => ({
    entry,
    lot: { entry: of, kind: 'low wines' },
    uses: [],
  });
  const asked = {
    ...batch,
    runs: [strip('one', 26), strip('two', 25)],
    lots: [lot('gauged', 'one end'), lot('two end', 'two end'), lot('elsewhere', 'other end')],
    puzzles,
  };
  vi.mocked(bench.api.get).mockImplementation(async (path) => {
    if (path === '/batches/strips') return asked as never;
    throw new NoAnswer('not there');
  });
  render(Run, { batch: 'strips', kind: 'strip' });
  for (const { why } of puzzles.slice(0, 3)) {
    await screen.findByText(why);
    expect(screen.getAllByText(why)).toHaveLength(1);
  }
  expect(screen.queryByText(puzzles[3]!.why)).toBeNull();
  await userEvent.click(screen.getByRole('button', { name: /^Another run/ }));
  for (const { why } of puzzles.slice(0, 3)) expect(screen.getAllByText(why)).toHaveLength(1);
});

test('what the plan’s element needs over it is held against the charge of a run without a forecast', async () => {
  const small = { ...strip('small', 0.4), standing: 'running', ended: undefined };
  vi.mocked(bench.api.get).mockImplementation(async (path) => {
    if (path === '/batches/e') return { ...batch, batch: 'e', runs: [small] } as never;
    if (path === '/batches/e/plan') return ternPlan as never; // an element that needs 6 L
    throw new NoAnswer('not there');
  });
  render(Run, { batch: 'e', kind: 'strip' });
  expect(await screen.findByRole('button', { name: /^Danger: *Element bare/ })).toBeTruthy();
});

test('a strip that ended with wash left says how much waits, before the way to the spirit run', async () => {
  vi.mocked(bench.api.get).mockImplementation(async (path) => {
    if (path === '/batches/waits') return { ...batch, batch: 'waits' } as never;
    throw new NoAnswer('not there');
  });
  render(Run, { batch: 'waits', kind: 'strip' });
  const link = await screen.findByRole('link', { name: 'On to the spirit run' });
  expect(
    link
      .closest('p')!
      .textContent!.replace(/[\s\u00a0]+/g, ' ')
      .trim(),
  ).toBe(
    'Of the wash 37.0 L is left of 52.0 L racked. What is left waits for another run. On to the spirit run',
  );
});
