import { expect, test } from 'vitest';
import type { Batch, Run, RunForecast, RunReading } from '../data/answers';
import type { Entry } from '../data/entry';
import { lowWinesWait, runBegunHere, runWithEnd } from './run_here';
import { curveOf, endMark, overCollected, pointsOf } from './run_picture';
import {
  asOf,
  bodyOf,
  decisionsAhead,
  jarNow,
  lastJarVolume,
  newest,
  nextOf,
  phaseOf,
  runsOf,
  runToShow,
  runWithCorrections,
  secondsPer100mL,
  sinceResumed,
  toldBy,
} from './run_view';

const reading = (entry: string, minutes: number, more: Partial<RunReading>): RunReading => ({
  entry,
  at: '2026-11-25T12:00:00.000Z',
  minutes,
  ...more,
});

const run: Run = {
  entry: 'r',
  at: '2026-11-25T12:00:00.000Z',
  run: 'spirit run',
  standing: 'running',
  charge_L_20C: 30,
  lots: [],
  jars: [
    { jar: 1, as_filled_mL: 150, notes: [] },
    { jar: 2, as_filled_mL: 500, notes: [] },
  ],
  readings: [
    reading('a', 60, { spout: { reading: 73.2, scale: 'percent_vol' }, spout_temperature_C: 29 }),
    reading('b', 70, { spout: { reading: 37.2, scale: 'percent_vol' }, spout_temperature_C: 28 }),
    reading('c', 75, { head_temperature_C: 88.1 }),
  ],
};

const band = (median: number, doubt = 0) => ({
  low: median - doubt,
  median,
  high: median + doubt,
});

const forecast: RunForecast = {
  why: { what: 'The run', inputs: [], model: '', source: '' },
  air_hPa: 1013,
  air_read: false,
  run: 'r',
  readings: 3,
  now: {
    minutes: 75,
    heated: true,
    pot_temperature_C: band(90),
    head_temperature_C: band(88),
    pot_percent_vol: band(20),
    spout_percent_vol: band(70, 1),
    collected_mL_20C: band(2000),
    alcohol_left_L_20C: band(5),
  },
  by_time: [
    { minutes: 30, collected_mL_20C: 0, running: false },
    { minutes: 40, collected_mL_20C: 0, running: true, spout_percent_vol: band(78) },
    { minutes: 80, collected_mL_20C: 2000, running: true, spout_percent_vol: band(70) },
  ],
  decisions: [
    { decision: 'heads_end', words: 'heads end', passed: true },
    {
      decision: 'tails_near',
      words: 'tails near',
      passed: false,
      at_minutes: band(120, 9),
      collected_mL_20C: band(4000, 200),
    },
    { decision: 'stop', words: 'stop', passed: false, why_no_time: 'not seen yet' },
  ],
  doubts: [],
  cautions: [],
};

const entry = (kind: string, body: Record<string, unknown>, more: Partial<Entry> = {}): Entry => ({
  id: 'q',
  stage: 'spirit run',
  kind,
  version: 1,
  at: '2026-11-25T13:20:00.000Z',
  clock_ahead_ms: 0,
  who: '',
  body: { run: 'r', ...body },
  ...more,
});

test('the run that goes is shown before one that has ended, and one that was asked for before both', () => {
  const runs = runsOf(
    {
      runs: [run, { ...run, entry: 's', standing: 'ended' }, { ...run, entry: 't', run: 'strip' }],
    } as unknown as Batch,
    'spirit run',
  );
  expect(runs.map((r) => r.entry)).toEqual(['s', 'r']);
  expect(runToShow(runs, undefined)?.entry).toBe('r');
  expect(runToShow(runs, 's')?.entry).toBe('s');
  expect(runToShow([], undefined)).toBeUndefined();
});

