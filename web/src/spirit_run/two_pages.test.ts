// Two pages of one device over the same run while the house is away. Both offered jar 5 as the next one,
// both kept theirs, and one of the two counted.
import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { Api } from '../data/api';
import type { Run } from '../data/answers';
import { Bench } from '../data/bench.svelte';
import { newEntry, type EntryWish } from '../data/entry';
import { Outbox } from '../data/outbox';
import { NoAnswer } from '../data/problem';
import RunLive from './RunLive.svelte';

vi.mock('uplot', () => ({ default: class {} }));

const run: Run = {
  entry: 'run of two pages',
  at: new Date(Date.now() - 100 * 60_000).toISOString(),
  run: 'spirit run',
  standing: 'running',
  charge_L_20C: 30,
  lots: [],
  jars: [{ jar: 4, as_filled_mL: 500, notes: [] }],
  readings: [],
};
const jarFive = newEntry({
  batch: 'b',
  stage: 'spirit run',
  kind: 'jar filled',
  who: '',
  body: { run: run.entry, jar: 5, volume_mL: 500 },
});

test('a jar that another page keeps is counted here, and the next one is offered', async () => {
  vi.stubGlobal(
    'EventSource',
    class {
      addEventListener() {}
      close() {}
    },
  );
  const api = new Api({ fetch: () => Promise.reject(new NoAnswer('away')) });
  const here = new Bench(api);
  const close = here.open();
  render(RunLive, { bench: here, batch: 'b', run });
  expect(await screen.findByText('jar 5', {}, { timeout: 5000 })).toBeTruthy();
  let away = true;
  const other = new Outbox({
    keep: (entries) =>
      away ? Promise.reject(new NoAnswer('away')) : Promise.resolve(entries.map((e) => e.id)),
  });
  await other.put(jarFive);
  expect(await screen.findByText('jar 6', {}, { timeout: 5000 })).toBeTruthy();
  expect(here.outbox.waiting).toBe(1);
  away = false;
  await other.send();
  await vi.waitFor(() => expect(here.outbox.waiting).toBe(0));
  await other.close();
  close();
  vi.unstubAllGlobals();
});

const silentBench = (kept: Omit<EntryWish, 'who'>[]) =>
  ({
    api: {
      get: () => Promise.reject(new NoAnswer('away')),
      post: () => Promise.reject(new NoAnswer('away')),
    },
    hear: () => () => true,
    onTurn: () => () => true,
    outbox: { waiting: 0, refused: [], sending: false, answered: false },
    waiting: () => Promise.resolve([]),
    clocks: { all: [] },
    record: (wish: Omit<EntryWish, 'who'>) => {
      kept.push(wish);
      return Promise.resolve(newEntry({ ...wish, who: '' }));
    },
  }) as unknown as Bench;
const drawer = () => within(screen.getByRole('dialog'));

test('an open sheet keeps its jar: told elsewhere meanwhile, it says so, and the next is a tap of its own', async () => {
  const kept: Omit<EntryWish, 'who'>[] = [];
  const bench = silentBench(kept);
  const one = { ...run, entry: 'run of an open sheet' };
  const page = render(RunLive, { bench, batch: 'open sheet', run: one });
  await userEvent.click(screen.getByRole('button', { name: 'Next jar' }));
  const full = drawer().getByRole('button', { name: /^Full, 500.mL as before; jar 6 next/ });
  const jars = [...run.jars, { jar: 5, as_filled_mL: 480, notes: [] }];
  await page.rerender({ bench, batch: 'open sheet', run: { ...one, jars } });
  expect(drawer().getByRole('heading', { name: 'Jar 5 is full' })).toBeTruthy();
  expect(drawer().getByText(/Jar 5 was told on another page meanwhile: 480.mL/)).toBeTruthy();
  full.click(); // a thumb that was on its way
  expect(drawer().queryByRole('button', { name: /^Full/ })).toBeNull();
  expect(kept).toEqual([]);
  await userEvent.click(drawer().getByRole('button', { name: /^Jar 6 is full too/ }));
  await userEvent.click(
    drawer().getByRole('button', { name: /^Full, 480.mL as before; jar 7 next/ }),
  );
  expect(kept).toHaveLength(1);
  expect(kept[0]).toMatchObject({ body: { jar: 6, volume_mL: 480 } });
});

test('“Heat is off” does not become “The heat is on again” where another page stopped the run', async () => {
  const kept: Omit<EntryWish, 'who'>[] = [];
  const bench = silentBench(kept);
  const one = { ...run, entry: 'run stopped elsewhere' };
  const page = render(RunLive, { bench, batch: 'stopped elsewhere', run: one });
  await userEvent.click(screen.getByRole('button', { name: 'Power' }));
  drawer().getByRole('button', { name: /^Heat is off/ });
  await page.rerender({ bench, batch: 'stopped elsewhere', run: { ...one, standing: 'stopped' } });
  expect(drawer().queryByRole('button', { name: /The heat is on again/ })).toBeNull();
  expect(drawer().queryByRole('button', { name: 'Go on' })).toBeNull();
  expect(drawer().getByText(/told to be off on another page meanwhile/)).toBeTruthy();
  await userEvent.click(drawer().getByRole('button', { name: 'Leave it so' }));
  await userEvent.click(screen.getByRole('button', { name: 'Go on' }));
  await userEvent.click(drawer().getByRole('button', { name: /^The heat is on again/ }));
  expect(kept).toHaveLength(1);
  expect(kept[0]).toMatchObject({ body: { event: 'resumed' } });
});
