import { expect, test } from 'vitest';
import type { Plan } from '../data/answers';
import { readText, shownAt } from '../parts/text_form';
import { KIT_SECTIONS } from '../kit/kit_form';
import { forget, recall, remember } from './drafts';
import { asCounted, difference, figureRows, ORDER, shownDifference, whyOf } from './figures';
import { ternPlan } from './plan_of_tern_8';
import { namesIn, recipeSections } from './recipe_form';
import { useRows, whyEnzymes, whyUse } from './uses';

const figure = (planned: number, stage = 'Strip') => ({
  stage,
  name: 'low wines',
  unit: 'L',
  decimals: 1,
  planned,
});
const plan = (figures: Record<string, unknown>) => ({ figures }) as unknown as Plan;

test('a draft is kept on the device until it is forgotten', () => {
  const first = { recipe: 'r', kit: 'k' };
  expect(recall('b')).toBeUndefined();
  remember('b', { first, second: { recipe: 's', kit: 'k' } });
  expect(recall('b')).toEqual({ first, second: { recipe: 's', kit: 'k' } });
  expect(recall('c')).toBeUndefined();
  forget('b');
  expect(recall('b')).toBeUndefined();
});

test('what is no draft is not taken for one', () => {
  localStorage.setItem('lynearm-draft-b', '{"first":{"recipe":1}}');
  expect(recall('b')).toBeUndefined();
  localStorage.setItem('lynearm-draft-b', '{broken');
  expect(recall('b')).toBeUndefined();
});

test('two variants stand side by side with their difference', () => {
  const a = plan({ low_wines_volume_L_20C: figure(26.8), bottles: figure(19) });
  const b = plan({ low_wines_volume_L_20C: figure(28) });
  const [first, bottles] = figureRows(a, b);
  expect(first!.key).toBe('low_wines_volume_L_20C');
  expect(difference(first!, 'metric')).toBe('+1.2');
  expect(bottles!.other).toBeUndefined();
  expect(difference(bottles!, 'metric')).toBe('–');
});

test('the difference is that of the figures as they are shown beside it', () => {
  const of = (a: number, b: number, unit: string, decimals: number) =>
    shownDifference(a, b, unit, decimals, 'metric');
  expect(of(31.84, 31.86, '%vol', 1)).toBe('+0.1'); // 31.8 and 31.9
  expect(of(0.99594, 0.99596, '', 4)).toBe('+0.0001');
  expect(of(45.34, 52.16, 'L', 1)).toBe('+6.9');
  expect(of(6.094, 5.294, 'L', 2)).toBe('\u22120.80');
  expect(of(31.82, 31.84, '%vol', 1)).toBe('0.0');
  // 65.0 and 65.6 °C are 149.0 and 150.1 °F; 54.9 and 55.0 %vol are told in proof.
  expect(shownDifference(65, 65.6, '°C', 1, 'us')).toBe('+1.1');
  expect(shownDifference(54.9, 56, '%vol', 1, 'us')).toMatch(/^\+2\.\d$/);
  expect(shownDifference(19, 21, '%vol', 1, 'us')).toBe('+2.0'); // one in %vol, one in proof
});

test('a figure that only the second variant has leaves the first unknown, not nought', () => {
  const [row] = figureRows(plan({}), plan({ landing_temperature_C: figure(93.5, 'Mash') }));
  expect(row!.figure.planned).toBeNaN();
  expect(difference(row!, 'metric')).toBe('–');
});

