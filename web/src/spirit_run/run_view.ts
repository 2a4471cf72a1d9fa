// What the screen of a run shows, made from the batch, the run's forecast and what is still on this
// device. Pure: no clock and no call; times are milliseconds of the device.
import type { Batch, Decision, Run, RunForecast, RunKind, RunReading } from '../data/answers';
import type { Entry } from '../data/entry';
import { printed } from '../data/figures';
import { quantity, type Units } from '../data/units';

/** The runs of a kind, the latest first. */
export function runsOf(batch: Batch | undefined, kind: RunKind): Run[] {
  return (batch?.runs ?? []).filter((run) => run.run === kind).reverse();
}

/** The run to show: the one that was asked for, else one that has not ended, else the latest. */
export function runToShow(runs: readonly Run[], asked: string | undefined): Run | undefined {
  return (
    runs.find((run) => run.entry === asked) ??
    runs.find((run) => run.standing !== 'ended') ??
    runs[0]
  );
}

/** Device time at so many minutes of the run. `at` is the house's time; the device is `ahead` of it. */
export const timeAt = (run: Pick<Run, 'at'>, minutes: number, ahead_ms: number): number =>
  Date.parse(run.at) + minutes * 60_000 + ahead_ms;

/** A start is told to the minute; what clocks that agree better by now move it by is no correction. */
const SAME_START_MS = 30_000;

/** Whether two tellings of a run's start are of one moment. */
export const sameStart = (one: string, other: string): boolean =>
  one === other || Math.abs(Date.parse(one) - Date.parse(other)) < SAME_START_MS;

/** The jar under the spout: one after the highest that is full, also by entries still on the way. */
export function jarNow(run: Run, waiting: readonly Entry[]): number {
  const full = [
    ...run.jars.map((jar) => jar.jar),
    ...waiting.filter((e) => e.kind === 'jar filled').map((e) => Number(e.body['jar'])),
  ];
  return Math.max(0, ...full) + 1;
}

/** How much the last jar held, to offer it again: the highest, whenever it was told or corrected. */
export function lastJarVolume(run: Run, waiting: readonly Entry[]): number | undefined {
  const held = new Map<number, number>();
  for (const { jar, as_filled_mL } of run.jars) {
    if (as_filled_mL !== undefined) held.set(jar, as_filled_mL);
  }
  for (const { kind, body } of waiting) {
    const mL = body['volume_mL'];
    if (kind === 'jar filled' && typeof mL === 'number') held.set(Number(body['jar']), mL);
  }
  return held.get(Math.max(...held.keys()));
}

type Figure =
  | 'spout'
  | 'spout_temperature_C'
  | 'head_temperature_C'
  | 'power_W'
  | 'collected_mL'
  | 'coolant_out_C';

/** When it happened, by the house's clock. */
const houseMs = (entry: Entry): number => Date.parse(entry.at) - entry.clock_ahead_ms;

/** A reading as an entry on this device tells it; `of` is the entry that told it first. */
function readingBy(run: Run, of: string, by: Entry, corrections: number): RunReading {
  const { run: _run, ...figures } = by.body;
  return {
    ...figures,
    entry: of,
    at: new Date(houseMs(by)).toISOString(),
    minutes: (houseMs(by) - Date.parse(run.at)) / 60_000,
    ...(corrections > 0 ? { corrections } : {}),
  };
}

/** The last correction on this device of each reading, by the entry that told it first. */
const correctionsHere = (waiting: readonly Entry[]): Map<string, Entry> =>
  new Map(
    waiting.flatMap((e) =>
      e.kind === 'run read' && e.corrects !== undefined ? [[e.corrects, e] as const] : [],
    ),
  );

const byTime = (readings: readonly RunReading[]): RunReading[] =>
  readings.toSorted((a, b) => a.minutes - b.minutes);

/** A run with its readings as they were corrected on this device, their times too, and without those that
 *  were struck here. */
export function runWithCorrections(run: Run, waiting: readonly Entry[]): Run {
  const anew = correctionsHere(waiting);
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  if (!run.readings.some((r) => anew.has(r.entry) || struck.has(r.entry))) return run;
  const readings = run.readings
    .filter((r) => !struck.has(r.entry))
    .map((r) => {
      const by = anew.get(r.entry);
      return by ? readingBy(run, r.entry, by, (r.corrections ?? 0) + 1) : r;
    });
  return { ...run, readings: byTime(readings) };
}

/** All readings of a run, at home and on this device, each as it was last told. In the order of their
 *  times, not of their telling: what is written up late may be older than all. */
function readingsHere(run: Run, waiting: readonly Entry[]): RunReading[] {
  const { readings } = runWithCorrections(run, waiting);
  const anew = correctionsHere(waiting);
  const atHome = new Set(run.readings.map((r) => r.entry));
  const here = waiting
    .filter((e) => e.kind === 'run read' && e.corrects === undefined && !atHome.has(e.id))
    .map((e) => {
      const by = anew.get(e.id);
      return readingBy(run, e.id, by ?? e, by ? 1 : 0);
    });
  return byTime([...readings, ...here]);
}

