// What a reading after mixing may ask for.
import { expect, test } from 'vitest';
import type { ReductionCheck } from '../data/answers';
import { moreThanLeft, toPour, withinGlass } from './mended';

const lot = (volume_L_20C: number, strength_percent_vol: number) =>
  ({ volume_L_20C, strength_percent_vol }) as ReductionCheck['found'];
const check = (found: number, change: Partial<ReductionCheck> = {}): ReductionCheck => ({
  add: found > 46 ? 'water' : 'spirit',
  found: lot(5, found),
  then: lot(5.1, 46),
  less_planned_kg: 0,
  less_planned_percent_vol: found - 46,
  water_more_by_kg: 0,
  ...change,
});
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

test('what the glass cannot tell from the wanted strength asks for nothing', () => {
  const glass = { standard_percent_vol: 0.5 }; // its 80 % band is 0.64 %vol either way
  expect(withinGlass(check(46.6), glass)).toBe(true);
  expect(withinGlass(check(45.4), glass)).toBe(true);
  expect(withinGlass(check(46.7), glass)).toBe(false);
  expect(withinGlass(check(46.6), {})).toBe(false); // which glass it was is not known
  expect(withinGlass(check(46, { add: 'nothing' }), glass)).toBe(false);
});

test('no more of the spirit is asked for than there is', () => {
  const weak = check(44, { spirit: { ...lot(0.413, 68), pure_alcohol_L_20C: 0.28 } as never });
  expect(moreThanLeft(weak, { spirit_left_L: 0.3 })).toBe(true);
  expect(moreThanLeft(weak, { spirit_left_L: 0.413 })).toBe(false);
  expect(moreThanLeft(weak, {})).toBe(false);
  expect(moreThanLeft(check(48), { spirit_left_L: 0 })).toBe(false);
});

test('a volume to be poured is told as finely as a measure shows it', () => {
  expect([0.0413, 0.413, 4.126].map((L) => plain(toPour(L, 'metric')))).toEqual([
    '41 mL',
    '0.41 L',
    '4.13 L',
  ]);
  expect(plain(toPour(0.413, 'us'))).toBe('0.109 gal');
});
