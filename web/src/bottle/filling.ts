// What is told of a filling and is a slip, most likely: a size without its unit, a strength that is not
// that of the lot. Pure.
import { typed } from '../data/figures';
import { quoted } from '../data/measured';
import { quantity, type Units } from '../data/units';

/** Bottles below this are a slip of the unit; our choice, the smallest samples sold hold 20 mL, from memory. */
const LEAST_mL = 10;
const MOST_mL = 100_000;

/** The sentence at a size that no bottle has, with the unit that may be meant; undefined where one has. */
export function tooSmall(text: string, size_mL: number, units: Units): string | undefined {
  if (size_mL >= LEAST_mL) return undefined;
  const read = quantity(size_mL, 'mL', 1, units);
  const bare_mL = (typed(text) ?? 0) * 1000;
  const accepted = `accepted: ${quantity(LEAST_mL, 'mL', 0, units)} or more`;
  return bare_mL >= LEAST_mL && bare_mL <= MOST_mL
    ? `${quoted(text)} is read as ${read}, and no bottle is so small; ${accepted}. Type the unit with it: is “${text.trim()} L” meant?`
    : `${quoted(text)} is read as ${read}, and no bottle is so small; ${accepted}. Look at its unit.`;
}

const APART = 1;
/** What the wood gave makes an alcoholmeter read low: the true strength may stand so far above; our choice. */
const APART_ON_WOOD = 3;

/**
 * Whether the strength that is bottled is not that of the lot, in %vol.
 *
 * wooded   it lay on wood
 * dried    the strength was found with its residue, which explains that it stands above
 */
export function strengthApart(
  bottled: number,
  lot: number,
  { wooded, dried }: { wooded: boolean; dried: boolean },
): boolean {
  const above = bottled - lot;
  if (above < 0) return -above > APART;
  return !dried && above > (wooded ? APART_ON_WOOD : APART);
}
