import { expect, test } from 'vitest';
import type { Batch, FermentForecast } from '../data/answers';
import { quantity, restated } from '../data/units';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import {
  whyDay,
  whyGravity,
  whyPitch,
  whyPlannedDay,
  whyPlannedRacking,
  whyRacked,
  whyReading,
  whyWash,
} from './ferment_whys';
import { whyGas } from './gas_whys';

const at = '2026-11-20T08:00:00.000Z';
const glass = { entry: 'g', at, specific_gravity: 1.04, temperature_C: 25 };
const light = { entry: 'l', at, specific_gravity: 1.009, by_refractometer: true };
const ferment = {
  pitch: { entry: 'p', at, specific_gravity: 1.058 },
  readings: [glass, light],
  racked: { entry: 'r', at, clear_L_20C: 106.7 },
  wash: {
    specific_gravity: 1.009,
    strength_percent_vol: 6.8,
    volume_L_20C: 106.7,
    pure_alcohol_L_20C: 7.26,
  },
} as unknown as Batch['ferment'];
const forecast = {
  rest_hours: 72,
  why: {
    what: 'Gravity',
    inputs: [{ name: 'Room', value: '18.0 °C' }],
    model: 'Courses weighed.',
    source: 'Cramer et al. (2002)',
    band: '80 % of the weighed courses',
  },
} as unknown as FermentForecast;

test('every figure of the ferment answers why, with a source and no gap', () => {
  const whys = [
    whyGravity(ferment, light),
    whyReading(ferment, glass),
    whyWash(ferment),
    whyDay(forecast, 'dry', undefined),
    ...(['dry', 'rested'] as const).map((day) => whyPlannedDay(ternPlan, day)),
    ...(['mass', 'peak', 'when', 'air'] as const).map((of) => whyGas(ternPlan, of)),
    ...(['temperature', 'yeast', 'food'] as const).map((of) => whyPitch(ternPlan, of)),
    whyPlannedRacking(ternPlan),
    ...(['volume', 'alcohol'] as const).map((of) => whyRacked(ferment, of)),
  ];
  for (const why of whys) {
    expect(why.inputs.length, why.what).toBeGreaterThan(0);
    for (const { name, value } of why.inputs)
      expect(value, `${why.what}: ${name}`).not.toMatch(/–|NaN/);
    expect(new Set(why.inputs.map((i) => i.name)).size, why.what).toBe(why.inputs.length);
    expect(why.source, why.what).not.toMatch(/docs|\.md/);
    expect(why.band, why.what).toBeTruthy();
  }
});

test('a gravity names the instrument that told it and what that misses by', () => {
  expect(whyGravity(ferment, light).source).toContain('Lorentz');
  expect(whyReading(ferment, glass).source).toContain('OIML R 44');
  expect(whyReading(ferment, light).band).toContain('0.0025');
  expect(whyGravity(ferment, undefined).inputs).toContainEqual({
    name: 'Gravity at the pitch',
    value: '1.0580',
  });
});

test('a date carries the band of the forecast in days, and the rest that follows', () => {
  const why = whyDay(forecast, 'rested', 'Tue 24 Nov to Thu 26 Nov');
  expect(why.band).toBe('80 %: Tue 24 Nov to Thu 26 Nov; 80 % of the weighed courses');
  expect(why.inputs).toContainEqual({
    name: 'Rest after it is dry, by the recipe',
    value: '3.0 days',
  });
  expect(whyPlannedDay(ternPlan, 'dry').inputs).toContainEqual({
    name: 'Dry after',
    value: '4.0 days',
  });
});

test('gas and air are told in cubic feet to those who think in feet', () => {
  const plain = (text: string) => text.replaceAll('\u00a0', ' ');
  const { peak_L_per_h: peak, fresh_air_m3_per_h: air } = ternPlan.ferment.carbon_dioxide;
  expect(plain(quantity(peak, 'L/h of gas', 0, 'metric'))).toBe('79 L/h of gas');
  // NIST SP 811: a cubic foot is 0.028316846592 m³, exactly.
  expect(plain(quantity(peak, 'L/h of gas', 0, 'us'))).toBe('2.8 ft³/h');
  expect(plain(quantity(air, 'm³/h', 0, 'us'))).toBe('603 ft³/h');
  expect(plain(restated('a closed room of 60 m³', 'us'))).toBe('a closed room of 2119 ft³');
});
