// The ferment from plan, batch and the forecast that its readings corrected: where it stands, when it
// is dry and rested, the curve expected and read. Pure; times are milliseconds of the device.
import type { Batch, FermentForecast, Plan } from '../data/answers';
import { printed } from '../data/figures';
import type { GravityRead, VolumeRead } from '../data/measured';
import { quantity, type Units } from '../data/units';
import type { BandCurve, Measured } from '../parts/chart_data';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

type Told = { at: string } | undefined;

/** Device time of something the house tells. */
const when = (told: Told, ahead_ms: number): number | undefined =>
  told === undefined ? undefined : Date.parse(told.at) + ahead_ms;

export interface Dates {
  pitched_ms: number;
  dry_ms: number | undefined;
  dry_from_ms: number | undefined; // ends of the 80 % band
  dry_to_ms: number | undefined;
  rested_ms: number | undefined;
  rested_from_ms?: number | undefined;
  rested_to_ms?: number | undefined;
  corrected: boolean; // by readings; else by the plan, counted from the pitch
}

/** By the forecast; while it is not there, by the plan. */
export function datesOf(
  batch: Batch | undefined,
  plan: Plan | undefined,
  forecast: FermentForecast | undefined,
  ahead_ms: number,
): Dates | undefined {
  const pitched_ms = when(batch?.ferment.pitch, ahead_ms);
  if (pitched_ms === undefined) return undefined;
  if (forecast) {
    const at = (text: string | undefined) =>
      text === undefined ? undefined : Date.parse(text) + ahead_ms;
    const { dry, rested } = forecast;
    return {
      pitched_ms,
      dry_ms: at(dry.at.median),
      dry_from_ms: at(dry.at.low),
      dry_to_ms: at(dry.at.high),
      rested_ms: at(rested.at.median),
      rested_from_ms: at(rested.at.low),
      rested_to_ms: at(rested.at.high),
      corrected: forecast.readings > 0,
    };
  }
  const pace = plan?.ferment?.pace;
  const days = pace?.ending === 'dry' ? pace.dry_after_days : undefined;
  const at = (d: number | undefined) => (d === undefined ? undefined : pitched_ms + d * DAY);
  return {
    pitched_ms,
    dry_ms: at(days),
    dry_from_ms: undefined,
    dry_to_ms: undefined,
    rested_ms: at(plan?.ferment?.ready_after_days),
    corrected: false,
  };
}

/** The gravity expected with its 80 % band, over days since the pitch. */
export const expectedInDays = (forecast: FermentForecast): BandCurve => ({
  x: forecast.course.map((p) => p.hours / 24),
  middle: forecast.course.map((p) => p.specific_gravity.median),
  low: forecast.course.map((p) => p.specific_gravity.low),
  high: forecast.course.map((p) => p.specific_gravity.high),
});

/** The planned gravity, laid at the pitch; before it, over hours from nought. */
export function curveOf(plan: Plan | undefined, pitched_ms: number): BandCurve {
  const course = plan?.ferment?.pace?.course ?? [];
  return {
    x: course.map((p) => pitched_ms + p.at_h * HOUR),
    middle: course.map((p) => p.gravity),
  };
}

/** Whether a reading is told for a time before the yeast went in, clocks apart: then it is of the wort. */
export const beforePitch = (pitch: { at: string } | undefined, read: { at: string }): boolean =>
  pitch !== undefined && Date.parse(read.at) < Date.parse(pitch.at) - 10 * MINUTE;

/** What was read, true, with the wort as its first point; not what was read before that. */
export function readOf(
  batch: Batch | undefined,
  ahead_ms: number,
  doubts: FermentForecast['doubts'] = [],
): Measured[] {
  const believed = (entry: string) => !doubts.some((d) => d.entry === entry);
  const pitch = batch?.ferment.pitch;
  const first = pitch
    ? [{ x: Date.parse(pitch.at) + ahead_ms, y: pitch.specific_gravity, believed: true }]
    : [];
  return [
    ...first,
    ...(batch?.ferment.readings ?? []).flatMap((r) =>
      r.specific_gravity === undefined || beforePitch(pitch, r)
        ? []
        : [{ x: Date.parse(r.at) + ahead_ms, y: r.specific_gravity, believed: believed(r.entry) }],
    ),
  ];
}

