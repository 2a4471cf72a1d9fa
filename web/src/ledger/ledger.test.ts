import { expect, test } from 'vitest';
import type { Batch, Lot, Plan } from '../data/answers';
import {
  accountCsv,
  besidePlan,
  csv,
  lotRows,
  lotsCsv,
  notGauged,
  stepRows,
  wholeOf,
} from './ledger';
import { whyHeld, whyMade } from './ledger_whys';
import { pureText, pureWithBand } from './pure';

// A litre of pure alcohol at 20 °C in US proof gallons: 27 CFR 30.11 by way of the ethanol's mass, as
// src/spirit/account.hpp tells it. The page takes the house's figures and reckons none.
const PROOF_GALLONS = 0.525817;

const pure = (litres: number, sd = 0.02) => ({
  pure_alcohol_L_20C: litres,
  proof_gallons: PROOF_GALLONS * litres,
  standard_L_20C: sd,
  standard_proof_gallons: PROOF_GALLONS * sd,
});
const step = (stage: string, what: string, into: number, out: number) => ({
  stage,
  what,
  in: pure(into),
  out: pure(out),
  named: [{ what: 'left in the pot', ...pure(0.05) }],
  unaccounted: pure(into - out - 0.05, 0.03),
  telling: false,
  why: { what: 'Unaccounted for', inputs: [], model: '', source: '' },
});
const figures = (volume: number) => ({
  volume_L_20C: volume,
  strength_percent_vol: 40,
  pure_alcohol_L_20C: 0.4 * volume,
  proof_gallons: 0.4 * PROOF_GALLONS * volume,
  mass_kg: volume,
});
const lot = (kind: string, made: number, left: number): Lot =>
  ({
    entry: kind,
    at: '2026-10-09T14:20:00.000Z',
    lot: { entry: 'e', kind },
    label: `${kind} of Tern 7`,
    made: figures(made),
    left: figures(left),
    measured: true,
    parents: [],
    uses: [],
  }) as unknown as Lot;
const batch = (change: Partial<Batch>) =>
  ({ account: [], lots: [], ferment: { readings: [] }, ...change }) as unknown as Batch;
const plan = {
  ledger: {
    entries: [],
    stages: [
      {
        stage: 'Strip',
        in_pure_alcohol_L: 3.3,
        out_pure_alcohol_L: 3.0,
        in_proof_gallons: 3.3 * PROOF_GALLONS,
        out_proof_gallons: 3.0 * PROOF_GALLONS,
      },
      { stage: 'Spirit run', in_pure_alcohol_L: 3.4, out_pure_alcohol_L: 2.5 },
    ],
  },
} as unknown as Plan;

test('what is reduced again after the wood is not counted as reduced twice', () => {
  const of = (label: string, more: object): Lot =>
    ({ ...lot('spirit', 3, 0), label, lot: { entry: label, kind: 'spirit' }, ...more }) as Lot;
  const name = (entry: string) => ({ entry, kind: 'spirit' });
  const lots = [
    of('at 55', {}),
    of('in staves', { parents: [name('at 55')], wood: { in: 'staves' } }),
    of('off the wood', { parents: [name('in staves')] }),
    of('at 45', { parents: [name('off the wood')] }),
  ];
  const account = [step('reduce', 'at 55', 2.8, 2.77), step('reduce', 'at 45', 2.67, 2.66)];
  const row = besidePlan(batch({ account, lots }), undefined).find((r) => r.stage === 'Reduce');
  expect(row?.in?.litres).toBeCloseTo(2.8, 9);
  expect(row?.out?.litres).toBeCloseTo(2.77, 9);
});

test('all steps together leave unaccounted for what they leave one by one', () => {
  const rows = stepRows([step('strip', 'the strip', 3.3, 3.2), step('wood', 'the spirit', 2, 1.9)]);
  const whole = wholeOf(rows);
  expect(whole.gap.litres).toBeCloseTo(3.3 - 2 * 0.05 - 3.2 + 2 - 1.9, 12);
  expect(whole.named.litres).toBeCloseTo(0.1, 12);
  // Two doubts of one size, by the root of their squares.
  expect(whole.doubt.litres).toBeCloseTo(Math.SQRT2 * rows[0]!.doubt.litres, 12);
  expect(wholeOf([]).gap.litres).toBe(0);
});

