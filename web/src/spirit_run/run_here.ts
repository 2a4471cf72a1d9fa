// A run as it was told on this device, where the house has yet to hear of it. Pure.
import type { Run, RunForecast, RunKind, RunReading } from '../data/answers';
import type { Entry } from '../data/entry';
import type { Ahead } from './run_view';

/** A run that was begun on this device and is not yet at home, as far as it is known here. */
export function runBegunHere(entry: Entry): Run {
  const { run, charge, power_W, wash_L_20C, lots } = entry.body as {
    run: RunKind;
    charge: { volume_L: number };
    power_W?: number;
    wash_L_20C?: number;
    lots?: Run['lots'];
  };
  return {
    entry: entry.id,
    at: new Date(Date.parse(entry.at) - entry.clock_ahead_ms).toISOString(),
    run,
    standing: 'running',
    charge_L_20C: charge.volume_L,
    lots: lots ?? [],
    readings: [],
    jars: [],
    ...(power_W === undefined ? {} : { power_W }),
    ...(wash_L_20C === undefined ? {} : { wash_L_20C }),
  };
}

/** A run with the wash and lots that a correction on this device says it took. */
export function runWithWash(run: Run, waiting: readonly Entry[]): Run {
  const anew = waiting.findLast((e) => e.kind === 'run begun' && e.corrects === run.entry);
  if (!anew) return run;
  const { wash_L_20C, lots } = anew.body as Pick<Run, 'wash_L_20C'> & { lots?: Run['lots'] };
  const { wash_L_20C: _was, ...rest } = run;
  return { ...rest, lots: lots ?? [], ...(wash_L_20C === undefined ? {} : { wash_L_20C }) };
}

/** A run as the house tells it, with an end that is only on this device as yet. */
export function runWithEnd(run: Run, waiting: readonly Entry[]): Run {
  if (run.standing === 'ended') return run;
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  const end = waiting.find(
    (e) =>
      e.kind === 'run ended' &&
      e.corrects === undefined &&
      e.body['run'] === run.entry &&
      !struck.has(e.id),
  );
  if (!end) return run;
  const { collected, left_L } = end.body as {
    collected?: NonNullable<Run['collected_read']>;
    left_L?: number;
  };
  return {
    ...run,
    standing: 'ended',
    ended: {
      entry: end.id,
      at: new Date(Date.parse(end.at) - end.clock_ahead_ms).toISOString(),
    },
    ...(collected ? { collected_read: collected } : {}),
    ...(left_L === undefined ? {} : { left_L }),
  };
}

type Heat = NonNullable<RunReading['event']>;

/** What was told of the heat on this device only: the last of it that no strike takes back. */
export function heatHere(run: Run, waiting: readonly Entry[]): Heat | undefined {
  if (run.standing === 'ended') return undefined;
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  const atHome = new Set(run.readings.map((r) => r.entry));
  return waiting.findLast(
    (e) =>
      e.kind === 'run read' &&
      e.body['run'] === run.entry &&
      e.body['event'] !== undefined &&
      !struck.has(e.id) &&
      !atHome.has(e.corrects ?? e.id),
  )?.body['event'] as Heat | undefined;
}

/** A run as the house tells it, stopped or gone on with as it was told on this device. */
export function runWithHeat(run: Run, waiting: readonly Entry[]): Run {
  const heat = heatHere(run, waiting);
  if (heat === undefined) return run;
  return { ...run, standing: heat === 'stopped' ? 'stopped' : 'running' };
}

/** What waits, from where the heat was last turned on again. */
export function waitingSince(waiting: readonly Entry[]): readonly Entry[] {
  const at = waiting.findLastIndex((e) => e.body['event'] === 'resumed');
  return at < 0 ? waiting : waiting.slice(at);
}

/** The forecast of before, for a run that goes on and whose house has not heard of it: nothing runs
 *  yet, and no pace is known. */
export function heatingAgain(forecast: RunForecast | undefined): RunForecast | undefined {
  if (!forecast) return undefined;
  const { spout_percent_vol: _s, flow_mL_per_min_20C: _f, ...now } = forecast.now;
  return { ...forecast, now: { ...now, heated: true } };
}

/** Decisions that lie ahead at times which the house has yet to reckon. */
export const timesToCome = (ahead: readonly Ahead[]): Ahead[] =>
  ahead.map((one) => ({
    ...one,
    at_ms: undefined,
    doubt_min: undefined,
    why_no_time: 'when, is known as soon as the house answers',
  }));

/** Whether a strip is over and its low wines were gauged neither at its end nor after it. */
export function lowWinesWait(run: Run, waiting: readonly Entry[]): boolean {
  if (run.run !== 'strip' || run.standing !== 'ended' || run.collected || !run.ended) return false;
  const { entry } = run.ended;
  return !waiting.some((e) =>
    e.kind === 'lot gauged'
      ? (e.body['lot'] as { entry?: string } | undefined)?.entry === entry
      : e.id === entry && e.body['collected'] !== undefined && e.body['strength'] !== undefined,
  );
}
