import { expect, test, vi } from 'vitest';
import type { Entry } from './entry';
import { Queued } from './queued.svelte';

const entry = (id: string) => ({ id, body: { run: 'r' } }) as unknown as Entry;

test('an entry just saved stays in sight for a moment; one refused does not', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  try {
    const [a, b] = [entry('a'), entry('b')];
    let here = [a, b];
    const outbox = { waiting: 2, refused: [] as { entry: Entry; reason: string }[] };
    const queue = { outbox: outbox as never, waiting: () => Promise.resolve(here) };
    const queued = new Queued();
    const look = async () => {
      queued.follow(queue);
      await Promise.resolve();
      await Promise.resolve();
    };
    await look();
    expect(queued.ofRun('r').map((e) => e.id)).toEqual(['a', 'b']);
    here = [];
    outbox.refused = [{ entry: b, reason: 'no' }];
    await look();
    expect(queued.all).toEqual([a]);
    expect(queued.unsaved(a)).toBe(false);
    vi.advanceTimersByTime(2000);
    expect(queued.all).toEqual([]);
  } finally {
    vi.useRealTimers();
  }
});

test('a strike that is struck itself lets its entry stand again, also while all wait', () => {
  const queued = new Queued();
  const strike = (id: string, corrects: string) => ({
    ...entry(id),
    kind: 'struck',
    corrects,
    body: {},
  });
  queued.all = [entry('a'), strike('no', 'a')];
  expect(queued.ofRun('r')).toEqual([]);
  queued.all = [...queued.all, strike('yes', 'no')];
  expect(queued.ofRun('r').map((e) => e.id)).toEqual(['a']);
});