/** The newest telling of a figure that is not doubted, and when it was read, by the house. */
function lastRead<Key extends Figure>(
  run: Run,
  waiting: readonly Entry[],
  doubted: ReadonlySet<string>,
  figure: Key,
): { figure: NonNullable<RunReading[Key]>; at_ms: number } | undefined {
  const last = readingsHere(run, waiting).findLast(
    (one) => one[figure] !== undefined && !doubted.has(one.entry),
  );
  return last && { figure: last[figure]!, at_ms: timeAt(run, last.minutes, 0) };
}

/** The newest telling of a figure that is not doubted, at home or still on this device. */
export const newest = <Key extends Figure>(
  run: Run,
  waiting: readonly Entry[],
  doubted: ReadonlySet<string>,
  figure: Key,
): NonNullable<RunReading[Key]> | undefined => lastRead(run, waiting, doubted, figure)?.figure;

/** When the spout's strength that `newest` tells was read, by the device's clock. */
export function spoutReadAt(
  run: Run,
  waiting: readonly Entry[],
  doubted: ReadonlySet<string>,
  ahead_ms: number,
): number | undefined {
  const last = lastRead(run, waiting, doubted, 'spout');
  return last && last.at_ms + ahead_ms;
}

/** What was read since the heat was last turned on again: before that another day spoke. */
export function sinceResumed(run: Run): Run {
  if (run.standing !== 'running') return run;
  const at = run.readings.findLastIndex((r) => r.event === 'resumed');
  return at < 0 ? run : { ...run, readings: run.readings.slice(at) };
}

/** Those that a reading at the spout confirms, as the head tells them when they are due. */
const DUE: Partial<Record<Decision['decision'], string>> = {
  heads_end: 'Heads end',
  tails_near: 'Tails',
  hearts_end: 'Hearts end',
  stop: 'Stop',
};

/** Where the run stands, by the decisions behind it. */
export function phaseOf(run: Run, forecast: RunForecast | undefined): string {
  if (run.standing === 'ended') return 'Ended';
  if (run.standing === 'stopped') return 'Stopped';
  if (!forecast) return 'Running';
  if (!forecast.now.heated) return 'Heat off';
  if (!forecast.now.spout_percent_vol) return 'Heating up';
  const passed = (which: Decision['decision']) =>
    forecast.decisions.find((d) => d.decision === which)?.passed;
  if (passed('stop')) return 'Stop here';
  // By the forecast its moment has come, and no reading says so or otherwise yet.
  const due = forecast.decisions.findLast(
    (d) =>
      DUE[d.decision] !== undefined &&
      !d.passed &&
      d.at_minutes !== undefined &&
      d.at_minutes.median <= forecast.now.minutes,
  );
  if (due) return `${DUE[due.decision]} expected now: read the spout`;
  if (run.run === 'strip') return 'Running';
  if (passed('hearts_end')) return 'Tails';
  if (passed('tails_near')) return 'Hearts, tails near';
  if (passed('foreshots_end') === false) return 'Foreshots';
  if (passed('heads_end') === false)
    return passed('foreshots_end') ? 'Heads' : 'Foreshots and heads';
  return 'Hearts';
}

/** Of the decisions, as the screen says them. */
export const names: Record<string, string> = {
  first_drops: 'first drops',
  foreshots_end: 'foreshots end',
  heads_end: 'heads end',
  tails_near: 'tails near',
  hearts_end: 'hearts end',
  stop: 'stop',
  pot_low: 'the pot runs low',
};

/**
 * The forecast as of a moment: the house tells `now` as of the last reading, and what it expects after
 * that by time. Between readings the still goes on, and so does what is shown.
 */
export function asOf(
  run: Pick<Run, 'at' | 'standing'>,
  forecast: RunForecast | undefined,
  now_ms: number,
  ahead_ms: number,
): RunForecast | undefined {
  if (!forecast || run.standing !== 'running' || !forecast.now.heated) return forecast;
  const minutes = (now_ms - timeAt(run, 0, ahead_ms)) / 60_000;
  const { now } = forecast;
  const { collected_mL_20C, ...here } = now;
  const ahead = [
    {
      ...here,
      collected_mL_20C: collected_mL_20C.median,
      running: here.spout_percent_vol !== undefined,
    },
    ...forecast.by_time.filter((p) => p.minutes > now.minutes),
  ];
  const at = Math.min(minutes, ahead.at(-1)!.minutes);
  if (at <= now.minutes) return forecast;
  const after = ahead.findIndex((p) => p.minutes >= at);
  const [a, b] = [ahead[after - 1]!, ahead[after]!];
  const share = b.minutes > a.minutes ? (at - a.minutes) / (b.minutes - a.minutes) : 1;
  const between = (x: Band | undefined, y: Band | undefined): Band | undefined => {
    if (!x || !y) return share < 0.5 ? x : y;
    const mid = (key: keyof Band) => x[key] + share * (y[key] - x[key]);
    return { low: mid('low'), median: mid('median'), high: mid('high') };
  };
  const over = a.collected_mL_20C + share * (b.collected_mL_20C - a.collected_mL_20C);
  const spout = between(a.spout_percent_vol, b.spout_percent_vol);
  const { spout_percent_vol: _s, flow_mL_per_min_20C: flow, ...rest } = now;
  // A pace that was told of a still that runs holds until the next reading; else the curve's own.
  const span = b.minutes - a.minutes;
  const pace = span > 0 ? (b.collected_mL_20C - a.collected_mL_20C) / span : 0;
  return {
    ...forecast,
    now: {
      ...rest,
      minutes: at,
      head_temperature_C:
        between(a.head_temperature_C, b.head_temperature_C) ?? now.head_temperature_C,
      pot_temperature_C: between(a.pot_temperature_C, b.pot_temperature_C) ?? now.pot_temperature_C,
      collected_mL_20C: { low: over, median: over, high: over },
      ...(spout && b.running ? { spout_percent_vol: spout } : {}),
      ...(flow
        ? { flow_mL_per_min_20C: flow }
        : pace > 0
          ? { flow_mL_per_min_20C: { low: pace, median: pace, high: pace } }
          : {}),
    },
  };
}

