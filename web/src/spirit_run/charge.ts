// What goes into the boiler, summed, and held against the charge as it is typed. Pure alcohol adds, and so
// do masses; a mixture's volume does not, so volume, strength and water are asked of the house. Pure but
// for those calls.
import { lotKey, type Gauged, type Lot, type LotFigures } from '../data/answers';
import type { Api } from '../data/api';
import { dayAndTime } from '../data/dates';
import { partsTyped } from '../data/lot_parts';
import { quantities, quantity, type Units } from '../data/units';
import type { Why } from '../parts/Figure.svelte';
import type { Reduced } from '../gauge/calls';

/** So much of a lot, or of the batch's own wash. */
export interface Part {
  key: string; // of the lot; '' is the wash
  name: string;
  volume_L_20C: number;
  strength_percent_vol: number | undefined; // not known of a wash whose gravity nobody read
}
export const WASH = '';

/** What was typed of each lot; what is at fault counts for nothing yet. Strips of one batch make lots of
 *  one name: then it is their time that tells them apart. */
export function lotsPut(
  lots: readonly Lot[],
  texts: Readonly<Record<string, string>>,
  units: Units,
): Part[] {
  const nameOf = ({ label, at }: Lot) =>
    lots.filter((one) => one.label === label).length > 1
      ? `${label} (${dayAndTime(at, Date.now())})`
      : label;
  return lots.flatMap((lot) =>
    (partsTyped([lot], texts, units) ?? []).map((part) => ({
      key: lotKey(lot.lot),
      name: nameOf(lot),
      volume_L_20C: part.volume_L_20C,
      strength_percent_vol: lot.left.strength_percent_vol,
    })),
  );
}

export interface Sum {
  blend: LotFigures & { why?: Why };
  /** With the water to the strength that was asked for; undefined where none is needed. */
  watered: Reduced | undefined;
}

/** Strengths are shown to a tenth: nearer than half of that is there already. */
const NEAR_PERCENT = 0.05;

/** Asks the house what parts of known strength make, and the water that brings that to a strength. */
export async function summed(
  api: Pick<Api, 'post'>,
  parts: readonly Part[],
  to_percent: number | undefined,
  stop: AbortSignal,
): Promise<Sum> {
  const asked = parts.map(({ volume_L_20C, strength_percent_vol }) => ({
    volume_L_20C,
    strength_percent_vol,
  }));
  const blend = await api.post<Sum['blend']>('/blend', { parts: asked }, stop);
  if (to_percent === undefined || blend.strength_percent_vol <= to_percent + NEAR_PERCENT)
    return { blend, watered: undefined };
  const down = {
    volume_L: blend.volume_L_20C,
    strength_percent_vol: blend.strength_percent_vol,
    at_C: 20,
    to_percent_vol: to_percent,
  };
  return { blend, watered: await api.post<Reduced>('/reduce', down, stop) };
}

/** Litres of pure alcohol in all parts; undefined while the strength of one is not known. */
export function pureOf(parts: readonly Part[]): number | undefined {
  let litres = 0;
  for (const { volume_L_20C, strength_percent_vol } of parts) {
    if (strength_percent_vol === undefined) return undefined;
    litres += (volume_L_20C * strength_percent_vol) / 100;
  }
  return litres;
}

/** The volumes, each measured by itself: what they make together is a little less. */
export const apartOf = (parts: readonly Part[]): number =>
  parts.reduce((sum, part) => sum + part.volume_L_20C, 0);

// How far what was measured may be off, one standard deviation each. Those of the house's account of the
// alcohol (src/journal/account.hpp, pot_left.hpp): our estimates.
const MARK = 0.01; // of a volume
const GLASS_PERCENT = 0.3; // of a lot's strength: the account's where no kit says which glass
const WASH_PERCENT = 0.2; // of a wash's, by its two gravities,
const WASH_YIELD = 0.03; // and as a share of it

const volumeSd = (parts: readonly Part[]): number =>
  Math.hypot(...parts.map((part) => MARK * part.volume_L_20C));

const pureSd = (parts: readonly Part[]): number =>
  Math.hypot(
    ...parts.flatMap(({ key, volume_L_20C: volume, strength_percent_vol: percent = 0 }) => [
      (MARK * volume * percent) / 100,
      (volume * (key === WASH ? WASH_PERCENT : GLASS_PERCENT)) / 100,
      key === WASH ? (WASH_YIELD * volume * percent) / 100 : 0,
    ]),
  );

/** Whether a difference is worth asking about: the rule by which the house's account asks. */
const telling = (difference: number, of: number, sd: number): boolean =>
  difference > 0.05 && difference > 0.02 * of && difference > 2 * sd;

/** The charge as it is typed; `gauged` where its strength was read and the house has told it. */
export interface Typed {
  volume_L: number;
  read: boolean; // a strength was typed
  gauged: Gauged | undefined;
}

/** For a Finding, which tells it in the units of the device: in metric. */
export interface Doubt {
  says: string;
  remedy: string;
}

/**
 * What does not agree between the charge as it is typed and what was put in. More alcohol than went in
 * cannot be. More volume is water, which is told where a spirit run's strength was not read, or beyond
 * the planned water; a strip gets none. Less volume means lots that are named and are not in the boiler.
 */
