// Metric, US customary or both, for showing. Changing a unit is arithmetic and may be done here;
// changing a reference temperature (strength at 20 °C against proof at 60 °F) is physics: proof.ts has
// the house's own figures of it. Factors: NIST SP 811 (2008), appendix B, exact.
import { pointed, printed, twoWays, typed } from './figures';
import { proofOfPercent } from './proof';

export type Units = 'metric' | 'us' | 'both';

interface Twin {
  unit: string; // the US unit
  factor: number;
  offset?: number;
  decimals: number; // more decimals than the metric figure has
  metric?: string; // as the metric unit is shown, where the key tells more
}

/** Proof gallons in a litre of pure alcohol at 20 °C: of one mass of ethanol (27 CFR 30.11). */
const PROOF_GALLONS = 0.525817;

const twins: Record<string, Twin> = {
  '°C': { unit: '°F', factor: 1.8, offset: 32, decimals: 0 },
  K: { unit: '°F', factor: 1.8, decimals: 0 },
  L: { unit: 'gal', factor: 1 / 3.785411784, decimals: 1 },
  // Pure alcohol is counted in proof gallons, as the ledger does; in a table's cell its unit is plain.
  'L of alcohol': { unit: 'proof gal', factor: PROOF_GALLONS, decimals: 0, metric: 'L' },
  'mL of alcohol': { unit: 'proof gal', factor: PROOF_GALLONS / 1000, decimals: 3, metric: 'mL' },
  mL: { unit: 'fl oz', factor: 1 / 29.5735295625, decimals: 1 },
  kg: { unit: 'lb', factor: 1 / 0.45359237, decimals: 0 },
  g: { unit: 'oz', factor: 1 / 28.349523125, decimals: 1 },
  'L/h': { unit: 'gal/h', factor: 1 / 3.785411784, decimals: 1 },
  'L/min': { unit: 'gal/min', factor: 1 / 3.785411784, decimals: 1 },
  // Of gas and air, which nobody tells in gallons.
  'm³': { unit: 'ft³', factor: 1 / 0.028316846592, decimals: 0 },
  'm³/h': { unit: 'ft³/h', factor: 1 / 0.028316846592, decimals: 0 },
  'L/h of gas': { unit: 'ft³/h', factor: 1 / 28.316846592, decimals: 1 },
  'g/L': { unit: 'oz/gal', factor: 3.785411784 / 28.349523125, decimals: 1 },
  'cm²/L': { unit: 'in²/gal', factor: 3.785411784 / 6.4516, decimals: 0 },
  mm: { unit: 'in', factor: 1 / 25.4, decimals: 1 },
  m: { unit: 'ft', factor: 1 / 0.3048, decimals: 0 },
  hPa: { unit: 'inHg', factor: 1 / 33.86389, decimals: 2 },
};

export interface Shown {
  value: number;
  unit: string;
  decimals: number;
}

/** A metric unit as it is shown: pure alcohol's is a plain litre. */
export const metricUnit = (unit: string): string => twins[unit]?.metric ?? unit;

/** The same figure in US units, or undefined where US makers use the same unit. */
export function inUs(value: number, unit: string, decimals: number): Shown | undefined {
  const twin = twins[unit];
  if (!twin) return undefined;
  return {
    value: value * twin.factor + (twin.offset ?? 0),
    unit: twin.unit,
    decimals: decimals + twin.decimals,
  };
}

/** From a quart on, millilitres are told in gallons where their unit stands beside them. */
const QUART_mL = 946.352946;
const inWords = (value: number, unit: string, decimals: number): Shown | undefined =>
  unit === 'mL' && Math.abs(value) >= QUART_mL
    ? inUs(value / 1000, 'L', decimals + 2)
    : inUs(value, unit, decimals);

/**
 * A strength of which it is not known what it is of: from here on it is a spirit's, which US makers
 * gauge in proof; below, a wash's or a difference of two strengths, which stay in %vol.
 */
export const PROOF_FROM = 20;

