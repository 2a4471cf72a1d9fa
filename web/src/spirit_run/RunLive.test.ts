// The screen of a run with a house that answers, and with one that does not: taps counted.
import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { alarm } from '../data/alarm';
import type { Batch, Run, RunForecast } from '../data/answers';
import { bench as pageBench, type Bench } from '../data/bench.svelte';
import { Clocks } from '../data/clocks.svelte';
import { newEntry, type Entry, type EntryWish } from '../data/entry';
import { NoAnswer, Problem } from '../data/problem';
import { set } from '../data/settings.svelte';
import RunLive from './RunLive.svelte';

vi.mock('uplot', () => ({
  default: class {
    setData() {}
    setSize() {}
    redraw() {}
    destroy() {}
  },
}));

const ago = (minutes: number) => new Date(Date.now() - minutes * 60_000).toISOString();
const band = (median: number, doubt = 0) => ({ low: median - doubt, median, high: median + doubt });

const run = (): Run => ({
  entry: 'r',
  at: ago(100),
  run: 'spirit run',
  standing: 'running',
  charge_L_20C: 30,
  lots: [],
  jars: [{ jar: 5, as_filled_mL: 500, notes: [] }],
  readings: [
    {
      entry: 'good',
      at: ago(20),
      minutes: 80,
      spout: { reading: 73.1, scale: 'percent_vol' },
      spout_temperature_C: 29,
      head_temperature_C: 88.1,
    },
    {
      entry: 'slip',
      at: ago(10),
      minutes: 90,
      spout: { reading: 37.2, scale: 'percent_vol' },
      spout_temperature_C: 29,
    },
  ],
});

const forecast: RunForecast = {
  why: { what: 'The run', inputs: [], model: '', source: '' },
  air_hPa: 1013,
  air_read: false,
  run: 'r',
  readings: 2,
  now: {
    minutes: 100,
    heated: true,
    pot_temperature_C: band(89),
    head_temperature_C: band(88.4, 0.3),
    pot_percent_vol: band(18),
    spout_percent_vol: band(70, 0.8),
    flow_mL_per_min_20C: band(60),
    collected_mL_20C: band(3000),
    alcohol_left_L_20C: band(5),
  },
  by_time: [
    { minutes: 40, collected_mL_20C: 0, running: true, spout_percent_vol: band(78, 1) },
    { minutes: 160, collected_mL_20C: 6000, running: true, spout_percent_vol: band(55, 4) },
  ],
  decisions: [
    { decision: 'heads_end', words: 'heads end', passed: true },
    { decision: 'tails_near', words: 'tails near', passed: false, at_minutes: band(130, 9) },
  ],
  doubts: [{ entry: 'slip', instrument: 'spout', words: 'does not fit (expected 72.0–74.0 %vol)' }],
  cautions: [],
};

let kept: Entry[];

function benchOf(answers: boolean): Bench {
  const silent = () => Promise.reject(new NoAnswer('The house does not answer.'));
  return {
    api: {
      get: answers ? () => Promise.resolve(forecast) : silent,
      post: answers ? () => Promise.resolve({ strength_percent_vol: 70.2 }) : silent,
    },
    hear: () => () => true,
    onTurn: () => () => true,
    outbox: { waiting: 0, refused: [], sending: false, answered: answers },
    waiting: () => Promise.resolve(answers ? [] : kept),
    clocks: new Clocks(),
    record: (wish: Omit<EntryWish, 'who'>) => {
      const entry = newEntry({ ...wish, who: '' });
      kept.push(entry);
      return Promise.resolve(entry);
    },
  } as unknown as Bench;
}

beforeEach(() => {
  kept = [];
});

const tap = async (name: string | RegExp) =>
  userEvent.click(screen.getAllByRole('button', { name })[0]!);
const drawer = () => within(screen.getByRole('dialog'));
const key = async (...names: string[]) => {
  for (const name of names)
    await userEvent.click(drawer().getByRole('button', { name: new RegExp(`^${name}$`) }));
};

test('the big lines tell phase, true strength, what was read, head, jar and the next decision', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  expect(await screen.findByText('Hearts')).toBeTruthy();
  expect(await screen.findByText('expected now 69.2–70.8 %vol')).toBeTruthy();
  expect(screen.getByRole('button', { name: /^Strength at the spout: *70\.2/ })).toBeTruthy();
  expect(screen.getByText('alcoholmeter 73.1 at 29 °C')).toBeTruthy();
  expect(screen.getByText('88.1 °C')).toBeTruthy();
  expect(screen.getByText('jar 6')).toBeTruthy();
  expect(screen.getByText('100 s per 100 mL')).toBeTruthy();
  expect(screen.getByText(/^tails near ≈ \d\d:\d\d$/)).toBeTruthy();
  expect(screen.getByText('in 30 min')).toBeTruthy();
});