test('a doubted figure is not the newest, and one that waits on this device is', () => {
  expect(newest(run, [], new Set(['b']), 'spout')?.reading).toBe(73.2);
  expect(newest(run, [], new Set(['b']), 'spout_temperature_C')).toBe(29);
  const queued = entry('run read', { spout: { reading: 70.1, scale: 'percent_vol' } });
  expect(newest(run, [queued], new Set(), 'spout')?.reading).toBe(70.1);
  expect(newest(run, [], new Set(), 'power_W')).toBeUndefined();
});

// What was corrected while the house is away counts at once, though it is of a reading at home: else a
// danger that was mistyped stood on, and one that a correction tells did not show.
test('a correction on this device is what its reading tells, also where that is at home', () => {
  const at = (minutes: number) => new Date(Date.parse(run.at) + minutes * 60_000).toISOString();
  const anew = (corrects: string, minutes: number, body: Record<string, unknown>) => ({
    ...entry('run read', body, { id: `of ${corrects}`, corrects }),
    at: at(minutes),
  });
  const told = (...waiting: Entry[]) => newest(run, waiting, new Set(), 'spout_temperature_C');
  const spout = { reading: 70.1, scale: 'percent_vol' };
  expect(told(anew('b', 70, { spout, spout_temperature_C: 43 }))).toBe(43);
  expect(told(anew('b', 70, { spout }))).toBe(29); // taken away: the one before it
  expect(newest(run, [anew('a', 60, { spout })], new Set(['b']), 'spout')?.reading).toBe(70.1);
  // Of an earlier reading it tells no newer figure.
  expect(told(anew('a', 60, { spout, spout_temperature_C: 43 }))).toBe(28);
  // The last of several; and its time goes with it.
  expect(
    told(
      anew('b', 70, { spout, spout_temperature_C: 43 }),
      anew('b', 70, { spout, spout_temperature_C: 27 }),
    ),
  ).toBe(27);
  expect(told(anew('b', 50, { spout, spout_temperature_C: 43 }))).toBe(29);
});

test('a reading that waits and whose time is corrected stands at its new time', () => {
  const last = Math.max(...run.readings.map((r) => r.minutes));
  const at = (minutes: number) => new Date(Date.parse(run.at) + minutes * 60_000).toISOString();
  const body = { run: 'r', spout_temperature_C: 55 };
  const first = { ...entry('run read', body), at: at(last + 20) };
  const early = { ...first, id: 'early', corrects: first.id, at: at(1) };
  const told = (...waiting: Entry[]) => newest(run, waiting, new Set(), 'spout_temperature_C');
  expect(told(first)).toBe(55);
  expect(told(first, early)).toBe(28);
  expect(told({ ...first, at: at(1) }, { ...early, at: at(last + 20) })).toBe(55);
});

test('a run shows its readings as they were corrected or struck on this device', () => {
  const anew = entry('run read', { spout_temperature_C: 24 }, { corrects: 'a', at: run.at });
  const struck = entry('struck', { reason: 'misread' }, { corrects: 'b' });
  const shown = runWithCorrections(run, [anew, struck]).readings;
  expect(shown.map((r) => r.entry)).toEqual(['a', 'c']);
  expect(shown[0]).toEqual({
    entry: 'a',
    at: run.at,
    minutes: 0,
    corrections: 1,
    spout_temperature_C: 24,
  });
  expect(runWithCorrections(run, [])).toBe(run);
});

test('a cool reading that is written up late does not stand before a hot one read after it', () => {
  const at = (minutes: number, spout_temperature_C: number) => ({
    ...entry('run read', { spout_temperature_C }),
    id: `at ${minutes}`,
    at: new Date(Date.parse(run.at) + minutes * 60_000).toISOString(),
  });
  const last = Math.max(...run.readings.map((r) => r.minutes));
  const told = (...waiting: Entry[]) => newest(run, waiting, new Set(), 'spout_temperature_C');
  expect(told(at(last + 20, 55), at(last + 5, 18))).toBe(55);
  expect(told(at(1, 18))).toBe(told()); // older than all that is at home
});

