// What stands on a label, from the lot in the bottles; the check of a stated strength by a published
// rule; classes that the plan's findings leave open. Pure. Whether a class's name may be used is the
// officer's to say.
import { lotKey, type LabelRule, type LegalClass, type Lot } from '../data/answers';
import { dayOf } from '../data/dates';
import { printed } from '../data/figures';

export interface Label {
  name: string;
  strength: string;
  volume: string;
  lot: string;
  filled: string;
}

/** The name that a label is offered: the batch's, unless the bottles were filled from another batch's lot. */
export function nameFor(bottles: Lot, all: readonly Lot[], batchName: string | undefined): string {
  const from = new Set(bottles.parents.map(lotKey));
  const foreign = all.some((lot) => from.has(lotKey(lot.lot)) && lot.batch !== bottles.batch);
  return (foreign ? undefined : batchName) ?? bottles.label.replace(/, bottled$/, '');
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

/** How the true strength is known: half its 80 % band, and whether it lay on wood without a residue told,
 *  so that an alcoholmeter read low by what nobody knows. */
export interface Known {
  half_percent_vol: number;
  obscured?: boolean;
}

export interface Tolerated {
  /** `unknown`: the band of the true strength reaches over what is allowed. */
  verdict: 'within' | 'outside' | 'unknown';
  says: string;
}

/** No finer than the band bears. */
const told = (percent: number, half: number) => printed(percent, half < 0.25 ? 2 : 1);

/** What wood can hide of a strength from an alcoholmeter, %vol: some 15 g/L, three times what the house
 *  takes for the upper end of small new casks. Our choice. */
const HIDDEN_AT_MOST = 3;

/** A stated strength by one rule: how far it is off the true one, how far that is known, and how far it
 *  may be. */
export function toleratedBy(
  rule: LabelRule,
  stated: number,
  truth: number,
  { half_percent_vol: half, obscured = false }: Known,
): Tolerated {
  const off = stated - truth;
  // Rounding is not what a rule is broken by.
  const most = rule.within_percent_vol + 1e-6;
  const keeps = !obscured && Math.abs(off) + half <= most;
  // What is dissolved hides strength, never lends it; and it hides so much at most.
  const hidden = obscured && off > 0 ? HIDDEN_AT_MOST : 0;
  const breaks = Math.abs(off) - half - hidden > most;
  const verdict = keeps ? 'within' : breaks ? 'outside' : 'unknown';
  const true_is = `${told(truth, half)}\u202f±\u202f${told(half, half)} %vol`;
  const far =
    verdict === 'unknown'
      ? `stated ${printed(stated, 1)} %vol; the true strength is ${told(truth - half, half)} to ${told(truth + half, half)} %vol${obscured ? ', or more' : ''}`
      : Math.abs(off) < 0.005
        ? `the true strength, ${true_is}`
        : `${printed(Math.abs(off), 2)} ${off > 0 ? 'over' : 'under'} the true ${true_is}`;
  return {
    verdict,
    says: `${rule.jurisdiction}: ${far}; ${printed(rule.within_percent_vol, 1)} %vol either way is allowed (${rule.document}, ${rule.place}; ${rule.standing}, check it against the text).`,
  };
}

/** So far apart may two good readings of one spirit be: a remedy leaves that much room. */
const READ_ANEW = 0.02;

/** Another glass, and half the 80 % band it would give at this strength. */
export interface OtherGlass {
  name: string;
  half_percent_vol: number;
}

/** What would tell whether the rules are kept: `glasses`, the coarsest first. */
export function settledBy(
  rules: readonly LabelRule[],
  stated: number,
  truth: number,
  known: Known,
  glasses: readonly OtherGlass[],
): string {
  const within = (half_percent_vol: number) =>
    rules.every(
      (rule) => toleratedBy(rule, stated, truth, { half_percent_vol }).verdict === 'within',
    );
  const finer = glasses.find((one) => within(one.half_percent_vol + READ_ANEW));
  const finest = glasses.at(-1);
  const by = [];
  if (!within(known.half_percent_vol)) {
    if (finer)
      by.push(
        `a reading on a glass of ${finer.name}, good to ±\u202f${told(finer.half_percent_vol, finer.half_percent_vol)} %vol`,
      );
    else if (finest)
      by.push(
        `a stated strength nearer to the true one, or a laboratory: a glass of ${finest.name} is good to ±\u202f${told(finest.half_percent_vol, finest.half_percent_vol)} %vol`,
      );
    else by.push('a certified glass, or a laboratory');
  }
  if (known.obscured)
    by.push('what drying a sample leaves, told before it is bottled, or a distilled sample');
  return by.length > 0 ? `What settles it: ${by.join('; and ')}.` : '';
}

/** Whether it lay on wood and was gauged after that with no residue told: an alcoholmeter then read low. */
export function obscuredUntold(lot: Lot, all: readonly Lot[]): boolean {
  const byName = new Map(all.map((one) => [lotKey(one.lot), one]));
  const seen = new Set<string>();
  const look = (one: Lot | undefined): boolean => {
    if (!one || seen.has(lotKey(one.lot))) return false;
    seen.add(lotKey(one.lot));
    if (one.residue_g_L !== undefined) return false;
    if (one.wood !== undefined) return true;
    // Read anew by an alcoholmeter, whatever was told of its parents.
    if (one.measured && !one.bottles) return wasOnWood(one, all);
    return one.parents.some((name) => look(byName.get(lotKey(name))));
  };
  return look(lot);
}

/** Classes against which the plan found nothing. */
export const openClasses = (all: readonly LegalClass[]): LegalClass[] =>
  all.filter((one) => one.ruling === 'could_carry');

export const conditionsOf = (one: LegalClass): string[] =>
  one.rules.filter((rule) => rule.ruling === 'condition').map((rule) => rule.demands);

/** Whether a lot lay on wood, itself or what it was made of. */
export function wasOnWood(lot: Lot, all: readonly Lot[]): boolean {
  const byName = new Map(all.map((one) => [lotKey(one.lot), one]));
  const seen = new Set<string>();
  const look = (one: Lot | undefined): boolean => {
    if (!one || seen.has(lotKey(one.lot))) return false;
    seen.add(lotKey(one.lot));
    return one.wood !== undefined || one.parents.some((name) => look(byName.get(lotKey(name))));
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

/** "1 bottle is filled." */
export const filledWords = (bottles: number): string =>
  bottles === 1 ? '1 bottle is filled.' : `${printed(bottles)} bottles are filled.`;