/** Whether a strength is told in proof: of a spirit always, of a wash or a glass (false) never. */
const inProofToo = (value: number, unit: string, spirit: boolean | undefined): boolean =>
  spirit === undefined ? /^%vol\b/.test(unit) && value >= PROOF_FROM : spirit && /^%/.test(unit);

/** A strength in proof; what follows its unit stays, as in "%vol true". */
export const inProof = (percent: number, unit: string, decimals: number): Shown => ({
  value: proofOfPercent(percent),
  unit: unit.replace(/^%(vol)?/, 'proof'),
  decimals,
});

/**
 * What to show first, and what in brackets behind it. Proof has its %vol behind it also in US units:
 * that is what a label states (27 CFR 5.65).
 */
export function inUnits(
  value: number,
  unit: string,
  decimals: number,
  units: Units,
  spirit?: boolean,
): { first: Shown; second?: Shown } {
  const metric = { value, unit: metricUnit(unit), decimals };
  if (units !== 'metric' && inProofToo(value, unit, spirit))
    return units === 'us'
      ? { first: inProof(value, unit, decimals), second: { ...metric, unit: '%vol' } }
      : { first: metric, second: inProof(value, '%vol', decimals) };
  const us = units === 'metric' ? undefined : inUs(value, unit, decimals);
  if (!us) return { first: metric };
  return units === 'us' ? { first: us } : { first: metric, second: us };
}

/** "26.0 L", "6.87 gal" or "26.0 L (6.87 gal)". */
export function quantity(
  value: number,
  unit: string,
  decimals: number,
  units: Units,
  spirit?: boolean,
): string {
  let { first, second } = inUnits(value, unit, decimals, units, spirit);
  if (unit === 'mL' && units === 'us') first = inWords(value, unit, decimals)!;
  if (unit === 'mL' && units === 'both') second = inWords(value, unit, decimals)!;
  const text = (s: Shown) => `${printed(s.value, s.decimals)}\u00a0${s.unit}`.trimEnd();
  return second ? `${text(first)} (${text(second)})` : text(first);
}

/** Figures that a sentence holds against each other, with so many decimals that those which differ look
 *  different: "5.98 L" and "6.00 L". Two more at most: what is nearer than that is alike. */
export function quantities<const All extends readonly number[]>(
  values: All,
  unit: string,
  decimals: number,
  units: Units,
): { [K in keyof All]: string } {
  const different = new Set(values).size;
  const texts = (finer: number) =>
    values.map((value) => quantity(value, unit, decimals + finer, units));
  const enough = [0, 1, 2].find((finer) => new Set(texts(finer)).size === different);
  return texts(enough ?? 0) as { [K in keyof All]: string };
}

/** A spirit's strength in a sentence: "55.0 %vol", "109.9 proof (55.0 %vol)". */
export const strengthText = (percent: number, units: Units, decimals = 1): string =>
  quantity(percent, '%vol', decimals, units, true);

/** The same where there is room for one figure alone, as in a list to choose from. */
export const briefStrength = (percent: number, units: Units, decimals = 1): string =>
  units === 'us'
    ? `${printed(proofOfPercent(percent), decimals)}\u00a0proof`
    : `${printed(percent, decimals)}\u00a0%vol`;

/** What stands in a field of a spirit's strength before anything is typed: "55.0", or "109.9 proof" where
 *  US units are shown, with its word, since a plain figure is taken in %vol. */
export const strengthInField = (percent: number, units: Units): string =>
  units === 'us' ? `${printed(proofOfPercent(percent), 1)} proof` : printed(percent, 1);

/** Beside a field of a strength, where US units are shown: what is typed in %vol, in proof, and in %vol
 *  what is typed in proof. */
export function alsoInProof(
  percent: number | undefined,
  units: Units,
  typed = '',
): string | undefined {
  if (percent === undefined || units === 'metric') return undefined;
  const [vol, proof] = [briefStrength(percent, 'metric'), briefStrength(percent, 'us')];
  return /proof/i.test(typed)
    ? `${proof} is ${vol}; a figure without its word is in %vol`
    : `${vol} is ${proof}; proof is taken too, with its word`;
}

