import { expect, test } from 'vitest';
import type { Batch } from '../data/answers';
import { restated } from '../data/units';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import { partsOf, whyCorrection, whyRunOff, whyStep, whyWort } from './mash_whys';

const figuresIn = (says: string) =>
  partsOf(says)
    .filter((part) => part.figure)
    .map((part) => part.text.replaceAll('\u00a0', ' '));

test('a sentence is cut at its figures and keeps its words, in each kind of units', () => {
  const says = 'Stir in the malts at 68.8 °C; it settles at 65.5 °C';
  expect(figuresIn(says)).toEqual(['68.8 °C', '65.5 °C']);
  expect(
    partsOf(says)
      .map((part) => part.text)
      .join(''),
  ).toBe(says);
  expect(figuresIn(restated(says, 'us'))).toEqual(['155.8 °F', '149.9 °F']);
  const both = restated('Sparge with 18.0 L at 75 °C, drain', 'both');
  expect(figuresIn(both)).toEqual(['18.0 L (4.76 gal)', '75 °C (167 °F)']);
  expect(
    partsOf(both)
      .map((part) => part.text)
      .join(''),
  ).toBe(both);
  expect(figuresIn('Move to the mash tub; expect 93 °C, 43 L')).toEqual(['93 °C', '43 L']);
  expect(figuresIn('Mill the grain')).toEqual([]);
});

test('each step of the plan’s mash answers why, with a source and no gap', () => {
  const steps = ternPlan.timeline.steps.filter((step) => step.stage === 'Mash');
  expect(steps.length).toBe(13);
  for (const { what } of steps) {
    const why = whyStep(ternPlan, what)!;
    expect(why, what).toBeDefined();
    expect(why.source, what).not.toMatch(/docs|\.md/);
    for (const { name, value } of why.inputs)
      expect(value, `${what}: ${name}`).not.toMatch(/–|NaN/);
    expect(new Set(why.inputs.map((i) => i.name)).size).toBe(why.inputs.length);
  }
  expect(whyStep(ternPlan, 'Rest; it drifts to 62.1 °C')!.inputs).toContainEqual({
    name: 'Rests for',
    value: '90 min',
  });
  // The second sparge is the third run-off.
  const second = whyStep(ternPlan, 'Sparge with 15.0 L at 75 °C, drain')!;
  expect(second.inputs.find((i) => i.name === 'Sparge water given')!.value).toMatch(/^15\.0 L/);
  expect(whyStep(ternPlan, 'Sing')).toBeUndefined();
  expect(whyStep(undefined, 'Rest; it drifts to 62.1 °C')).toBeUndefined();
});

test('the water that mends a mash tells mash, water and room', () => {
  const advice = {
    at: 'rest',
    with: 'cold water',
    target_C: 65.5,
    water_at_C: 12,
    wanted_L: 0.75,
  } as const;
  const why = whyCorrection(advice, 67.1, ternPlan);
  expect(why.inputs).toContainEqual({ name: 'Read', value: '67.1 °C' });
  expect(why.inputs).toContainEqual({ name: 'Water in the mash', value: '35.8 kg' });
  expect(why.inputs.some((i) => i.name === 'There is room for')).toBe(false);
  const short = { ...advice, at_most_L: 0.3, room_is_short: true };
  expect(whyCorrection(short, 67.1, ternPlan).inputs).toContainEqual({
    name: 'There is room for',
    value: '0.30 L',
  });
});

test('what a sparge is worth is told by its extract and what ferments of it', () => {
  const why = whyRunOff(ternPlan, 2, 'worth', 'sparge 2');
  const run = ternPlan.mash!.draining!.run_offs[2]!;
  expect(why.inputs).toContainEqual({
    name: 'Extract of this run-off',
    value: `${run.extract_kg.toFixed(2)} kg`,
  });
  const ferments = ternPlan.mash!.conversion.limit_attenuation_fraction;
  // Bringhurst et al. 1996: 6.06 L to a tonne for each per cent, as the plan has reckoned it.
  expect(0.606 * run.extract_kg * ferments).toBeCloseTo(run.worth_pure_alcohol_L, 3);
  expect(why.source).toContain('Bringhurst');
  const wort = { from: 'sparge 2', volume_L_20C: 14.9, specific_gravity: 1.021, extract_kg: 0.8 };
  expect(whyWort(wort as Batch['mash']['worts'][number], 'extract').what).toMatch(
    /as it was measured/,
  );
});
