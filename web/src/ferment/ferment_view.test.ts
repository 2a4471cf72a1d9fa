import { expect, test } from 'vitest';
import type { Batch, Plan } from '../data/answers';
import { curveInDays, curveOf, datesOf, inDays, readOf, standingOf } from './ferment_view';

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
  figures: { days_to_dry: { low: 3, high: 6 } },
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

test('dry and rested are so many days after the pitch, the dry one with its band', () => {
  const dates = datesOf(batch(), plan, plan, 0)!;
  const day = (d: number) => new Date(d).toISOString().slice(0, 10);
  expect(day(dates.dry_ms!)).toBe('2026-11-21');
  expect(day(dates.dry_from_ms!)).toBe('2026-11-20');
  expect(day(dates.dry_to_ms!)).toBe('2026-11-23');
  expect(day(dates.rested_ms!)).toBe('2026-11-24');
  expect(datesOf(batch(), plan, undefined, 0)!.dry_from_ms).toBeUndefined();
  expect(datesOf(undefined, plan, plan, 0)).toBeUndefined();
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

test('a gravity that stands still for a day is told, and asked about when it stands high', () => {
  const going = batch(read('2026-11-18T15:00:00Z', 1.04), read('2026-11-19T15:00:00Z', 1.02));
  expect(standingOf(going, plan)).toMatchObject({ still: false, still_high: false });
  const high = batch(read('2026-11-20T15:00:00Z', 1.02), read('2026-11-21T15:00:00Z', 1.0198));
  expect(standingOf(high, plan)).toMatchObject({ still: true, still_high: true });
  const dry = batch(read('2026-11-20T15:00:00Z', 0.9945), read('2026-11-21T15:00:00Z', 0.9943));
  expect(standingOf(dry, plan)).toMatchObject({ still: true, still_high: false });
  expect(standingOf(dry, plan)!.fallen_fraction).toBeCloseTo(0.995, 2);
  expect(standingOf(batch(), plan)).toBeUndefined();
});
