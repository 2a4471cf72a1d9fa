import { expect, test } from 'vitest';
import type { Gauged, Jar, Run, RunForecast } from '../data/answers';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import {
  endedOf,
  jarsWait,
  spread,
  took,
  trueStrength,
  whyCharge,
  whyEnded,
  whyLength,
  whyLive,
} from './run_whys';

const lot = (volume_L_20C: number, strength_percent_vol: number) => ({
  volume_L_20C,
  strength_percent_vol,
  pure_alcohol_L_20C: (volume_L_20C * strength_percent_vol) / 100,
});
const jar = (number: number, more: object = {}) =>
  ({ jar: number, as_filled_mL: 500, notes: [], ...more }) as unknown as Jar;
const run = (more: object): Run =>
  ({
    entry: 'r',
    at: '2026-11-20T08:00:00.000Z',
    run: 'spirit run',
    standing: 'ended',
    charge_L_20C: 30,
    lots: [],
    readings: [],
    jars: [],
    ended: { entry: 'e', at: '2026-11-20T12:20:00.000Z' },
    ...more,
  }) as unknown as Run;

test('a run that was measured in one tells volume, strength and how long it took', () => {
  const strip = run({
    run: 'strip',
    collected: lot(6.7, 32.7),
    collected_read: { volume_L: 6.72, at_C: 22 },
    readings: [{ entry: 'a', at: '', minutes: 1, event: 'stopped' }],
  });
  const ended = endedOf(strip);
  expect(ended).toMatchObject({ by: 'collected', volume_L: 6.7, strength_percent_vol: 32.7 });
  expect(took(ended)).toBe('4 h 20 min');
  expect(jarsWait(ended)).toBe('');
  expect(whyEnded(strip, ended, 'volume').inputs[0]!.value).toBe('6.72 L at 22.0 °C');
  expect(whyLength(strip).inputs).toContainEqual({ name: 'Stopped between', value: '1 time' });
});

test('a run by jars is their sum, and tells for what they wait', () => {
  const half = run({ jars: [jar(1, { lot: lot(0.5, 78) }), jar(2)] });
  expect(endedOf(half)).toMatchObject({ by: 'as filled', volume_L: 1, gauged: 1 });
  expect(endedOf(half).strength_percent_vol).toBeUndefined();
  expect(jarsWait(endedOf(half))).toBe('1 of 2 jars wait to be gauged.');
  const jars = [jar(1, { lot: lot(0.5, 78) }), jar(2, { lot: lot(1.5, 70) })];
  const whole = run({ jars });
  const ended = endedOf(whole);
  expect(ended.volume_L).toBe(2);
  expect(ended.strength_percent_vol).toBeCloseTo(72, 9);
  expect(jarsWait(ended)).toBe('Its 2 jars are gauged and wait to be allotted.');
  expect(whyEnded(whole, ended, 'strength').inputs).toContainEqual({
    name: 'Jar 2',
    value: '1.500 L at 70.0 %vol',
  });
  expect(jarsWait(endedOf(run({ jars, allotted: { entry: 'c', at: '' } })))).toBe(
    'Its 2 jars are allotted.',
  );
  expect(jarsWait(endedOf(run({ jars: [jar(1)] })))).toBe(
    'Its jar waits to be gauged, after airing.',
  );
});

test('a run of which nothing was told makes nothing up', () => {
  const ended = endedOf(run({ ended: undefined }));
  expect(ended.volume_L).toBeUndefined();
  expect(took(ended)).toBeUndefined();
});

test('a live figure has the forecast’s reason, its own name and its own band', () => {
  const forecast = {
    why: { what: 'The run', inputs: [], model: 'M.', source: 'S', band: 'weighed stills' },
  } as unknown as RunForecast;
  const why = whyLive(forecast, 'head', spread({ low: 88.1, median: 88.4, high: 88.7 }, 1, '°C'))!;
  expect(why.what).toMatch(/head/);
  expect(why.band).toBe('80 %: 88.1 to 88.7 °C; weighed stills');
  expect(spread({ low: 3, median: 3, high: 3 }, 1, 'L')).toBeUndefined();
  expect(whyLive(undefined, 'head')).toBeUndefined();
});

test('a true strength brings the house’s reason and the band of its gauging', () => {
  const why = { what: 'True', inputs: [], model: 'M.', source: 'OIML R 22' };
  const told = {
    strength_percent_vol: 70,
    standard_percent_vol: 0.5,
    why,
  } as unknown as Gauged;
  const { low, high, why: given } = trueStrength(told, 'read');
  expect(given).toBe(why);
  // 80 % of a normal lie within 1.2816 standard deviations.
  expect(low).toBeCloseTo(69.36, 2);
  expect(high).toBeCloseTo(70.64, 2);
});

test('what the plan would charge answers why for strip and spirit run', () => {
  for (const kind of ['strip', 'spirit run'] as const)
    for (const of of ['volume', 'strength', 'limit', 'power'] as const) {
      const why = whyCharge(ternPlan, kind, of);
      for (const { name, value } of why.inputs) expect(value, name).not.toMatch(/–|NaN/);
      expect(why.source).not.toMatch(/docs|\.md/);
    }
  expect(whyCharge(ternPlan, 'spirit run', 'volume').inputs).toContainEqual({
    name: 'Feints',
    value: '1.5 L at 32.0 %vol',
  });
  expect(whyCharge(ternPlan, 'strip', 'limit').inputs).toContainEqual({
    name: 'So much of it',
    value: '67.5 %',
  });
});
