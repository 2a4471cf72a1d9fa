import { expect, test } from 'vitest';
import {
  allot,
  between,
  LOTS,
  lotOf,
  restOf,
  split,
  sweep,
  totals,
  wholly,
  type Jar,
} from './shelf_allotment';

const jars: Jar[] = Array.from({ length: 8 }, (_, i) => ({
  id: `j${i + 1}`,
  name: String(i + 1),
  volume_mL: 400 + 10 * i,
  capacity_mL: 500,
  parts: wholly('feints', 400 + 10 * i),
}));
const sum = (jar: Jar) => LOTS.reduce((s, lot) => s + jar.parts[lot], 0);

test('a sweep sets a run of jars at once, in either direction', () => {
  expect(between(jars, 'j3', 'j6')).toEqual(['j3', 'j4', 'j5', 'j6']);
  expect(sweep(jars, 'j6', 'j3', 'hearts').map(lotOf)).toEqual(
    sweep(jars, 'j3', 'j6', 'hearts').map(lotOf),
  );
});

test('a middle jar can be left out of the hearts', () => {
  const set = allot(sweep(jars, 'j3', 'j7', 'hearts'), ['j5'], 'apart');
  expect(set.map(lotOf)).toEqual([
    'feints',
    'feints',
    'hearts',
    'hearts',
    'apart',
    'hearts',
    'hearts',
    'feints',
  ]);
  expect(totals(set).hearts).toBe(420 + 430 + 450 + 460);
});

test('a split jar has two lots and loses no millilitre', () => {
  const half = split(jars[0]!, 'hearts', 200, 'feints');
  expect(half.parts).toMatchObject({ hearts: 200, feints: 200 });
  const third = split(half, 'apart', 100, 'feints');
  expect(third.parts).toMatchObject({ hearts: 150, feints: 150, apart: 100 });
  expect(sum(third)).toBeCloseTo(400, 9);
  expect(lotOf(third)).toBeUndefined();
});

test('of a split it is told where the rest goes, or that it stays', () => {
  const hearts = { ...jars[0]!, parts: wholly('hearts', 400) };
  expect(restOf(hearts, 'hearts', 150, 'feints')).toEqual([
    { lot: 'feints', mL: 250, stays: false },
  ]);
  expect(restOf(jars[0]!, 'hearts', 150, 'feints')).toEqual([
    { lot: 'feints', mL: 250, stays: true },
  ]);
  expect(restOf(hearts, 'hearts', 400, 'feints')).toEqual([]);
});

test('no split gives more than there is, nor less than nothing', () => {
  expect(split(jars[0]!, 'hearts', 9999, 'feints').parts).toEqual(wholly('hearts', 400));
  expect(split(jars[0]!, 'hearts', -5, 'feints').parts).toEqual(wholly('feints', 400));
  const all = { ...jars[0]!, parts: wholly('hearts', 400) };
  expect(sum(split(all, 'hearts', 100, 'hearts'))).toBe(400);
});

test('whatever is done, the parts of every jar add up to what is in it', () => {
  let seed = 11;
  const chance = (n: number) => (seed = (seed * 48271) % 2147483647) % n;
  let shelf: Jar[] = jars;
  for (let i = 0; i < 2000; ++i) {
    const lot = LOTS[chance(4)]!;
    const id = `j${1 + chance(8)}`;
    if (chance(2)) shelf = sweep(shelf, id, `j${1 + chance(8)}`, lot);
    else {
      const [amount, rest] = [chance(600), LOTS[chance(4)]!];
      shelf = shelf.map((j) => (j.id === id ? split(j, lot, amount, rest) : j));
    }
    for (const jar of shelf) expect(sum(jar)).toBeCloseTo(jar.volume_mL, 6);
  }
});
