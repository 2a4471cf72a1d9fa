// What goes into the boiler, summed and held against the charge that is typed.
import { expect, test } from 'vitest';
import type { Gauged } from '../data/answers';
import {
  apartOf,
  chargeDoubts,
  fitOf,
  pureOf,
  strengthByParts,
  summed,
  WASH,
  washDoubt,
  washLeft,
  washLeftInWords,
  washUsedUp,
  type Part,
  type Sum,
} from './charge';

const part = (
  key: string,
  volume_L_20C: number,
  strength_percent_vol: number | undefined,
): Part => ({
  key,
  name: key || 'wash',
  volume_L_20C,
  strength_percent_vol,
});
const low = part('low', 10, 33);
const feints = part('feints', 2, 60);
/** Sums as a house would tell them: mixed it is a little less than measured apart. */
const sumOf = (volume_L_20C: number, pure: number, watered_L?: number): Sum =>
  ({
    blend: {
      volume_L_20C,
      strength_percent_vol: (100 * pure) / volume_L_20C,
      pure_alcohol_L_20C: pure,
    },
    watered: watered_L === undefined ? undefined : { volume_L_20C: watered_L },
  }) as Sum;
const sum = sumOf(11.96, 4.5, 14.9);
const gauged = (volume_L_20C: number, percent: number): Gauged =>
  ({
    strength_percent_vol: percent,
    standard_percent_vol: 0.3,
    lot: { volume_L_20C, pure_alcohol_L_20C: (volume_L_20C * percent) / 100 },
  }) as Gauged;

test('pure alcohol adds, and is not known while the strength of one part is not', () => {
  expect(pureOf([low, feints])).toBeCloseTo(4.5, 9);
  expect(pureOf([low, part(WASH, 20, undefined)])).toBeUndefined();
  expect(apartOf([low, feints])).toBe(12);
});

test('what parts make, and the water to it, are asked of the house; none where it is weak enough', async () => {
  const asked: [string, unknown][] = [];
  const answers = (percent: number) => ({
    post: async (path: string, body: unknown) => {
      asked.push([path, body]);
      return { volume_L_20C: 11.96, strength_percent_vol: percent } as never;
    },
  });
  const stop = new AbortController().signal;
  const strong = await summed(answers(37.6), [low, feints], 30, stop);
  expect(asked).toEqual([
    [
      '/blend',
      {
        parts: [
          { volume_L_20C: 10, strength_percent_vol: 33 },
          { volume_L_20C: 2, strength_percent_vol: 60 },
        ],
      },
    ],
    ['/reduce', { volume_L: 11.96, strength_percent_vol: 37.6, at_C: 20, to_percent_vol: 30 }],
  ]);
  expect(strong.watered).toBeDefined();
  expect((await summed(answers(30.04), [low], 30, stop)).watered).toBeUndefined();
  expect((await summed(answers(37.6), [low], undefined, stop)).watered).toBeUndefined();
});

test('a charge that holds more alcohol than went in, by more than glass and marks, is doubted', () => {
  const of = (volume: number, percent: number) =>
    chargeDoubts(
      [low, feints],
      sum,
      { volume_L: volume, read: true, gauged: gauged(volume, percent) },
      true,
    );
  expect(of(14.9, 30.2)).toEqual([]); // 4.50 L
  expect(of(14.9, 30.9)).toEqual([]); // 4.60 L: within 2 %, and within the glass
  const [doubt, ...others] = of(14.9, 34); // 5.07 L
  expect(others).toEqual([]);
  expect(doubt!.says.replaceAll('\u00a0', ' ')).toMatch(
    /holds 5\.07 L of pure alcohol; 4\.50 L was put in/,
  );
  // Watered further than planned: the reading says that the rest is water.
  expect(of(18, 25)).toEqual([]);
});

