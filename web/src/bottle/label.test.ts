import { expect, test } from 'vitest';
import type { LabelRule, Lot } from '../data/answers';
import { bottlesOf, drawn, labelOf, lotMark, toleratedBy, wasOnWood } from './label';

const lot = {
  entry: '01a1346b-75b1-710e-9ba4-8147f49a0dbf',
  at: '2026-10-13T09:00:00Z',
  bottles: { bottles: 2, size_L: 0.5, strength_percent_vol: 48 },
} as unknown as Lot;

test('a label tells strength, volume, lot and day', () => {
  expect(labelOf(lot, 'Tern 7, clear')).toEqual({
    name: 'Tern 7, clear',
    strength: '48.0 % vol',
    volume: '500 mL',
    lot: 'F49A0DBF',
    filled: '13 October 2026',
  });
  expect(lotMark(lot)).toHaveLength(8);
  expect(labelOf({ ...lot, bottles: undefined } as unknown as Lot, 'x')).toBeUndefined();
});

test('a stated strength is held against the true one by the rule', () => {
  const rule = {
    jurisdiction: 'Here',
    document: 'Rule',
    place: '4',
    standing: 'from memory',
    within_percent_vol: 0.3,
  } as LabelRule;
  expect(labelOf(lot, 'x', 48.2)?.strength).toBe('48.2 % vol');
  expect(toleratedBy(rule, 48.3, 48)).toMatchObject({ keeps: true });
  expect(toleratedBy(rule, 48.3, 48).says).toMatch(/^Here: 0\.30 over the true 48\.00 %vol/);
  expect(toleratedBy(rule, 47.6, 48)).toMatchObject({ keeps: false });
});

test('a spirit lay on wood when it or what it came from did', () => {
  const made = (entry: string, parents: string[], wood?: object) =>
    ({
      lot: { entry, kind: 'spirit' },
      parents: parents.map((p) => ({ entry: p, kind: 'spirit' })),
      wood,
    }) as unknown as Lot;
  const all = [made('a', []), made('b', ['a'], { in: 'staves' }), made('c', ['b'])];
  expect(all.map((one) => wasOnWood(one, all))).toEqual([false, true, true]);
});

test('so many whole bottles come out of a volume', () => {
  expect(bottlesOf(13.97, 0.7)).toEqual({ bottles: 19, over_L: expect.closeTo(0.67) });
  expect(bottlesOf(2.1, 0.7).bottles).toBe(3);
  expect(bottlesOf(0.4, 0.5)).toEqual({ bottles: 0, over_L: 0.4 });
  expect(bottlesOf(1, 0)).toEqual({ bottles: 0, over_L: 1 });
});

test('what fills no bottle stays in the lot, but for what clings', () => {
  const part = { lot: 'l', volume_L_20C: 4.356 };
  expect(drawn(part, 8, 0.5)).toEqual({
    from: { lot: 'l', volume_L_20C: 4 },
    over_L: expect.closeTo(0.356),
  });
  expect(drawn({ volume_L_20C: 4.003 }, 8, 0.5)).toEqual({
    from: { volume_L_20C: 4.003 },
    over_L: 0,
  });
});
