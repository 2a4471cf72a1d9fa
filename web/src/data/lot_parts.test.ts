// How much more of a mixture its lots still give.
import { expect, test } from 'vitest';
import type { Lot } from './answers';
import { leftAlike } from './lot_parts';

const lot = (entry: string, volume_L_20C: number) =>
  ({ lot: { entry, kind: 'hearts' }, left: { volume_L_20C } }) as Lot;
const part = (entry: string, volume_L_20C: number) => ({
  lot: { entry, kind: 'hearts' as const },
  volume_L_20C,
});

test('of one lot what is not poured is left; of several, what the scarcest gives in its share', () => {
  expect(leftAlike([lot('a', 5)], [part('a', 4.5)])).toBeCloseTo(0.5, 12);
  // 2 of a and 1 of b: b has 0.1 left, so 0.2 of a goes with it.
  expect(leftAlike([lot('a', 5), lot('b', 1.1)], [part('a', 2), part('b', 1)])).toBeCloseTo(
    0.3,
    12,
  );
  expect(leftAlike([lot('a', 5)], [part('a', 5)])).toBe(0);
  expect(leftAlike([lot('a', 5)], [])).toBeUndefined();
  expect(leftAlike([], [part('gone', 1)])).toBe(0);
});
