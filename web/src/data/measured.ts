// Volumes, strengths and gravities as they are typed and as an entry tells them: the figure on the
// instrument with its temperature, never the figure worked out from it.
import { printed, typed, typedDecimal, twoWays } from './figures';
import { percentOfProof } from './proof';
import { settings } from './settings.svelte';
import { between, inUs, quantities, quantity, typedAs, type Units } from './units';

export type StrengthScale = 'percent_vol' | 'proof';
export type GravityScale = 'specific_gravity' | 'plato' | 'brix';

export interface VolumeRead {
  volume_L: number;
  at_C: number;
}
export interface StrengthRead {
  reading: number;
  scale: StrengthScale;
  at_C: number;
}
export interface GravityRead {
  reading: number;
  scale: GravityScale;
  at_C: number;
}

type Bounds = readonly [number, number];
const within = (value: number | undefined, [low, high]: Bounds): number | undefined =>
  value !== undefined && value >= low && value <= high ? value : undefined;

/** What the house accepts; wide on purpose. */
const VOLUME_L: Bounds = [0, 10_000];
const MASS_KG: Bounds = [0, 10_000];
const DEGREES: Bounds = [-20, 120];
const WATTS: Bounds = [0, 100_000];
export const SPIRIT_AT: Bounds = [-20, 40]; // the density formula's range
export const WORT_AT: Bounds = [0, 60];
const STRENGTH: Record<StrengthScale, Bounds> = { percent_vol: [0, 100], proof: [0, 200] };
const GRAVITY: Record<GravityScale, Bounds> = {
  specific_gravity: [0.97, 1.17],
  plato: [-7.7, 38.3],
  brix: [0, 40],
};

/** Litres, from "3.9", "3.9 L", "1 gal" in a field of litres or millilitres. */
export function volumeTyped(text: string, units: Units, unit: 'L' | 'mL' = 'L') {
  const value = typedAs(text, unit, units);
  return within(value === undefined || unit === 'L' ? value : value / 1000, VOLUME_L);
}

export const degreesTyped = (text: string, units: Units) =>
  within(typedAs(text, '°C', units), DEGREES);

export const massTyped = (text: string, units: Units) =>
  within(typedAs(text, 'kg', units), MASS_KG);

export const gramsTyped = (text: string, units: Units) =>
  within(typedAs(text, 'g', units), [0, 1000 * MASS_KG[1]]);

/**
 * No still runs on less, but for none at all: "1.5" is kilowatts in a field of watts, and a run begun on that
 * has no forecast and no alarm. Our choice, without a source; the house accepts it.
 */
const LEAST_W = 50;
export const tooFewWatts = (watts: number): boolean => watts > 0 && watts < LEAST_W;

/** "2200", "2200 W", "2.2 kW": in watts, whatever they may be. */
export function wattsIn(text: string): number | undefined {
  const kilo = /kW\s*$/i.test(text);
  const value = typed(text.replace(/\s*k?W\s*$/i, ''));
  return value === undefined || !kilo ? value : 1000 * value;
}

/** The same, as a still has it; 0 is no heat. */
export function wattsTyped(text: string): number | undefined {
  const watts = within(wattsIn(text), WATTS);
  return watts === undefined || tooFewWatts(watts) ? undefined : watts;
}

/** "55", "55 %", "55 %vol", "110 proof": a true strength. */
export function percentTyped(text: string): number | undefined {
  const proof = /^(.*\d)\s*°?\s*proof\s*$/i.exec(text);
  if (!proof) return within(typed(text.replace(/\s*%\s*(vol)?\s*$/i, '')), [0, 100]);
  const value = within(typed(proof[1]!), [0, 200]);
  return value === undefined ? undefined : percentOfProof(value);
}

/** "73.1", "73.1 %", "146 proof": the figure and its scale. */
export function strengthTyped(text: string): { reading: number; scale: StrengthScale } | undefined {
  const found = /^\s*([\d.,]+)\s*(%|%\s*vol|vol|abv|proof|°?\s*proof)?\s*$/i.exec(text);
  const scale = /proof/i.test(found?.[2] ?? '') ? 'proof' : 'percent_vol';
  const reading = within(found ? typed(found[1]!) : undefined, STRENGTH[scale]);
  return reading === undefined ? undefined : { reading, scale };
}

