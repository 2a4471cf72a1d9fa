import { expect, test } from 'vitest';
import type { LabelRule, Lot } from '../data/answers';
import { restated, type Units } from '../data/units';
import {
  bottlesOf,
  drawn,
  filledWords,
  labelOf,
  lotMark,
  obscuredUntold,
  settledBy,
  toleratedBy,
  wasOnWood,
} from './label';
import { whyTruth } from './label_whys';

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

const rule = {
  jurisdiction: 'Here',
  document: 'Rule',
  place: '4',
  standing: 'from memory',
  within_percent_vol: 0.3,
} as LabelRule;
const classTwo = { half_percent_vol: 0.18 };
const uncertified = { half_percent_vol: 0.84 };
const glasses = [
  { name: 'class III', half_percent_vol: 0.3 },
  { name: 'class II', half_percent_vol: 0.18 },
  { name: 'class I', half_percent_vol: 0.17 },
];

test('a stated strength is held against the true one by the rule', () => {
  expect(labelOf(lot, 'x', 48.2)?.strength).toBe('48.2 % vol');
  const exactly = { half_percent_vol: 0 };
  expect(toleratedBy(rule, 48.3, 48, exactly).verdict).toBe('within');
  expect(toleratedBy(rule, 48.1, 48, classTwo).says).toMatch(
    /^Here: 0\.10 over the true 48\.00\u202f±\u202f0\.18 %vol/,
  );
  expect(toleratedBy(rule, 47.6, 48, exactly).verdict).toBe('outside');
  expect(toleratedBy(rule, 50, 48, uncertified).verdict).toBe('outside');
});

test('where the reading’s band reaches over what is allowed, it says that it cannot tell', () => {
  const found = toleratedBy(rule, 45, 45.1, uncertified);
  expect(found.verdict).toBe('unknown');
  expect(found.says).toMatch(
    /^Here: stated 45\.0 %vol; the true strength is 44\.3 to 45\.9 %vol; 0\.3 %vol either way/,
  );
  expect(settledBy([rule], 45, 45.1, uncertified, glasses)).toBe(
    'What settles it: a reading on a glass of class II, good to ±\u202f0.18 %vol.',
  );
  // Class III would do only if it were to read the very same.
  expect(settledBy([rule], 45, 45, uncertified, glasses)).toContain('class II,');
  // No glass is fine enough for a statement that lies near the border.
  expect(settledBy([rule], 45, 45.2, uncertified, glasses)).toMatch(/nearer to the true one/);
});

test('what lay on wood without a residue told is never within; only an understatement is sure', () => {
  const obscured = { ...classTwo, obscured: true };
  expect(toleratedBy(rule, 45, 45, obscured).verdict).toBe('unknown');
  expect(toleratedBy(rule, 45, 45, obscured).says).toContain('45.18 %vol, or more');
  expect(toleratedBy(rule, 46, 45, obscured).verdict).toBe('unknown');
  expect(toleratedBy(rule, 44, 45, obscured).verdict).toBe('outside');
  // No wood hides nine per cent.
  expect(toleratedBy(rule, 54.1, 45, obscured).verdict).toBe('outside');
  expect(toleratedBy(rule, 54.1, 45, obscured).says).toContain('9.10 over');
  expect(settledBy([rule], 45, 45, obscured, glasses)).toMatch(/^What settles it: what drying/);
});

test('a residue that was told after the wood takes the doubt away, an alcoholmeter brings it back', () => {
  const made = (entry: string, parent: string | undefined, more: object = {}) =>
    ({
      lot: { entry, kind: 'spirit' },
      parents: parent ? [{ entry: parent, kind: 'spirit' }] : [],
      measured: true,
      ...more,
    }) as unknown as Lot;
  const bottles = { bottles: { bottles: 1 } };
  const all = [
    made('a', undefined),
    made('b', 'a', { wood: { in: 'staves' } }),
    made('c', 'b'), // off the wood, as read
    made('d', 'c', { residue_g_L: 1.5 }),
    made('e', 'd', bottles),
    made('f', 'd'), // reduced again, and read without a residue
    made('g', 'f', bottles),
    made('h', 'c', { ...bottles, residue_g_L: 1.5 }),
    made('i', 'd', { measured: false }), // by its parts
  ];
  expect(all.map((one) => obscuredUntold(one, all))).toEqual(
    [false, true, true, false, false, true, true, false, false], // in the order above
  );
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

test('one bottle is filled, two are', () => {
  expect([1, 2, 24].map(filledWords)).toEqual([
    '1 bottle is filled.',
    '2 bottles are filled.',
    '24 bottles are filled.',
  ]);
});

test('what drying leaves is told as the US rule has it, also when the reason is shown', () => {
  const of = {
    ...lot,
    residue_g_L: 4.1,
    why: { what: '', inputs: [], model: '', source: '' },
  };
  const said = (units: Units) =>
    whyTruth(of, units)
      .inputs.filter((input) => input.name === 'Left on drying')
      .map((input) => restated(input.value, units).replaceAll('\u00a0', ' '));
  expect(said('metric')).toEqual(['4.1 g/L']);
  expect(said('us')).toEqual(['410 mg/100 mL']);
  expect(said('both')).toEqual(['4.1 g/L (410 mg/100 mL)']);
});