test('a reading is one number, between a tap that opens and a tap that keeps', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('Reading');
  await key('7', '2', 'Point', '5', 'Keep');
  expect(kept).toHaveLength(1);
  expect(kept[0]).toMatchObject({
    batch: 'b',
    stage: 'spirit run',
    kind: 'run read',
    body: {
      run: 'r',
      spout: { reading: 72.5, scale: 'percent_vol' },
      spout_temperature_C: 29,
    },
  });
  expect(await screen.findByText(/Kept: 72\.5 %vol\./)).toBeTruthy();
});

test('a doubted reading is kept and not believed, and its correction names it', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  expect(await screen.findByText(/37\.2 at 29\.0.*expected 72\.0–74\.0/)).toBeTruthy();
  await tap('Correct it?');
  await key('7', '3', 'Point', '2', 'Keep');
  expect(kept[0]).toMatchObject({
    kind: 'run read',
    corrects: 'slip',
    body: { run: 'r', spout: { reading: 73.2, scale: 'percent_vol' }, spout_temperature_C: 29 },
  });
  expect(kept[0]!.body).not.toHaveProperty('minutes');
  // It happened when it was read, not when it was corrected.
  expect(Date.now() - Date.parse(kept[0]!.at)).toBeGreaterThan(9 * 60_000);
});

test('a reading is struck out only when it was asked once more', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await screen.findByText(/37\.2 at 29\.0.*expected 72\.0–74\.0/);
  await tap('Correct it?');
  await userEvent.dblClick(drawer().getByRole('button', { name: /strike it out$/ }));
  expect(kept).toEqual([]);
  drawer().getByRole('group', { name: /^Strike it out\? The reading of \d\d:\d\d, 37\.2 at 29/ });
  await key('Yes, it never happened');
  expect(kept).toHaveLength(1);
  expect(kept[0]).toMatchObject({ kind: 'struck', corrects: 'slip' });
});

test('from the correction on, the doubt of before is gone, and it is said that it is reckoned anew', async () => {
  const bench = benchOf(true);
  const drawn = render(RunLive, { bench, batch: 'b', run: run() });
  await screen.findByText(/37\.2 at 29\.0.*expected 72\.0–74\.0/);
  let tell = (_: RunForecast) => undefined as void;
  Object.assign(bench.api, {
    get: () => new Promise<RunForecast>((then) => (tell = (told) => then(told))),
  });
  const mended = run();
  Object.assign(mended.readings[1]!, {
    corrections: 1,
    spout: { reading: 73.2, scale: 'percent_vol' },
  });
  await new Promise((then) => setTimeout(then, 5)); // a correction is later than the question
  await drawn.rerender({ bench, batch: 'b', run: mended });
  expect(
    await screen.findByText(/73\.2.*: corrected; whether it fits is reckoned anew/),
  ).toBeTruthy();
  expect(screen.queryByText(/expected 72\.0–74\.0/)).toBeNull();
  tell({ ...forecast, doubts: [] });
  await vi.waitFor(() => expect(screen.queryByText(/reckoned anew/)).toBeNull());
});

test('one doubted reading stands in full, the others behind their count', async () => {
  const many = run();
  const bench = benchOf(true);
  const doubts = ['slip', 'good'].map((entry) => ({ ...forecast.doubts[0]!, entry }));
  Object.assign(bench.api, { get: () => Promise.resolve({ ...forecast, doubts }) });
  render(RunLive, { bench, batch: 'b', run: many });
  expect(await screen.findByText(/^1\s+more reading is kept, not believed$/)).toBeTruthy();
  const folded = screen.getByText(/73\.1 at 29\.0/, { selector: 'details p' });
  expect(folded.closest('details')!.open).toBe(false);
  expect(screen.getByText(/37\.2 at 29\.0/, { selector: 'p' }).closest('details')).toBeNull();
});

test('a jar whose volume is not believed stands in full too, and is marked in its list', async () => {
  const bench = benchOf(true);
  const doubts = [
    { entry: 'full', instrument: 'collected', words: 'does not fit (expected 2900–3100 mL)' },
  ];
  Object.assign(bench.api, { get: () => Promise.resolve({ ...forecast, doubts }) });
  const filled = { entry: 'full', at: ago(5) };
  const jars = [{ jar: 5, as_filled_mL: 99999, filled, notes: [] }];
  render(RunLive, { bench, batch: 'b', run: { ...run(), jars } });
  const said = await screen.findByText(/Jar 5 full, with those before it: does not fit/);
  expect(said.closest('details')).toBeNull();
  expect(screen.getByRole('row', { name: /^5/, hidden: true }).textContent).toMatch(
    /kept, not believed/,
  );
});

