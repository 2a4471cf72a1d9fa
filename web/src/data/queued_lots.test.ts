import { expect, test } from 'vitest';
import type { Lot } from './answers';
import { newEntry, type Entry, type Stage } from './entry';
import { chargeable, chargeCaution, onWood, spiritLots } from './lot_shelf';
import { lotsAsTold } from './queued_lots';

const told = (kind: string, stage: Stage, body: Record<string, unknown>): Entry =>
  newEntry({ batch: 'b', stage, kind, who: '', body });

const figures = (volume_L_20C: number, strength_percent_vol: number) => ({
  volume_L_20C,
  strength_percent_vol,
  pure_alcohol_L_20C: (volume_L_20C * strength_percent_vol) / 100,
  mass_kg: volume_L_20C,
  proof_gallons: 1,
});
const feints = {
  entry: 'f',
  at: '2026-11-20T10:00:00Z',
  lot: { entry: 'f', kind: 'feints' },
  label: 'feints',
  made: figures(4, 50),
  left: figures(4, 50),
  measured: true,
  parents: [],
  uses: [],
  why: { what: '', inputs: [], model: '', source: '' },
} as Lot;
const read = (volume_L: number, reading: number) => ({
  collected: { volume_L, at_C: 20 },
  strength: { reading, scale: 'percent_vol', at_C: 20 },
});

test('low wines of a strip that was ended here can be charged, and what was charged here is gone', () => {
  const ended = told('run ended', 'strip', { run: 'r', ...read(8, 28) });
  const name = { entry: ended.id, kind: 'low wines' as const };
  const [f, low] = lotsAsTold([feints], [ended]);
  expect(f!.left.volume_L_20C).toBe(4);
  expect(low!.lot).toEqual(name);
  expect(low!.batch).toBe('b');
  expect(low!.left).toMatchObject({ volume_L_20C: 8, strength_percent_vol: 28 });
  const begun = told('run begun', 'spirit run', {
    run: 'spirit run',
    lots: [
      { lot: name, volume_L_20C: 8 },
      { lot: feints.lot, volume_L_20C: 1 },
    ],
  });
  const after = lotsAsTold([feints], [ended, begun]);
  expect(after.map((lot) => lot.left.volume_L_20C)).toEqual([3, 0]);
  expect(after[0]!.left.pure_alcohol_L_20C).toBeCloseTo(1.5, 9);
});

test('a strip ended without a gauging has none until they are gauged', () => {
  const ended = told('run ended', 'strip', { run: 'r' });
  expect(lotsAsTold([], [ended])).toEqual([]);
  const lot = { entry: ended.id, kind: 'low wines' };
  const { collected: volume, strength } = read(7, 30);
  const gauged = told('lot gauged', 'strip', { lot, volume, strength });
  expect(lotsAsTold([], [ended, gauged])[0]).toMatchObject({ lot, left: { volume_L_20C: 7 } });
});

test('what the house has told of already is not counted twice', () => {
  const begun = told('run begun', 'strip', { lots: [{ lot: feints.lot, volume_L_20C: 1 }] });
  const at_home = {
    ...feints,
    left: figures(3, 50),
    uses: [{ entry: begun.id, at: '', where: 'charge', ...figures(1, 50) }],
  } as Lot;
  expect(lotsAsTold([at_home], [begun])[0]!.left.volume_L_20C).toBe(3);
});

test('a charge may take what another batch kept for a next run, its foreshots excepted', () => {
  const of = (batch: string, kind: Lot['lot']['kind'], left = 2): Lot => ({
    ...feints,
    batch,
    lot: { entry: `${batch} ${kind}`, kind },
    left: figures(left, 30),
  });
  const lots = [
    of('other', 'low wines'),
    of('other', 'foreshots'),
    of('own', 'foreshots'),
    of('own', 'low wines'),
    of('own', 'hearts'),
    of('other', 'feints', 0.001),
  ];
  const kinds = ['low wines', 'feints', 'apart', 'foreshots'];
  expect(chargeable(lots, 'own', kinds).map((lot) => lot.lot.entry)).toEqual([
    'own low wines',
    'other low wines',
    'own foreshots', // last: they are rather not charged again, which is said at them
  ]);
  const cautioned = lots.filter((lot) => chargeCaution(lot) !== undefined);
  expect(cautioned.map((lot) => lot.lot.kind)).toEqual(['foreshots', 'foreshots']);
});