/** The figure on a hydrometer or refractometer. */
export const gravityTyped = (text: string, scale: GravityScale) =>
  within(scale === 'specific_gravity' ? typedDecimal(text) : typed(text), GRAVITY[scale]);

export function volumeRead(text: string, at: string, units: Units): VolumeRead | undefined {
  const volume_L = volumeTyped(text, units);
  const at_C = degreesTyped(at, units);
  if (volume_L === undefined || at_C === undefined) return undefined;
  return { volume_L, at_C };
}

/** The same of what must be there at all: of no wort, no wash and no spirit there is nothing to tell. */
export function someVolumeRead(text: string, at: string, units: Units): VolumeRead | undefined {
  const read = volumeRead(text, at, units);
  return read?.volume_L === 0 ? undefined : read;
}

/** The sentence at its field. */
export const someVolumeFault = (
  text: string,
  volume_L: number | undefined,
  needed = true,
): string | undefined => faultOf(text, volume_L || undefined, ACCEPTED.someVolume, needed);

/** As warm as a spirit is gauged. */
export const spiritAt = (text: string, units: Units) =>
  within(typedAs(text, '°C', units), SPIRIT_AT);

/** As warm as a wort or wash is read. */
export const wortAt = (text: string, units: Units) => within(typedAs(text, '°C', units), WORT_AT);

export function strengthRead(text: string, at: string, units: Units): StrengthRead | undefined {
  const strength = strengthTyped(text);
  const at_C = spiritAt(at, units);
  if (strength === undefined || at_C === undefined) return undefined;
  return { ...strength, at_C };
}

export function gravityRead(
  text: string,
  scale: GravityScale,
  at: string,
  units: Units,
): GravityRead | undefined {
  const reading = gravityTyped(text, scale);
  const at_C = wortAt(at, units);
  if (reading === undefined || at_C === undefined) return undefined;
  return { reading, scale, at_C };
}

/** What was typed, as a sentence names it: whole when it is short. */
export function quoted(text: string): string {
  const plain = text.trim().replace(/\s+/g, ' ');
  if (plain === '') return 'Nothing';
  return `“${plain.length > 40 ? `${plain.slice(0, 40)}…` : plain}”`;
}

/** The sentence at a field that holds nothing, or what cannot be read. */
export const unread = (text: string, accepted: string): string =>
  twoWays(text) ?? `${quoted(text)} was given; accepted: ${accepted}.`;

/** The same where the field holds something, or must; undefined when it was read. */
export const faultOf = (
  text: string,
  value: unknown,
  accepted: string,
  needed = true,
): string | undefined =>
  value === undefined && (needed || text.trim() !== '') ? unread(text, accepted) : undefined;

/** Longest texts the house takes, in bytes. */
export const NAME_BYTES = 200;
export const TEXT_BYTES = 20_000;
export const WHO_BYTES = 80;

/** The sentence at a text that is longer than the house takes. */
export function tooLong(text: string, most_bytes: number): string | undefined {
  const bytes = new TextEncoder().encode(text.trim()).length;
  return bytes <= most_bytes
    ? undefined
    : `${quoted(text)} is ${bytes} letters long; accepted: up to ${most_bytes}.`;
}

/** What fields accept, in words, with limits in the units that this device shows. */
export const ACCEPTED = {
  get volume() {
    return upTo('a volume such as 3.9 L or 1 gal', VOLUME_L[1], 'L');
  },
  get someVolume() {
    return upTo('a volume over nought such as 3.9 L or 1 gal', VOLUME_L[1], 'L');
  },
  get collected() {
    return upTo('a volume such as 900 mL, 0.9 L or 30 fl oz', VOLUME_L[1], 'L');
  },
  get temperature() {
    return degrees(DEGREES);
  },
  get spiritAt() {
    return degrees(SPIRIT_AT);
  },
  get wortAt() {
    return degrees(WORT_AT);
  },
  strength: 'a reading such as 68.2 or 136.4 proof, up to 100 % or 200 proof',
  get mass() {
    return upTo('a mass such as 2.8 kg or 6.2 lb', MASS_KG[1], 'kg');
  },
  grams: 'a mass such as 55 g or 2 oz',
  power: 'a power such as 1500 W or 1.5 kW, from 50 W to 100 kW, or 0',
  percent: 'a true strength such as 46.0 or 92 proof, up to 100 % or 200 proof',
  gravity: {
    specific_gravity: 'a figure such as 1.062, from 0.970 to 1.170',
    plato: 'a figure such as 14.2, from −7.7 to 38.3',
    brix: 'a figure such as 14.2, from 0 to 40',
  },
};

