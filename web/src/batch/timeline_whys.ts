// Why a stage's days on the calendar are what they are: planned by the plan's steps from the day of the
// mash, told by the journal's entries; and what the hours of the plan are summed of. Pure.
import type { Plan } from '../data/answers';
import { dayAndTime, dayOf } from '../data/dates';
import { lengthOfTime } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';
import type { StageSpan } from './timeline';

type Steps = Plan['timeline']['steps'];
const LENGTHS =
  'heating, cooling, fermenting and running as long as the plan reckons; handwork: common practice, no source';
const NO_BAND = 'none is reckoned for the days; the mash bill has one of the day it is dry';

/** Of the planned days of a stage; `one` is the midnight before day one, where the mash was told of. */
export function whyPlannedDays(stage: string, steps: Steps, one: number | undefined): Why {
  const own = steps.filter((step) => step.stage === stage);
  const first = own.toSorted((a, b) => a.start_min - b.start_min)[0];
  const last = own.toSorted((a, b) => b.start_min + b.length_min - (a.start_min + a.length_min))[0];
  return {
    what: `When ${stage.toLowerCase()} is planned`,
    inputs: [
      ...(one === undefined ? [] : [{ name: 'Day 1, the mash first told of', value: dayOf(one) }]),
      ...(first ? [{ name: 'Begins with', value: `${first.what}; ${first.clock}` }] : []),
      ...(last && last !== first
        ? [
            {
              name: 'Ends with',
              value: `${last.what}; ${last.clock}, ${lengthOfTime(last.length_min)}`,
            },
          ]
        : []),
    ],
    model:
      one === undefined
        ? 'The plan’s steps one after another, counted in days from the mash.'
        : 'The plan’s steps one after another, counted from the day of the mash; what was told since does not move them.',
    source: `the batch’s own plan; ${LENGTHS}`,
    band: NO_BAND,
  };
}

/** Of the days that were told. */
export const whyToldDays = (row: StageSpan): Why => ({
  what: `When ${row.stage.toLowerCase()} was told of`,
  inputs: [
    { name: 'First entry', value: dayAndTime(row.told_from_ms ?? NaN) },
    { name: 'Last entry', value: dayAndTime(row.told_to_ms ?? NaN) },
  ],
  model: 'The first and the last entry of this stage in the batch’s journal, as they now stand.',
  source: 'the journal',
  band: 'a time is as right as the clock of the device that told it',
});

/** Of the hours of one kind, or of all of it from the first step to the last. */
export function whyHours(timeline: Plan['timeline'], kind: 'hands_on' | 'watch' | 'whole'): Why {
  const what = {
    hands_on: 'Time with hands on the work',
    watch: 'Time that someone stays with it, with nothing to do but watch',
    whole: 'Time from the first step to the end of the last',
  }[kind];
  const stages = [...new Set(timeline.steps.map((step) => step.stage))];
  const sums = stages.map((stage) => ({
    name: stage,
    minutes: timeline.steps
      .filter((step) => step.stage === stage && step.attention === kind)
      .reduce((sum, step) => sum + step.length_min, 0),
  }));
  const ends = timeline.steps.filter((step) => step.clock).map((step) => step.clock);
  return {
    what,
    inputs:
      kind === 'whole'
        ? [
            { name: 'First step', value: ends[0] ?? '–' },
            { name: 'Last step', value: ends.at(-1) ?? '–' },
          ]
        : sums
            .filter(({ minutes }) => minutes > 0)
            .map(({ name, minutes }) => ({ name, value: lengthOfTime(minutes) })),
    model:
      kind === 'whole'
        ? 'The plan’s steps one after another, with the nights between them.'
        : 'The lengths of such steps of the plan, summed.',
    source: LENGTHS,
    band: NO_BAND,
  };
}
