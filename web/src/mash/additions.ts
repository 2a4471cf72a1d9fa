// What goes into a mash or a ferment beside its grain, water and yeast: by name, in which measure, and
// with which caution. Names and cautions are common practice, no source.
import { gramsTyped, massTyped, volumeTyped } from '../data/measured';
import { quantity, type Units } from '../data/units';

export type Care = 'acid' | 'lime' | 'powder' | 'foam' | 'hot' | 'food';

export interface Addable {
  what: string;
  mass?: 'g' | 'kg';
  volume?: 'mL' | 'L';
  care?: Care;
}

export const OTHER = 'something else';
export const WATER = 'water';

const other: Addable = { what: OTHER, mass: 'g', volume: 'mL' };
const enzyme = { mass: 'g', volume: 'mL', care: 'powder' } as const;

export const ADDABLE: Record<'mash' | 'ferment', readonly Addable[]> = {
  mash: [
    { what: 'liquefying enzyme', ...enzyme },
    { what: 'saccharifying enzyme', ...enzyme },
    { what: 'beta-glucanase', ...enzyme },
    { what: 'malt', mass: 'kg' },
    { what: 'sugar', mass: 'kg' },
    { what: 'hulls', mass: 'kg' },
    { what: 'acid', mass: 'g', volume: 'mL', care: 'acid' },
    { what: 'calcium salt', mass: 'g' },
    { what: 'backset', volume: 'L', care: 'hot' },
    { what: 'antifoam', mass: 'g', volume: 'mL', care: 'food' },
    { what: WATER, volume: 'L' },
    other,
  ],
  ferment: [
    { what: 'yeast food', mass: 'g', care: 'foam' },
    { what: 'yeast', mass: 'g' },
    { what: 'sugar', mass: 'kg', care: 'foam' },
    { what: 'acid', mass: 'g', volume: 'mL', care: 'acid' },
    { what: 'chalk', mass: 'g', care: 'foam' },
    { what: 'slaked lime', mass: 'g', care: 'lime' },
    { what: 'saccharifying enzyme', ...enzyme },
    { what: 'antifoam', mass: 'g', volume: 'mL', care: 'food' },
    { what: 'finings', mass: 'g', volume: 'mL' },
    { what: 'backset', volume: 'L', care: 'hot' },
    other,
  ],
};

/** Whether a unit stands behind the figure: a bare one is of the field's unit alone. */
const hasUnit = (text: string) => /[a-z]\s*$/i.test(text);
const overNought = (value: number | undefined) =>
  value !== undefined && value > 0 ? value : undefined;

/** Kilograms, from "55 g", "2 kg", "0.5 lb"; a bare figure is of the field's unit. */
export function addedMass(text: string, unit: 'g' | 'kg', units: Units): number | undefined {
  const grams = gramsTyped(text, units);
  const inGrams = grams === undefined ? undefined : grams / 1000;
  if (!hasUnit(text)) return overNought(unit === 'g' ? inGrams : massTyped(text, units));
  return overNought(massTyped(text, units) ?? inGrams);
}

/** Litres, likewise. */
export function addedVolume(text: string, unit: 'mL' | 'L', units: Units): number | undefined {
  const other = unit === 'L' ? 'mL' : 'L';
  const value = volumeTyped(text, units, unit);
  return overNought(hasUnit(text) ? (value ?? volumeTyped(text, units, other)) : value);
}

const amount = (value: number, [small, large]: readonly [string, string], units: Units) =>
  value < 1
    ? quantity(value * 1000, small, value < 0.01 ? 1 : 0, units)
    : quantity(value, large, 2, units);

/** "yeast food, 24 g"; "water, 0.40 L at 18.0 °C". */
export function addedWords(body: Record<string, unknown>, units: Units): string {
  const { what, mass_kg: mass, volume_L: volume, temperature_C: warmth } = body;
  return [
    typeof what === 'string' ? what : WATER,
    typeof mass === 'number' ? amount(mass, ['g', 'kg'], units) : '',
    typeof volume === 'number'
      ? amount(volume, ['mL', 'L'], units) +
        (typeof warmth === 'number' ? ` at ${quantity(warmth, '°C', 1, units)}` : '')
      : '',
  ]
    .filter(Boolean)
    .join(', ');
}
