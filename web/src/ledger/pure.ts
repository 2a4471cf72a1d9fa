// Pure alcohol as it is written down: litres at 20 °C and United States proof gallons. Both figures are
// the house's own; here they are only chosen and shown.
import { bandOf, printed } from '../data/figures';
import type { Units } from '../data/units';

export interface Pure {
  litres: number; // at 20 °C
  proof_gallons: number;
}

export const PROOF_GALLON =
  'A US proof gallon is a gallon (231 cubic inches) at 60\u00a0°F that holds 50\u00a0% alcohol by volume at 60\u00a0°F, ' +
  'or as much alcohol in another form (27 CFR 30.11). It and the litre of pure alcohol at 20\u00a0°C ' +
  'are reckoned from one mass of ethanol.';

export const all = (pures: readonly Pure[]): Pure => ({
  litres: pures.reduce((sum, one) => sum + one.litres, 0),
  proof_gallons: pures.reduce((sum, one) => sum + one.proof_gallons, 0),
});

/** What a table counts in, for its head. */
export const countedIn = (units: Units): string =>
  ({
    metric: 'litres at 20\u00a0°C',
    us: 'US proof gallons',
    both: 'litres at 20\u00a0°C (US proof gallons)',
  })[units];

/** The same, for the head of a column. */
export const pureHead = (units: Units): string =>
  ({ metric: 'L', us: 'proof gal', both: 'L (proof gal)' })[units];

/** Of the figure that stands first. A plain "L" would be told in gallons as well, where both are. */
export const unitOf = (units: Units): string =>
  ({ metric: 'L', us: 'proof gal', both: 'L pure' })[units];
export const firstOf = (pure: Pure, units: Units): number =>
  units === 'us' ? pure.proof_gallons : pure.litres;

/** "0.843", "0.443" or "0.843 (0.443)"; an en dash where nothing is known. */
export function pureText(pure: Pure | undefined, units: Units, decimals = 3): string {
  if (!pure) return '–';
  const first = printed(firstOf(pure, units), decimals);
  return units === 'both' ? `${first} (${printed(pure.proof_gallons, decimals)})` : first;
}

/** "0.14 ± 0.09 L pure (0.07 ± 0.05 proof gal)": with half its band. */
export function pureWithBand(pure: Pure, doubt: Pure, units: Units): string {
  const of = (key: keyof Pure, unit: string) => {
    const [value, half] = [pure[key], doubt[key]];
    return `${printed(value, 2)} ${bandOf(value, value - half, value + half, 2)} ${unit}`;
  };
  const litres = of('litres', 'L');
  const gallons = of('proof_gallons', 'proof gal');
  return { metric: litres, us: gallons, both: `${litres} (${gallons})` }[units];
}

/** In a sentence, with its unit: "0.843 L pure", "0.443 proof gal", "0.843 L pure (0.443 proof gal)". */
export function pureWords({ litres, proof_gallons }: Pure, units: Units, decimals = 3): string {
  const gallons = `${printed(proof_gallons, decimals)}\u00a0proof\u00a0gal`;
  if (units === 'us') return gallons;
  const pure = `${printed(litres, decimals)}\u00a0L pure`;
  return units === 'both' ? `${pure} (${gallons})` : pure;
}
