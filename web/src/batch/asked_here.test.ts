import { expect, test } from 'vitest';
import { askedHere } from './asked_here';

const puzzles = [
  { entry: 'off', why: '99.00 L came off the wood.', counts: true },
  { entry: 'jar', why: 'Jar 2 was gauged at 900 mL.', counts: true },
];

test('a page asks of what it shows, deep within too, and not of what that was made of', () => {
  const lots = [
    { entry: 'made', parents: [{ entry: 'jar' }], uses: [{ entry: 'off', where: 'gauging' }] },
  ];
  expect(askedHere(puzzles, lots)).toEqual([puzzles[0]]);
  const run = {
    entry: 'run',
    jars: [{ jar: 2, gauged: { entry: 'jar' }, lot: { volume_L_20C: 0.9 } }],
  };
  expect(askedHere(puzzles, run)).toEqual([puzzles[1]]);
});

test('nothing is asked where nothing is shown, or nothing is asked of', () => {
  expect(askedHere(puzzles, undefined)).toEqual([]);
  expect(askedHere(undefined, [{ entry: 'off' }])).toEqual([]);
});
