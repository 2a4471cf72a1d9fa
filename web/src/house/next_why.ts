// Why a batch's next step is due when it is: what the house counted from, by which rule, and how long
// it bears waiting. Pure.
import type { NextStep } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { away } from '../data/figures';
import { SOURCES } from '../mash_bill/plan_reasons';
import type { Why } from '../parts/Figure.svelte';

type Rule = Pick<Why, 'model' | 'source' | 'band'>;
const NO_BAND = 'none is reckoned for the time of a step';
const PLAN: Rule = {
  model:
    'So long after what was last told as the two steps lie apart in the batch’s plan, its nights with them.',
  source: 'the batch’s own plan; how long handwork takes in it: common practice, no source',
  band: NO_BAND,
};

/** By what the house says its time rests on, the first that fits. */
const RULES: readonly [says: RegExp, rule: Rule][] = [
  [
    /forecast|its readings/,
    {
      model:
        'A ferment is read once a day; when it is dry, and rested, is the forecast of its gravities, corrected by those that were read.',
      source: `a reading a day: common practice, no source; ${SOURCES.pace}`,
      band: 'that of the dry day stands on the batch’s Ferment page',
    },
  ],
  [
    /reading a day/,
    {
      model:
        'A ferment is read once a day; near its end, on the day the plan expects it dry, counted from the pitch.',
      source: `a reading a day: common practice, no source; ${SOURCES.pace}`,
      band: NO_BAND,
    },
  ],
  [
    /counted from the pitch/,
    {
      model: 'Dry by the plan’s ferment, and the recipe’s rest after it, counted from the pitch.',
      source: SOURCES.pace,
      band: NO_BAND,
    },
  ],
  [
    /sampling days/,
    {
      model:
        'The next of the plan’s sampling days that was not sampled yet, counted from the day it was laid on wood; their gaps grow with the square of their number.',
      source: 'common practice, no source',
      band: NO_BAND,
    },
  ],
  [
    /time on wood/,
    {
      model: 'The plan’s time on wood, counted from the day it was laid on it; the nose decides.',
      source: 'the recipe, or the time a plan reckons for its wood: our estimate',
      band: 'read such a time as ± 30 to 50 %',
    },
  ],
  [
    /jars aired/,
    {
      model: 'The run’s end, and the plan’s time for jars under a cloth.',
      source: 'common practice, no source',
      band: NO_BAND,
    },
  ],
];

const at = (moment: string, ahead_ms: number) => dayAndTime(Date.parse(moment) + ahead_ms);
const LITRES = /(\d+\.\d+)[ \u00a0]L kept back/;

/** Of the day and time that a step is due. Device times are told. */
export function whyDue(next: NextStep, ahead_ms: number): Why | undefined {
  if (next.due === undefined) return undefined;
  const rule = RULES.find(([says]) => says.test(next.due_by ?? ''))?.[1] ?? PLAN;
  const bears =
    next.late_after === undefined
      ? []
      : [
          {
            name: 'Overdue from',
            value: `${at(next.late_after, ahead_ms)}, ${away(Date.parse(next.late_after) - Date.parse(next.due))} after it is due: our choice`,
          },
        ];
  return {
    what: `When it is due: ${next.what}`,
    inputs: [
      { name: 'The batch stands there since', value: at(next.since, ahead_ms) },
      { name: 'Due from', value: at(next.due, ahead_ms) },
      ...(next.due_by ? [{ name: 'Time by', value: next.due_by }] : []),
      ...bears,
    ],
    ...rule,
  };
}

/** Of the day and time since when the batch stands there, and of what it says is kept back. */
export function whySince(next: NextStep, ahead_ms: number): Why {
  const kept = LITRES.exec(next.what)?.[1];
  return {
    what: `Since when the batch stands there: ${next.what}`,
    inputs: [
      { name: 'Told', value: at(next.since, ahead_ms) },
      ...(kept ? [{ name: 'Kept back', value: `${kept} L at 20 °C` }] : []),
    ],
    model: kept
      ? 'The entry that was told last. What is kept back is what is left of the batch’s lots: each as it was made, less all that was told to go out of it.'
      : 'The furthest thing that was told of the batch decides what is next; this is when it was told.',
    source: kept
      ? `the batch’s journal; volumes after ${SOURCES.density}`
      : 'the batch’s journal, in the order of the work',
    band: 'a time is as right as the clock of the device that told it',
  };
}
