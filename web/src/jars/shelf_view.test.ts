import { expect, test } from 'vitest';
import type { Lot, Poured, Run } from '../data/answers';
import { sweep } from '../parts/shelf_allotment';
import {
  allotmentOf,
  firstIntoHearts,
  fromGlass,
  jarsNamed,
  missing,
  newToFeints,
  pouredOf,
  shelfOf,
  taken,
  tastedJars,
  usedBeyond,
} from './shelf_view';

const told = { entry: 'x', at: '2026-10-09T09:00:00Z' };
const lot = (volume_L_20C: number, strength_percent_vol: number) => ({
  volume_L_20C,
  strength_percent_vol,
  pure_alcohol_L_20C: (volume_L_20C * strength_percent_vol) / 100,
  proof_gallons: 0,
  mass_kg: volume_L_20C * 0.9,
});
const run: Run = {
  entry: 'r',
  at: '2026-10-07T12:00:00Z',
  run: 'spirit run',
  standing: 'ended',
  charge_L_20C: 10,
  lots: [],
  readings: [],
  jars: [
    { jar: 6, as_filled_mL: 300, lot: lot(0.298, 75.9), notes: [{ ...told, words: ['oat'] }] },
    { jar: 7, as_filled_mL: 300, lot: lot(0.302, 74.8), notes: [] },
    { jar: 9, as_filled_mL: 300, lot: lot(0.297, 72.3), notes: [] },
    { jar: 10, as_filled_mL: 310, notes: [] },
  ],
};

test('a jar that nothing was said of is set apart, at what was gauged or else filled', () => {
  const jars = shelfOf(run, undefined);
  expect(jars.map((j) => j.parts.apart)).toEqual([298, 302, 297, 310]);
  expect(jars[0]).toMatchObject({ strength: 75.9, notes: 'oat', capacity_mL: 310 });
  expect(jars[3]!.strength).toBeUndefined();
});

test('a jar that is not believed, or cannot be, is marked and does not draw the others empty', () => {
  const filled = { entry: 'slip', at: '2026-10-07T14:00:00Z' };
  const slip = { jar: 11, as_filled_mL: 3100, filled, notes: [] };
  const impossible = { jar: 12, as_filled_mL: 99999, notes: [] };
  const of = (...more: Run['jars']) =>
    shelfOf({ ...run, jars: [...run.jars, ...more] }, undefined, new Set(['slip']));
  expect(of(slip).map((j) => j.capacity_mL)).toEqual([310, 310, 310, 310, 310]);
  expect(of(slip).map((j) => j.doubted ?? false)).toEqual([false, false, false, false, true]);
  expect(of(slip)[4]!.volume_mL).toBe(3100); // it is shown as it was told
  expect(of(impossible)[0]!.capacity_mL).toBe(310);
  // Once it is gauged its filling is no longer asked of it.
  expect(of({ ...slip, lot: lot(0.31, 60) })[4]!.doubted).toBeUndefined();
});

test('the draft stands before what was allotted, and never holds more than the jar', () => {
  const poured = {
    jar: 6,
    foreshots_mL_20C: 0,
    hearts_mL_20C: 200,
    feints_mL_20C: 98,
    apart_mL_20C: 0,
  };
  const allotted = { ...run, jars: [{ ...run.jars[0]!, poured }] };
  expect(shelfOf(allotted, undefined)[0]!.parts).toMatchObject({
    hearts: 200,
    feints: 98,
    apart: 0,
  });
  const draft = { '6': { foreshots: 0, hearts: 596, feints: 0, apart: 0 } };
  expect(shelfOf(allotted, draft)[0]!.parts.hearts).toBe(298);
  const regauged = { ...run, jars: [{ ...run.jars[0]!, poured, lot: lot(0.31, 75) }] };
  expect(shelfOf(regauged, undefined)[0]!.parts.apart).toBeCloseTo(12);
});

