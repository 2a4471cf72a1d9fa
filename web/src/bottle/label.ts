// What stands on a label, from the lot in the bottles; the check of a stated strength by a published
// rule; classes that the plan's findings leave open. Pure. Whether a class's name may be used is the
// officer's to say.
import type { LabelRule, LegalClass, Lot } from '../data/answers';
import { dayOf } from '../data/dates';
import { printed } from '../data/figures';

export interface Label {
  name: string;
  strength: string;
  volume: string;
  lot: string;
  filled: string;
}

/** The lot as it is written: the last eight letters of its entry's id, which no other lot has. */
export const lotMark = (lot: Lot): string => lot.entry.replaceAll('-', '').slice(-8).toUpperCase();

/** `stated`: the strength on the label; else the true one. */
export function labelOf(lot: Lot, name: string, stated?: number): Label | undefined {
  const { bottles } = lot;
  if (!bottles) return undefined;
  return {
    name,
    strength: `${printed(stated ?? bottles.strength_percent_vol, 1)} % vol`,
    volume:
      bottles.size_L < 1
        ? `${printed(bottles.size_L * 1000)} mL`
        : `${printed(bottles.size_L, bottles.size_L % 1 ? 2 : 0)} L`,
    lot: lotMark(lot),
    filled: dayOf(lot.at),
  };
}

/** Stands for the class that was named before and is no longer left open. */
export const KEPT_CLASS = 'as labelled';

/** What an entry tells of the labels. */
export const labelled = (
  lot: Lot,
  name: string,
  stated: number,
  names_class: string | undefined,
  rule: string | undefined,
) => ({
  lot: lot.lot,
  name: name.trim(),
  strength_percent_vol: stated,
  ...(names_class ? { class: names_class } : {}),
  ...(names_class && rule ? { rule } : {}),
});

export interface Tolerated {
  keeps: boolean;
  says: string;
}

/** A stated strength by one rule: how far it is off the true one, and how far it may be. */
export function toleratedBy(rule: LabelRule, stated: number, truth: number): Tolerated {
  const off = stated - truth;
  // Both are known to a hundredth at best; rounding is not what a rule is broken by.
  const keeps = Math.abs(off) <= rule.within_percent_vol + 1e-6;
  const far =
    Math.abs(off) < 0.005
      ? `the true strength, ${printed(truth, 2)} %vol`
      : `${printed(Math.abs(off), 2)} ${off > 0 ? 'over' : 'under'} the true ${printed(truth, 2)} %vol`;
  return {
    keeps,
    says: `${rule.jurisdiction}: ${far}; ${printed(rule.within_percent_vol, 1)} %vol either way is allowed (${rule.document}, ${rule.place}; ${rule.standing}, check it against the text).`,
  };
}

/** Classes against which the plan found nothing. */
export const openClasses = (all: readonly LegalClass[]): LegalClass[] =>
  all.filter((one) => one.ruling === 'could_carry');

export const conditionsOf = (one: LegalClass): string[] =>
  one.rules.filter((rule) => rule.ruling === 'condition').map((rule) => rule.demands);

/** Whether a lot lay on wood, itself or what it was made of. */
export function wasOnWood(lot: Lot, all: readonly Lot[]): boolean {
  const byName = new Map(all.map((one) => [`${one.lot.entry} ${one.lot.kind}`, one]));
  const seen = new Set<string>();
  const look = (one: Lot | undefined): boolean => {
    if (!one || seen.has(`${one.lot.entry} ${one.lot.kind}`)) return false;
    seen.add(`${one.lot.entry} ${one.lot.kind}`);
    return (
      one.wood !== undefined || one.parents.some((p) => look(byName.get(`${p.entry} ${p.kind}`)))
    );
  };
  return look(lot);
}

/** Under this, a rest is what clings to vessel and hose. */
const CLINGS_L = 0.005;

/** What goes out of the lot into the bottles, and the rest of what was meant for them, in litres. */
export function drawn<Part extends { volume_L_20C: number }>(
  part: Part,
  bottles: number,
  size_L: number,
): { from: Part; over_L: number } {
  const over_L = part.volume_L_20C - bottles * size_L;
  if (over_L <= CLINGS_L) return { from: part, over_L: 0 };
  return { from: { ...part, volume_L_20C: bottles * size_L }, over_L };
}

/** Whole bottles that a volume fills, and what is left over, in litres. */
export function bottlesOf(volume_L: number, size_L: number): { bottles: number; over_L: number } {
  const bottles = size_L > 0 ? Math.floor(volume_L / size_L + 1e-9) : 0;
  return { bottles, over_L: Math.max(0, volume_L - bottles * size_L) };
}