test('a step tells what went in, came out and is unaccounted for, with half its 80 % band', () => {
  const [row] = stepRows([step('strip', 'strip 1 of 2', 0.83, 0.76)]);
  expect(row!.gap.litres).toBeCloseTo(0.02, 9);
  expect(row!.doubt.litres).toBeCloseTo(1.2815515655 * 0.03, 9);
  expect(row!.gap.proof_gallons).toBeCloseTo(0.02 * PROOF_GALLONS, 9);
  expect(row!.doubt.proof_gallons).toBeCloseTo(1.2815515655 * 0.03 * PROOF_GALLONS, 9);
  expect(row!.named).toEqual([
    { what: 'left in the pot', litres: 0.05, proof_gallons: 0.05 * PROOF_GALLONS },
  ]);
});

test('planned stands beside measured, strips summed, the spirit run by its hearts', () => {
  const account = [
    step('strip', 'strip 1 of 2', 0.8, 0.7),
    step('strip', 'strip 2 of 2', 0.9, 0.8),
    step('spirit run', 'spirit run', 1.5, 1.4),
  ];
  const rows = besidePlan(batch({ account, lots: [lot('hearts', 2.5, 0)] }), plan);
  expect(rows.map((row) => row.stage)).toEqual(['Strip', 'Spirit run']);
  expect(rows[0]!.planned_in).toEqual({ litres: 3.3, proof_gallons: 3.3 * PROOF_GALLONS });
  expect(rows[0]!.planned_out!.litres).toBe(3.0);
  expect(rows[0]!.in!.litres).toBeCloseTo(1.7, 9);
  expect(rows[0]!.in!.proof_gallons).toBeCloseTo(1.7 * PROOF_GALLONS, 9);
  expect(rows[0]!.out!.litres).toBeCloseTo(1.5, 9);
  expect(rows[0]!.out_doubt!.proof_gallons).toBeCloseTo(
    rows[0]!.out_doubt!.litres * PROOF_GALLONS,
    9,
  );
  expect(rows[1]!.out!.litres).toBeCloseTo(1.0, 9);
  expect(rows[1]!.out_doubt).toBeUndefined();
});

test('a run that is not cut yet has no hearts, which is not nought', () => {
  const account = [step('spirit run', 'spirit run', 1.5, 1.4)];
  const [row] = besidePlan(batch({ account }), undefined);
  expect(row!.out).toBeUndefined();
  expect(row!.in!.litres).toBe(1.5);
});

test('lots with something left stand first', () => {
  const rows = lotRows([lot('low wines', 2.4, 0), lot('feints', 2.3, 1.1)]);
  expect(rows.map((row) => row.kind)).toEqual(['feints', 'low wines']);
});

test('a lot that was poured together and gauged is made as it was gauged', () => {
  const poured = { ...lot('spirit', 5.92, 0.3), reckoned: true };
  expect(lotRows([poured])[0]).toMatchObject({ made_L: 5.92, by_parts: true });
  const gauged = { ...poured, gauged: figures(5.9) as Lot['made'] };
  const [row] = lotRows([gauged]);
  expect(row).toMatchObject({ made_L: 5.9, by_parts: false });
  expect(row!.made_pure.litres).toBeCloseTo(5.9 * 0.4, 9);
  const why = whyMade(gauged);
  expect(why.inputs.map((one) => one.name)).toEqual([
    'spirit of Tern 7, by its parts',
    'spirit of Tern 7, gauged when it was made',
  ]);
  expect(why.inputs[1]!.value).toContain('5.900 L');
});

test('CSV quotes what needs it, and no cell can be run as a formula', () => {
  expect(
    csv(
      ['a', 'b'],
      [
        ['x, y', 1.5],
        ['"q"', undefined],
        ['=1+1', -0.25],
      ],
    ),
  ).toBe('a,b\r\n"x, y",1.5\r\n"""q""",\r\n\'=1+1,-0.25\r\n');
});

test('the account and the lots as CSV have a line each', () => {
  const account = accountCsv(stepRows([step('strip', 'strip', 0.83, 0.76)])).split('\r\n');
  expect(account).toHaveLength(3);
  expect(account[0]!.split(',')).toHaveLength(account[1]!.split(',').length);
  const at = (line: string, head: string) =>
    Number(line.split(',')[account[0]!.split(',').indexOf(head)]);
  expect(at(account[1]!, 'in_pure_alcohol_L_20C')).toBe(0.83);
  expect(at(account[1]!, 'in_US_proof_gallons')).toBeCloseTo(0.83 * PROOF_GALLONS, 9);
  expect(at(account[1]!, 'unaccounted_US_proof_gallons')).toBeCloseTo(0.02 * PROOF_GALLONS, 9);
  const lots = lotsCsv(lotRows([lot('feints', 2.3, 1.1)])).split('\r\n');
  expect(lots[1]).toContain(
    'feints of Tern 7,feints,2026-10-09T14:20:00.000Z,2.3,40,gauging,1.1,40,',
  );
  expect(lots[0]!.split(',')).toHaveLength(lots[1]!.split(',').length);
  const left = Number(lots[1]!.split(',').at(-1));
  expect(lots[0]!.split(',').at(-1)).toBe('left_US_proof_gallons');
  expect(left).toBeCloseTo(0.4 * 1.1 * PROOF_GALLONS, 9);
});

