// Mash day from plan, batch and what is still on this device. Pure; times are milliseconds of the
// device. The steps are the plan's own sentences: one that was marked is known by its words.
import type { Batch, MashCorrection, Plan } from '../data/answers';
import type { Entry } from '../data/entry';
import { lengthOfTime, printed } from '../data/figures';
import { quantity, type Units } from '../data/units';
import type { BandCurve, Measured } from '../parts/chart_data';

export interface Step {
  what: string;
  length_min: number;
  attention: 'hands_on' | 'watch' | 'wait';
  beside: boolean;
  done: boolean;
  done_ms: number | undefined;
}

/** The steps of the mash in their order, each with whether it is done. */
export function stepsOf(
  plan: Plan | undefined,
  batch: Batch | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
): Step[] {
  const marks = new Map<string, { done: boolean; at_ms: number }>();
  for (const mark of batch?.steps ?? [])
    marks.set(mark.step, { done: mark.done, at_ms: Date.parse(mark.at) + ahead_ms });
  for (const entry of waiting)
    if (entry.kind === 'step marked')
      marks.set(String(entry.body['step']), {
        done: entry.body['done'] === true,
        at_ms: Date.parse(entry.at),
      });
  return (plan?.timeline.steps ?? [])
    .filter((step) => step.stage === 'Mash')
    .map((step) => {
      const mark = marks.get(step.what);
      return {
        what: step.what,
        length_min: step.length_min,
        attention: step.attention,
        beside: step.beside,
        done: mark?.done ?? false,
        done_ms: mark?.done ? mark.at_ms : undefined,
      };
    });
}

export interface Now {
  step: Step | undefined; // in hand
  beside: Step[]; // to be begun or going beside it
  next: Step[]; // the next two
}

/**
 * A step is in hand when it comes after the last one that is done: whoever works does not mark each.
 * Those that run beside are open until they are marked.
 */
export function nowOf(steps: readonly Step[]): Now {
  const from = steps.findLastIndex((s) => s.done && !s.beside) + 1;
  const at = steps.findIndex((s, i) => i >= from && !s.done && !s.beside);
  if (at < 0)
    return { step: undefined, beside: steps.filter((s) => !s.done && s.beside), next: [] };
  let end = at + 1; // those that the plan starts together with it
  while (end < steps.length && steps[end]!.beside) end += 1;
  return {
    step: steps[at],
    beside: steps.slice(0, end).filter((s) => s.beside && !s.done),
    next: steps
      .slice(end)
      .filter((s) => !s.done)
      .slice(0, 2),
  };
}

/** Whether the malts are in: before that a reading is of the cook, and no correction is due. */
export function doughedIn(steps: readonly Step[]): boolean {
  const stir = steps.find((s) => /^Stir in the malts/.test(s.what));
  return stir === undefined || stir.done;
}

/** Device time of the planned course's nought, by the last mark that both have; else undefined. */
export function courseStart(plan: Plan | undefined, steps: readonly Step[]): number | undefined {
  const course = plan?.mash?.course;
  if (!course || course.length === 0) return undefined;
  const resting = course.find((p) => p.phase === 'resting');
  const stir = steps.find((s) => /^Stir in the malts/.test(s.what));
  if (stir?.done_ms !== undefined && resting) return stir.done_ms - resting.at_min * 60_000;
  const first = steps.find((s) => !s.beside);
  return first?.done_ms;
}

export function courseOf(plan: Plan | undefined, start_ms: number | undefined): BandCurve {
  const course = start_ms === undefined ? [] : (plan?.mash?.course ?? []);
  return {
    x: course.map((p) => start_ms! + p.at_min * 60_000),
    middle: course.map((p) => p.temperature_C),
  };
}

export function temperaturesOf(
  batch: Batch | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
): Measured[] {
  return [
    ...(batch?.mash.temperatures ?? []).map((t) => ({
      x: Date.parse(t.at) + ahead_ms,
      y: t.temperature_C,
      believed: true,
    })),
    ...waiting
      .filter((e) => e.kind === 'mash temperature' && e.corrects === undefined)
      .map((e) => ({
        x: Date.parse(e.at),
        y: Number(e.body['temperature_C']),
        believed: true,
      })),
  ];
}

/** The advice as it is read out: "Too hot by 1.4 K. Stir in 0.4 L cold water now, …". */
export function advised(advice: MashCorrection, read_C: number, units: Units): string[] {
  const off = read_C - advice.target_C;
  const by = quantity(Math.abs(off), 'K', 1, units);
  if (advice.with === 'nothing')
    return [`Good: wanted is ${quantity(advice.target_C, '°C', 1, units)}.`];
  const said = [`Too ${off > 0 ? 'hot' : 'cold'} by ${by}.`];
  const water = advice.with === 'hot water' ? 'hot water' : 'cold water';
  const at =
    advice.water_at_C === undefined ? '' : ` of ${quantity(advice.water_at_C, '°C', 0, units)}`;
  const half = advice.first_half_L;
  if (half !== undefined && half > 0) {
    said.push(
      `Stir in ${quantity(half, 'L', 2, units)} of ${water}${at} now` +
        (advice.wait_minutes === undefined
          ? ', then read again'
          : `, wait ${lengthOfTime(advice.wait_minutes)}, read again`) +
        (advice.after_first_C === undefined
          ? '.'
          : `: expect ${quantity(advice.after_first_C, '°C', 1, units)}.`),
    );
    const more = (advice.wanted_L ?? half) - half;
    if (more > 0.005) said.push(`${quantity(more, 'L', 2, units)} more may follow.`);
  }
  if (advice.room_is_short)
    said.push(
      `There is room for ${printed(advice.at_most_L, 1)} L only` +
        (advice.reached_C === undefined
          ? '.'
          : `: that reaches ${quantity(advice.reached_C, '°C', 1, units)}.`),
    );
  return said;
}