/** "a flask such as 1 L, up to 26.4 gal": whole figures, rounded down so that the one named is accepted. */
export function upTo(such: string, most: number, unit: string): string {
  const told = (units: Units) => {
    const us = units === 'us' ? inUs(most, unit, 0) : undefined;
    const [value, shown, decimals] = us ? [us.value, us.unit, us.decimals] : [most, unit, 0];
    return `${printed(Math.floor(value * 10 ** decimals) / 10 ** decimals, decimals)}\u00a0${shown}`;
  };
  const behind = settings.units === 'both' ? ` (${told('us')})` : '';
  return `${such}, up to ${told(settings.units)}${behind}`;
}

const degrees = ([low, high]: Bounds) =>
  `a temperature such as 20 °C or 68 °F, from ${between(low, high, '°C', 0, settings.units)}`;

/** What a vessel of the plan holds, brim full, in litres. */
export interface Brim {
  vessel: string;
  total_L: number;
}

/** Of the vessel of that name in the plan's kit; undefined where there is no plan or no such vessel. */
export function brimOf(
  kit: { vessels: readonly { name: string; total_L: number }[] } | undefined,
  vessel: string | undefined,
): Brim | undefined {
  const found = kit?.vessels.find(({ name }) => name === vessel);
  return found && { vessel: found.name, total_L: found.total_L };
}

/** So many brims are a slip of the pen, whatever vessel was really used; from practice, no source. */
const ABSURD = 10;

/** A volume that no vessel near the plan's holds: it is not kept. */
export const absurdIn = (volume_L: number | undefined, brim: Brim | undefined): boolean =>
  volume_L !== undefined && brim !== undefined && volume_L > ABSURD * brim.total_L;

/** The sentence at its field. */
export const absurdSentence = (text: string, { vessel, total_L }: Brim, units: Units): string =>
  unread(
    text,
    `up to ${quantity(ABSURD * total_L, 'L', 0, units)}, ten times what the ${vessel} of the plan holds to its brim`,
  );

/** For a Finding, in metric: more than the vessel holds, which may yet be right with another vessel. */
export function overBrim(
  volume_L: number | undefined,
  brim: Brim | undefined,
): { says: string; remedy: string } | undefined {
  if (volume_L === undefined || !brim || volume_L <= brim.total_L || absurdIn(volume_L, brim))
    return undefined;
  const [volume, total] = quantities([volume_L, brim.total_L], 'L', 1, 'metric');
  return {
    says: `${volume} is more than the ${brim.vessel} of the plan holds: ${total} to its brim.`,
    remedy: 'Look at the figure and its unit again. It can be kept if another vessel was used.',
  };
}

/** Dry yeast to the litre of wort that the ferment's forecast is made for, g/L: the engine's range. */
export const PITCH_G_PER_L: Bounds = [0.02, 10];

/** What is wrong with so much yeast in so much wort, as a sentence; undefined where it may be. The wort is
 *  taken as it was read: what it shrinks to 20 °C is less than the range is wide. */
export function pitchFault(
  text: string,
  mass_g: number | undefined,
  volume_L: number | undefined,
  units: Units,
): string | undefined {
  if (mass_g === undefined || mass_g <= 0) return unread(text, ACCEPTED.grams);
  if (volume_L === undefined || volume_L <= 0) return undefined;
  const [low, high] = PITCH_G_PER_L;
  const each = mass_g / volume_L;
  if (each >= low && each <= high) return undefined;
  // Ends are rounded inwards: what the sentence names is accepted.
  const least = Math.ceil(10 * low * volume_L) / 10;
  const most = Math.floor(high * volume_L);
  return unread(
    text,
    `${quantity(least, 'g', 1, units)} to ${quantity(most, 'g', 0, units)} of yeast in ${quantity(volume_L, 'L', 1, units)} of wort, which is ${quantity(low, 'g/L', 2, units)} to ${quantity(high, 'g/L', 0, units)}`,
  );
}
