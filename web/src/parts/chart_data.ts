// What a chart with a band draws, as columns over one axis, and the table behind it. Points of the
// curve and measured points need not lie at the same places, so they are joined over the union.

import { inProof, inUs, PROOF_FROM, type Units } from '../data/units';

export interface BandCurve {
  x: readonly number[];
  middle: readonly number[];
  low?: readonly number[] | undefined; // ends of the 80 % band
  high?: readonly number[] | undefined;
}

export interface Measured {
  x: number;
  y: number;
  believed: boolean;
}

export interface Decision {
  x: number;
  label: string; // "tails near"
  doubt?: number | undefined; // ± in units of x
}

/** All that a chart draws and tells, in the units that its axes are in. */
export interface Scaled {
  curve: BandCurve;
  measured: Measured[];
  decisions: Decision[];
  now?: number | undefined;
  x: { unit: string; decimals: number };
  y: { unit: string; decimals: number };
}

const strongest = (told: { curve: BandCurve; measured: readonly Measured[] }): number =>
  [...told.curve.middle, ...told.measured.map((m) => m.y)].reduce((a, b) => Math.max(a, b), 0);

/**
 * A chart's figures, told in metric, in the units that are set: in US units both axes are, in "both"
 * they stay metric, one scale being enough to read.
 */
export function inScreenUnits(
  told: {
    curve: BandCurve;
    measured: readonly Measured[];
    decisions: readonly Decision[];
    now?: number | undefined;
  },
  x: { unit: string; decimals: number },
  y: { unit: string; decimals: number },
  units: Units,
): Scaled {
  const shownIn = ({ unit, decimals }: { unit: string; decimals: number }) => {
    if (units === 'us' && unit === '%vol' && strongest(told) >= PROOF_FROM)
      return {
        axis: { unit: 'proof', decimals },
        to: (value: number) => inProof(value, unit, decimals).value,
        wide: (value: number) => 2 * value,
      };
    const us = units === 'us' ? inUs(0, unit, decimals) : undefined;
    return {
      axis: us ? { unit: us.unit, decimals: us.decimals } : { unit, decimals },
      to: (value: number) => (us ? inUs(value, unit, 0)!.value : value),
      wide: (value: number) => (us ? inUs(value, unit, 0)!.value - us.value : value),
    };
  };
  const [across, up] = [shownIn(x), shownIn(y)];
  const { curve, measured, decisions, now } = told;
  return {
    curve: {
      x: curve.x.map(across.to),
      middle: curve.middle.map(up.to),
      ...(curve.low ? { low: curve.low.map(up.to) } : {}),
      ...(curve.high ? { high: curve.high.map(up.to) } : {}),
    },
    measured: measured.map((m) => ({ ...m, x: across.to(m.x), y: up.to(m.y) })),
    decisions: decisions.map((d) => ({
      ...d,
      x: across.to(d.x),
      ...(d.doubt === undefined ? {} : { doubt: across.wide(d.doubt) }),
    })),
    now: now === undefined ? undefined : across.to(now),
    x: across.axis,
    y: up.axis,
  };
}

export type Columns = [number[], ...(number | null)[][]];

/** Columns: x, high, low, middle, believed points, points kept but not believed. */
export function columnsOf(curve: BandCurve, measured: readonly Measured[]): Columns {
  const xs = [...new Set([...curve.x, ...measured.map((m) => m.x)])].sort((a, b) => a - b);
  const at = new Map(xs.map((x, i) => [x, i]));
  const empty = () => Array.from<number | null>({ length: xs.length }).fill(null);
  const [high, low, middle, believed, doubted] = [empty(), empty(), empty(), empty(), empty()];
  curve.x.forEach((x, i) => {
    const k = at.get(x)!;
    middle[k] = curve.middle[i] ?? null;
    high[k] = curve.high?.[i] ?? null;
    low[k] = curve.low?.[i] ?? null;
  });
  // A curve passes through places where only a point was measured: the straight line between.
  for (const column of [middle, high, low]) bridge(xs, column);
  for (const m of measured) (m.believed ? believed : doubted)[at.get(m.x)!] = m.y;
  return [xs, high, low, middle, believed, doubted];
}

function bridge(xs: readonly number[], column: (number | null)[]): void {
  let before = -1;
  for (let i = 0; i < xs.length; ++i) {
    const y = column[i];
    if (y === null || y === undefined) continue;
    if (before >= 0) {
      for (let k = before + 1; k < i; ++k) {
        const part = (xs[k]! - xs[before]!) / (xs[i]! - xs[before]!);
        column[k] = column[before]! + part * (y - column[before]!);
      }
    }
    before = i;
  }
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** Steps between the marks of a clock's axis, in milliseconds. */
export const CLOCK_STEPS: number[] = [
  ...[1, 2, 5, 10, 15, 30].map((n) => n * MINUTE),
  ...[1, 2, 3, 6, 12].map((n) => n * HOUR),
  ...[1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].map((n) => n * DAY),
];

/** Steps between the marks of an axis that counts something, such as days: whole where it is long. */
export const countSteps = (span: number): number[] => [
  ...(span < 2 ? [0.01, 0.02, 0.05, 0.1, 0.2, 0.5] : []),
  ...[1, 10, 100, 1000, 10_000].flatMap((n) => [n, 2 * n, 5 * n]),
];

/** Decimals that the marks of an axis need, so that none is told as another than it is. */
export function tickDecimals(step: number): number {
  for (let decimals = 0; decimals < 6; ++decimals) {
    const scaled = Math.abs(step) * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6 * Math.max(1, scaled)) return decimals;
  }
  return 6;
}

/**
 * Moments to mark between two, so many milliseconds apart and whole by the clock on the wall;
 * `behind_min` is what Date's getTimezoneOffset tells.
 */
export function clockMarks(
  from: number,
  to: number,
  step: number,
  behind_min: number = new Date(from).getTimezoneOffset(),
): number[] {
  const behind = behind_min * MINUTE;
  const first = Math.ceil((from - behind) / step) * step + behind;
  const marks: number[] = [];
  for (let at = first; at <= to; at += step) marks.push(at);
  return marks;
}

/** The ends of the axis: all that is drawn, with a little room where a point lies at the edge. */
export function endsOf(
  low: number,
  high: number,
  points: readonly number[],
  least: number,
): [number, number] {
  if (!(high > low)) return [low - least / 2, high + least / 2];
  const room = 0.03 * (high - low);
  return [
    Math.min(low, ...points.map((x) => x - room)),
    Math.max(high, ...points.map((x) => x + room)),
  ];
}

/** At most so many points of the curve, first and last always among them. */
export function thinned(length: number, most: number): number[] {
  if (length <= most) return Array.from({ length }, (_, i) => i);
  return Array.from({ length: most }, (_, i) => Math.round((i * (length - 1)) / (most - 1)));
}

/** The middle of the curve at x, by the straight line between its points; undefined outside. */
export function curveAt(curve: BandCurve, x: number): number | undefined {
  for (let i = 1; i < curve.x.length; ++i) {
    const [a, b] = [curve.x[i - 1]!, curve.x[i]!];
    if (x < a || x > b) continue;
    const part = b === a ? 0 : (x - a) / (b - a);
    return curve.middle[i - 1]! + part * (curve.middle[i]! - curve.middle[i - 1]!);
  }
  return undefined;
}