test('a jar takes no more than was charged, and far more than the one before is asked about', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('Next jar');
  const field = drawer().getByLabelText('Another volume');
  await userEvent.type(field, '99999');
  expect(drawer().getByText(/“99999” cannot be; accepted: 1–30.000.mL/)).toBeTruthy();
  await key('Full');
  expect(kept).toEqual([]);
  await userEvent.clear(field);
  await userEvent.type(field, '5000');
  expect(
    drawer().getByText(/5000.mL is far more than the jar before it held: 500.mL/),
  ).toBeTruthy();
  await key('Full');
  expect(kept[0]).toMatchObject({ body: { jar: 6, volume_mL: 5000 } });
});

test('the next jar is two taps when it holds what the last one held', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('Next jar');
  await tap(/^Full, 500.mL as before/);
  expect(kept[0]).toMatchObject({ kind: 'jar filled', body: { run: 'r', jar: 6, volume_mL: 500 } });
});

test('the first jar is asked for its volume; taken away without one, that is told', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: { ...run(), jars: [] } });
  await tap('Next jar');
  expect(drawer().getByText(/How much did it hold/)).toBeTruthy();
  expect(drawer().queryByText(/as before/)).toBeNull();
  await tap(/^Its volume is not known; jar 2 next/);
  expect(kept[0]!.body).toEqual({ run: 'r', jar: 1 });
  expect(await screen.findByText(/Jar 1 is away, without a volume: gauge it/)).toBeTruthy();
});

test('where °F is spoken the head is typed in °F and kept in °C', async () => {
  set({ units: 'us' });
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('Reading');
  await key('Head', '1', '9', '4', 'Keep');
  expect(kept[0]!.body).toEqual({ run: 'r', head_temperature_C: expect.closeTo(90) });
});

test('a jar’s volume is taken with another unit than the pad’s, as in every field', async () => {
  set({ units: 'us' });
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('Next jar');
  await userEvent.type(drawer().getByLabelText('Another volume'), '1 pt');
  await key('Full');
  expect(kept[0]!.body).toEqual({ run: 'r', jar: 6, volume_mL: expect.closeTo(473.18, 2) });
});

test('the heat goes off by an entry, and the clock of a decision rings before its doubt begins', async () => {
  const bench = benchOf(true);
  render(RunLive, { bench, batch: 'b', run: run() });
  await screen.findByText('in 30 min');
  await tap('Ring then');
  expect(bench.clocks.all[0]!.name).toBe('tails near');
  expect(await screen.findByText(/^Will ring at \d\d:\d\d$/)).toBeTruthy();
  expect(bench.clocks.all[0]!.length_ms / 60_000).toBeCloseTo(21, 0);
  await tap('Power');
  await tap(/^Heat is off/);
  expect(kept[0]).toMatchObject({ kind: 'run read', body: { run: 'r', event: 'stopped' } });
});

test('while the house is away, what was entered here counts, and is said to be here only', async () => {
  kept = [
    newEntry({
      batch: 'b',
      stage: 'spirit run',
      kind: 'run read',
      who: '',
      body: {
        run: 'r',
        spout: { reading: 69.4, scale: 'percent_vol' },
        spout_temperature_C: 30,
      },
    }),
    newEntry({
      batch: 'b',
      stage: 'spirit run',
      kind: 'jar filled',
      who: '',
      body: { run: 'r', jar: 6, volume_mL: 480 },
    }),
  ];
  render(RunLive, { bench: benchOf(false), batch: 'b', run: run() });
  expect(await screen.findByText('alcoholmeter 69.4 at 30 °C')).toBeTruthy();
  expect(screen.getByText('jar 7')).toBeTruthy();
  expect(screen.getByText('2 of this run not yet at home.')).toBeTruthy();
});

