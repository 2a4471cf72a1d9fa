// What drying leaves of a spirit, which makes an alcoholmeter read low: in grams a litre, or, in US
// units, in milligrams to 100 millilitres, as 27 CFR 30.31 has its limits.
import { printed, typed } from '../data/figures';
import type { Units } from '../data/units';

const MOST_g_L = 50;
const MG_PER_100_ML = 100; // in one g/L

export const residueUnit = (units: Units): string => (units === 'us' ? 'mg/100 mL' : 'g/L');

/** How it is found, as a help at its field. */
export const residueFound = (units: Units): string =>
  units === 'us'
    ? '100 mL evaporated to dryness and weighed'
    : '100 mL evaporated to dryness and weighed, times ten';

export const residueAccepted = (units: Units): string =>
  `0 to ${printed(units === 'us' ? MOST_g_L * MG_PER_100_ML : MOST_g_L)} ${residueUnit(units)}`;

/** In g/L, of "4.1", "4.1 g/L", "410 mg/100 mL"; a plain number is in the field's unit. */
export function residueTyped(text: string, units: Units): number | undefined {
  const found = /^(.*?\d[.,]?)\s*(g\s*\/\s*L|mg\s*\/\s*100\s*mL)?\s*$/i.exec(text);
  const value = found ? typed(found[1]!) : undefined;
  if (value === undefined) return undefined;
  const said = found![2] ?? residueUnit(units);
  const residue_g_L = /^mg/i.test(said) ? value / MG_PER_100_ML : value;
  return residue_g_L >= 0 && residue_g_L <= MOST_g_L ? residue_g_L : undefined;
}

/** "4.1 g/L", "410 mg/100 mL", "4.1 g/L (410 mg/100 mL)". */
export function residueText(residue_g_L: number, units: Units): string {
  const metric = `${printed(residue_g_L, 1)}\u00a0g/L`;
  const us = `${printed(residue_g_L * MG_PER_100_ML)}\u00a0mg/100\u00a0mL`;
  return { metric, us, both: `${metric} (${us})` }[units];
}
