import { expect, test } from 'vitest';
import { newEntry } from './entry';
import { HouseTime } from './house_time';

test('an entry carries the device time and how far the device is ahead of the house', () => {
  const clock = new HouseTime(() => 0);
  clock.learn(1000, 400, 1200);
  const entry = newEntry(
    { stage: 'spirit run', kind: 'reading', who: 'Ada of Tern Island', body: { scale: 73.1 } },
    clock,
    () => Date.UTC(2026, 10, 26, 1, 2, 3, 456),
    () => 'an id',
  );
  expect(entry).toEqual({
    id: 'an id',
    stage: 'spirit run',
    kind: 'reading',
    version: 1,
    at: '2026-11-26T01:02:03.456Z',
    clock_ahead_ms: 700,
    who: 'Ada of Tern Island',
    body: { scale: 73.1 },
  });
});

test('an entry of the house has no batch, and one that corrects names the other', () => {
  const wish = { stage: 'kit', kind: 'note', who: 'Ada', body: {} } as const;
  expect('batch' in newEntry(wish)).toBe(false);
  expect('corrects' in newEntry(wish)).toBe(false);
  expect(newEntry({ ...wish, batch: 'b', corrects: 'c' })).toMatchObject({
    batch: 'b',
    corrects: 'c',
  });
});

test('a correction tells when it happened, not when it was corrected', () => {
  const wish = { stage: 'mash', kind: 'mash temperature', who: '', body: {} } as const;
  const entry = newEntry({ ...wish, corrects: 'a', at: '2026-11-17T11:27:00.000Z' });
  expect(entry.at).toBe('2026-11-17T11:27:00.000Z');
  expect(entry.clock_ahead_ms).toBe(0);
  expect(newEntry({ ...wish, at: entry.at, clock_ahead_ms: -40 }).clock_ahead_ms).toBe(-40);
});