test('while the house is away, a stopped run that goes on is told to heat up, with no time and no old strength', async () => {
  const told = (event: 'stopped' | 'resumed') =>
    newEntry({
      batch: 'b',
      stage: 'spirit run',
      kind: 'run read',
      who: '',
      body: { run: 'r', event },
    });
  kept = [told('stopped')];
  const stopped = render(RunLive, { bench: benchOf(false), batch: 'b', run: run() });
  expect(await screen.findByText('Stopped')).toBeTruthy();
  expect(screen.getByRole('button', { name: 'Go on' })).toBeTruthy();
  stopped.unmount();

  kept.push(told('resumed'));
  const away = benchOf(false);
  away.api.get = () => Promise.resolve(forecast as never); // as it was told before
  render(RunLive, { bench: away, batch: 'b', run: { ...run(), standing: 'stopped' } });
  expect(await screen.findByText('Heating up')).toBeTruthy();
  expect(screen.queryByText('Stopped')).toBeNull();
  expect(screen.getByRole('button', { name: 'Power' })).toBeTruthy();
  expect(screen.getByText(/as soon as the house answers/)).toBeTruthy();
  expect(screen.queryByText(/alcoholmeter 73/)).toBeNull();
});

test('a decision that is due strikes the bell once, and its sentence stands until it is heard', async () => {
  const struck = vi.spyOn(alarm, 'strike').mockImplementation(() => undefined);
  const due = {
    ...forecast,
    decisions: [
      { decision: 'tails_near' as const, words: '', passed: false, at_minutes: band(105, 9) },
    ],
  };
  const bench = benchOf(true);
  Object.assign(bench.api, { get: () => Promise.resolve(due) });
  const first = render(RunLive, { bench, batch: 'b', run: run() });
  await screen.findByText(/Head about 88\.4.°C\. Tails near/, { selector: 'p' });
  // It was due at 105 of the run's 100 minutes.
  expect(screen.getByText(/^Due about \d\d:\d\d, in 5 min\.$/)).toBeTruthy();
  expect(struck).toHaveBeenCalledTimes(1);
  first.unmount();
  render(RunLive, { bench, batch: 'b', run: run() }); // as after a reload
  await screen.findByText(/Tails near, by the forecast/, { selector: 'p' });
  expect(struck).toHaveBeenCalledTimes(1);
  await tap(/^Heard/);
  expect(screen.getByRole('alert').textContent).not.toMatch(/Tails near/);
});

test('where nothing may sound the page says so, and the switch turns the tone off', async () => {
  const struck = vi.spyOn(alarm, 'strike').mockImplementation(() => undefined);
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  expect(screen.getByText(/This browser cannot sound/)).toBeTruthy(); // jsdom has no audio
  await userEvent.click(screen.getByRole('switch', { name: /^Tone at each decision/ }));
  expect(screen.queryByText(/This browser cannot sound/)).toBeNull();
  expect(struck).not.toHaveBeenCalled();
});

test('the cautions stand there, and nothing says that a spirit is safe', async () => {
  const { container } = render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await screen.findByText('Hearts');
  expect(screen.getByText(/Never leave a heated still/, { selector: 'li' })).toBeTruthy();
  expect(screen.getByText(/blue or green/)).toBeTruthy();
  expect(container.textContent).not.toMatch(/\bsafe\b/i);
});

test('what speaks against the charge stands there also where nothing can be forecast', async () => {
  const unheard = benchOf(true);
  Object.assign(unheard.api, { get: () => Promise.reject(new NoAnswer('not there')) });
  const against = ['The charge is 60.0 L, and the boiler holds 45.0 L to its brim.'];
  render(RunLive, { bench: unheard, batch: 'b', run: { ...run(), against } });
  expect(await screen.findByText(/60\.0.L, and the boiler holds 45\.0.L/)).toBeTruthy();
  expect(
    screen.getByRole('button', { name: /^Danger: *Charge or power beyond the boiler/ }),
  ).toBeTruthy();
});