test('pure alcohol is counted in proof gallons in US units, by the two figures of the ledger', () => {
  const told = {
    ...plan({ hearts_pure_alcohol_L: { ...figure(2.6), low: 2.4, high: 2.8 } }),
    ledger: {
      stages: [{ stage: 'Spirit run', out_pure_alcohol_L: 2, out_proof_gallons: 1.052 }],
    },
  } as unknown as Plan;
  const us = asCounted(told, 'hearts_pure_alcohol_L', 'us')!;
  expect(us).toMatchObject({ unit: 'proof gal' });
  expect([us.low, us.planned, us.high].map((v) => v!.toFixed(4))).toEqual([
    '1.2624',
    '1.3676',
    '1.4728',
  ]);
  const metric = asCounted(told, 'hearts_pure_alcohol_L', 'metric')!;
  expect(metric).toMatchObject({ planned: 2.6, unit: 'L pure' });
  expect(asCounted(told, 'hearts_pure_alcohol_L', 'both')!.beside).toBe('1.4\u00a0proof gal');
});

test('every figure of a plan has its place', () => {
  expect(new Set(ORDER).size).toBe(ORDER.length);
});

test('every figure of a plan answers why: figures with units, a sentence, a source that is named', () => {
  const whys = [
    ...ORDER.filter((key) => ternPlan.figures[key]).map((key) => whyOf(ternPlan, key)),
    ...useRows(ternPlan).map(({ key }) => whyUse(ternPlan, key)),
    ...(['has', 'need', 'comfort'] as const).map((of) => whyEnzymes(ternPlan, of)),
  ];
  expect(whys.length).toBe(19 + 7 + 3);
  for (const why of whys) {
    expect(why.inputs.length, why.what).toBeGreaterThan(0);
    for (const { name, value } of why.inputs) expect(value, name).not.toMatch(/–|undefined|NaN/);
    const names = why.inputs.map((i) => i.name);
    expect(new Set(names).size, names.join()).toBe(names.length);
    expect(why.model, why.what).toMatch(/^[A-Z].*\.$/);
    expect(why.source, why.what).not.toMatch(/docs\/|\.md/);
  }
});

test('the reasons are of this plan: its own masses, temperatures and charges', () => {
  expect(whyOf(ternPlan, 'dough_in_temperature_C').inputs).toContainEqual({
    name: 'Malts and flaked grain stirred in',
    value: '8.50 kg',
  });
  expect(whyOf(ternPlan, 'low_wines_percent_vol').inputs).toContainEqual({
    name: 'Charge of each',
    value: '26.68 L at 8.9 %vol',
  });
  expect(whyOf(ternPlan, 'wash_percent_vol').inputs).toContainEqual({
    name: 'Alcohol reached, of the formula’s',
    value: '90.0 %',
  });
  expect(whyOf(ternPlan, 'bottles').band).toBeUndefined();
  const banded = { ...ternPlan, ensemble: { members: 200, failed: 0 } };
  expect(whyOf(banded, 'bottles').band).toContain('200 plans');
  // What is summed is the sum.
  const watched = whyUse(ternPlan, 'energy').inputs.find((i) => i.name === 'Strips');
  expect(watched!.value).toBe('4 × 7.1 kWh');
});

test('vessels and casks are chosen by the names the kit has for them', () => {
  const kit = readText('[[vessel]]\nname = "tub"\n[[cask]]\nname = "little cask"\n').tree;
  const sections = recipeSections(undefined, namesIn(kit, 'vessel'), namesIn(kit, 'cask'));
  const mash = sections.find((s) => s.title === 'Mash')!;
  expect(mash.fields[0]!.options).toEqual([{ value: 'tub', label: 'tub' }]);
  expect(namesIn({ vessel: 'none' }, 'vessel')).toEqual([]);
});

test('no two fields of a form stand for the same line', () => {
  for (const sections of [recipeSections(undefined, [], []), KIT_SECTIONS]) {
    const paths = sections.flatMap((s) => s.fields.map((f) => `${s.list?.path ?? ''} ${f.path}`));
    expect(new Set(paths).size).toBe(paths.length);
  }
});

test('the form shows what the text says', () => {
  const { tree } = readText('[boiler]\npower_adjustable = true\ntotal = "45 L"\n');
  expect(shownAt(tree, 'boiler.power_adjustable')).toBe('true');
  expect(shownAt(tree, 'boiler.total')).toBe('45 L');
});
