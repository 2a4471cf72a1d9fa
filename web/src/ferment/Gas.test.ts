// The box told the plan's gas also where ten times as much was pitched, and after the wash was racked.
import { render } from '@testing-library/svelte';
import { expect, test } from 'vitest';
import type { Batch } from '../data/answers';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import Gas from './Gas.svelte';
import { MAY_GO_ON, PLAN_ONLY, STANDS } from './gas';
import { whyGas } from './gas_whys';

const at = '2026-11-20T08:00:00.000Z';
const pitch = {
  entry: 'p',
  at,
  volume_L_20C: 1080,
  specific_gravity: 1.0588,
  extract_kg: 165.4,
  yeast: 'distillers-dry',
  mass_g: 550,
};
const tenfold = {
  standing: 'gives',
  mass_kg: 73.4,
  volume_L: 40180,
  peak_L_per_h: 789,
  peak_at_h: 29,
  fresh_air_m3_per_h: 171,
  room_at_peak_fraction: 0.027,
  room_m3: 60,
} as const;
const pitched = (gas: object | undefined) =>
  ({ ferment: { readings: [], pitch, carbon_dioxide: gas } }) as unknown as Batch;
const words = (told: Batch | undefined, pitchWaits = false) => {
  const { container } = render(Gas, { props: { told, plan: ternPlan, pitchWaits } });
  return container.textContent!.replace(/\s+/g, ' ');
};
/** The usual caution stands whatever the figures say. */
const caution = /Air the room before you go in, never lean into a fermenter/;

test('before the pitch the figures are the plan’s, and are called so', () => {
  const said = words(undefined);
  expect(said).toMatch(caution);
  expect(said).toContain('By its plan it gives off 7.3');
  expect(said).not.toContain('As pitched');
});

test('once pitched they are of what was pitched, in the room of the kit', () => {
  const said = words(pitched(tenfold));
  expect(said).toMatch(caution);
  expect(said).toMatch(/As pitched it gives off 73\.4\D/);
  expect(said).toMatch(/at most 789\D/);
  expect(said).toMatch(/171\D+of fresh air/);
  expect(said).toMatch(/In the closed room of 60.m³ the air would come to 2\.7/);
  expect(said).toContain('over the 0.5 % that are the limit for a working day');
  expect(said).not.toMatch(/7\.3\D|78\.9|plan/);
});

test('racked, and come to stand, it has no rate of gas, and keeps its caution', () => {
  const said = words(pitched({ ...tenfold, standing: 'stands' }));
  expect(said).toMatch(caution);
  expect(said).toContain(STANDS);
  expect(said).not.toMatch(/\d+ ?L\/h|kg|fresh air/);
});

test('what stands by a gravity that is not believed keeps its figures', () => {
  const told = pitched({ ...tenfold, standing: 'stands' });
  told.ferment.wash = { entry: 'slip' } as NonNullable<Batch['ferment']['wash']>;
  const band = { low: 1.02, median: 1.03, high: 1.04 };
  const doubts = [{ entry: 'slip', words: 'Kept, not believed.', expected: band }];
  const { container } = render(Gas, { props: { told, plan: ternPlan, doubts } });
  expect(container.textContent).toContain(MAY_GO_ON);
  expect(container.textContent).not.toContain(STANDS);
  expect(container.textContent).toMatch(/at most\s+789\D/);
});

test('racked while it may go on, it keeps its figures and says so', () => {
  const said = words(pitched({ ...tenfold, standing: 'racked' }));
  expect(said).toMatch(caution);
  expect(said).toContain(MAY_GO_ON);
  expect(said).toMatch(/at most 789\D/);
});

test('without a pace it says how much, and why not how fast', () => {
  const { mass_kg, volume_L } = tenfold;
  const no_pace = 'hexose is "450 g/L"; accepted: 5 to 400 g/L';
  const said = words(pitched({ standing: 'gives', mass_kg, volume_L, no_pace }));
  expect(said).toContain(`how fast is not reckoned: ${no_pace}`);
  expect(said).not.toContain('–');
});

test('a pitch that the house cannot reckon by is not told with the plan’s figures', () => {
  const said = words(pitched(undefined));
  expect(said).toMatch(caution);
  expect(said).not.toMatch(/gives off/);
});

test('a pitch that is on this device only is told as the plan’s, and as no more', () => {
  expect(words(undefined, true)).toContain(PLAN_ONLY);
  expect(words(pitched(tenfold))).not.toContain(PLAN_ONLY);
});

test('each figure of the pitch says why: what was pitched and fed, and in which room', () => {
  const { ferment } = pitched({ ...tenfold, fed_kg: 3 });
  for (const of of ['mass', 'peak', 'when'] as const) {
    const why = whyGas(ternPlan, of, ferment);
    expect(why.what).toContain('as pitched');
    expect(why.inputs).toContainEqual({ name: 'Pitched, at 20 °C', value: '1080.0 L' });
    expect(why.inputs).toContainEqual({ name: 'Gravity at the pitch', value: '1.0588' });
    expect(why.inputs).toContainEqual({
      name: 'Put in since, all taken for sugar',
      value: '3.00 kg',
    });
    expect(new Set(why.inputs.map((i) => i.name)).size, of).toBe(why.inputs.length);
    expect(why.what).not.toContain('by the plan');
  }
  const air = whyGas(ternPlan, 'air', ferment);
  expect(air.inputs).toContainEqual({ name: 'Room, by the kit', value: '60 m³' });
  expect(air.inputs).toContainEqual({ name: 'At most', value: '0.789 m³/h' });
});