test('after a pause only what was read since counts as what runs now', () => {
  const resumed = { ...run, readings: [...run.readings, reading('e', 900, { event: 'resumed' })] };
  expect(newest(sinceResumed(resumed), [], new Set(), 'spout')).toBeUndefined();
  expect(newest(sinceResumed(run), [], new Set(['b']), 'spout')?.reading).toBe(73.2);
  const stopped: Run = { ...resumed, standing: 'stopped' };
  expect(newest(sinceResumed(stopped), [], new Set(['b']), 'spout')?.reading).toBe(73.2);
});

test('the jar under the spout counts those that are not yet at home', () => {
  expect(jarNow(run, [])).toBe(3);
  expect(jarNow(run, [entry('jar filled', { jar: 3, volume_mL: 400 })])).toBe(4);
  expect(jarNow({ ...run, jars: [] }, [])).toBe(1);
  expect(lastJarVolume(run, [])).toBe(500);
  const third = entry('jar filled', { jar: 3, volume_mL: 400 });
  expect(lastJarVolume(run, [third])).toBe(400);
  // A jar before it that is corrected later is not the last.
  expect(lastJarVolume(run, [third, entry('jar filled', { jar: 1, volume_mL: 450 })])).toBe(400);
  expect(lastJarVolume({ ...run, jars: [] }, [])).toBeUndefined();
});

test('where the run stands goes by the decisions that are behind it', () => {
  expect(phaseOf(run, undefined)).toBe('Running');
  expect(phaseOf(run, forecast)).toBe('Hearts');
  const heads = forecast.decisions.map((d) => ({ ...d, passed: false }));
  expect(phaseOf(run, { ...forecast, decisions: heads })).toBe('Foreshots and heads');
  const near = forecast.decisions.map((d) => ({ ...d, passed: d.decision !== 'stop' }));
  expect(phaseOf(run, { ...forecast, decisions: near })).toBe('Hearts, tails near');
  expect(phaseOf({ ...run, standing: 'stopped' }, forecast)).toBe('Stopped');
  const { spout_percent_vol: _, ...dry } = forecast.now;
  expect(phaseOf(run, { ...forecast, now: dry })).toBe('Heating up');
  expect(phaseOf(run, { ...forecast, now: { ...forecast.now, heated: false } })).toBe('Heat off');
});

test('the next decision has a time of the device with its doubt, or the reason why it has none', () => {
  const [tails, stop] = decisionsAhead(run, forecast, 5000);
  expect(tails).toMatchObject({ name: 'tails near', doubt_min: 9 });
  expect(tails?.at_ms).toBe(Date.parse('2026-11-25T14:00:05.000Z'));
  expect(stop).toMatchObject({ name: 'stop', at_ms: undefined, why_no_time: 'not seen yet' });
});

test('points of the chart are true strengths, believed or not; without one there is no point', () => {
  const known = new Map([
    ['a', 70.2],
    ['b', 35],
  ]);
  const points = pointsOf(run, new Set(['b']), (r) => known.get(r.entry), 0);
  expect(points.map((p) => [p.y, p.believed])).toEqual([
    [70.2, true],
    [35, false],
  ]);
  expect(points[0]!.x).toBe(Date.parse('2026-11-25T13:00:00.000Z'));
});

test('while the heat is off the picture is over the litres that came over', () => {
  const picture = overCollected(run, forecast, new Set(), (r) =>
    r.entry === 'a' ? 70.2 : undefined,
  );
  expect(picture.curve.x).toEqual([0, 2]);
  expect(picture.points).toEqual([{ x: 1, y: 70.2, believed: true }]);
  expect(picture.now).toBe(2);
  expect(picture.marks).toEqual([{ x: 4, label: 'tails near', doubt: 0.2 }]);
});

