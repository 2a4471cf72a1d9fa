// Two pages of one device over the same run while the house is away. Both offered jar 5 as the next one,
// both kept theirs, and one of the two counted.
import { render, screen } from '@testing-library/svelte';
import { expect, test, vi } from 'vitest';
import { Api } from '../data/api';
import type { Run } from '../data/answers';
import { Bench } from '../data/bench.svelte';
import { newEntry } from '../data/entry';
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
  expect(await screen.findByText('jar 5')).toBeTruthy();
  let away = true;
  const other = new Outbox({
    keep: (entries) =>
      away ? Promise.reject(new NoAnswer('away')) : Promise.resolve(entries.map((e) => e.id)),
  });
  await other.put(jarFive);
  expect(await screen.findByText('jar 6')).toBeTruthy();
  expect(here.outbox.waiting).toBe(1);
  away = false;
  await other.send();
  await vi.waitFor(() => expect(here.outbox.waiting).toBe(0));
  await other.close();
  close();
  vi.unstubAllGlobals();
});
