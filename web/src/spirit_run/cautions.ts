// The house's own cautions of a run, as far as the page does not tell the same beside them. Pure.
import type { Entry } from '../data/entry';

/** How the house begins its cautions of what is too hot (spirit_caution, coolant_caution of wire/still.hpp). */
const HOT = /^spirit above 40 °C at the spout/i;
const COOLANT_HOT = /^coolant above 70 °C where it leaves/i;

export interface ToldHere {
  /** By the readings as they stand here. */
  hot: boolean;
  coolantHot: boolean;
  /** These readings are newer than the house's telling: what it said of them is over. */
  newer: boolean;
  /** Sentences that stand elsewhere on the page, with the way to answer them. */
  asked?: readonly string[];
}

/** Those of the house that are not told here. What the page does not judge hot is left to the house, which
 *  may have heard of more. */
export const houseCautions = (
  house: readonly string[],
  { hot, coolantHot, newer, asked = [] }: ToldHere,
): string[] =>
  house.filter((says) => {
    if (HOT.test(says)) return !hot && !newer;
    if (COOLANT_HOT.test(says)) return !coolantHot && !newer;
    return !asked.includes(says);
  });

/** Whether readings of a run wait that the house has not heard, told, corrected or struck. */
export const newerHere = (
  run: { entry: string; readings: readonly { entry: string }[] },
  waiting: readonly Entry[],
): boolean =>
  waiting.some((e) =>
    e.kind === 'struck'
      ? run.readings.some((r) => r.entry === e.corrects)
      : e.kind === 'run read' && e.body['run'] === run.entry,
  );