test('a correction tells again all that the reading told, and nothing that was worked out', () => {
  expect(bodyOf(run, run.readings[0]!)).toEqual({
    run: 'r',
    spout: { reading: 73.2, scale: 'percent_vol' },
    spout_temperature_C: 29,
  });
  expect(toldBy(run.readings[0]!, 'metric')).toBe('73.2 at 29.0\u00a0°C');
});

test('a run that was begun on this device can be worked on before it is at home', () => {
  const begun = runBegunHere(
    entry(
      'run begun',
      { run: 'spirit run', charge: { volume_L: 30.9, at_C: 18 }, power_W: 4000 },
      { id: 'new', clock_ahead_ms: 60_000 },
    ),
  );
  expect(begun).toMatchObject({
    entry: 'new',
    run: 'spirit run',
    standing: 'running',
    power_W: 4000,
  });
  expect(begun.at).toBe('2026-11-25T13:19:00.000Z');
});

test('a measure of 100 mL takes so many seconds', () => {
  expect(secondsPer100mL(80)).toBe(75);
  expect(secondsPer100mL(0)).toBeUndefined();
  expect(secondsPer100mL(0.0135)).toBeUndefined(); // drops, not a pace
  expect(secondsPer100mL(undefined)).toBeUndefined();
});

test('between readings the forecast goes on with the clock', () => {
  const at = (minutes: number) =>
    asOf(run, forecast, Date.parse(run.at) + minutes * 60_000, 0)!.now;
  expect(at(70)).toBe(forecast.now); // never before the last reading
  expect(asOf({ ...run, standing: 'stopped' }, forecast, Date.parse(run.at) + 6e6, 0)).toBe(
    forecast,
  );
  const { spout_percent_vol: _s, ...dry } = forecast.now;
  const early = { ...forecast, now: { ...dry, minutes: 35, collected_mL_20C: band(0) } };
  const later = asOf(run, early, Date.parse(run.at) + 60 * 60_000, 0)!.now;
  expect(later.minutes).toBe(60);
  expect(later.collected_mL_20C.median).toBe(1000);
  expect(later.spout_percent_vol?.median).toBe(74);
  expect(later.flow_mL_per_min_20C?.median).toBe(50);
  expect(at(900).minutes).toBe(80); // and no further than it was told
});

test('a run that was ended on this device is over before the house has heard of it', () => {
  const strip: Run = { ...run, run: 'strip' };
  const end = entry('run ended', { left_L: 9 }, { id: 'e', stage: 'strip' });
  expect(runWithEnd(strip, [entry('run ended', { run: 'another' })])).toBe(strip);
  const ended = runWithEnd(strip, [end]);
  expect(ended).toMatchObject({ standing: 'ended', left_L: 9, ended: { entry: 'e', at: end.at } });
  expect(runToShow([ended], undefined)).toBe(ended);
  // Its low wines wait to be gauged, at its end or after it.
  expect(lowWinesWait(strip, [])).toBe(false);
  expect(lowWinesWait(ended, [end])).toBe(true);
  const gauged = entry('lot gauged', { lot: { entry: 'e', kind: 'low wines' } });
  expect(lowWinesWait(ended, [end, gauged])).toBe(false);
  const measured = { ...end, body: { ...end.body, collected: {}, strength: {} } };
  expect(lowWinesWait(ended, [measured])).toBe(false);
  expect(lowWinesWait(runWithEnd(run, [end]), [end])).toBe(false);
});

test('a temperature that was told after its reading counts, also while both wait', () => {
  const spout = { reading: 77.1, scale: 'percent_vol' };
  const first = entry('run read', { spout });
  const then = entry('run read', { spout, spout_temperature_C: 24 }, { id: 'then', corrects: 'q' });
  const none = { ...run, readings: [] };
  const told = (waiting: Entry[]) => newest(none, waiting, new Set(), 'spout_temperature_C');
  expect(told([first])).toBeUndefined();
  expect(told([first, then])).toBe(24);
});

