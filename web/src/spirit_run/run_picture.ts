// The picture of a run: its curve, points and marks, over time or over what came over. Pure; times are
// milliseconds of the device.
import type { Decision, Run, RunForecast, RunReading } from '../data/answers';
import { curveAt, type BandCurve, type Decision as Mark, type Measured } from '../parts/chart_data';
import { names, timeAt, type Ahead } from './run_view';

type Band = RunForecast['now']['head_temperature_C'];
type Point = RunForecast['by_time'][number];
type Flowing = Point & { spout_percent_vol: Band };

/** Minutes of the run at which it ended, as it was told. */
const endOf = (run: Pick<Run, 'at' | 'ended'>): number | undefined =>
  run.ended && (Date.parse(run.ended.at) - Date.parse(run.at)) / 60_000;

/** The points of the curve at which something runs, up to the end of a run that has ended. */
function flowing(run: Run, forecast: RunForecast | undefined): Flowing[] {
  const flows = (p: Point): p is Flowing => p.running && p.spout_percent_vol !== undefined;
  const all = forecast?.by_time ?? [];
  const points = all.filter(flows);
  const end = endOf(run);
  if (end === undefined) return points;
  const behind = points.filter((p) => p.minutes <= end);
  const a = all.findLast((p) => p.minutes <= end);
  const b = all.find((p) => p.minutes > end);
  if (!a || !b || !flows(a) || !flows(b) || a.minutes === end) return behind;
  // The straight line between two points, as the picture draws it.
  const share = (end - a.minutes) / (b.minutes - a.minutes);
  const mid = (from: number, to: number) => from + share * (to - from);
  const [x, y] = [a.spout_percent_vol, b.spout_percent_vol];
  return [
    ...behind,
    {
      minutes: end,
      running: true,
      collected_mL_20C: mid(a.collected_mL_20C, b.collected_mL_20C),
      spout_percent_vol: {
        low: mid(x.low, y.low),
        median: mid(x.median, y.median),
        high: mid(x.high, y.high),
      },
    },
  ];
}

const THE_END = 'the end';

/** The end of a run that has ended, as a mark of its picture over time. */
export const endMark = (run: Run, ahead_ms: number): Mark[] =>
  run.ended ? [{ x: timeAt(run, endOf(run)!, ahead_ms), label: THE_END }] : [];

/** The spout's strength over time with its band; nothing where nothing runs, or after the end. */
export function curveOf(run: Run, forecast: RunForecast | undefined, ahead_ms: number): BandCurve {
  const points = flowing(run, forecast);
  return {
    x: points.map((p) => timeAt(run, p.minutes, ahead_ms)),
    middle: points.map((p) => p.spout_percent_vol.median),
    low: points.map((p) => p.spout_percent_vol.low),
    high: points.map((p) => p.spout_percent_vol.high),
  };
}

/** They stand where the curve begins, one upon the other: the head counts them down, no picture does. */
const AT_THE_START = new Set<Decision['decision']>(['first_drops', 'foreshots_end']);

export function marksOf(ahead: readonly Ahead[]): Mark[] {
  return ahead
    .filter((one) => one.at_ms !== undefined && !AT_THE_START.has(one.decision))
    .map((one) => ({
      x: one.at_ms!,
      label: one.name,
      ...(one.doubt_min === undefined ? {} : { doubt: one.doubt_min * 60_000 }),
    }));
}

/** Spout readings as points of the chart, by their true strengths where the house has told them. */
export function pointsOf(
  run: Run,
  doubted: ReadonlySet<string>,
  trueOf: (reading: RunReading) => number | undefined,
  ahead_ms: number,
): Measured[] {
  return run.readings.flatMap((reading) => {
    const y = trueOf(reading);
    if (y === undefined) return [];
    return [
      { x: timeAt(run, reading.minutes, ahead_ms), y, believed: !doubted.has(reading.entry) },
    ];
  });
}

/** While the heat is off no time can be told: the picture is over what came over, in litres. */
export function overCollected(
  run: Run,
  forecast: RunForecast,
  doubted: ReadonlySet<string>,
  trueOf: (reading: RunReading) => number | undefined,
): { curve: BandCurve; points: Measured[]; now: number | undefined; marks: Mark[] } {
  const running = flowing(run, forecast);
  const end_L = run.ended && running.at(-1) && running.at(-1)!.collected_mL_20C / 1000;
  const litres = {
    x: running.map((p) => p.minutes),
    middle: running.map((p) => p.collected_mL_20C / 1000),
  };
  return {
    curve: {
      x: litres.middle,
      middle: running.map((p) => p.spout_percent_vol.median),
      low: running.map((p) => p.spout_percent_vol.low),
      high: running.map((p) => p.spout_percent_vol.high),
    },
    points: run.readings.flatMap((reading) => {
      const y = trueOf(reading);
      const x = curveAt(litres, reading.minutes);
      if (y === undefined || x === undefined) return [];
      return [{ x, y, believed: !doubted.has(reading.entry) }];
    }),
    now: run.ended ? undefined : forecast.now.collected_mL_20C.median / 1000,
    marks: run.ended
      ? end_L === undefined
        ? []
        : [{ x: end_L, label: THE_END }]
      : forecast.decisions
          .filter((d) => !d.passed && d.collected_mL_20C && !AT_THE_START.has(d.decision))
          .map((d) => ({
            x: d.collected_mL_20C!.median / 1000,
            label: names[d.decision] ?? d.words,
            doubt: (d.collected_mL_20C!.high - d.collected_mL_20C!.low) / 2000,
          })),
  };
}