export interface Standing {
  gravity: number;
  still: boolean; // two readings a day apart or more, hardly a difference between
}

/** Gravities read a day apart that differ by less are alike to a hydrometer. */
const ALIKE = 0.001;

/** Where it stands by the readings that are believed. Whether it sticks, the house says. */
export function standingOf(
  batch: Batch | undefined,
  doubts: FermentForecast['doubts'] = [],
): Standing | undefined {
  const points = readOf(batch, 0, doubts).filter((p) => p.believed);
  const last = points.at(-1);
  if (!last || points.length < 2) return undefined;
  const before = points.slice(1).findLast((p) => last.x - p.x >= 0.9 * DAY);
  return {
    gravity: last.y,
    still: before !== undefined && Math.abs(before.y - last.y) < ALIKE,
  };
}

/** The day of the ferment, that of the pitch being the first. */
export const dayOfFerment = (pitched_ms: number, at_ms: number): number =>
  Math.max(1, Math.floor((at_ms - pitched_ms) / DAY) + 1);

/** "Wed 2 Dec, 14:00": a day of the coming weeks. */
export function dayText(ms: number | undefined): string {
  if (ms === undefined) return '–';
  const d = new Date(ms);
  const days = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
  const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');
  return `${days[d.getDay()]} ${d.getDate()} ${months[d.getMonth()]}`;
}

/** The days of an 80 % band in words, where one is told. */
export const bandOfDays = (from: number | undefined, to: number | undefined): string | undefined =>
  from === undefined
    ? undefined
    : `${dayText(from)} to ${to === undefined ? 'later than can be said' : dayText(to)}`;

/** Over days since the pitch: a time of day says little of a ferment. */
export const inDays = (points: readonly Measured[], pitched_ms: number): Measured[] =>
  points.map((p) => ({ ...p, x: (p.x - pitched_ms) / DAY }));

export const curveInDays = (curve: BandCurve, pitched_ms: number): BandCurve => ({
  ...curve,
  x: curve.x.map((x) => (x - pitched_ms) / DAY),
});

type Body = Readonly<Record<string, unknown>>;

/** The wort's gravity of a pitch that is on this device only; undefined where the house has to reckon it. */
export function gravityPitched(body: Body | undefined): number | undefined {
  const gravity = body?.['gravity'] as GravityRead | undefined;
  return gravity?.scale === 'specific_gravity' ? gravity.reading : undefined;
}

/** A reading that waits, as it was read: "1.047 at 22 °C; wash 22.5 °C". */
export function readInWords(body: Body, units: Units): string {
  const gravity = body['gravity'] as GravityRead | undefined;
  const warmth = body['temperature_C'] as number | undefined;
  const unit = { specific_gravity: '', plato: ' °P', brix: ' °Bx' };
  return [
    gravity
      ? `${printed(gravity.reading, gravity.scale === 'specific_gravity' ? 4 : 1)}${unit[gravity.scale]} at ${quantity(gravity.at_C, '°C', 1, units)}`
      : '',
    warmth === undefined ? '' : `wash ${quantity(warmth, '°C', 1, units)}`,
  ]
    .filter(Boolean)
    .join('; ');
}

/** A racking that waits: "23.5 L clear, 1.2 L of lees". */
export function rackedInWords(body: Body, units: Units): string {
  const clear = body['clear'] as VolumeRead;
  const lees = body['lees_L'] as number | undefined;
  return `${quantity(clear.volume_L, 'L', 1, units)} clear${
    lees === undefined ? '' : `, ${quantity(lees, 'L', 1, units)} of lees`
  }`;
}