/** Beside a field that shows the words of a text, which stay as they were written: the same in US units
 *  where they are shown, "17.6 lb" of "8 kg". Undefined where nothing in it changes. */
export function alsoInUs(words: string, units: Units): string | undefined {
  if (units === 'metric' || !/^\s*[\d.]/.test(words) || twoWays(words)) return undefined;
  const plain = pointed(words)
    .replace(/(\d)(?=[A-Za-z°])/g, '$1 ')
    .replace(/\bm3\b/, 'm³')
    .replace(/\bcm2\b/, 'cm²')
    // Whole kilograms are no whole pounds.
    .replace(/(?<![\d.])(\d+)(?= (?:kg|g|L|mL)\b)/g, '$1.0');
  const said = restated(plain, 'us');
  return said === restated(plain, 'metric') ? undefined : said;
}

/** Beside a field of what an alcoholmeter shows: some are divided in proof. */
export const glassInProof = (units: Units): string | undefined =>
  units === 'metric' ? undefined : 'or in proof, with its word: 146 proof';

// A figure, perhaps a range, and its unit: neither may be part of a longer word or unit ("mg/100 mL").
const figures =
  /(?<![/\d.])(?:((?:(?<![\p{L}\d])[-\u2212])?\d+(?:\.\d+)?)( to | and |–))?((?:(?<![\p{L}\d–])[-\u2212])?\d+(?:\.\d+)?)[ \u00a0](%vol|mL|L\/min|L\/h|L|kg|g\/L|g|m³\/h|m³|cm²\/L|mm|m|hPa|°C|K)(?![A-Za-z0-9/²³])/gu;

// What a glass shows, or how far something may be off, is no strength of a spirit.
const OF_A_GLASS = /(?:±|expected|within|by|reads|shows|read|hydrometer|alcoholmeter)[ \u202f]*$/i;

