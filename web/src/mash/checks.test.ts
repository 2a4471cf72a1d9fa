import { expect, test } from 'vitest';
import type { Batch } from '../data/answers';
import type { Entry } from '../data/entry';
import { checksOf } from './checks';

const now = Date.parse('2026-11-26T10:00:00.000Z');
const told = (iodine: string) => ({ entry: iodine, at: '2026-11-26T09:00:00.000Z', iodine });

test('a reddish iodine stands in the list and is followed by what to do', () => {
  const batch = { mash: { checks: [told('reddish')] } } as unknown as Batch;
  const [check] = checksOf(batch, [], 0, now);
  expect(check?.text).toMatch(/: iodine turns reddish$/);
  expect(check?.colour?.done).toBe(false);
  expect(check?.colour?.remedy).toMatch(/rest on/);
});

test('what waits on this device comes last and counts', () => {
  const batch = { mash: { checks: [told('blue')] } } as unknown as Batch;
  const waits = [
    {
      kind: 'mash checked',
      at: '2026-11-26T09:20:00.000Z',
      body: { iodine: 'unchanged', gravity: {} },
    },
    { kind: 'mash temperature', at: '2026-11-26T09:21:00.000Z', body: { temperature_C: 65 } },
  ] as unknown as Entry[];
  const checks = checksOf(batch, waits, 0, now);
  expect(checks).toHaveLength(2);
  expect(checks[1]?.colour?.done).toBe(true);
  expect(checks[1]?.text).toMatch(/iodine stays as it is, liquor read$/);
});

test('one that was just saved stands once, though it waits here a moment longer', () => {
  const batch = { mash: { checks: [told('blue')] } } as unknown as Batch;
  const body = { iodine: 'blue' };
  const saved = { id: 'blue', kind: 'mash checked', at: '2026-11-26T09:00:00.000Z', body };
  expect(checksOf(batch, [saved as unknown as Entry], 0, now)).toHaveLength(1);
});
