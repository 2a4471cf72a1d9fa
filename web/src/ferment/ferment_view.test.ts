import { expect, test } from 'vitest';
import type { Batch, FermentForecast, Plan } from '../data/answers';
import {
  curveInDays,
  curveOf,
  datesOf,
  expectedInDays,
  inDays,
  readOf,
  standingOf,
} from './ferment_view';

const read = (at: string, specific_gravity?: number) => ({
  entry: at,
  at,
  temperature_C: 25,
  ...(specific_gravity === undefined ? {} : { specific_gravity }),
});
const batch = (...readings: ReturnType<typeof read>[]) =>
  ({
    ferment: {
      pitch: { entry: 'p', at: '2026-11-17T15:00:00Z', specific_gravity: 1.058 },
      readings,
    },
  }) as unknown as Batch;
const plan = {
  ferment: {
    final_gravity: 0.994,
    ready_after_days: 7,
    pace: {
      ending: 'dry',
      dry_after_days: 4,
      course: [
        { at_h: 0, gravity: 1.058 },
        { at_h: 96, gravity: 0.994 },
      ],
    },
  },
} as unknown as Plan;

const forecast = {
  readings: 2,
  dry: {
    hours: { low: 72, median: 96 },
    at: { low: '2026-11-20T15:00:00Z', median: '2026-11-21T15:00:00Z' },
  },
  rested: { hours: { median: 168 }, at: { median: '2026-11-24T15:00:00Z' } },
  course: [
    { hours: 0, specific_gravity: { low: 1.058, median: 1.058, high: 1.058 } },
    { hours: 48, specific_gravity: { low: 1.01, median: 1.02, high: 1.03 } },
  ],
  doubts: [{ entry: '2026-11-19T15:00:00Z', words: 'Kept, not believed.' }],
} as unknown as FermentForecast;

test('dry and rested are those of the forecast; an end past the horizon is not told', () => {
  const dates = datesOf(batch(), plan, forecast, 0)!;
  const day = (d: number) => new Date(d).toISOString().slice(0, 10);
  expect(day(dates.dry_ms!)).toBe('2026-11-21');
  expect(day(dates.dry_from_ms!)).toBe('2026-11-20');
  expect(dates.dry_to_ms).toBeUndefined();
  expect(day(dates.rested_ms!)).toBe('2026-11-24');
  expect(dates.corrected).toBe(true);
  expect(expectedInDays(forecast)).toEqual({
    x: [0, 2],
    middle: [1.058, 1.02],
    low: [1.058, 1.01],
    high: [1.058, 1.03],
  });
});

test('while there is no forecast, the plan’s dates are counted from the pitch', () => {
  const dates = datesOf(batch(), plan, undefined, 0)!;
  expect(new Date(dates.dry_ms!).toISOString().slice(0, 10)).toBe('2026-11-21');
  expect(new Date(dates.rested_ms!).toISOString().slice(0, 10)).toBe('2026-11-24');
  expect(dates.dry_from_ms).toBeUndefined();
  expect(dates.corrected).toBe(false);
  expect(datesOf(undefined, plan, undefined, 0)).toBeUndefined();
});

test('a gravity that is not believed is shown as such, and does not tell where it stands', () => {
  const of = batch(read('2026-11-18T15:00:00Z', 1.04), read('2026-11-19T15:00:00Z', 1.07));
  expect(readOf(of, 0, forecast.doubts).map((p) => p.believed)).toEqual([true, true, false]);
  expect(standingOf(of, forecast.doubts)!.gravity).toBe(1.04);
});

test('a ferment that does not become dry by the plan has no dry date', () => {
  const stuck = {
    ...plan,
    ferment: { ...plan.ferment, pace: { ...plan.ferment.pace, ending: 'stuck' } },
  };
  expect(datesOf(batch(), stuck as unknown as Plan, undefined, 0)!.dry_ms).toBeUndefined();
});

test('the wort is the first point, and a reading of temperature alone is none', () => {
  const points = readOf(batch(read('2026-11-18T15:00:00Z', 1.04), read('2026-11-19T15:00:00Z')), 0);
  expect(points.map((p) => p.y)).toEqual([1.058, 1.04]);
  expect(inDays(points, points[0]!.x).map((p) => p.x)).toEqual([0, 1]);
  expect(curveInDays(curveOf(plan, points[0]!.x), points[0]!.x).x).toEqual([0, 4]);
});

test('a gravity that stands still for a day is told', () => {
  const going = batch(read('2026-11-18T15:00:00Z', 1.04), read('2026-11-19T15:00:00Z', 1.02));
  expect(standingOf(going)).toMatchObject({ gravity: 1.02, still: false });
  const dry = batch(read('2026-11-20T15:00:00Z', 0.9945), read('2026-11-21T15:00:00Z', 0.9943));
  expect(standingOf(dry)).toMatchObject({ still: true });
  expect(standingOf(batch())).toBeUndefined();
});

test('what was read before the pitch is of the wort, and no gravity of the ferment', () => {
  const of = batch(read('2026-11-17T11:00:00Z', 1.04), read('2026-11-18T15:00:00Z', 1.03));
  expect(readOf(of, 0).map((p) => p.y)).toEqual([1.058, 1.03]);
  expect(standingOf(batch(read('2026-11-17T11:00:00Z', 1.04)))).toBeUndefined();
});
