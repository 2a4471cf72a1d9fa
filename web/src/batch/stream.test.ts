import { expect, test } from 'vitest';
import type { AccountStep, Batch, Plan } from '../data/answers';
import { BAND_80, streamOf } from './stream';

type Told = Pick<Batch, 'account' | 'lots' | 'ferment'>;

// The principal lines of Tern 8's planned ledger (examples/tern-8).
const ledger: Plan['ledger'] = {
  entries: [
    { stage: 'Mash bill', name: 'in the grain', flow: 'in', pure_alcohol_L: 12.1 },
    { stage: 'Mash', name: 'held in the spent grain', flow: 'lost', pure_alcohol_L: 0.74 },
    { stage: 'Ferment', name: 'left with the lees', flow: 'lost', pure_alcohol_L: 1.82 },
    { stage: 'Strip', name: 'left in the pots', flow: 'lost', pure_alcohol_L: 0.76 },
    { stage: 'Spirit run', name: 'feints put in', flow: 'in', pure_alcohol_L: 0.48 },
    { stage: 'Spirit run', name: 'feints kept', flow: 'kept', pure_alcohol_L: 2.25 },
    { stage: 'Spirit run', name: 'low wines kept', flow: 'kept', pure_alcohol_L: 0 },
  ],
  stages: [
    { stage: 'Mash', in_pure_alcohol_L: 12.1, out_pure_alcohol_L: 11.36 },
    { stage: 'Ferment', in_pure_alcohol_L: 11.36, out_pure_alcohol_L: 9.54 },
    { stage: 'Strip', in_pure_alcohol_L: 9.54, out_pure_alcohol_L: 8.78 },
    { stage: 'Spirit run', in_pure_alcohol_L: 9.26, out_pure_alcohol_L: 6.68 },
  ],
  totals: {
    in_pure_alcohol_L: 0,
    lost_pure_alcohol_L: 0,
    kept_pure_alcohol_L: 0,
    out_pure_alcohol_L: 0,
    unaccounted_pure_alcohol_L: 0,
  },
};
const pure = (litres: number, sd = 0.03) => ({
  pure_alcohol_L_20C: litres,
  proof_gallons: 0.525817 * litres,
  standard_L_20C: sd,
});
const step = (change: Partial<AccountStep>): AccountStep => ({
  stage: 'strip',
  what: 'strip',
  in: pure(2.4),
  out: pure(2.2),
  named: [],
  unaccounted: pure(0.2),
  telling: false,
  why: { what: 'Unaccounted for', inputs: [], model: '', source: '' },
  ...change,
});
const nothing: Told = { account: [], lots: [], ferment: { readings: [] } };
const wash = (litres: number): Told['ferment'] => ({
  readings: [],
  wash: {
    specific_gravity: 0.994,
    strength_percent_vol: 9,
    volume_L_20C: 106,
    pure_alcohol_L_20C: litres,
  },
});
const flow = (of: ReturnType<typeof streamOf>, from: string, to: string, measured?: boolean) =>
  of.flows.find(
    (f) => f.from === from && f.to === to && (measured === undefined || f.measured === measured),
  );

test('without a word told, the stream is the plan and closes like it', () => {
  const stream = streamOf(ledger, nothing);
  expect(stream.flows.every((f) => !f.measured)).toBe(true);
  expect(flow(stream, 'wash', 'low wines')?.litres).toBe(8.78);
  expect(flow(stream, 'low wines', 'Feints kept')?.litres).toBeCloseTo(2.25, 9);
  expect(flow(stream, 'Feints put in', 'low wines')?.litres).toBe(0.48);
  expect(stream.flows.some((f) => f.to === 'Low wines kept')).toBe(false); // nothing flows there
  expect(stream.places.some((p) => p.id === 'bottles')).toBe(false); // of no stage of this plan
});

test('losses of mash and ferment stand together', () => {
  const stream = streamOf(ledger, nothing);
  const lost = stream.flows.filter((f) => f.to === 'Lost before the still');
  expect(lost.map((f) => f.litres)).toEqual([0.74, 1.82]);
});

test('what is measured takes the place of what was planned, and the rest follows from it', () => {
  const stream = streamOf(ledger, { ...nothing, ferment: wash(9) });
  expect(flow(stream, 'wort', 'wash')).toMatchObject({ litres: 9, measured: true });
  expect(flow(stream, 'wort', 'Lost before the still')).toMatchObject({ measured: false });
  expect(flow(stream, 'wort', 'Lost before the still')?.litres).toBeCloseTo(11.36 - 9, 9);
  expect(flow(stream, 'wash', 'low wines')?.litres).toBeCloseTo((9 / 9.54) * 8.78, 9);
});

test('four strips are one band, with their doubts joined', () => {
  const four = [1, 2, 3, 4].map(() =>
    step({ in: pure(2.25), out: pure(2.1), unaccounted: pure(0.1) }),
  );
  const stream = streamOf(ledger, { ...nothing, ferment: wash(9), account: four });
  const low = flow(stream, 'wash', 'low wines');
  expect(low?.litres).toBeCloseTo(8.4, 9);
  expect(low?.doubt).toBeCloseTo(2 * 0.03 * BAND_80, 9);
  expect(low?.measured).toBe(true);
  expect(flow(stream, 'wash', 'low wines', false)).toBeUndefined();
  expect(flow(stream, 'wash', 'Unaccounted for')?.litres).toBeCloseTo(0.4, 9);
});

test('of two strips told, the wash of the other two is planned', () => {
  const two = [1, 2].map(() => step({ in: pure(2.25), out: pure(2.1) }));
  const stream = streamOf(ledger, { ...nothing, ferment: wash(9), account: two });
  expect(flow(stream, 'wash', 'low wines', true)?.litres).toBeCloseTo(4.2, 9);
  expect(flow(stream, 'wash', 'low wines', false)?.litres).toBeCloseTo((4.5 / 9.54) * 8.78, 9);
});

test('the cut is drawn by the lots it made; before it, what ran over stands in jars', () => {
  const run = step({ stage: 'spirit run', in: pure(9), out: pure(8.9), unaccounted: pure(-0.01) });
  const uncut = streamOf(ledger, { ...nothing, account: [run] });
  expect(flow(uncut, 'low wines', 'In jars')?.litres).toBe(8.9);
  const lot = (kind: string, litres: number) =>
    ({
      lot: { entry: 'e', kind },
      made: { pure_alcohol_L_20C: litres },
    }) as unknown as Batch['lots'][number];
  const lots = [lot('hearts', 6.5), lot('feints', 2.2), lot('foreshots', 0.1)];
  const cut = streamOf(ledger, { ...nothing, account: [run], lots });
  expect(flow(cut, 'low wines', 'hearts')).toMatchObject({ litres: 6.5, measured: true });
  expect(flow(cut, 'low wines', 'Lost at the still')?.litres).toBe(0.1);
  expect(cut.flows.some((f) => f.to === 'Unaccounted for')).toBe(false); // less than nothing
});
