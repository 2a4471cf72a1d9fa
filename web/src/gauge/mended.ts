// What a check after mixing may ask for: nothing that the glass cannot tell, nothing finer than a measure
// shows, and no more of a spirit than there is. Pure.
import type { ReductionCheck } from '../data/answers';
import { quantity, type Units } from '../data/units';
import { BAND_80 } from './calls';

/** What is known of the reading and of what can go in. */
export interface Means {
  /** Of the strength that was found: one standard deviation, by the glass it was read on. */
  standard_percent_vol?: number | undefined;
  /** Left of the spirit that was reduced, at 20 °C. */
  spirit_left_L?: number | undefined;
}

/** Whether what was found is as wanted to what the glass tells: its 80 % band reaches so far. */
export const withinGlass = (
  { add, found, then }: ReductionCheck,
  { standard_percent_vol: sd }: Means,
): boolean =>
  add !== 'nothing' &&
  sd !== undefined &&
  Math.abs(found.strength_percent_vol - then.strength_percent_vol) <= BAND_80 * sd;

/** Whether more of the same spirit is asked for than is left; so little is a rounding. */
export const moreThanLeft = (
  { add, spirit }: ReductionCheck,
  { spirit_left_L: left_L }: Means,
): boolean =>
  add === 'spirit' &&
  spirit !== undefined &&
  left_L !== undefined &&
  spirit.volume_L_20C > left_L + 5e-4;

/** A volume that is measured out is told to ten millilitres, under a tenth of a litre to one, as jug and
 *  cylinder are marked: common practice, no source. Its scale tells a mass to the gram. */
export const pourDecimals = (litres: number): number => (litres < 0.1 ? 3 : 2);

/** "0.41 L", "41 mL". */
export const toPour = (litres: number, units: Units): string =>
  litres < 0.1
    ? quantity(1000 * litres, 'mL', 0, units)
    : quantity(litres, 'L', pourDecimals(litres), units);
