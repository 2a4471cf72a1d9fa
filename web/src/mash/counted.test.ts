import { beforeEach, expect, test } from 'vitest';
import type { Batch, Plan } from '../data/answers';
import { Clocks } from '../data/clocks.svelte';
import type { Entry } from '../data/entry';
import { AGAIN, countedOf, lastWater_ms, readInHand, waitOf } from './counted';
import { nowOf, stepsOf } from './mash_view';

const step = (what: string, length_min: number, attention: string, beside = false) => ({
  stage: 'Mash',
  what,
  start_min: 0,
  clock: 'day 1 08:00',
  length_min,
  attention,
  beside,
});
const plan = {
  timeline: {
    steps: [
      step('Mill', 30, 'hands_on'),
      step('Rest', 90, 'wait'),
      step('Heat sparge water', 40, 'wait', true),
      step('Drain', 20, 'hands_on'),
    ],
  },
} as unknown as Plan;
const HOUSE = Date.parse('2026-11-17T09:00:00.000Z');
const iso = (ms: number) => new Date(ms).toISOString();
const mark = (of: string, entry: string, at_ms: number, done = true) => ({
  entry,
  at: iso(at_ms),
  stage: 'mash',
  step: of,
  done,
});
const told = (steps: ReturnType<typeof mark>[], mash = {}) =>
  ({ steps, mash: { temperatures: [], waters: [], worts: [], ...mash } }) as unknown as Batch;
const counted = (batch: Batch | undefined, waiting: Entry[], ahead_ms: number) => {
  const steps = stepsOf(plan, batch, waiting, ahead_ms);
  return countedOf(steps, nowOf(steps));
};
const of = { batch: 'b', name: 'Tern 7' };

beforeEach(() => localStorage.clear());

test('a rest ends at one moment of the house on a phone three minutes fast and on a laptop that came later', () => {
  // The phone marks "Mill" done by its own clock; the laptop hears of it eleven minutes later.
  const fast_ms = 180_000;
  const entry = {
    id: 'm',
    batch: 'b',
    stage: 'mash',
    kind: 'step marked',
    version: 1,
    at: iso(HOUSE + fast_ms),
    clock_ahead_ms: fast_ms,
    who: '',
    body: { step: 'Mill', done: true },
  } as Entry;
  const ends = (device_ms: number, all: ReturnType<typeof counted>) => {
    localStorage.clear();
    const clocks = new Clocks(undefined, () => device_ms);
    for (const one of all) clocks.follow(one.name, one.minutes, of, one);
    return clocks.named('Rest', 'b')?.ends_ms;
  };
  const phone = ends(HOUSE + fast_ms, counted(undefined, [entry], fast_ms));
  const laptop = ends(HOUSE + 660_000, counted(told([mark('Mill', 'm', HOUSE)]), [], 0));
  expect(phone! - fast_ms).toBe(HOUSE + 90 * 60_000);
  expect(laptop).toBe(HOUSE + 90 * 60_000);
});

test('a step told as begun counts from there; one that was opened again does not', () => {
  const begun = told([mark('Mill', 'm', HOUSE, false)]);
  expect(counted(begun, [], 0)).toEqual([{ name: 'Mill', minutes: 30, by: 'm', from_ms: HOUSE }]);
  const again = [mark('Mill', 'm', HOUSE), mark('Mill', 'n', HOUSE + 1000, false)];
  expect(counted(told(again), [], 0)).toEqual([]);
  expect(counted(told([...again, mark('Mill', 'o', HOUSE + 9000, false)]), [], 0)).toEqual([
    { name: 'Mill', minutes: 30, by: 'o', from_ms: HOUSE + 9000 },
  ]);
});

test('a step with hands on it, and one whose step before was not marked, wait for a press', () => {
  expect(counted(told([mark('Rest', 'r', HOUSE)]), [], 0)).toEqual([]);
  expect(counted(told([]), [], 0)).toEqual([]);
});

test('the wait after stirred water and a reading on another device are counted from their telling', () => {
  const waters = [{ entry: 'w', at: iso(HOUSE), volume_L: 0.4, temperature_C: 12 }];
  const temperatures = [{ entry: 't', at: iso(HOUSE + 60_000), temperature_C: 71 }];
  const batch = told([mark('Mill', 'm', HOUSE)], { waters, temperatures });
  expect(waitOf(batch, [], -5000)).toEqual({
    name: AGAIN,
    minutes: 3,
    by: 'w',
    from_ms: HOUSE - 5000,
  });
  expect(readInHand(batch, counted(batch, [], 0), 0)).toEqual({
    by: 't',
    from_ms: HOUSE + 60_000,
    temperature_C: 71,
  });
  const before = told([mark('Mill', 'm', HOUSE + 120_000)], { temperatures });
  expect(readInHand(before, counted(before, [], 0), 0)).toBeUndefined(); // of the step before
});

test('water that was struck on this device was not stirred in, nor is a correction another water', () => {
  const water = (id: string, at_ms: number, change: Partial<Entry> = {}) =>
    ({ id, kind: 'mash water', at: iso(at_ms), clock_ahead_ms: 0, body: {}, ...change }) as Entry;
  const home = told([], {
    waters: [{ entry: 'w', at: iso(HOUSE), volume_L_20C: 2, temperature_C: 90 }],
  });
  const ahead_ms = 180_000;
  expect(lastWater_ms(undefined, [], ahead_ms)).toBe(-Infinity);
  expect(lastWater_ms(home, [], ahead_ms)).toBe(HOUSE + ahead_ms);
  const corrected = water('c', HOUSE + 900_000, { corrects: 'w' });
  expect(lastWater_ms(home, [corrected], ahead_ms)).toBe(HOUSE + ahead_ms);
  const struck = water('s', HOUSE + 900_000, { kind: 'struck', corrects: 'w' });
  expect(lastWater_ms(home, [struck], ahead_ms)).toBe(-Infinity);
  expect(lastWater_ms(home, [struck, water('n', HOUSE + 950_000)], ahead_ms)).toBe(HOUSE + 950_000);
});