/** Of a figure in %vol within a sentence; undefined where it stays as it is. */
function proofWithin(
  before: string,
  [from, to, at]: readonly [string | undefined, string | undefined, string],
  units: Units,
): string | undefined {
  const plain = before.replaceAll('\u00a0', ' ');
  if (Number(at) < PROOF_FROM || /\bproof \($/.test(plain) || OF_A_GLASS.test(plain))
    return undefined;
  // One figure to a tenth at the least, as everywhere: 55 %vol are 109.9 proof, not 110 here and 109.9
  // there. The ends of a range are as round as they were said.
  const least = from === undefined ? 1 : 0;
  const one = (figure: string) =>
    printed(
      proofOfPercent(Number(figure)),
      Math.max(least, (/\.(\d+)/.exec(figure)?.[1] ?? '').length),
    );
  const said = `${from === undefined ? '' : `${from}${to}`}${at}\u00a0%vol`;
  const proof = `${from === undefined ? '' : `${one(from)}${to}`}${one(at)}\u00a0proof`;
  const [first, second] = units === 'us' ? [proof, said] : [said, proof];
  const within = plain.lastIndexOf('(') > plain.lastIndexOf(')');
  return within ? `${first}, ${second}` : `${first} (${second})`;
}

/** "68.00 °C", as the house names a temperature that it cannot take, is told to a tenth like all others. */
export const inTenths = (text: string): string => text.replace(/(\d\.\d)0(?=\s?°C)/g, '$1');

/**
 * A sentence of the house, which says its findings and steps once and in metric, with its figures in
 * these units: "36.0 L" becomes "9.51 gal" or "36.0 L (9.51 gal)". Not for what a person wrote. Where
 * strengths are readings, or may be, they stay as they were read.
 */
export function restated(sentence: string, units: Units, strengths = true): string {
  // A figure and its unit never part at a line's end.
  const held = inTenths(sentence).replace(
    /(\d) (mL|L|kg|g|m³|cm²|mm|m|°C|°F|gal|fl oz|lb|oz|K|min|h|d|days|%vol|%|hPa|W|kW)(?![A-Za-z])/g,
    '$1\u00a0$2',
  );
  if (units === 'metric') return held;
  return held.replace(
    figures,
    (
      found: string,
      from: string | undefined,
      to: string | undefined,
      at: string,
      unit: string,
      place: number,
    ) => {
      // In both already.
      const after = held.slice(place + found.length);
      if (units === 'both' && /^\s\([\d\u2212]/.test(after)) return found;
      const pure = unit === 'L' && /^\s(?:of )?pure\b/.test(after);
      if (pure && units === 'both' && /^\s(?:of pure alcohol|pure) \(\d/.test(after)) return found;
      if (unit === '%vol')
        return (strengths && proofWithin(held.slice(0, place), [from, to, at], units)) || found;
      // How far a thermometer may be off is a difference: it has no freezing point to count from.
      const off =
        unit === '°C' &&
        (/(?:thermometer to|±|within|by|by less than) $/.test(
          held.slice(0, place).replaceAll('\u00a0', ' ').replaceAll('\u202f', ' '),
        ) ||
          /^ of the thermometer/.test(after));
      // Both ends of a range in the unit of the greater.
      const inGallons = unit === 'mL' && Number(at) >= QUART_mL;
      const shown = (figure: string) =>
        inGallons
          ? inUs(Number(figure) / 1000, 'L', (/\.(\d+)/.exec(figure)?.[1] ?? '').length + 2)!
          : inUs(
              Number(figure.replace('\u2212', '-')),
              off ? 'K' : pure ? 'L of alcohol' : unit,
              (/\.(\d+)/.exec(figure)?.[1] ?? '').length,
            )!;
      const last = shown(at);
      const first = from === undefined ? undefined : shown(from);
      const us = `${first ? printed(first.value, first.decimals) + to! : ''}${printed(last.value, last.decimals)}\u00a0${last.unit}`;
      return units === 'both' ? `${found} (${us})` : us;
    },
  );
}

/** The temperature that volumes and strengths are told at: in US units in words alone, as nothing changes. */
export const atReference = (units: Units): string => (units === 'us' ? 'at 68 °F' : 'at 20 °C');

/** Below this, a US quart, a shelf's spirit is told as a jar of it is. */
export const OF_JARS_L = QUART_mL / 1000;

/**
 * How what is poured from jars is told, of litres: in litres, or, where US units are shown and the
 * whole is not much, from millilitres, which makes it the fluid ounces that the jars are told in.
 * Times gives the figure of that unit, fewer the decimals that it then lacks.
 */
export function ofJars(whole_L: number, units: Units) {
  return units !== 'metric' && whole_L < OF_JARS_L
    ? { unit: 'mL', times: 1000, fewer: 3 }
    : { unit: 'L', times: 1, fewer: 0 };
}

/** How jars are told, of the millilitres of the largest: times makes the figure of that unit. */
export const jarsIn = (largest_mL: number, units: Units) =>
  units !== 'metric' && largest_mL >= QUART_mL
    ? { unit: 'L', times: 1 / 1000, decimals: 2 }
    : { unit: 'mL', times: 1, decimals: 0 };

/** What stands in a field before anything is typed, of a metric figure: "20", or "68" in °F. */
export function inField(value: number, unit: string, decimals: number, units: Units): string {
  const us = units === 'us' ? inUs(value, unit, decimals) : undefined;
  return us ? us.value.toFixed(unit === '°C' ? decimals : us.decimals) : value.toFixed(decimals);
}

/** A metric figure as it would be typed, with its unit, so that it is read back as it was: "1 gal". */
export function asTyped(value: number, unit: string, units: Units): string {
  if (!Number.isFinite(value)) return '';
  const us = units === 'us' ? inUs(value, unit, 0) : undefined;
  return `${Number((us?.value ?? value).toPrecision(10))} ${us?.unit ?? unit}`;
}

/** From one figure to another, as a field that shows this unit names its limits: "−20 to 40 °C",
 *  "−4 to 104 °F"; in both, the second behind in brackets. */
export function between(
  low: number,
  high: number,
  unit: string,
  decimals: number,
  units: Units,
): string {
  const ends = [low, high].map((end) => inUnits(end, unit, decimals, units));
  const text = (of: (end: (typeof ends)[number]) => Shown | undefined): string => {
    const [from, to] = ends.map(of);
    return from && to
      ? `${printed(from.value, from.decimals)} to ${printed(to.value, to.decimals)}\u00a0${to.unit}`
      : '';
  };
  const second = text((end) => end.second);
  return `${text((end) => end.first)}${second && ` (${second})`}`;
}

/** The unit that a plain number means in a field of this metric unit. */
export function unitOfField(unit: string, units: Units): string {
  return units === 'us' ? (twins[unit]?.unit ?? unit) : metricUnit(unit);
}

const folded = (word: string) => word.toLowerCase().replace(/[\s\u00a0.]/g, '');

/** Each unit's spellings, folded. */
const SPELLED: Readonly<Record<string, string>> = {
  '°C': '°c c degc celsius',
  '°F': '°f f degf fahrenheit',
  L: 'l litre litres liter liters',
  mL: 'ml millilitre millilitres milliliter milliliters',
  cL: 'cl',
  hL: 'hl',
  gal: 'gal gallon gallons usgal usgallon usgallons',
  'imp gal': 'impgal imperialgal imperialgallon imperialgallons',
  qt: 'qt qts quart quarts',
  pt: 'pt pts pint pints',
  cup: 'cup cups',
  'fl oz': 'floz',
  kg: 'kg kilogram kilograms',
  g: 'g gram grams',
  lb: 'lb lbs pound pounds',
  oz: 'oz ounce ounces',
};
const alike: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(SPELLED).flatMap(([unit, words]) => words.split(' ').map((word) => [word, unit])),
);

/** Spellings of those that stand in a text as they were typed, since the house reads them there
 *  (src/units/kind.cpp). */
const HOUSE_READS =
  /^(?:[cmh]?[lL]|(?:milli)?lit(?:re|er)s?|(?:US )?gal(?:lons?)?|imp\.? gal|imperial (?:gal|gallons?)|qt|quarts?|pt|pints?|cups?|fl oz|floz|lbs?|pounds?|kg|(?:kilo)?grams?|g|oz|ounces?|°[CF]|deg ?[CF]|[CF]|[cC]elsius|[fF]ahrenheit)$/;

/** A unit's word as the house reads it in a text: "KG" and "lbs." are taken in fields, and not there. */
export const unitWritten = (word: string): string =>
  HOUSE_READS.test(word) ? word : (alike[folded(word)] ?? word);

/** Every unit that a field of a volume or of a mass takes, in millilitres and grams; US measures are the
 *  United States' own, an imperial gallon is told as one. NIST SP 811 (2008), appendix B.8, exact. */
const ALIKE_KINDS: readonly Readonly<Record<string, number>>[] = [
  {
    L: 1000,
    mL: 1,
    cL: 10,
    hL: 100_000,
    gal: 3785.411784,
    'imp gal': 4546.09,
    qt: QUART_mL,
    pt: QUART_mL / 2,
    cup: QUART_mL / 4,
    'fl oz': QUART_mL / 32,
  },
  { kg: 1000, g: 1, lb: 453.59237, oz: 28.349523125 },
];

/**
 * What a person typed into a field, in the field's metric unit: "3.9", "3,9 L", "1 gal", "158 F".
 * Undefined when it is no number, or the unit is of another kind. Strengths are for the house.
 */
export function typedAs(text: string, unit: string, units: Units): number | undefined {
  const found = /^\s*([-+\u2212\d.,\s\u202f]*\d[.,]?)\s*([^\d]*)$/.exec(text);
  if (!found) return undefined;
  const value = typed(found[1]!);
  if (value === undefined) return undefined;
  const word = found[2]!.trim();
  const said = word === '' ? unitOfField(unit, units) : (alike[folded(word)] ?? word);
  if (said === unit) return value;
  const twin = twins[unit];
  if (twin?.unit === said) return (value - (twin.offset ?? 0)) / twin.factor;
  const kind = ALIKE_KINDS.find((one) => unit in one && said in one);
  return kind && (value * kind[said]!) / kind[unit]!;
}