test('what goes to the house never adds up to more than the jar, and leaves out ungauged jars', () => {
  const swept = sweep(shelfOf(run, undefined), '6', '10', 'hearts');
  const third = swept.map((j) => ({
    ...j,
    parts: {
      foreshots: j.volume_mL / 3,
      hearts: j.volume_mL / 3,
      feints: j.volume_mL / 3,
      apart: 0,
    },
  }));
  const poured = pouredOf(third);
  expect(poured.map((p) => p.jar)).toEqual([6, 7, 9]);
  for (const [i, p] of poured.entries()) {
    const sum = p.foreshots_mL_20C + p.hearts_mL_20C + p.feints_mL_20C + p.apart_mL_20C;
    expect(sum).toBeLessThanOrEqual(third[i]!.volume_mL + 1e-9);
    expect(sum).toBeGreaterThan(third[i]!.volume_mL - 0.04);
  }
});

test('an alternative laid over the shelf and read back is the same', () => {
  const jars = sweep(shelfOf(run, undefined), '6', '9', 'hearts');
  const back = shelfOf(run, taken(pouredOf(jars)));
  expect(back[0]!.parts.hearts).toBe(298);
  expect(allotmentOf(back)['10']!.apart).toBe(310);
});

test('an alternative that falls a hair short of a jar leaves no share set apart', () => {
  // The house rounds each share down: 223.506 mL as 186.25 and 37.25 leave 0.006 mL.
  const jar = { jar: 6, lot: lot(0.223506, 75.9), notes: [] };
  const alternative = {
    jar: 6,
    foreshots_mL_20C: 0,
    hearts_mL_20C: 186.25,
    feints_mL_20C: 37.25,
    apart_mL_20C: 0,
  };
  const jars = shelfOf({ ...run, jars: [jar] }, taken([alternative]));
  expect(jars[0]!.parts).toEqual({
    foreshots: 0,
    hearts: expect.closeTo(186.256, 6) as number,
    feints: 37.25,
    apart: 0,
  });
  expect(pouredOf(jars)[0]).toMatchObject({ hearts_mL_20C: 186.25, apart_mL_20C: 0 });
  // A hair over it is no other share either, and what can be poured stays a share.
  const over = shelfOf(
    { ...run, jars: [jar] },
    taken([{ ...alternative, foreshots_mL_20C: 0.02 }]),
  );
  expect(over[0]!.parts.foreshots).toBe(0);
  const some = taken([{ ...alternative, feints_mL_20C: 37 }]);
  expect(shelfOf({ ...run, jars: [jar] }, some)[0]!.parts.apart).toBeCloseTo(0.256);
});

test('a rounding of a split never reaches the house as a share', () => {
  const jars = shelfOf({ ...run, jars: [run.jars[0]!] }, undefined).map((jar) => ({
    ...jar,
    parts: { foreshots: 0, hearts: 297.98, feints: 0, apart: 0.02 },
  }));
  expect(pouredOf(jars)[0]).toMatchObject({ hearts_mL_20C: 298, apart_mL_20C: 0 });
});

test('the glass is scaled until the first jar runs empty', () => {
  const made = fromGlass(shelfOf(run, undefined), { '6': 30, '7': 20, '9': 5 })!;
  expect(made.scale).toBeCloseTo(298 / 30);
  expect(made.jars.map((j) => j.parts.hearts)).toEqual([
    expect.closeTo(298),
    expect.closeTo((20 * 298) / 30),
    expect.closeTo((5 * 298) / 30),
    0,
  ]);
  for (const jar of made.jars) {
    expect(Object.values(jar.parts).reduce((a, b) => a + b)).toBeCloseTo(jar.volume_mL);
  }
});

