// Which parts of which lots were typed, and whether the lots have so much.
import { lotKey, type Lot, type LotName } from './answers';
import { quoted, unread } from './measured';
import { quantity, typedAs, type Units } from './units';

export interface LotPart {
  lot: LotName;
  volume_L_20C: number;
}

/** A lot's volume rounds to the millilitre on the screen; so much more is not more. */
const ROUNDING_L = 0.0006;

export function lotFault(lot: Lot, text: string | undefined, units: Units): string | undefined {
  if (text === undefined || text.trim() === '') return undefined;
  const volume = typedAs(text, 'L', units);
  if (volume === undefined || volume < 0)
    return unread(text, 'a volume such as 1.5 L, 1500 mL or 3 pt');
  if (volume > lot.left.volume_L_20C + ROUNDING_L)
    return `${quoted(text)} is more than there is; accepted: up to ${quantity(lot.left.volume_L_20C, 'L', 3, units)}.`;
  return undefined;
}

/** How much more of the same mixture the lots of these parts still give, at 20 °C: what is left of each
 *  beyond its part, in the shares in which they were poured. Undefined of nothing. */
export function leftAlike(lots: readonly Lot[], parts: readonly LotPart[]): number | undefined {
  const poured_L = parts.reduce((sum, part) => sum + part.volume_L_20C, 0);
  if (poured_L <= 0) return undefined;
  const times = parts.map((part) => {
    const left_L = lots.find((l) => lotKey(l.lot) === lotKey(part.lot))?.left.volume_L_20C ?? 0;
    return Math.max(0, left_L - part.volume_L_20C) / part.volume_L_20C;
  });
  return poured_L * Math.min(...times);
}

/** The parts that are typed; undefined when one of them is at fault. */
export function partsTyped(
  lots: readonly Lot[],
  texts: Readonly<Record<string, string>>,
  units: Units,
): LotPart[] | undefined {
  const parts: LotPart[] = [];
  for (const lot of lots) {
    const text = texts[lotKey(lot.lot)];
    if (lotFault(lot, text, units) !== undefined) return undefined;
    const volume = typedAs(text ?? '', 'L', units);
    if (volume === undefined || volume === 0) continue;
    parts.push({ lot: lot.lot, volume_L_20C: Math.min(volume, lot.left.volume_L_20C) });
  }
  return parts;
}
