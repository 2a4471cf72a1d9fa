// What a charge leaves over an element, before its heat is on.
import { expect, test } from 'vitest';
import type { Plan } from '../data/answers';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import { bareElement, elementNeeds, leftInPot } from './pot_left';

const plan = ternPlan as unknown as Plan;
const strip = plan.strip.run;
const spirit = plan.spirit_run.run;
const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ');

test('the kit tells what its element needs, or that it has one and does not say', () => {
  const kit = (boiler: string) => elementNeeds(`name = "a"\n[boiler]\ntotal = "45 L"\n${boiler}`);
  expect(kit('element_covered_above = "6 L" # by the mark')).toBe(6);
  expect(kit('element_covered_above = "2 gal"')).toBeCloseTo(7.57, 2);
  expect(kit('heat = "element"')).toBe('untold');
  expect(kit('')).toBe('untold'); // the house takes an element where no heat is stated
  expect(kit('heat = "flame"')).toBeUndefined();
  expect(elementNeeds('name = "no boiler"')).toBeUndefined();
  expect(elementNeeds('not [ toml')).toBeUndefined();
  expect(elementNeeds(undefined)).toBeUndefined();
});

test('of the planned charge as much is left as the plan says; of a stronger one less', () => {
  for (const run of [strip, spirit]) {
    const { volume_L_20C: volume_L, pure_alcohol_L: pure_L } = run.charge;
    expect(leftInPot(run, { volume_L, pure_L })).toBeCloseTo(run.left_in_pot_L, 9);
    expect(leftInPot(run, { volume_L, pure_L: undefined })).toBeCloseTo(run.left_in_pot_L, 9);
    const stronger = leftInPot(run, { volume_L, pure_L: 1.2 * pure_L });
    expect(stronger).toBeLessThan(run.left_in_pot_L);
    expect(leftInPot(run, { volume_L, pure_L: 100 })).toBe(0);
  }
});

test('other charges leave about what the engine leaves of them', () => {
  // Runs of the engine on the Tern kit to 10 %vol at the spout, as `lynearm spirit` tells them: litres
  // left at 20 °C. They were made once; the estimate is not the engine's.
  const swells = spirit.left_in_pot_L / spirit.left_in_pot.volume_L_20C;
  for (const [volume_L, percent, left_L] of [
    [20, 30, 10.14],
    [12, 25, 6.69],
    [12, 35, 5.51],
    [20, 20, 12.21],
  ] as const) {
    const left = leftInPot(spirit, { volume_L, pure_L: (volume_L * percent) / 100 });
    // What mixing shrinks by is in neither sum: some 2 % with the fit.
    expect(Math.abs(left / swells - left_L) / left_L).toBeLessThan(0.03);
  }
});

test('a run that ends by what was collected gives as much of any charge', () => {
  const run = { ...spirit, ending: 'collected' as const };
  const small = { volume_L: 20, pure_L: 6 };
  const swelling = run.left_in_pot_L / (run.charge.volume_L_20C - run.distillate.volume_L_20C);
  expect(leftInPot(run, small)).toBeCloseTo((20 - run.distillate.volume_L_20C) * swelling, 9);
});

test('of a plan that boils the pot dry nothing is left, and that is said', () => {
  const { volume_L_20C: volume_L, pure_alcohol_L: pure_L } = spirit.charge;
  const dry = {
    ...spirit,
    left_in_pot_L: 0,
    distillate: { ...spirit.distillate, volume_L_20C: volume_L },
  };
  expect(leftInPot(dry, { volume_L, pure_L })).toBe(0);
  expect(plain(bareElement(dry, { volume_L, pure_L }, 6, true)!.says)).toMatch(
    /about 0\.0 L is left/,
  );
});

test('a charge that leaves the element bare at the end is a danger, for strip and spirit run alike', () => {
  const half = (run: typeof strip) => ({
    volume_L: run.charge.volume_L_20C / 3,
    pure_L: run.charge.pure_alcohol_L / 3,
  });
  const stripped = bareElement(strip, half(strip), 8, false)!;
  expect(stripped.weight).toBe('danger');
  expect(plain(stripped.says)).toBe(
    'Of this charge about 6.9 L is left in the boiler at the end; the element needs 8.0 L over it and burns dry.',
  );
  // 8.89 L less the 7.70 L at 20 °C that cover it hot: 1.19 L, rounded down.
  expect(plain(stripped.remedy)).toBe('Charge more, or stop earlier, before 1.1 L has come over.');
  const run = bareElement(spirit, half(spirit), 6, true)!;
  expect(run.weight).toBe('danger');
  expect(plain(run.remedy)).toMatch(/^Charge more, with water if need be, or stop earlier, before/);
});

test('nearly bare is a caution, well covered is nothing', () => {
  const charge = { volume_L: spirit.charge.volume_L_20C, pure_L: spirit.charge.pure_alcohol_L };
  const near = bareElement(spirit, charge, 15, true)!;
  expect(near.weight).toBe('caution');
  expect(plain(near.says)).toBe(
    'Of this charge about 16.3 L is left over an element that needs 15.0 L.',
  );
  expect(bareElement(spirit, charge, 6, true)).toBeUndefined();
});

test('a charge that does not cover the element is told without a plan too; more is not known', () => {
  const little = bareElement(undefined, { volume_L: 4, pure_L: undefined }, 6, false)!;
  expect(plain(little.says)).toBe(
    'The charge is 4.0 L; the element needs 6.0 L over it and burns dry as soon as the heat is on.',
  );
  expect(plain(little.remedy)).toBe('Leave the heat off. Charge more.');
  expect(bareElement(undefined, { volume_L: 7, pure_L: 2 }, 6, false)).toBeUndefined();
});

test('two figures of which one is less never look alike', () => {
  const just = spirit.left_in_pot_L + 0.02;
  const { volume_L_20C: volume_L, pure_alcohol_L: pure_L } = spirit.charge;
  expect(plain(bareElement(spirit, { volume_L, pure_L }, just, true)!.says)).toMatch(
    /about 16\.30 L is left in the boiler at the end; the element needs 16\.32 L/,
  );
});
