import { expect, test } from 'vitest';
import type { Lot } from '../data/answers';
import { lotFault, partsTyped } from '../data/lot_parts';
import { bottled, onWood, pickedPart, spiritLots } from '../data/lot_shelf';
import { strengthRead, strengthTyped, volumeRead } from '../data/measured';
import { portions, strengthsBetween } from './steps';

const lot = (
  entry: string,
  kind: Lot['lot']['kind'],
  volume: number,
  more: Partial<Lot> = {},
): Lot => {
  const figures = {
    volume_L_20C: volume,
    strength_percent_vol: 70,
    pure_alcohol_L_20C: volume * 0.7,
    proof_gallons: volume * 0.37,
    mass_kg: volume * 0.88,
  };
  return {
    entry,
    at: '2026-10-09T00:00:00Z',
    batch: 'b',
    lot: { entry, kind },
    label: entry,
    made: figures,
    left: figures,
    measured: true,
    why: { what: 'Left', inputs: [], model: '', source: '' },
    parents: [],
    uses: [],
    ...more,
  };
};
const hearts = lot('h', 'hearts', 3.5);
const empty = lot('e', 'hearts', 0.001);
const wooded = lot('w', 'spirit', 3, { wood: { in: 'staves' } });
const bottles = lot('o', 'bottles', 1, {
  bottles: { bottles: 2, size_L: 0.5, strength_percent_vol: 48 },
});
const other = lot('x', 'spirit', 1, { batch: 'c' });
const all = [other, hearts, empty, wooded, bottles, lot('f', 'feints', 2)];

test('steps end at the wanted strength, and the portions add up to the whole', () => {
  expect(strengthsBetween(70, 55, 3)).toEqual([65, 60, 55]);
  expect(strengthsBetween(70, 55, 1)).toEqual([55]);
  expect(portions([1, 2.5, 4])).toEqual([1, 1.5, 1.5]);
});

test('each stage offers the lots that it can take', () => {
  expect(spiritLots(all, 'b').map((l) => l.entry)).toEqual(['h', 'x']);
  expect(onWood(all, 'b').map((l) => l.entry)).toEqual(['w']);
  expect(bottled(all, 'b').map((l) => l.entry)).toEqual(['o']);
});

test('what was set apart is offered last', () => {
  const all = [lot('a', 'apart', 0.3), lot('s', 'spirit', 3), lot('h', 'hearts', 2)];
  expect(spiritLots(all, 'b').map((l) => l.entry)).toEqual(['s', 'h', 'a']);
});

test('no more is taken of a lot than there is', () => {
  expect(lotFault(hearts, '3.6 L', 'metric')).toMatch(/more than there is/);
  expect(lotFault(hearts, '3.5', 'metric')).toBeUndefined();
  expect(lotFault(hearts, 'some', 'metric')).toMatch(/accepted/);
  expect(partsTyped([hearts], { 'h hearts': '9' }, 'metric')).toBeUndefined();
  expect(partsTyped([hearts], { 'h hearts': '500 mL' }, 'metric')).toEqual([
    { lot: hearts.lot, volume_L_20C: 0.5 },
  ]);
  expect(pickedPart(other, '0.5', 'metric')?.lot).toEqual(other.lot);
  expect(pickedPart(hearts, '', 'metric')).toBeUndefined();
});

test('a reading is kept as it stands on the instrument, in per cent or proof', () => {
  expect(strengthTyped('73,1')).toEqual({ reading: 73.1, scale: 'percent_vol' });
  expect(strengthTyped('146 proof')).toEqual({ reading: 146, scale: 'proof' });
  expect(strengthTyped('seventy')).toBeUndefined();
  expect(strengthRead('73.1', '68', 'us')).toEqual({
    reading: 73.1,
    scale: 'percent_vol',
    at_C: expect.closeTo(20),
  });
  expect(volumeRead('1 gal', '20 C', 'metric')?.volume_L).toBeCloseTo(3.785);
  expect(volumeRead('', '20', 'metric')).toBeUndefined();
});
