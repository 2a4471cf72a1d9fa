import { expect, test } from 'vitest';
import type { AccountStep, Batch, Plan } from '../data/answers';
import { BAND_80, streamOf, type Told } from './stream';

type Ledger = Plan['ledger'];
const passes = (stage: string, from: number, to: number) =>
  ({ stage, in_pure_alcohol_L: from, out_pure_alcohol_L: to }) as Ledger['stages'][number];
const line = (stage: string, name: string, flow: string, pure_alcohol_L: number) =>
  ({ stage, name, flow, pure_alcohol_L }) as Ledger['entries'][number];

// The principal lines of Tern 8's planned ledger (examples/tern-8).
const ledger = {
  entries: [
    line('Mash bill', 'in the grain', 'in', 12.1),
    line('Mash', 'held in the spent grain', 'lost', 0.74),
    line('Ferment', 'left with the lees', 'lost', 1.82),
    line('Strip', 'left in the pots', 'lost', 0.76),
    line('Spirit run', 'feints put in', 'in', 0.48),
    line('Spirit run', 'feints kept', 'kept', 2.25),
    line('Spirit run', 'low wines kept', 'kept', 0),
  ],
  stages: [
    passes('Mash', 12.1, 11.36),
    passes('Ferment', 11.36, 9.54),
    passes('Strip', 9.54, 8.78),
    passes('Spirit run', 9.26, 6.68),
  ],
  totals: {
    in_pure_alcohol_L: 0,
    lost_pure_alcohol_L: 0,
    kept_pure_alcohol_L: 0,
    out_pure_alcohol_L: 0,
    unaccounted_pure_alcohol_L: 0,
  },
} as unknown as Plan['ledger'];
const pure = (litres: number, sd = 0.03) => ({
  pure_alcohol_L_20C: litres,
  proof_gallons: 0.525817 * litres,
  standard_L_20C: sd,
  standard_proof_gallons: 0.525817 * sd,
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
const nothing: Told = { account: [], lots: [], ferment: { readings: [] }, runs: [] };
const wash = (litres: number): Told['ferment'] => ({
  readings: [],
  racked: { entry: 'k', at: '2026-11-20T09:00:00.000Z', clear_L_20C: 106 },
  wash: {
    specific_gravity: 0.994,
    strength_percent_vol: 9,
    volume_L_20C: 106,
    pure_alcohol_L_20C: litres,
    proof_gallons: 0.525817 * litres,
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

const entry = { at: '2026-10-09T14:20:00.000Z' };
const cutRun = [{ entry: 'run', allotted: { entry: 'cut', ...entry } }] as unknown as Told['runs'];
type Use = [entry: string, where: string, litres: number];
const lot = (
  of: string,
  made: number,
  more: { left?: number; parents?: string[]; uses?: Use[]; onWood?: boolean; size_L?: number } = {},
) => {
  const name = (key: string) => {
    const [by, kind] = key.split(' ');
    return { entry: by, kind };
  };
  return {
    lot: name(of),
    label: of,
    made: { pure_alcohol_L_20C: made },
    left: { pure_alcohol_L_20C: more.left ?? 0 },
    parents: (more.parents ?? []).map(name),
    uses: (more.uses ?? []).map(([by, where, litres]) => ({
      entry: by,
      where,
      pure_alcohol_L_20C: litres,
    })),
    ...(more.onWood ? { wood: { in: 'cask' } } : {}),
    ...(more.size_L ? { bottles: { size_L: more.size_L, strength_percent_vol: 45 } } : {}),
  } as unknown as Batch['lots'][number];
};
const ran = step({ stage: 'spirit run', in: pure(9), out: pure(8.9), unaccounted: pure(-0.01) });
const run = (change: Partial<Told>): Told => ({
  ...nothing,
  ferment: wash(9),
  account: [ran],
  runs: cutRun,
  ...change,
});

test('once the spirit run is told, wash that no strip took is unaccounted for, not still to come', () => {
  const strips = [1, 2].map(() => step({ in: pure(2.25), out: pure(2.1) }));
  const stream = streamOf(ledger, run({ account: [...strips, ran] }));
  expect(flow(stream, 'wash', 'low wines', false)).toBeUndefined();
  expect(flow(stream, 'wash', 'low wines', true)?.litres).toBeCloseTo(4.2, 9);
  // Of nine litres 4.5 were taken in; of those the account misses 0.2 a strip.
  expect(flow(stream, 'wash', 'Unaccounted for')?.litres).toBeCloseTo(4.5 + 0.4, 9);
});

test('what a step gave more than it took in comes in from beside', () => {
  const strip = step({ in: pure(9), out: pure(9.1), unaccounted: pure(-0.1) });
  const stream = streamOf(ledger, { ...nothing, ferment: wash(9), account: [strip] });
  expect(flow(stream, 'Found more', 'wash')?.litres).toBeCloseTo(0.1, 9);
  const sum = (end: 'from' | 'to') =>
    stream.flows.filter((f) => f[end] === 'wash').reduce((all, f) => all + f.litres, 0);
  // What stood there by the gravities, 9, came by the plan and by what was measured.
  expect(sum('to')).toBeCloseTo(sum('from'), 9);
});

test('before the cut what ran over stands in jars, and the plan says what the cut will make of it', () => {
  const uncut = streamOf(ledger, run({ runs: [] }));
  expect(flow(uncut, 'low wines', 'jars')).toMatchObject({ litres: 8.9, measured: true });
  // 6.68 of hearts to 2.25 of feints; what stays in the pot does not come out of the jars.
  expect(flow(uncut, 'jars', 'hearts', false)?.litres).toBeCloseTo((8.9 * 6.68) / 8.93, 9);
  expect(flow(uncut, 'jars', 'Feints kept', false)?.litres).toBeCloseTo((8.9 * 2.25) / 8.93, 9);
});

test('the cut is drawn by the lots it made, and not by feints that were brought', () => {
  const lots = [
    lot('brought feints', 0.5, { uses: [['run', 'charge', 0.5]] }),
    lot('cut hearts', 6.5, { left: 6.5 }),
    lot('cut feints', 2.2, { left: 2.2 }),
    lot('cut foreshots', 0.1),
  ];
  const cut = streamOf(ledger, run({ lots }));
  expect(flow(cut, 'low wines', 'hearts')).toMatchObject({ litres: 6.5, measured: true });
  expect(flow(cut, 'low wines', 'Feints kept')?.litres).toBe(2.2);
  expect(flow(cut, 'low wines', 'Lost at the still')?.litres).toBe(0.1);
  expect(cut.flows.some((f) => f.to === 'Unaccounted for')).toBe(false); // less than nothing
});

const finish: Plan['ledger'] = {
  ...ledger,
  entries: [
    ...ledger.entries,
    line('Reduce', 'left in vessels', 'lost', 0.08),
    line('Wood', 'evaporated', 'lost', 0.3),
    line('Wood', 'samples', 'out', 0.1),
    line('Bottle', 'in bottles', 'out', 6),
    line('Bottle', 'remainder', 'out', 0.2),
  ],
  stages: [
    ...ledger.stages,
    passes('Reduce', 6.68, 6.6),
    passes('Wood', 6.6, 6.2),
    passes('Bottle', 6.2, 6),
  ],
};
const hearts = (uses: Use[], left = 0) => lot('cut hearts', 6.5, { uses, left });
const reduced = (uses: Use[], left = 0) =>
  lot('r spirit', 6.4, { parents: ['cut hearts'], uses: [['r', 'gauging', 0.04], ...uses], left });

test('reduced and laid on wood: measured as far as it lies there, and planned from what is left', () => {
  const lots = [
    hearts(
      [
        ['t', 'tasted', 0.02],
        ['r', 'blend', 6.4],
      ],
      0.08,
    ),
    reduced([['w', 'wood', 6.36]]),
    lot('w spirit', 6.36, {
      parents: ['r spirit'],
      onWood: true,
      uses: [['s', 'sample', 0.06]],
      left: 6.3,
    }),
  ];
  const account = [ran, step({ stage: 'reduce', what: 'r spirit', unaccounted: pure(0.04, 0.05) })];
  const stream = streamOf(finish, run({ lots, account }));
  expect(flow(stream, 'hearts', 'reduced')).toMatchObject({ litres: 6.4, measured: true });
  expect(flow(stream, 'hearts', 'reduced', false)).toBeUndefined();
  expect(flow(stream, 'hearts', 'Samples, remainder')?.litres).toBeCloseTo(0.02 + 0.08, 9);
  expect(flow(stream, 'reduced', 'Unaccounted for')?.litres).toBe(0.04);
  expect(flow(stream, 'reduced', 'Unaccounted for')?.doubt).toBeCloseTo(0.05 * BAND_80, 9);
  expect(flow(stream, 'reduced', 'wood')).toMatchObject({ litres: 6.36, measured: true });
  expect(flow(stream, 'wood', 'Samples, remainder', true)?.litres).toBe(0.06);
  // Ahead: the plan's evaporation, the samples not drawn yet, and bottles of the rest.
  const share = 6.36 / 6.6;
  const samples = share * 0.1 - 0.06;
  const evaporates = share * 0.3;
  const off = 6.3 - samples - evaporates;
  expect(flow(stream, 'wood', 'Lost later', false)?.litres).toBeCloseTo(evaporates, 9);
  expect(flow(stream, 'wood', 'bottles', false)?.litres).toBeCloseTo((off * 6) / 6.2, 9);
  expect(flow(stream, 'wood', 'Samples, remainder', false)?.litres).toBeCloseTo(
    samples + (off * 0.2) / 6.2,
    9,
  );
});

test('what tops up a lot on wood flows to the wood, from a lot of the batch or from another', () => {
  const uses: Use[] = [
    ['p', 'topped up', -0.3],
    ['q', 'topped up', -0.2],
  ];
  const lots = [
    hearts([['r', 'blend', 6.4]], 0),
    reduced(
      [
        ['w', 'wood', 6],
        ['p', 'topping up', 0.3],
      ],
      0.06,
    ),
    lot('w spirit', 6, { parents: ['r spirit'], onWood: true, uses, left: 6.5 }),
  ];
  const stream = streamOf(finish, run({ lots, account: [ran] }));
  expect(flow(stream, 'reduced', 'wood')?.litres).toBeCloseTo(6.3, 9);
  expect(flow(stream, 'Other lots', 'wood')).toMatchObject({ litres: 0.2, measured: true });
  // All the wood is still to lose: nothing was drawn.
  const share = 6.5 / 6.6;
  expect(flow(stream, 'wood', 'Lost later', false)?.litres).toBeCloseTo(share * 0.3, 9);
});

test('bottled, nothing is planned any more, and what filter and vessels kept is unaccounted for', () => {
  const lots = [
    hearts([
      ['r', 'blend', 6.4],
      ['x', 'charge', 0.1],
    ]),
    reduced([['w', 'wood', 6.36]]),
    lot('w spirit', 6.36, {
      parents: ['r spirit'],
      onWood: true,
      uses: [
        ['o', 'soaked and evaporated', 0.26],
        ['o', 'off the wood', 6.1],
      ],
    }),
    lot('o spirit', 6.1, { parents: ['w spirit'], uses: [['l', 'blend', 6.1]] }),
    // Brought down once more it stays where it stands; what is left fills no bottle.
    lot('l spirit', 6.1, { parents: ['o spirit'], uses: [['b', 'bottles', 5.7]], left: 0.4 }),
    lot('b bottles', 5.7, {
      parents: ['l spirit'],
      uses: [['b', 'gauging', 0.03]],
      left: 5.67,
      size_L: 1,
    }),
  ];
  const stream = streamOf(finish, run({ lots }));
  expect(flow(stream, 'wood', 'bottles')).toMatchObject({ measured: true });
  expect(flow(stream, 'wood', 'bottles')?.litres).toBeCloseTo(5.67, 9);
  expect(flow(stream, 'wood', 'Lost later')).toMatchObject({ litres: 0.26, measured: true });
  expect(flow(stream, 'wood', 'Unaccounted for')?.litres).toBe(0.03);
  expect(flow(stream, 'wood', 'Samples, remainder')).toMatchObject({ litres: 0.4, measured: true });
  expect(flow(stream, 'hearts', 'Back to the still')?.litres).toBe(0.1);
  const at = ['hearts', 'reduced', 'wood', 'bottles'];
  const planned = stream.flows.filter(
    (f) => !f.measured && (at.includes(f.from) || at.includes(f.to)),
  );
  expect(planned).toEqual([]);
});

test('bottled without wood, half of it: the rest goes on by the plan, past what the plan has not', () => {
  const noWood = { ...finish, stages: finish.stages.filter((s) => s.stage !== 'Wood') };
  const lots = [
    hearts([['r', 'blend', 6.4]], 0.1),
    reduced([['b', 'bottles', 3]], 3.36),
    lot('b bottles', 3, { parents: ['r spirit'], left: 3 }),
  ];
  const stream = streamOf(noWood, run({ lots }));
  expect(flow(stream, 'reduced', 'bottles', true)?.litres).toBe(3);
  expect(flow(stream, 'reduced', 'bottles', false)?.litres).toBeCloseTo((3.36 * 6) / 6.2, 9);
  expect(stream.places.some((p) => p.id === 'wood')).toBe(false);
});

test('spirit of another batch that was poured in comes from beside', () => {
  const lots = [hearts([['r', 'blend', 5]], 1.5), reduced([], 6.36)];
  expect(flow(streamOf(finish, run({ lots })), 'Other lots', 'reduced')?.litres).toBeCloseTo(
    1.4,
    9,
  );
});

test('a wash that still ferments is planned: its sugar is not lost', () => {
  const { racked: _, ...fermenting } = wash(2.4);
  const stream = streamOf(ledger, { ...nothing, ferment: fermenting });
  expect(stream).toEqual(streamOf(ledger, nothing));
});