test('a reading of the coolant is told with its flow', () => {
  const read = {
    ...run.readings[0]!,
    coolant_in_C: 11,
    coolant_out_C: 38,
    coolant_flow_L_per_min: 1.5,
  };
  expect(toldBy(read, 'metric')).toMatch(
    /coolant in 11\.0\u00a0°C, out 38\.0\u00a0°C, coolant 1\.50\u00a0L\/min$/,
  );
});

test('a cut whose moment has passed by the forecast is told as due, until a reading says more', () => {
  const band = (v: number) => ({ low: v - 3, median: v, high: v + 3 });
  const due = forecast.decisions.map((d) => ({ ...d, passed: false, at_minutes: band(120) }));
  const at = (minutes: number) => ({
    ...forecast,
    decisions: due.filter((d) => d.decision !== 'stop'),
    now: { ...forecast.now, minutes },
  });
  expect(phaseOf(run, at(119))).not.toMatch(/expected now/);
  expect(phaseOf(run, at(125))).toMatch(/ expected now: read the spout$/);
});

test('once the first drops were due, the end of the foreshots is counted down to', () => {
  const one = (decision: 'first_drops' | 'foreshots_end', at_ms: number) => ({
    decision,
    name: decision,
    words: '',
    at_ms,
    doubt_min: 1,
    why_no_time: undefined,
  });
  const ahead = [one('first_drops', 1000), one('foreshots_end', 5000)];
  expect(nextOf(ahead, 500)?.decision).toBe('first_drops');
  expect(nextOf(ahead, 2000)?.decision).toBe('foreshots_end');
});

const over = (minutes: number): Run => ({
  ...run,
  standing: 'ended',
  ended: { entry: 'e', at: new Date(Date.parse(run.at) + minutes * 60_000).toISOString(), who: '' },
});

test('the curve of a run that has ended stops at its end, which is marked', () => {
  const started = Date.parse(run.at);
  const minutes = (of: Run) => curveOf(of, forecast, 0).x.map((x) => (x - started) / 60_000);
  expect(minutes(run)).toEqual([40, 80]);
  expect(minutes(over(60))).toEqual([40, 60]);
  const [a, b, c] = forecast.by_time;
  const banded = { ...forecast, by_time: [a!, b!, { ...c!, spout_percent_vol: band(70, 1) }] };
  const cut = curveOf(over(60), banded, 0);
  expect([cut.low!.at(-1), cut.middle.at(-1), cut.high!.at(-1)]).toEqual([73.5, 74, 74.5]);
  expect(minutes(over(40))).toEqual([40]);
  expect(minutes(over(120))).toEqual([40, 80]);
  expect(minutes(over(20))).toEqual([]);
  // One that ended while the heat was off ends where it last ran.
  const paused = {
    ...forecast,
    by_time: [
      ...forecast.by_time,
      { minutes: 81, collected_mL_20C: 2050, running: false },
      { minutes: 200, collected_mL_20C: 2050, running: true, spout_percent_vol: band(66) },
    ],
  };
  expect(curveOf(over(150), paused, 0).x).toEqual([40, 80].map((m) => started + m * 60_000));
  expect(endMark(run, 0)).toEqual([]);
  expect(endMark(over(60), 1000)).toEqual([{ x: started + 60 * 60_000 + 1000, label: 'the end' }]);
});

test('over what came over, too, it stops at its end, with neither a now nor decisions beyond it', () => {
  const shown = overCollected(over(60), forecast, new Set(), () => 70);
  expect(shown.curve.x).toEqual([0, 1]);
  expect(shown.now).toBeUndefined();
  expect(shown.marks).toEqual([{ x: 1, label: 'the end' }]);
  expect(overCollected(run, forecast, new Set(), () => 70).marks.map((m) => m.label)).toEqual([
    'tails near',
  ]);
});