test('the units that are set decide whether litres or proof gallons stand there, or both', () => {
  const some = { litres: 1, proof_gallons: PROOF_GALLONS };
  expect(pureText(some, 'metric')).toBe('1.000');
  expect(pureText(some, 'us')).toBe('0.526');
  expect(pureText(some, 'both')).toBe('1.000 (0.526)');
  expect(pureText(undefined, 'both')).toBe('–');
  expect(pureWithBand(some, some, 'both')).toMatch(/^1.00 ±.1.00 L \(0.53 ±.0.53 proof gal\)$/);
});

test('spirit that was reduced twice goes through the stage once', () => {
  const made = (entry: string, label: string, litres: number, uses: Lot['uses']) =>
    ({ ...lot('spirit', litres, 0), label, lot: { entry, kind: 'spirit' }, uses }) as Lot;
  const on = { entry: 'b', at: '', where: 'blend', mass_kg: 4, ...pure(2) };
  const lots = [made('a', 'at 60', 5, [on] as Lot['uses']), made('b', 'at 46', 4.3, [])];
  const account = [step('reduce', 'at 60', 2.05, 2), step('reduce', 'at 46', 2, 1.95)];
  const row = besidePlan(batch({ account, lots }), undefined).find((r) => r.stage === 'Reduce');
  expect(row?.in?.litres).toBeCloseTo(2.05, 9);
  expect(row?.out?.litres).toBeCloseTo(1.95, 9);
  expect(row?.out?.proof_gallons).toBeCloseTo(1.95 * PROOF_GALLONS, 9);
});

test('a strip that ended before its low wines were gauged is named', () => {
  const run = (kind: string, standing: string, collected?: object) =>
    ({ run: kind, standing, ...(collected ? { collected } : {}) }) as Batch['runs'][number];
  const runs = [run('strip', 'ended', {}), run('strip', 'ended'), run('strip', 'running')];
  expect(notGauged({ runs })).toEqual(['strip 2 of 3']);
  expect(notGauged({ runs: [run('strip', 'ended'), run('spirit run', 'ended')] })).toEqual([
    'the strip',
  ]);
});

test('wash that waits, or is in a still, stands under the strips, so that the ferment is found again', () => {
  const held = (litres: number) => ({
    volume_L_20C: 12 * litres,
    pure_alcohol_L_20C: litres,
    proof_gallons: PROOF_GALLONS * litres,
  });
  const wash = {
    specific_gravity: 0.996,
    strength_percent_vol: 8.3,
    volume_L_20C: 36,
    pure_alcohol_L_20C: 3,
    proof_gallons: 3 * PROOF_GALLONS,
    waiting: held(1.2),
    in_stills: held(0.9),
  };
  const told = batch({
    account: [step('strip', 'strip 1 of 3', 0.9, 0.8)],
    ferment: { readings: [], wash },
  } as unknown as Partial<Batch>);
  const rows = besidePlan(told, undefined);
  expect(rows.map((row) => row.stage)).toEqual([
    'Ferment',
    'Strip',
    'Wash waiting in its vessel',
    'Wash in runs not measured yet',
  ]);
  const [ferment, ...rest] = rows;
  expect(rest.reduce((sum, row) => sum + row.in!.litres, 0)).toBeCloseTo(ferment!.out!.litres, 9);
  const why = whyHeld(told, 'waiting');
  expect(why.inputs).toContainEqual({ name: 'Wash in all', value: '36.0 L' });
  expect(why.inputs).toContainEqual({ name: 'Of it taken by no run', value: '14.4 L' });
  // In a batch that is closed nothing waits any more.
  const closed = { ...told, closed: { entry: 'c', at: '' } } as Batch;
  expect(besidePlan(closed, undefined)[2]!.stage).toBe('Wash not charged');
});

test('a wash that all went into strips has no line of its own', () => {
  const told = batch({
    account: [step('strip', 'strip', 3, 2.8)],
    ferment: { readings: [], wash: { pure_alcohol_L_20C: 3, proof_gallons: 1.6 } },
  } as unknown as Partial<Batch>);
  expect(besidePlan(told, undefined).map((row) => row.stage)).toEqual(['Ferment', 'Strip']);
});
