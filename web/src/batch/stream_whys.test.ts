// What a flow, a planned line, a due time and a filling answer when asked why.
import { expect, test } from 'vitest';
import { bottlesOf } from '../bottle/label';
import { whyOver } from '../bottle/bottle_why';
import type { AccountStep, Lot, NextStep, Plan, Run } from '../data/answers';
import { whyDue, whySince } from '../house/next_why';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import { whyPlanned } from './plan_whys';
import { byGap, byPlan, byStep, joined, whyOfFlow } from './stream_whys';

const plan = ternPlan as unknown as Plan;
const pure = (litres: number) => ({ pure_alcohol_L_20C: litres, standard_L_20C: 0.03 });
const step = (number: number) =>
  ({
    stage: 'strip',
    what: `strip ${number} of 2`,
    in: pure(0.879),
    out: pure(0.809),
    why: {
      what: '',
      inputs: [{ name: 'Went in', value: '0.879 L' }],
      model: 'In less out.',
      source: 'OIML R 22 (1973)',
      band: 'a mark to 1 %',
    },
  }) as unknown as AccountStep;
const run = (litres: number) =>
  ({
    run: 'strip',
    at: '2026-10-06T10:00:00.000Z',
    lots: [],
    jars: [],
    ended: { at: '2026-10-06T11:42:00.000Z', who: 'the stillman' },
    collected: { volume_L_20C: litres, strength_percent_vol: 33.3 },
  }) as unknown as Run;

test('a step is told by its own run: what came over, at which strength, by whom', () => {
  const trace = byStep(step(2), 'out', [run(2.43), run(2.41)]);
  expect(trace.inputs[0]!.name).toBe('strip 2 of 2, came over');
  expect(trace.inputs[0]!.value).toMatch(/^2\.41 L at 33\.3 %vol, 0\.809 L .*the stillman$/);
  expect(trace.band).toBe('a mark to 1 %');
});

test('a flow of several keeps the inputs of each, and says model, source and band once', () => {
  const flow = {
    from: 'wash',
    to: 'open',
    litres: 0.1,
    measured: true,
    traces: [byGap(step(1)), byGap(step(2))],
  };
  const why = whyOfFlow(flow, [{ id: 'wash', name: 'Wash', kind: 'through' }]);
  expect(why.what).toBe('Pure alcohol at 20 °C, from wash to open: measured');
  expect(why.inputs.map((one) => one.name)).toEqual([
    'strip 1 of 2: Went in',
    'strip 2 of 2: Went in',
  ]);
  expect([why.model, why.source, why.band]).toEqual([
    'In less out.',
    'OIML R 22 (1973)',
    'a mark to 1 %',
  ]);
});

test('a planned flow tells its share of the plan, what stands before it, and the stage’s own reason', () => {
  const why = joined('x', [byPlan('Strip', 'Low wines', 8.78, 9.54, 9)], plan);
  expect(why.inputs[0]!.value).toBe('8.780 L pure, of 9.540 L pure before it');
  expect(why.inputs[1]!.value).toBe('9.000 L of pure alcohol');
  expect(why.source).toContain('Rayleigh');
  expect(new Set(why.inputs.map((one) => one.name)).size).toBe(why.inputs.length);
});

test('no stage of the plan names a page of ours as its source', () => {
  for (const stage of ['Mash', 'Ferment', 'Strip', 'Spirit run', 'Reduce', 'Wood', 'Bottle'])
    for (const side of ['in', 'out'] as const) {
      const why = whyPlanned(plan, stage, side);
      expect(why.inputs.length).toBeGreaterThan(2);
      expect(why.source).not.toMatch(/\.md|docs\//);
      expect(why.inputs.every((one) => !one.value.includes('–'))).toBe(true);
    }
});

const next: NextStep = {
  what: 'On wood: draw a sample',
  since: '2026-11-08T09:10:00.000Z',
  standing: 'waits',
  due: '2026-11-28T08:40:00.000Z',
  late_after: '2026-12-01T08:40:00.000Z',
  due_by: "the plan's sampling days, counted from the filling",
};

test('a due time says what it was counted from and how long it may wait', () => {
  const why = whyDue(next, 0)!;
  expect(why.model).toContain('sampling days');
  expect(why.inputs.at(-1)!.value).toContain('3 days after it is due');
  const { due: _, ...without } = next;
  expect(whyDue(without, 0)).toBeUndefined();
  const kept = whySince({ ...next, what: 'In bottles, 0.13 L kept back: close the batch' }, 0);
  expect(kept.inputs[1]).toEqual({ name: 'Kept back', value: '0.13 L at 20 °C' });
});

test('what is left over tells the volumes it is left of', () => {
  const { bottles } = bottlesOf(3.36, 0.7);
  const lot = { label: 'Tern 7 at 48' } as Lot;
  const why = whyOver({ lot, taken_L: 3.4, filter_L: 0.04, size_L: 0.7, bottles });
  expect(Object.fromEntries(why.inputs.map((one) => [one.name, one.value]))).toEqual({
    'Out of': 'Tern 7 at 48',
    Taken: '3.400 L at 20 °C',
    'Left in the filter': '40 mL',
    Bottles: '4',
    'A bottle holds': '700 mL',
  });
});
