// The ferment from plan and batch: where it stands, when it is dry and rested, the curve planned and
// read. Pure; times are milliseconds of the device.
import type { Batch, Plan } from '../data/answers';
import type { BandCurve, Measured } from '../parts/chart_data';

const HOUR = 3_600_000;
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
}

export function datesOf(
  batch: Batch | undefined,
  plan: Plan | undefined,
  banded: Plan | undefined,
  ahead_ms: number,
): Dates | undefined {
  const pitched_ms = when(batch?.ferment.pitch, ahead_ms);
  if (pitched_ms === undefined) return undefined;
  const pace = plan?.ferment?.pace;
  const days = pace?.ending === 'dry' ? pace.dry_after_days : undefined;
  const band = banded?.figures.days_to_dry;
  const at = (d: number | undefined) => (d === undefined ? undefined : pitched_ms + d * DAY);
  return {
    pitched_ms,
    dry_ms: at(days),
    dry_from_ms: at(band?.low),
    dry_to_ms: at(band?.high),
    rested_ms: at(plan?.ferment?.ready_after_days),
  };
}

/** The planned gravity, laid at the pitch; before it, over hours from nought. */
export function curveOf(plan: Plan | undefined, pitched_ms: number): BandCurve {
  const course = plan?.ferment?.pace?.course ?? [];
  return {
    x: course.map((p) => pitched_ms + p.at_h * HOUR),
    middle: course.map((p) => p.gravity),
  };
}

/** What was read, true, with the wort as its first point. */
export function readOf(batch: Batch | undefined, ahead_ms: number): Measured[] {
  const pitch = batch?.ferment.pitch;
  const first = pitch
    ? [{ x: Date.parse(pitch.at) + ahead_ms, y: pitch.specific_gravity, believed: true }]
    : [];
  return [
    ...first,
    ...(batch?.ferment.readings ?? []).flatMap((r) =>
      r.specific_gravity === undefined
        ? []
        : [{ x: Date.parse(r.at) + ahead_ms, y: r.specific_gravity, believed: true }],
    ),
  ];
}

export interface Standing {
  gravity: number;
  fallen_fraction: number; // of the way from the wort to the planned end
  still: boolean; // two readings a day apart or more, hardly a difference between
  still_high: boolean; // and well above the planned end: it may be stuck
}

/** Gravities read a day apart that differ by less are alike to a hydrometer. */
const ALIKE = 0.001;
/** So far above the planned end a still ferment is asked about (common practice, no source). */
const HIGH = 0.006;

export function standingOf(batch: Batch | undefined, plan: Plan | undefined): Standing | undefined {
  const points = readOf(batch, 0);
  const last = points.at(-1);
  const first = points[0];
  if (!last || !first || points.length < 2) return undefined;
  const end = plan?.ferment?.final_gravity ?? 1;
  const before = points.slice(1).findLast((p) => last.x - p.x >= 0.9 * DAY);
  const still = before !== undefined && Math.abs(before.y - last.y) < ALIKE;
  return {
    gravity: last.y,
    fallen_fraction: (first.y - last.y) / Math.max(1e-6, first.y - end),
    still,
    still_high: still && last.y > end + HIGH,
  };
}

/** "Wed 2 Dec, 14:00": a day of the coming weeks. */
export function dayText(ms: number | undefined): string {
  if (ms === undefined) return '–';
  const d = new Date(ms);
  const days = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
  const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');
  return `${days[d.getDay()]} ${d.getDate()} ${months[d.getMonth()]}`;
}

/** Over days since the pitch: a time of day says little of a ferment. */
export const inDays = (points: readonly Measured[], pitched_ms: number): Measured[] =>
  points.map((p) => ({ ...p, x: (p.x - pitched_ms) / DAY }));

export const curveInDays = (curve: BandCurve, pitched_ms: number): BandCurve => ({
  ...curve,
  x: curve.x.map((x) => (x - pitched_ms) / DAY),
});