test('one line of the gravest caution stays above all, and a tap on it opens them all', async () => {
  const drawn = render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await screen.findByText('Hearts');
  const line = screen.getByRole('button', { name: /^Danger: *Never leave a heated still/ });
  expect(line.closest('.stuck')).toBeTruthy();
  await userEvent.click(line);
  expect(drawer().getByText(/If the coolant fails: heat off first/)).toBeTruthy();
  expect(drawer().getByText(/blue or green/)).toBeTruthy();
  drawn.unmount();

  const hot = run();
  hot.readings[0]!.spout_temperature_C = hot.readings[1]!.spout_temperature_C = 43;
  const warm = render(RunLive, { bench: benchOf(true), batch: 'b', run: hot });
  await userEvent.click(
    await screen.findByRole('button', { name: /^Danger: *Spirit above 40.°C at the spout/ }),
  );
  expect(drawer().getByText(/Heat off first, then see to the coolant/)).toBeTruthy();
  expect(drawer().getByText(/Never leave a heated still/)).toBeTruthy();
  warm.unmount();

  // Also where the reading that told it is not believed.
  const unfit = run();
  unfit.readings.find((reading) => reading.entry === 'slip')!.spout_temperature_C = 55;
  unfit.readings = unfit.readings.filter((reading) => reading.entry === 'slip');
  const doubted = render(RunLive, { bench: benchOf(true), batch: 'b', run: unfit });
  await screen.findByText('Hearts');
  expect(
    screen.getByRole('button', { name: /^Danger: *Spirit above 40.°C at the spout/ }),
  ).toBeTruthy();
  doubted.unmount();

  // And a reading that is not believed does not clear it.
  const cleared = run();
  cleared.readings[0]!.spout_temperature_C = 43;
  const still = render(RunLive, { bench: benchOf(true), batch: 'b', run: cleared });
  await screen.findByText('Hearts');
  expect(
    screen.getByRole('button', { name: /^Danger: *Spirit above 40.°C at the spout/ }),
  ).toBeTruthy();
  still.unmount();

  const scalding = run();
  scalding.readings[0]!.coolant_out_C = 92;
  const coolant = render(RunLive, { bench: benchOf(true), batch: 'b', run: scalding });
  await userEvent.click(
    await screen.findByRole('button', { name: /^Danger: *Coolant leaves above 70.°C/ }),
  );
  expect(drawer().getByText(/More or colder coolant, or less heat/)).toBeTruthy();
  coolant.unmount();

  const low = benchOf(true);
  const potLow = { decision: 'pot_low' as const, words: '', passed: false };
  Object.assign(low.api, {
    get: () =>
      Promise.resolve({ ...forecast, decisions: [{ ...potLow, at_minutes: band(104, 6) }] }),
  });
  const dry = render(RunLive, { bench: low, batch: 'b', run: run() });
  expect(await screen.findByRole('button', { name: /^Danger: *The pot runs low/ })).toBeTruthy();
  dry.unmount();

  const ended = { ...run(), standing: 'ended' as const };
  render(RunLive, { bench: benchOf(true), batch: 'b', run: ended });
  await screen.findByText('Ended');
  expect(screen.queryByRole('button', { name: /^Danger/ })).toBeNull();
});

const HOUSE_HOT =
  'spirit above 40 °C at the spout: vapour may be escaping. Heat off first, then see to the coolant.';

test('that the spirit is hot stands once on the page and once in the drawer, whoever says it', async () => {
  const bench = benchOf(true);
  Object.assign(bench.api, {
    get: () => Promise.resolve({ ...forecast, cautions: [HOUSE_HOT] }),
  });
  const hot = run();
  hot.readings[1]!.spout_temperature_C = 43;
  const drawn = render(RunLive, { bench, batch: 'b', run: hot });
  await screen.findByText('Hearts');
  const said = () => screen.getAllByText(/vapour may be escaping/i);
  expect(said()).toHaveLength(1);
  await userEvent.click(screen.getByRole('button', { name: /^Danger: *Spirit above 40/ }));
  expect(drawer().getAllByText(/vapour may be escaping/i)).toHaveLength(1);
  drawn.unmount();

  // The house alone says it: it is not lost.
  render(RunLive, { bench, batch: 'b', run: run() });
  await screen.findByText('Hearts');
  expect(said()).toHaveLength(1);
});

test('away from the house a danger that is corrected away goes, and one that is corrected into shows', async () => {
  const corrected = (spout_temperature_C: number) =>
    newEntry({
      batch: 'b',
      stage: 'spirit run',
      kind: 'run read',
      who: '',
      corrects: 'slip',
      at: ago(10),
      body: { run: 'r', spout: { reading: 37.2, scale: 'percent_vol' }, spout_temperature_C },
    });
  const away = benchOf(false);
  away.api.get = () => Promise.resolve({ ...forecast, cautions: [HOUSE_HOT] } as never); // as before
  const hot = run();
  hot.readings[1]!.spout_temperature_C = 43;
  kept = [corrected(29)];
  const mended = render(RunLive, { bench: away, batch: 'b', run: hot });
  await screen.findByText('Hearts');
  await vi.waitFor(() => expect(screen.queryByText(/vapour may be escaping/i)).toBeNull());
  expect(screen.queryByRole('button', { name: /^Danger: *Spirit above/ })).toBeNull();
  mended.unmount();

  kept = [corrected(43)];
  render(RunLive, { bench: benchOf(false), batch: 'b', run: run() });
  expect(await screen.findByRole('button', { name: /^Danger: *Spirit above 40/ })).toBeTruthy();
  expect(screen.getAllByText(/vapour may be escaping/i)).toHaveLength(1);
});

