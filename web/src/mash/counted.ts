// Which clocks of a mash day run, and since when: told by the journal's entries, so that every device
// counts from one moment, in its own time. What runs by itself begins when the step before it was marked
// done; any step, when it was marked as begun; a stirred half of water, when that was told. Pure.
import type { Batch } from '../data/answers';
import type { Begun } from '../data/clocks.svelte';
import type { Entry } from '../data/entry';
import type { Now, Step } from './mash_view';

export interface Counted extends Begun {
  name: string;
  minutes: number;
}

/** Between the two halves of water, where the house's answer does not say it: common practice, no source. */
export const WAIT_MIN = 3;
export const AGAIN = 'Read the mash again';

const to_tenths = (minutes: number) => Math.round(minutes * 10) / 10;

/** The clock of a step, begun by an entry. */
export const ofStep = (step: Step, by: string, from_ms: number): Counted => ({
  name: step.what,
  minutes: to_tenths(step.length_min),
  by,
  from_ms,
});

/** What began a step that runs by itself: the mark of the one right before it. */
function ranOn(steps: readonly Step[], step: Step): Counted | undefined {
  if (step.attention === 'hands_on') return undefined;
  const main = steps.filter((s) => !s.beside);
  const before = main[main.findIndex((s) => s.what === step.what) - 1];
  return before?.done && before.mark
    ? ofStep(step, before.mark.entry, before.mark.at_ms)
    : undefined;
}

/** Clocks of the step in hand and of those beside it. */
export function countedOf(steps: readonly Step[], now: Now): Counted[] {
  const { step } = now;
  const ran = step && ranOn(steps, step);
  const begun = [...(step ? [step] : []), ...now.beside].flatMap((one) =>
    one.mark && !one.done ? [ofStep(one, one.mark.entry, one.mark.at_ms)] : [],
  );
  return [...(ran ? [ran] : []), ...begun];
}

/** The wait after the last water that was stirred in, told at home or still on this device. */
export function waitOf(
  batch: Pick<Batch, 'mash'> | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
): Counted | undefined {
  const here = waiting.findLast((e) => e.kind === 'mash water' && e.corrects === undefined);
  const told = batch?.mash.waters.at(-1);
  const by = here
    ? { by: here.id, from_ms: Date.parse(here.at) }
    : told && { by: told.entry, from_ms: Date.parse(told.at) + ahead_ms };
  return by && { name: AGAIN, minutes: WAIT_MIN, ...by };
}

/** When water was stirred in last, told at home or still on this device and not struck there. */
export function lastWater_ms(
  batch: Pick<Batch, 'mash'> | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
): number {
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  const told = (batch?.mash.waters ?? []).filter(({ entry }) => !struck.has(entry));
  const here = waiting.filter(
    (e) => e.kind === 'mash water' && e.corrects === undefined && !struck.has(e.id),
  );
  return Math.max(
    ...told.map(({ at }) => Date.parse(at) + ahead_ms),
    ...here.map(({ at }) => Date.parse(at)),
  );
}

/**
 * The last temperature that was told, if it was read in the step in hand: what the house reckons from it
 * sets that step's clock, counted from the reading.
 */
export function readInHand(
  batch: Pick<Batch, 'mash'> | undefined,
  counted: readonly Counted[],
  ahead_ms: number,
): (Begun & { temperature_C: number }) | undefined {
  const told = batch?.mash.temperatures.at(-1);
  if (!told || counted.length === 0) return undefined;
  const from_ms = Date.parse(told.at) + ahead_ms;
  return counted.every((one) => one.from_ms < from_ms)
    ? { by: told.entry, from_ms, temperature_C: told.temperature_C }
    : undefined;
}
