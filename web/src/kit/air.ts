// A barometer's reading as it is typed, and the air and the copper as a line of words.
import { printed } from '../data/figures';
import { between, quantity, typedAs, type Units } from '../data/units';

/** What the house accepts; wide on purpose. */
const PRESSURE_HPA = [300, 1100] as const;

export const acceptedPressure = (units: Units): string =>
  `a pressure such as 1003 hPa or 29.6 inHg, from ${between(...PRESSURE_HPA, 'hPa', 0, units)}`;

/** Hectopascals, from "1003", "1003 hPa", "1003 mbar", "29.6 inHg". */
export function pressureTyped(text: string, units: Units): number | undefined {
  const plain = text
    .replace(/\s*(hpa|mbar|mb)\s*$/i, ' hPa')
    .replace(/\s*(inhg|in\.?\s*hg)\s*$/i, ' inHg');
  const value = typedAs(plain, 'hPa', units);
  return value !== undefined && value >= PRESSURE_HPA[0] && value <= PRESSURE_HPA[1]
    ? value
    : undefined;
}

/** "1003 hPa, boiling water reads 99.6 °C". */
export function airWords(body: Record<string, unknown>, units: Units): string {
  const { pressure_hPa: pressure, boiling_water_C: boiling } = body;
  return [
    typeof pressure === 'number' ? quantity(pressure, 'hPa', pressure % 1 ? 1 : 0, units) : '',
    typeof boiling === 'number' ? `boiling water reads ${quantity(boiling, '°C', 1, units)}` : '',
  ]
    .filter(Boolean)
    .join(', ');
}

/** "condenser, with citric acid; the drain was green". */
export function copperWords(body: Record<string, unknown>): string {
  const [what, with_, remark] = ['what', 'with', 'remark'].map((key) => String(body[key] ?? ''));
  return `${what}${with_ ? `, with ${with_}` : ''}${remark ? `; ${remark}` : ''}`;
}

interface Runs {
  runs: readonly { at: string; run: string }[];
}

/** What was distilled since the copper was last cleaned, and what the first run after it was. */
export function sinceCleaned(
  cleanings: readonly { at: string }[],
  batches: readonly Runs[],
): { at: string; runs: number; first?: string } | undefined {
  const at = cleanings.map((one) => one.at).reduce((a, b) => (a > b ? a : b), '');
  if (at === '') return undefined;
  const after = batches
    .flatMap((batch) => batch.runs)
    .filter((run) => Date.parse(run.at) > Date.parse(at))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const first = after[0]?.run;
  return { at, runs: after.length, ...(first === undefined ? {} : { first }) };
}

/** The same as a sentence without its day: "3 runs since; the first was a strip." */
export function sinceWords({ runs, first }: { runs: number; first?: string }): string {
  if (runs === 0) return 'No run since.';
  return `${printed(runs)} ${runs === 1 ? 'run' : 'runs'} since; the first was a ${first}.`;
}
