import { expect, test } from 'vitest';
import type { Run } from '../data/answers';
import { newEntry } from '../data/entry';
import { correctedSince, standing, versionsOf } from './doubts';

const run = (slip: number | undefined): Run => ({
  entry: 'r',
  at: '2026-10-07T12:00:00Z',
  run: 'spirit run',
  standing: 'running',
  charge_L_20C: 10,
  lots: [],
  jars: [],
  readings: [
    { entry: 'early', at: '2026-10-07T12:30:00Z', minutes: 30 },
    ...(slip === undefined
      ? []
      : [{ entry: 'slip', at: '2026-10-07T13:30:00Z', minutes: 90, corrections: slip }]),
  ],
});
const doubts = ['early', 'slip'].map((entry) => ({
  entry,
  instrument: 'spout',
  words: 'does not fit',
}));
const correction = (kind: string) =>
  newEntry({ stage: 'spirit run', kind, who: '', corrects: 'slip', body: {} });
const names = (of: { entry: string }[]) => of.map((d) => d.entry);

test('a doubt of a struck reading is gone, whether the house knows of it or not yet', () => {
  expect(names(standing(doubts, run(undefined), [], new Map(), 0).stand)).toEqual(['early']);
  const waiting = [correction('struck')];
  const here = standing(doubts, run(0), waiting, new Map(), 0);
  expect([names(here.stand), names(here.anew)]).toEqual([['early'], []]);
});

test('a doubt of a corrected reading stands only by a forecast asked for since', () => {
  const before = versionsOf(run(0));
  expect(correctedSince(before, versionsOf(run(1)))).toEqual(['slip']);
  expect(correctedSince(versionsOf(run(1)), versionsOf(run(1)))).toEqual([]);
  expect(correctedSince(undefined, versionsOf(run(2)))).toEqual(['slip']);
  const since = new Map([['slip', 1000]]);
  const old = standing(doubts, run(1), [], since, 999);
  expect([names(old.stand), names(old.anew)]).toEqual([['early'], ['slip']]);
  expect(names(standing(doubts, run(1), [], since, 1000).stand)).toEqual(['slip', 'early']);
  const here = standing(doubts, run(0), [correction('run read')], new Map(), 2000);
  expect(names(here.anew)).toEqual(['slip']);
});
