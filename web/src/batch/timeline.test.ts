import { expect, test } from 'vitest';
import type { Batch, Plan } from '../data/answers';
import { byDay, dayOne, placeOfToday, spans, stepsAt } from './timeline';

const step = (stage: string, what: string, start_min: number, length_min: number) => ({
  stage,
  what,
  start_min,
  length_min,
  clock: '',
  attention: 'wait' as const,
  beside: false,
});
const plan = {
  timeline: {
    hands_on_min: 0,
    watching_min: 0,
    whole_min: 0,
    steps: [
      step('Mash', 'Mill the grain', 480, 30),
      step('Ferment', 'Ferment', 900, 5760),
      step('Spirit run', 'Run', 12395, 259),
    ],
  },
} as unknown as Plan;
const at = (month: number, day: number, hour = 12) =>
  new Date(2026, month - 1, day, hour).getTime();
const iso = (ms: number) => new Date(ms).toISOString();
const empty = {
  mash: { temperatures: [], waters: [], worts: [], extract_kg: 0 },
  ferment: { readings: [] },
  runs: [],
  lots: [],
  steps: [],
} as unknown as Batch;
const mashed = {
  ...empty,
  steps: [
    { stage: 'mash', step: 'Mill the grain', done: true, entry: 's', at: iso(at(11, 17, 9)) },
  ],
  ferment: { readings: [], racked: { entry: 'r', at: iso(at(11, 24, 8)), clear_L_20C: 105 } },
} as unknown as Batch;

test('before anything of the mash is told, no day has a date', () => {
  expect(dayOne(empty)).toBeUndefined();
  const rows = spans(plan, empty, at(11, 20));
  expect(rows.map((row) => row.stage)).toEqual(['Mash', 'Ferment', 'Spirit run']);
  expect(rows.every((row) => row.plan_from_ms === undefined)).toBe(true);
  expect(placeOfToday(rows)).toBeUndefined();
});

test('day one is the day on which the mash was first told of', () => {
  expect(dayOne(mashed)).toBe(at(11, 17, 0));
  const steps = stepsAt(plan, mashed);
  expect(steps[0]).toMatchObject({ from_ms: at(11, 17, 8), done: true });
  expect(steps[1]).toMatchObject({ done: false });
});

test('today stands between what is over by the plan and what is not', () => {
  const rows = spans(plan, mashed, at(11, 19));
  expect(rows.map((row) => row.today)).toEqual(['after', 'in', 'before']);
  expect(placeOfToday(rows)).toBe(1);
  expect(placeOfToday(spans(plan, mashed, at(12, 24)))).toBe(3);
});

test('what was told stands beside the plan and does not move it', () => {
  const [, ferment] = spans(plan, mashed, at(11, 19));
  expect(ferment!.told_to_ms).toBe(at(11, 24, 8));
  expect(ferment!.plan_from_ms).toBe(at(11, 17, 15));
});

test('steps stand by the days of the plan', () => {
  expect(byDay(stepsAt(plan, mashed)).map(({ day, steps }) => [day, steps.length])).toEqual([
    [1, 2],
    [9, 1],
  ]);
});
