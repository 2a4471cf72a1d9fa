// Figures as text: lining digits, a true minus, thin spaces between thousands from 10 000 on, and
// never more decimals than are worth showing. No locale: a decimal point everywhere, as in the
// recipe and kit files.

const THIN = '\u202f';
const MINUS = '\u2212';

/** "−0.06", "12 480"; an absent or infinite value is an en dash, which says that nothing is known. */
export function printed(value: number | null | undefined, decimals = 0): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '–';
  const fixed = Math.abs(value).toFixed(decimals);
  const negative = value < 0 && Number(fixed) !== 0;
  const [whole, part] = fixed.split('.') as [string, string?];
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN) : whole;
  return (negative ? MINUS : '') + grouped + (part === undefined ? '' : `.${part}`);
}

const unspaced = (text: string) =>
  text.replace(/[\u2212\u2013]/g, '-').replace(/[\s\u202f\u00a0]/g, '');

/** One comma, three digits after it, and before it what may stand before a mark of thousands: no nought at
 *  its head, and no more than three digits. */
const EITHER = /^[+-]?[1-9]\d{0,2},\d{3}$/;

/**
 * A number that a person typed: point or comma, true minus or hyphen. Undefined when it is none, and when
 * its comma may part thousands as well as decimals ("1,200"): a thousandfold slip is not to be guessed at.
 */
export function typed(text: string): number | undefined {
  const said = unspaced(text);
  return EITHER.test(said) ? undefined : decimal(said);
}

/** The same where thousands cannot be meant, as of a specific gravity: "1,062" is 1.062. */
export const typedDecimal = (text: string): number | undefined => decimal(unspaced(text));

/** A text with each figure's decimal comma as a point, "1,5 L @ 32,5 %vol": what the house reads has points.
 *  A comma that may part thousands stays, to be asked about. */
export const pointed = (text: string): string =>
  text.replace(/\d*[.,]\d[\d.,]*/g, (figure) =>
    typed(figure) === undefined ? figure : figure.replace(',', '.'),
  );

/** The sentence at a field whose figure can be read in two ways, with or without a unit after it. */
export function twoWays(text: string): string | undefined {
  const figure = /^\s*[-+\u2212\u2013]?[\d,]+(?![\d.,])/.exec(text)?.[0].trim() ?? '';
  if (!EITHER.test(unspaced(figure))) return undefined;
  const [whole, part] = figure.split(',') as [string, string];
  const decimals = `${whole}.${part}`.replace(/\.?0+$/, '');
  return `“${text.trim()}” can be read in two ways: write ${whole}${part} or ${decimals === whole ? `${whole}.0` : decimals}.`;
}

function decimal(said: string): number | undefined {
  const plain = said.replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined; // four hundred digits are no number
}

/**
 * The band as it is printed: "± 0.3" when it lies evenly about the value, else "(86–91)". One that
 * rounds to nothing gets a digit more, "± 0.04", and one that is nothing then too is left out: no
 * figure claims that there is no doubt.
 */
export function bandOf(value: number, low: number, high: number, decimals: number): string {
  const below = (value - low).toFixed(decimals);
  const above = (high - value).toFixed(decimals);
  if (below === above && value >= low && value <= high) {
    const finer = Number(above) === 0 ? decimals + 1 : decimals;
    const band = Math.max(value - low, high - value);
    return Number(band.toFixed(finer)) === 0 ? '' : `±${THIN}${printed(band, finer)}`;
  }
  return `(${range(low, high, decimals)})`;
}

/** "86–91"; with a minus in it, "−2 to 3". Ends that look alike get a digit more, if they differ. */
export function range(low: number, high: number, decimals: number): string {
  const alike = low !== high && printed(low, decimals) === printed(high, decimals);
  const finer = decimals + (alike ? 1 : 0);
  const [from, to] = [printed(low, finer), printed(high, finer)];
  return from.startsWith(MINUS) || to.startsWith(MINUS) ? `${from} to ${to}` : `${from}–${to}`;
}

/** "1 h 10 min", "24 min", "3 days": a length of time for people. */
export function lengthOfTime(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 0) return `${MINUS}${lengthOfTime(-minutes)}`;
  if (whole < 60) return `${whole} min`;
  if (whole < 48 * 60) {
    const rest = whole % 60;
    return `${Math.floor(whole / 60)} h${rest ? ` ${rest} min` : ''}`;
  }
  const days = whole / 1440;
  return `${Number.isInteger(days) ? days : days.toFixed(1)} days`;
}

/** "40 min", "5 h", "3 days": how far off something is, to be read at a glance. */
export function away(milliseconds: number): string {
  const minutes = Math.round(Math.abs(milliseconds) / 60_000);
  if (minutes < 90) return `${minutes} min`;
  const hours = Math.round(minutes / 60);
  return hours < 36 ? `${hours} h` : `${Math.round(hours / 24)} days`;
}

/** "1:04:09" or "31:05": what is left on a clock. */
export function countdown(milliseconds: number): string {
  const seconds = Math.ceil(Math.max(0, milliseconds) / 1000);
  const two = (n: number) => String(n).padStart(2, '0');
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

/**
 * "21:48", in the device's time zone. To the nearest second first: what was told on the whole minute
 * would else jump back and forth with the few milliseconds between two clocks.
 */
export function timeOfDay(milliseconds: number): string {
  const when = new Date(milliseconds + 500);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(when.getHours())}:${two(when.getMinutes())}`;
}
