import { expect, test } from 'vitest';
import type { Plan } from '../data/answers';
import { readText, shownAt } from '../parts/text_form';
import { KIT_SECTIONS } from '../kit/kit_form';
import { forget, recall, remember } from './drafts';
import { difference, figureRows, ORDER, whyOf } from './figures';
import { namesIn, recipeSections } from './recipe_form';

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
  expect(difference(first!)).toBeCloseTo(1.2, 9);
  expect(bottles!.other).toBeUndefined();
  expect(difference(bottles!)).toBeUndefined();
});

test('a figure that only the second variant has leaves the first unknown, not nought', () => {
  const [row] = figureRows(plan({}), plan({ landing_temperature_C: figure(93.5, 'Mash') }));
  expect(row!.figure.planned).toBeNaN();
  expect(difference(row!)).toBeUndefined();
});

test('every figure of a plan has its place', () => {
  expect(new Set(ORDER).size).toBe(ORDER.length);
});

test('a figure answers why with inputs, model and source', () => {
  const of = {
    kit: { pressure_kPa: 101.3, ambient_C: 18 },
    strip: {
      runs: 4,
      run: { charge: { volume_L_20C: 26.7, strength_percent_vol: 8.94 }, power_kW: 4 },
    },
  } as unknown as Plan;
  const why = whyOf(of, figure(26.8));
  expect(why.inputs).toContainEqual({ name: 'Wash in each', value: '26.7 L' });
  expect(why.source).toContain('docs/rooms/still.md');
  expect(why.band).toBeUndefined();
  const banded = { ...of, ensemble: { members: 200, failed: 0 } } as Plan;
  expect(whyOf(banded, figure(26.8)).band).toContain('200 plans');
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