test('the glass can be scaled to less, and an empty glass is none', () => {
  const made = fromGlass(shelfOf(run, undefined), { '6': 30, '7': 30 }, 300)!;
  expect(made.jars.slice(0, 2).map((j) => j.parts.hearts)).toEqual([
    expect.closeTo(150),
    expect.closeTo(150),
  ]);
  expect(fromGlass(shelfOf(run, undefined), { '6': 0 })).toBeUndefined();
});

test('jars are named in spans', () => {
  expect(jarsNamed([4])).toBe('Jar 4');
  expect(jarsNamed([1, 2, 3, 7, 9, 10])).toBe('Jars 1 to 3, 7, 9, 10');
});

test('the trial in the glass tells first which jars it gives to the feints', () => {
  const before = sweep(shelfOf(run, undefined), '6', '10', 'hearts');
  const made = fromGlass(before, { '6': 30, '7': 15 })!;
  expect(newToFeints(before, made.jars)).toEqual({ whole: [9, 10], rest: [7] });
});

test('a first jar that goes to the hearts is named where nothing goes to the foreshots', () => {
  const into = (draft: Parameters<typeof shelfOf>[1]) => firstIntoHearts(shelfOf(run, draft))?.name;
  const all = (kind: 'foreshots' | 'hearts' | 'feints', mL = 298) => ({
    ...{ foreshots: 0, hearts: 0, feints: 0, apart: 0 },
    [kind]: mL,
  });
  expect(into({ '6': all('hearts'), '7': all('hearts') })).toBe('6');
  expect(into({ '6': { ...all('hearts', 200), foreshots: 98 } })).toBeUndefined();
  expect(into({ '6': all('feints'), '7': all('hearts') })).toBeUndefined();
  expect(into(undefined)).toBeUndefined();
});

test('a cut says what it lacks', () => {
  const shelf = shelfOf(run, undefined);
  expect(missing(shelf)).toBe('No hearts yet, and jar 10 is not gauged: gauge first.');
  expect(missing(sweep(shelf, '6', '7', 'hearts'))).toBeUndefined();
  const gauged = shelf.slice(0, 3);
  expect(missing(gauged)).toMatch(/^Nothing is allotted yet/);
  expect(missing(sweep(gauged, '6', '9', 'feints'))).toBeUndefined();
  expect(missing(shelf.slice(3))).toMatch(/^No jar is gauged/);
});

test('a cut whose hearts are used up is not corrected, nor cut under what was used', () => {
  const cut = { ...run, allotted: { entry: 'cut', at: '2026-10-09T09:00:00Z' } };
  const hearts = (left_L: number, used = true) =>
    ({
      lot: { entry: 'cut', kind: 'hearts' },
      made: lot(0.9, 74),
      left: lot(left_L, 74),
      uses: used ? [{ where: 'reduce' }] : [],
    }) as unknown as Lot;
  const pour = (hearts_L: number) => ({ hearts: lot(hearts_L, 74) }) as unknown as Poured;
  expect(usedBeyond(cut, [hearts(0)], undefined, 'metric')).toBe(
    'The hearts of this cut are used up: it can no longer be corrected.',
  );
  expect(usedBeyond(cut, [hearts(0.3)], pour(0.7), 'metric')).toBeUndefined();
  expect(usedBeyond(cut, [hearts(0.3)], pour(0.5), 'metric')).toMatch(/^Of the hearts 0\.60.L is/);
  expect(usedBeyond(cut, [hearts(0.9, false)], pour(0.1), 'metric')).toBeUndefined();
  expect(usedBeyond(run, [hearts(0)], undefined, 'metric')).toBeUndefined();
});

test('a jar that is all foreshots stands in no trial in the glass; one of which a part is does', () => {
  const foreshots = (mL: number, of: number) => ({
    foreshots: mL,
    hearts: of - mL,
    feints: 0,
    apart: 0,
  });
  const jars = shelfOf(run, { '6': foreshots(298, 298), '7': foreshots(100, 302) });
  expect(tastedJars(jars).map((jar) => jar.name)).toEqual(['7', '9']);
});