export function chargeDoubts(
  parts: readonly Part[],
  sum: Sum | undefined,
  typed: Typed,
  spirit: boolean,
): Doubt[] {
  if (parts.length === 0) return [];
  const litres = (a: number, b: number, decimals = 1) =>
    quantities([a, b], 'L', decimals, 'metric');
  const doubts: Doubt[] = [];
  const held = typed.gauged?.lot;
  const put = pureOf(parts);
  if (held && put !== undefined && typed.gauged) {
    const { pure_alcohol_L_20C: pure, volume_L_20C: volume } = held;
    const sd = Math.hypot(
      pureSd(parts),
      MARK * pure,
      (volume * typed.gauged.standard_percent_vol) / 100,
    );
    if (telling(pure - put, put, sd)) {
      const [held_L, put_L] = litres(pure, put, 2);
      doubts.push({
        says: `The charge as typed holds ${held_L} of pure alcohol; ${put_L} was put in. Marks and glass are not so far off.`,
        remedy: 'Look at volume and reading again, and name every lot that went in.',
      });
    }
  }
  const volume = held?.volume_L_20C ?? typed.volume_L;
  const mixed = sum?.blend.volume_L_20C;
  // With a reading the alcohol tells whether the rest is water.
  const most = spirit
    ? typed.read
      ? undefined
      : sum && Math.max(sum.blend.volume_L_20C, sum.watered?.volume_L_20C ?? 0)
    : (mixed ?? apartOf(parts));
  const sd = Math.hypot(volumeSd(parts), MARK * volume);
  if (most !== undefined && telling(volume - most, most, sd)) {
    const [typed_L, makes_L] = litres(volume, most);
    doubts.push({
      says: `The charge as typed is ${typed_L}; what was put in makes ${makes_L}${spirit && sum?.watered ? ' with its water' : ''}. The rest counts as water.`,
      remedy: spirit
        ? 'Name every lot that went in, or read the strength.'
        : 'Name all the wash and every lot that went in.',
    });
  } else if (mixed !== undefined && telling(mixed - volume, volume, sd)) {
    const [typed_L, makes_L] = litres(volume, mixed);
    doubts.push({
      says: `The charge as typed is ${typed_L}; what was put in makes ${makes_L}.`,
      remedy:
        'Name of each only what is in the boiler: what is named here is taken out of the house’s stock.',
    });
  }
  return doubts;
}

/** The strength of a charge that nobody read, at 20 °C: its alcohol over its volume. The house makes up
 *  with water what the parts do not fill. */
export const strengthByParts = (sum: Sum, volume_L_20C: number): number =>
  (100 * sum.blend.pure_alcohol_L_20C) / Math.max(volume_L_20C, sum.blend.volume_L_20C);

export interface Fit {
  share: number;
  charges: number;
  parts: Part[];
}

/** The same mixture in the same shares has that share of its volume; undefined where all of it fits. */
export function fitOf(
  parts: readonly Part[],
  whole_L: number,
  limit_L: number | undefined,
): Fit | undefined {
  if (limit_L === undefined || limit_L <= 0 || whole_L <= 1.001 * limit_L) return undefined;
  const share = limit_L / whole_L;
  const down = (litres: number) => Math.floor(100 * litres) / 100;
  return {
    share,
    charges: Math.ceil(whole_L / limit_L - 1e-9),
    parts: parts.map((part) => ({ ...part, volume_L_20C: down(share * part.volume_L_20C) })),
  };
}

/** Of the clear wash: how much was racked, and how much is left of it. */
export interface WashLeft {
  racked_L: number;
  left_L: number;
  untold: number; // strips of which nobody told how much wash they took
}

export function washLeft(
  racked_L: number | undefined,
  strips: readonly { wash_L_20C?: number; lots: readonly unknown[] }[],
): WashLeft | undefined {
  if (racked_L === undefined) return undefined;
  const taken = strips.reduce((sum, strip) => sum + (strip.wash_L_20C ?? 0), 0);
  const untold = strips.filter((s) => s.wash_L_20C === undefined && s.lots.length === 0).length;
  return { racked_L, left_L: Math.max(0, racked_L - taken), untold };
}

/** "42.4 L is left of 52.0 L racked". */
export function washLeftInWords({ racked_L, left_L, untold }: WashLeft, units: Units): string {
  const litres = (value: number) => quantity(value, 'L', 1, units);
  const left = left_L < 0.05 ? 'none' : litres(left_L);
  const missing =
    untold === 0
      ? ''
      : `; of ${untold === 1 ? 'one strip' : `${untold} strips`} it was not told how much ${untold === 1 ? 'it' : 'they'} took`;
  return `${untold > 0 && left_L >= 0.05 ? 'up to ' : ''}${left} is left of ${litres(racked_L)} racked${missing}`;
}

/** Whether all of it was stripped, as far as a mark tells. */
export const washUsedUp = (left: WashLeft | undefined): boolean =>
  left !== undefined && left.untold === 0 && left.left_L <= MARK * left.racked_L;

/** More wash than is left; marks may be off. */
export function washDoubt(
  wash_L: number | undefined,
  left: WashLeft | undefined,
): Doubt | undefined {
  if (wash_L === undefined || !left) return undefined;
  const { racked_L, left_L } = left;
  if (!telling(wash_L - left_L, wash_L, MARK * racked_L)) return undefined;
  return {
    says: `${quantity(wash_L, 'L', 1, 'metric')} of wash was typed; ${washLeftInWords(left, 'metric')}.`,
    remedy: 'Look at it again, or correct what was racked or what an earlier strip took.',
  };
}