test('what is asked of the charge stands once, where it can be corrected', async () => {
  const why = 'The charge holds 9.00 L of pure alcohol, and what there was held 4.00 L.';
  const bench = benchOf(true);
  Object.assign(bench.api, { get: () => Promise.resolve({ ...forecast, cautions: [why] }) });
  const told = { batch: 'b', puzzles: [{ entry: 'r', why, counts: true }] } as unknown as Batch;
  const drawn = render(RunLive, { bench, batch: 'b', run: run(), told });
  await screen.findByText('Hearts');
  expect(screen.getAllByText(/what there was held/)).toHaveLength(1);
  expect(
    screen.getByRole('link', { name: 'Correct it, or say that it is so, in the batch’s journal' }),
  ).toBeTruthy();
  drawn.unmount();
  // Where the batch asks nothing of it, the house's caution is all there is.
  render(RunLive, { bench, batch: 'b', run: run() });
  expect(await screen.findByText(/what there was held/, { selector: 'li' })).toBeTruthy();
});

test('what to do when a decision is expected now stands in a line of its own', async () => {
  const due = {
    ...forecast,
    decisions: [
      { decision: 'hearts_end' as const, words: '', passed: false, at_minutes: band(95, 9) },
    ],
  };
  const bench = benchOf(true);
  Object.assign(bench.api, { get: () => Promise.resolve(due) });
  render(RunLive, { bench, batch: 'b', run: run() });
  expect(await screen.findByText('read the spout', { selector: '.phase .ask' })).toBeTruthy();
  expect(screen.getByText(/^Hearts end expected now:/)).toBeTruthy();
});

const BARE =
  '5.4 L (5.3 to 5.5) is left in the pot; the element needs 9.0 L over it and burns dry. Heat off first.';

test('a bare element stands in the line above all and rings once, until it is covered again', async () => {
  const struck = vi.spyOn(alarm, 'strike').mockImplementation(() => undefined);
  struck.mockClear();
  const bare = benchOf(true);
  Object.assign(bare.api, {
    get: () =>
      Promise.resolve({
        ...forecast,
        cautions: [BARE],
        heat_off: { says: BARE, brief: 'Element bare: heat off first' },
      }),
  });
  const hot = { ...run(), entry: 'bare' };
  hot.readings[0]!.spout_temperature_C = hot.readings[1]!.spout_temperature_C = 43;
  const drawn = render(RunLive, { bench: bare, batch: 'b', run: hot });
  const line = await screen.findByRole('button', {
    name: /^Danger: *Element bare: heat off first/,
  });
  expect(line.textContent).toMatch(/Spirit above 40.°C/); // neither hides the other
  expect(screen.getByRole('alert').textContent).toMatch(/5\.4.L .*burns dry\. Heat off first\./);
  expect(struck).toHaveBeenCalledTimes(1);
  await tap(/^Heard/);
  expect(screen.getByRole('alert').textContent).not.toMatch(/burns dry/);
  expect(screen.getByRole('button', { name: /^Danger: *Element bare/ })).toBeTruthy();
  drawn.unmount();

  const covered = render(RunLive, { bench: benchOf(true), batch: 'b', run: hot });
  await screen.findByText('Hearts');
  expect(screen.queryByRole('button', { name: /Element bare/ })).toBeNull();
  covered.unmount();
  render(RunLive, { bench: bare, batch: 'b', run: hot });
  await screen.findByRole('button', { name: /^Danger: *Element bare/ });
  expect(struck).toHaveBeenCalledTimes(2);
});

test('a run that the house refuses to forecast says why at once, and that nothing will ring', async () => {
  const bench = benchOf(true);
  const refusal = new Problem({
    title: 'Refused',
    status: 422,
    detail: 'hearts_end, 62 %vol, is never reached.',
  });
  Object.assign(bench.api, { get: () => Promise.reject(refusal) });
  render(RunLive, { bench, batch: 'b', run: { ...run(), entry: 'weak', at: ago(0.1) } });
  expect(await screen.findByText(/hearts_end, 62 %vol, is never reached/)).toBeTruthy();
  expect(screen.getByText(/Nothing will ring for this run/)).toBeTruthy();
  expect(screen.queryByText(/being reckoned/)).toBeNull();
});