type Band = RunForecast['now']['head_temperature_C'];

export interface Ahead {
  decision: Decision['decision'];
  name: string;
  words: string;
  at_ms: number | undefined; // device time
  doubt_min: number | undefined;
  why_no_time: string | undefined;
}

/** The decisions still ahead, the next one first. */
export function decisionsAhead(
  run: Run,
  forecast: RunForecast | undefined,
  ahead_ms: number,
): Ahead[] {
  return (forecast?.decisions ?? [])
    .filter((d) => !d.passed)
    .map((d) => ({
      decision: d.decision,
      name: names[d.decision] ?? d.words,
      words: d.words,
      at_ms: d.at_minutes ? timeAt(run, d.at_minutes.median, ahead_ms) : undefined,
      doubt_min: d.at_minutes ? (d.at_minutes.high - d.at_minutes.low) / 2 : undefined,
      why_no_time: d.why_no_time,
    }));
}

/** Whether the pot runs low by the forecast's decisions: from the beginning of its band on. */
export const runsLow = (forecast: Pick<RunForecast, 'decisions' | 'now'> | undefined): boolean =>
  (forecast?.decisions ?? []).some(
    (d) =>
      d.decision === 'pot_low' &&
      (d.passed || (d.at_minutes !== undefined && d.at_minutes.low <= forecast!.now.minutes)),
  );

/** The one to count down to: once the first drops were due, it is what follows them. */
export function nextOf(ahead: readonly Ahead[], now_ms: number): Ahead | undefined {
  const [first, second] = ahead;
  const dropsDue =
    first?.decision === 'first_drops' && first.at_ms !== undefined && first.at_ms <= now_ms;
  return dropsDue && second?.decision === 'foreshots_end' && second.at_ms !== undefined
    ? second
    : first;
}

/** What a reading told, in words: "61.2 at 22 °C, head 91.7 °C". */
export function toldBy(r: RunReading, units: Units): string {
  const degrees = (name: string, value: number | undefined) =>
    value === undefined ? '' : `${name} ${quantity(value, '°C', 1, units)}`;
  return [
    r.spout ? `${printed(r.spout.reading, 1)}${r.spout.scale === 'proof' ? ' proof' : ''}` : '',
    degrees('at', r.spout_temperature_C),
    degrees('head', r.head_temperature_C),
    degrees('pot', r.pot_temperature_C),
    r.collected_mL === undefined ? '' : `${quantity(r.collected_mL / 1000, 'L', 2, units)} over`,
    r.power_W === undefined ? '' : `${printed(r.power_W)} W`,
    degrees('coolant in', r.coolant_in_C),
    degrees(r.coolant_in_C === undefined ? 'coolant out' : 'out', r.coolant_out_C),
    r.coolant_flow_L_per_min === undefined
      ? ''
      : `coolant ${quantity(r.coolant_flow_L_per_min, 'L/min', 2, units)}`,
    r.event ?? '',
    r.note ?? '',
  ]
    .filter(Boolean)
    .join(', ')
    .replace(', at', ' at');
}

/** The body of a reading as it was entered, to be corrected: all that it told, and its run. */
export function bodyOf(run: Run, reading: RunReading): Record<string, unknown> {
  const { entry: _e, at: _a, who: _w, corrections: _c, minutes: _m, ...told } = reading;
  return { run: run.entry, ...told };
}

/** Drops by the minute: under this nobody holds a measure to the spout (common practice, no source). */
const NEXT_TO_NOTHING_mL_per_min = 2;

/** How long a measure of 100 mL takes to fill: a cue that needs no instrument but a watch. */
export function secondsPer100mL(flow_mL_per_min: number | undefined): number | undefined {
  if (flow_mL_per_min === undefined || flow_mL_per_min < NEXT_TO_NOTHING_mL_per_min)
    return undefined;
  return 6000 / flow_mL_per_min;
}
