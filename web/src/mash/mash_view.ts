// Mash day from plan, batch and what is still on this device. Pure; times are milliseconds of the
// device. The steps are the plan's own sentences: one that was marked is known by its words.
import type { Batch, Plan } from '../data/answers';
import type { Entry } from '../data/entry';
import type { BandCurve, Measured } from '../parts/chart_data';

export interface Step {
  what: string;
  length_min: number;
  attention: 'hands_on' | 'watch' | 'wait';
  beside: boolean;
  done: boolean;
  done_ms: number | undefined;
  mark?: Mark; // the entry by which it is done, or begun and not done
}

/** An entry about a step, and when it happened. */
export interface Mark {
  entry: string;
  at_ms: number;
}

/** The steps of the mash in their order, each with whether it is done. */
export function stepsOf(
  plan: Plan | undefined,
  batch: Batch | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
): Step[] {
  // A mark that says "not done" opens again what was done; else it says that the step was begun.
  const marks = new Map<string, { done: boolean; begun: boolean; mark: Mark }>();
  const put = (step: string, done: boolean, mark: Mark) =>
    marks.set(step, { done, begun: !done && marks.get(step)?.done !== true, mark });
  for (const { step, done, entry, at } of batch?.steps ?? [])
    put(step, done, { entry, at_ms: Date.parse(at) + ahead_ms });
  const told = new Set(batch?.steps.map((mark) => mark.entry));
  for (const entry of waiting)
    if (entry.kind === 'step marked' && !told.has(entry.id))
      put(String(entry.body['step']), entry.body['done'] !== false, {
        entry: entry.id,
        at_ms: Date.parse(entry.at),
      });
  return (plan?.timeline.steps ?? [])
    .filter((step) => step.stage === 'Mash')
    .map((step) => {
      const last = marks.get(step.what);
      return {
        what: step.what,
        length_min: step.length_min,
        attention: step.attention,
        beside: step.beside,
        done: last?.done ?? false,
        done_ms: last?.done ? last.mark.at_ms : undefined,
        ...(last && (last.done || last.begun) ? { mark: last.mark } : {}),
      };
    });
}

export interface Now {
  step: Step | undefined; // in hand
  beside: Step[]; // to be begun or going beside it
  next: Step[]; // the next two
}

const runsOff = (step: Step) => /^(Drain|Sparge)/.test(step.what);

/** How many worts ran off the grain, told at home or still on this device. */
export const drawnOf = (batch: Batch | undefined, waiting: readonly Entry[]): number =>
  [
    ...(batch?.mash.worts ?? []).map((w) => w.from),
    ...waiting
      .filter(
        (e) =>
          e.kind === 'wort drawn' &&
          e.corrects === undefined &&
          !batch?.mash.worts.some((wort) => wort.entry === e.id), // just saved, and told already
      )
      .map((e) => String(e.body['from'])),
  ].filter((from) => from !== 'sugar').length;

/** The run-offs whose worts were drawn, by their places. */
const ranOffOf = (marked: readonly Step[], drawn: number): number[] =>
  marked.flatMap((s, i) => (runsOff(s) && !s.beside ? [i] : [])).slice(0, drawn);

const afterDone = (marked: readonly Step[]): number =>
  marked.findLastIndex((s) => s.done && !s.beside) + 1;

/** Where what is still to do begins; all main steps before it are behind. */
function begins(marked: readonly Step[], drawn: number, running: ReadonlySet<string>): number {
  const from = afterDone(marked);
  const ranOff = ranOffOf(marked, drawn);
  const last = ranOff.at(-1) ?? -1;
  const held = marked.findIndex(
    (s, i) => i >= from && i < last && !s.beside && !ranOff.includes(i) && running.has(s.what),
  );
  return Math.max(from, held < 0 ? last + 1 : held);
}

/**
 * A step is in hand when it comes after the last one that is done: whoever works does not mark each,
 * and a wort that was drawn ends its run-off. But what runs by its clock is not over for a wort alone,
 * which may have been drawn to be looked at. Those that run beside are open until they are marked; the
 * water for the sparges, until the last sparge is done.
 *
 * `drawn`: how many worts ran off; `running`: steps whose clocks have time left
 */
export function nowOf(
  marked: readonly Step[],
  drawn = 0,
  running: ReadonlySet<string> = new Set(),
): Now {
  const from = begins(marked, drawn, running);
  const spargesLeft = marked.some((s, i) => i >= from && /^Sparge/.test(s.what));
  const steps = marked.filter((s, i) => {
    const behind = !s.beside && i < from && !s.done;
    const idle = s.beside && / of sparge water/.test(s.what) && !spargesLeft;
    return !behind && !idle;
  });
  const at = steps.findIndex((s) => !s.done && !s.beside);
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

/** Main steps that nobody marked, and that a wort drawn after them makes look over. */
export const overByWort = (marked: readonly Step[], now: Now): Step[] => {
  const at = now.step ? marked.indexOf(now.step) : marked.length;
  return marked.slice(afterDone(marked), at).filter((s) => !s.beside && !s.done);
};

/**
 * Steps whose clocks go: what they counted is over, by a mark on them or on a later one, or because
 * their wort was drawn. A wort alone takes no clock from another step: also one that rings is heard first.
 */
export function clocksOver(marked: readonly Step[], drawn: number): string[] {
  const ranOff = ranOffOf(marked, drawn);
  const all = marked.every((s) => s.done || s.beside);
  const upTo = all ? marked.length : afterDone(marked);
  return marked.flatMap((s, i) => (!s.beside && (i < upTo || ranOff.includes(i)) ? [s.what] : []));
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

/** The temperatures that were told, each as it stands here: corrected, at its own time, not struck. */
export function temperaturesOf(
  batch: Batch | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
): Measured[] {
  const mine = waiting.filter((e) => e.kind === 'mash temperature');
  const anew = new Map(mine.map((e) => [e.corrects ?? e.id, e]));
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  const atHome = batch?.mash.temperatures ?? [];
  const known = new Set(atHome.map((t) => t.entry));
  const told = [
    ...atHome.map(({ entry, at, temperature_C }) => ({
      entry,
      x: Date.parse(at) + ahead_ms,
      y: temperature_C,
    })),
    ...mine
      .filter((e) => !e.corrects && !known.has(e.id))
      .map((e) => ({ entry: e.id, x: 0, y: 0 })),
  ];
  return told
    .filter(({ entry }) => !struck.has(entry))
    .map(({ entry, x, y }) => {
      const by = anew.get(entry);
      return by
        ? {
            // A correction tells its time by the clock of the device that told it, or by the house's.
            x: Date.parse(by.at) - by.clock_ahead_ms + ahead_ms,
            y: Number(by.body['temperature_C']),
            believed: true,
          }
        : { x, y, believed: true };
    })
    .toSorted((a, b) => a.x - b.x);
}
