// The name of a batch in the contents: from the house, from this device, or not known yet.
import { flushSync } from 'svelte';
import { expect, test, vi } from 'vitest';
import type { Bench } from '../data/bench.svelte';
import { newEntry } from '../data/entry';
import { NoAnswer, Problem } from '../data/problem';
import { BatchName, noSuchBatch } from './batch_name.svelte';

const benchOf = (begun: string[]) =>
  ({
    api: { get: () => Promise.resolve({ batches: [{ batch: 'seven', name: 'Tern 7' }] }) },
    hear: () => () => true,
    onTurn: () => () => true,
    outbox: { waiting: 0, refused: [], sending: false, answered: true },
    waiting: () =>
      Promise.resolve(
        begun.map((batch) =>
          newEntry({
            batch,
            stage: 'ledger',
            kind: 'batch begun',
            who: '',
            body: { name: 'Tern 9' },
          }),
        ),
      ),
  }) as unknown as Bench;

test('a batch is called by its name, also one that is only on this device, also after a pause', async () => {
  const bench = benchOf(['nine']);
  const named = new BatchName();
  const stop = named.ask(bench);
  named.queue.follow(bench);
  await vi.waitFor(() => expect(named.of('seven')).toBe('Tern 7'));
  expect(named.of('nine')).toBe('Tern 9');
  expect(named.of('ten')).toBeUndefined();
  stop(); // gone to the house, and back to a batch
  flushSync();
  named.ask(bench);
  await vi.waitFor(() => expect(named.of('seven')).toBe('Tern 7'));
});

test('no such batch is said by the house alone, and not of one that waits here', async () => {
  const none = new Problem({ title: 'no such batch', status: 404 });
  const bench = benchOf(['nine']);
  const named = new BatchName();
  named.ask(bench);
  named.queue.follow(bench);
  expect(named.lacks('ten')).toBe(false); // nothing was heard yet
  await vi.waitFor(() => expect(named.lacks('ten')).toBe(true));
  expect(named.lacks('seven') || named.lacks('nine')).toBe(false);

  bench.api.get = () => Promise.reject(none);
  expect(await noSuchBatch(bench, 'ten')).toBe(true);
  expect(await noSuchBatch(bench, 'nine')).toBe(false);
  bench.api.get = () => Promise.reject(new NoAnswer('away'));
  expect(await noSuchBatch(bench, 'ten')).toBe(false);
  bench.api.get = () => Promise.resolve({} as never); // begun since the list was told
  expect(await noSuchBatch(bench, 'ten')).toBe(false);
});