test('what was laid on wood here lies on it, is drawn and topped, and comes off as it was read', () => {
  const hearts = { ...feints, batch: 'b', lot: { entry: 'h', kind: 'hearts' }, label: 'hearts' };
  const home = [{ ...hearts, left: figures(5, 60) } as Lot];
  const part = (volume_L_20C: number) => ({ lot: hearts.lot, volume_L_20C });
  const filled = told('wood filled', 'wood', { from: part(4), in: 'staves', staves: 2 });
  const lot = { entry: filled.id, kind: 'spirit' as const };
  const [rest, laid] = lotsAsTold(home, [filled]);
  expect(rest!.left.volume_L_20C).toBeCloseTo(1, 9);
  expect(laid).toMatchObject({
    lot,
    label: 'hearts, in staves',
    wood: { in: 'staves', staves: 2 },
  });
  expect(laid!.left).toMatchObject({ volume_L_20C: 4, strength_percent_vol: 60 });
  expect(onWood([rest!, laid!], 'b')).toEqual([laid]);
  const sampled = told('wood sampled', 'wood', { lot, volume_L_20C: 0.02, words: [] });
  const topped = told('wood topped', 'wood', { lot, from: part(0.5) });
  const [less, after] = lotsAsTold(home, [filled, sampled, topped]);
  expect(less!.left.volume_L_20C).toBeCloseTo(0.5, 9);
  expect(after!.left.volume_L_20C).toBeCloseTo(4.48, 9);
  expect(after!.left.strength_percent_vol).toBeCloseTo(60, 9);
  expect(after!.uses).toMatchObject([{ where: 'sample', entry: sampled.id }]);
  expect(after!.uses[0]!.volume_L_20C).toBeCloseTo(0.02, 9);
  const { collected: volume, strength } = read(4.3, 59);
  const emptied = told('wood emptied', 'wood', { lot, volume, strength });
  const off = lotsAsTold(home, [filled, emptied]);
  expect(onWood(off, 'b')).toEqual([]);
  expect(spiritLots(off, 'b').at(-1)).toMatchObject({
    lot: { entry: emptied.id, kind: 'spirit' },
    left: { volume_L_20C: 4.3, strength_percent_vol: 59 },
  });
  // Once the house has told of it, it is not laid a second time.
  expect(lotsAsTold([rest!, laid!], [filled])).toHaveLength(2);
});

test('bottles that were filled here stand with the rest, and so does what was put on their labels', () => {
  const spirit = { ...feints, lot: { entry: 's', kind: 'spirit' }, label: 'Tern 9' } as Lot;
  const filled = told('bottled', 'bottle', {
    from: { lot: spirit.lot, volume_L_20C: 2 },
    bottles: 4,
    size_L: 0.5,
    strength_percent_vol: 45,
    residue_g_L: 1.2,
  });
  const lot = { entry: filled.id, kind: 'bottles' };
  const stated = { name: 'Tern', strength_percent_vol: 45.1 };
  const labels = told('labelled', 'bottle', { lot, ...stated });
  const [left, bottles] = lotsAsTold([spirit], [filled, labels]);
  expect(left!.left.volume_L_20C).toBeCloseTo(2, 9);
  expect(bottles).toMatchObject({
    lot,
    label: 'Tern 9, bottled',
    batch: 'b',
    residue_g_L: 1.2,
    left: { volume_L_20C: 2, strength_percent_vol: 45 },
    bottles: { bottles: 4, size_L: 0.5, strength_percent_vol: 45, label: stated },
  });
  // The house has told of them already.
  expect(lotsAsTold([spirit, bottles!], [filled])).toHaveLength(2);
});