test('more volume than went in is doubted where nothing says that it is water', () => {
  const unread = (volume_L: number, of: Sum | undefined, spirit: boolean, parts = [low, feints]) =>
    chargeDoubts(parts, of, { volume_L, read: false, gauged: undefined }, spirit).map((d) =>
      d.says.replaceAll('\u00a0', ' '),
    );
  expect(unread(12, sum, true)).toEqual([]);
  expect(unread(14.9, sum, true)).toEqual([]); // with the planned water
  expect(unread(16.5, sum, true)[0]).toMatch(/is 16\.5 L; .* makes 14\.9 L with its water/);
  // Nothing is asked of a spirit run while the house has not told the water.
  expect(unread(16.5, undefined, true)).toEqual([]);
  const wash = [part(WASH, 20, 8)];
  expect(unread(20.3, sumOf(20, 1.6), false, wash)).toEqual([]);
  expect(unread(26, sumOf(20, 1.6), false, wash)[0]).toMatch(/is 26\.0 L; .* makes 20\.0 L/);
  // Also without the house, by what was measured apart: mixed it is no more.
  expect(unread(26, undefined, false, wash)).toHaveLength(1);
  expect(unread(26, undefined, false, [])).toEqual([]);
});

test('lots that are named and do not all fit into the charge are doubted', () => {
  const [doubt] = chargeDoubts(
    [low, feints],
    sum,
    { volume_L: 9, read: false, gauged: undefined },
    true,
  );
  expect(doubt!.remedy).toMatch(/taken out of the house’s stock/);
});

test('a charge that nobody read has the strength of its parts, made up with water', () => {
  expect(strengthByParts(sum, 15)).toBeCloseTo(30, 9);
  expect(strengthByParts(sum, 9)).toBeCloseTo((100 * 4.5) / 11.96, 9);
});

test('of what is too much, the same shares fit; rounded down, so that they do', () => {
  const lots = [part('a', 30, 33), part('b', 12.34, 60)];
  expect(fitOf(lots, 25, 25)).toBeUndefined();
  expect(fitOf(lots, 60, undefined)).toBeUndefined();
  const fit = fitOf(lots, 60, 25)!;
  expect(fit.charges).toBe(3);
  expect(fit.parts.map((p) => p.volume_L_20C)).toEqual([12.5, 5.14]);
  expect((60 * fit.parts[1]!.volume_L_20C) / 12.34).toBeLessThanOrEqual(25);
});

test('of the wash is left what earlier strips did not take, and one that told none is named', () => {
  const of = (...strips: { wash_L_20C?: number; lots: unknown[] }[]) =>
    washLeftInWords(washLeft(52, strips)!, 'metric').replaceAll('\u00a0', ' ');
  expect(washLeft(undefined, [])).toBeUndefined();
  expect(of()).toBe('52.0 L is left of 52.0 L racked');
  expect(of({ wash_L_20C: 26, lots: [] })).toBe('26.0 L is left of 52.0 L racked');
  expect(of({ wash_L_20C: 26, lots: [] }, { wash_L_20C: 26.2, lots: [] })).toBe(
    'none is left of 52.0 L racked',
  );
  expect(of({ wash_L_20C: 26, lots: [] }, { lots: [] })).toBe(
    'up to 26.0 L is left of 52.0 L racked; of one strip it was not told how much it took',
  );
  // A strip of feints alone takes none.
  expect(of({ lots: [{}] })).toBe('52.0 L is left of 52.0 L racked');
});

test('wash is used up when no more is left than a mark may be off', () => {
  const of = (left_L: number, untold = 0) => washUsedUp({ racked_L: 52, left_L, untold });
  expect(of(0)).toBe(true);
  expect(of(0.4)).toBe(true);
  expect(of(2)).toBe(false);
  expect(of(0, 1)).toBe(false); // one strip told nothing: what is left is not known
  expect(washUsedUp(undefined)).toBe(false);
});

test('more wash than is left is doubted, beyond what the mark may be off', () => {
  const left = washLeft(52, [{ wash_L_20C: 26, lots: [] }]);
  expect(washDoubt(26.5, left)).toBeUndefined();
  expect(washDoubt(30, left)!.says.replaceAll('\u00a0', ' ')).toBe(
    '30.0 L of wash was typed; 26.0 L is left of 52.0 L racked.',
  );
  expect(washDoubt(30, undefined)).toBeUndefined();
});