test('with a corrected start the forecast of the old one is told no more, nor rings', async () => {
  const bench = benchOf(true);
  const old = { ...run(), entry: 'moved', at: ago(1300) };
  const due: RunForecast = {
    ...forecast,
    decisions: [{ decision: 'pot_low', words: '', passed: false, at_minutes: band(40, 6) }],
  };
  Object.assign(bench.api, { get: () => Promise.resolve(due) });
  const drawn = render(RunLive, { bench, batch: 'b', run: old });
  await screen.findByText(/The pot runs low, by the forecast/, { selector: 'p' });
  let tell = (_: RunForecast) => undefined as void;
  Object.assign(bench.api, {
    get: () => new Promise<RunForecast>((then) => (tell = (told) => then(told))),
  });
  await new Promise((then) => setTimeout(then, 5)); // a correction is later than the question
  await drawn.rerender({ bench, batch: 'b', run: { ...old, at: ago(100) } });
  expect(await screen.findByText(/being reckoned/)).toBeTruthy();
  expect(screen.getByRole('alert').textContent).not.toMatch(/The pot runs low/);
  tell(forecast);
  expect(await screen.findByText('in 30 min')).toBeTruthy();
  expect(screen.getByRole('alert').textContent).not.toMatch(/The pot runs low/);
});

test('a double press of a full jar fills one jar', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('Next jar');
  const full = drawer().getByRole('button', { name: /^Full, 500.mL as before/ });
  full.click();
  full.click();
  await screen.findByText(/Jar 6 is away/);
  expect(kept).toHaveLength(1);
});

/** The batch, of which the house asks about these entries. */
const toldAsking = (...entries: string[]) =>
  ({
    batch: 'b',
    puzzles: entries.map((entry) => ({ entry, why: 'So much?', counts: true })),
  }) as unknown as Batch;

test('a volume that the house asks about or doubts is not offered for the next jar', async () => {
  const filled = { entry: 'slip of a jar', at: ago(30) };
  const jars = [{ jar: 1, as_filled_mL: 15_000, filled, notes: [] }];
  const shown = { bench: benchOf(true), batch: 'b', run: { ...run(), jars } };
  const page = render(RunLive, { ...shown, told: toldAsking() });
  await tap('Next jar');
  expect(drawer().getByText(/^Full, 15.000.mL as before/)).toBeTruthy();
  await userEvent.click(drawer().getByRole('button', { name: 'Close' }));
  await page.rerender({ ...shown, told: toldAsking('slip of a jar') });
  await tap('Next jar');
  expect(drawer().queryByText(/as before/)).toBeNull();
  // It was told, and is asked for again: the sentence says what it takes.
  expect(drawer().getByText(/Told once and not doubted, it is offered/)).toBeTruthy();
});

test('at what temperature the rest in the pot is measured is said at its field', async () => {
  render(RunLive, { bench: benchOf(true), batch: 'b', run: run() });
  await tap('End the run');
  const left = drawer().getByLabelText('Left in the pot');
  const help = document.getElementById(left.getAttribute('aria-describedby')!)!;
  expect(help.textContent).toMatch(/measured cold, at about 20\s°C as the charge was/);
});

test('a charge that leaves the element bare is a danger of the run without a forecast too', async () => {
  const struck = vi.spyOn(alarm, 'strike').mockImplementation(() => undefined);
  struck.mockClear();
  const bench = benchOf(true);
  const errors = [{ field: 'charge', value: '400 mL', accepted: 'a volume of 500 mL or more' }];
  const refusal = new Problem({ title: 'Refused', status: 422, errors });
  Object.assign(bench.api, { get: () => Promise.reject(refusal) });
  const small: Run = {
    ...run(),
    entry: 'a run of next to nothing',
    run: 'strip',
    charge_L_20C: 0.4,
    jars: [],
    readings: [],
  };
  const shown = render(RunLive, { bench, batch: 'b', run: small, needs_L: 6 });
  await screen.findByText(/^A charge of 400.mL cannot be reckoned/, { exact: false });
  expect(
    screen.getByRole('button', { name: /^Danger: *Element bare: heat off first/ }),
  ).toBeTruthy();
  const says = /The charge is 0\.4.L; the element needs 6\.0.L over it and burns dry/;
  expect(screen.getByRole('alert').textContent).toMatch(says);
  expect(screen.getAllByRole('listitem').some((li) => says.test(li.textContent ?? ''))).toBe(true);
  expect(screen.getByText('Nothing else will ring for this run')).toBeTruthy();
  expect(struck).toHaveBeenCalledTimes(1);
  await shown.rerender({ run: { ...small, charge_L_20C: 26 } });
  expect(screen.queryByRole('button', { name: /Element bare/ })).toBeNull();
});

