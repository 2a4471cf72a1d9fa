// Volumes, strengths and gravities as they are typed and as an entry tells them: the figure on the
// instrument with its temperature, never the figure worked out from it.
import { typed } from './figures';
import { typedAs, type Units } from './units';

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

/** "73.1", "73.1 %", "146 proof": the figure and its scale. */
export function strengthTyped(text: string): { reading: number; scale: StrengthScale } | undefined {
  const found = /^\s*([\d.,]+)\s*(%|%\s*vol|vol|abv|proof|°?\s*proof)?\s*$/i.exec(text);
  const reading = found ? typed(found[1]!) : undefined;
  if (reading === undefined) return undefined;
  return { reading, scale: /proof/i.test(found![2] ?? '') ? 'proof' : 'percent_vol' };
}

export function volumeRead(text: string, at: string, units: Units): VolumeRead | undefined {
  const volume_L = typedAs(text, 'L', units);
  const at_C = typedAs(at, '°C', units);
  if (volume_L === undefined || at_C === undefined || volume_L < 0) return undefined;
  return { volume_L, at_C };
}

export function strengthRead(text: string, at: string, units: Units): StrengthRead | undefined {
  const strength = strengthTyped(text);
  const at_C = typedAs(at, '°C', units);
  if (strength === undefined || at_C === undefined) return undefined;
  return { ...strength, at_C };
}

export function gravityRead(
  text: string,
  scale: GravityScale,
  at: string,
  units: Units,
): GravityRead | undefined {
  const reading = typed(text);
  const at_C = typedAs(at, '°C', units);
  if (reading === undefined || at_C === undefined) return undefined;
  return { reading, scale, at_C };
}

/** The sentence at a field that holds nothing, or what cannot be read. */
export const unread = (text: string, accepted: string): string =>
  `${text.trim() === '' ? 'Nothing' : `“${text.trim()}”`} was given; accepted: ${accepted}.`;

export const ACCEPTED = {
  volume: 'a volume such as 3.9 L or 1 gal',
  temperature: 'a temperature such as 20 °C or 68 F',
  strength: 'a reading such as 68.2 or 136.4 proof',
  mass: 'a mass such as 2.8 kg or 6.2 lb',
  gravity: 'a figure such as 1.062',
} as const;