test('an end that is typed and not told stands after the page was left, until it is told', async () => {
  const drafts = () => Object.keys(localStorage).filter((key) => key.startsWith('lynearm-typing-'));
  const value = (label: string) => drawer().getByLabelText<HTMLInputElement>(label).value;
  const showEnd = async () => {
    const page = render(RunLive, {
      bench: benchOf(true),
      batch: 'end left',
      run: { ...run(), entry: 'run whose end is left' },
    });
    await tap('End the run');
    return page;
  };
  const typed = await showEnd();
  expect(drafts()).toEqual([]);
  await userEvent.type(drawer().getByLabelText('Volume'), '9.5');
  await userEvent.type(drawer().getByLabelText('Alcoholmeter reads'), '61');
  await userEvent.type(drawer().getByLabelText('Left in the pot'), '18');
  await userEvent.click(drawer().getByRole('button', { name: 'Earlier than now?' }));
  typed.unmount();

  set({ units: 'us' });
  const left = await showEnd();
  expect(value('Volume')).toBe('9.5 L');
  expect(value('Alcoholmeter reads')).toBe('61');
  expect(value('Left in the pot')).toBe('18 L');
  expect(drawer().getByLabelText('The heat went off at')).toBeTruthy();
  // Whoever shuts the drawer keeps the figures, and ends it now after all.
  await userEvent.click(drawer().getByRole('button', { name: 'Close' }));
  await tap('End the run');
  expect(drawer().queryByLabelText('The heat went off at')).toBeNull();
  expect(value('Volume')).toBe('9.5 L');
  expect(kept).toEqual([]);
  await userEvent.click(drawer().getByRole('button', { name: 'Heat is off: end the run' }));
  expect(kept[0]).toMatchObject({
    kind: 'run ended',
    body: { collected: { volume_L: 9.5, at_C: 20 }, strength: { reading: 61 }, left_L: 18 },
  });
  await vi.waitFor(() => expect(drafts()).toEqual([]));
  left.unmount();
  await showEnd();
  expect(value('Volume')).toBe('');
  expect(value('Left in the pot')).toBe('');
});

test('a power of 1.5 W is not told: kilowatts are, with their unit, and no heat is nought', async () => {
  render(RunLive, {
    bench: benchOf(true),
    batch: 'kilowatts',
    run: { ...run(), entry: 'kilowatts' },
  });
  await tap('Power');
  await key('1', 'Point', '5');
  expect(drawer().queryByText(/accepted: a power/)).toBeNull(); // it may become 1500 yet
  await key('Keep');
  expect(kept).toEqual([]);
  expect(
    drawer().getByText(/“1\.5” was given; accepted: a power such as 1500.W or 1\.5.kW/),
  ).toBeTruthy();
  await userEvent.type(drawer().getByLabelText('Power now'), ' kW');
  expect(drawer().queryByText(/accepted: a power/)).toBeNull();
  await key('Keep');
  expect(kept[0]).toMatchObject({ body: { power_W: 1500 } });
  await tap('Power');
  await key('0', 'Keep');
  expect(kept[1]).toMatchObject({ body: { power_W: 0 } });
});

test('a charge beyond the boiler is corrected from the page that says so', async () => {
  const beyond: Run = {
    ...run(),
    entry: 'beyond the boiler',
    against: ['The charge is 60.0 L, and the boiler holds 45.0 L to its brim.'],
  };
  const bench = benchOf(true);
  const begun = {
    ...newEntry({
      batch: 'beyond',
      stage: 'spirit run',
      kind: 'run begun',
      who: '',
      body: { run: 'spirit run', charge: { volume_L: 60, at_C: 20 } },
    }),
    id: 'beyond the boiler',
  };
  Object.assign(bench.api, {
    get: (path: string) =>
      Promise.resolve(path === '/batches/beyond/entries' ? { entries: [begun] } : forecast),
  });
  const record = vi.spyOn(pageBench, 'record').mockResolvedValue({} as never);
  const page = render(RunLive, { bench, batch: 'beyond', run: beyond });
  await screen.findByText('Hearts');
  await tap('Correct the charge');
  expect(
    await drawer().findByRole('heading', { name: 'Correct the start of the run' }),
  ).toBeTruthy();
  const volume = drawer().getByDisplayValue('60');
  await userEvent.clear(volume);
  await userEvent.type(volume, '40');
  await userEvent.click(drawer().getByRole('button', { name: /^Correct/ }));
  expect(record.mock.calls[0]![0]).toMatchObject({
    kind: 'run begun',
    corrects: 'beyond the boiler',
    body: { run: 'spirit run', charge: { volume_L: 40, at_C: 20 } },
  });
  record.mockRestore();
  await page.rerender({ bench, batch: 'beyond', run: { ...run(), entry: 'beyond the boiler' } });
  expect(screen.queryByRole('button', { name: 'Correct the charge' })).toBeNull();
});
