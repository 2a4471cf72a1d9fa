// What the house says and the page says too stands once, and what only one of them says is never lost.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { newEntry } from '../data/entry';
import { houseCautions, newerHere } from './cautions';

/** A sentence of the house as its source has it: literals beside each other are one. */
function ofHouse(name: string): string {
  const source = readFileSync('../src/wire/still.hpp', 'utf8');
  const told = new RegExp(`${name} =([^;]*);`).exec(source)![1]!;
  return [...told.matchAll(/"([^"]*)"/g)].map(([, part]) => part).join('');
}
const HOT = ofHouse('spirit_caution');
const COOLANT = ofHouse('coolant_caution');
const ALWAYS = 'never leave a heated still. If the coolant fails: heat off first.';
const ASKED = 'The charge holds 9.00 L of pure alcohol, and what there was to put in held 4.00 L.';
const house = [ASKED, HOT, COOLANT, ALWAYS];
const none = { hot: false, coolantHot: false, newer: false };

test('what is told here of heat is not told again, each for itself', () => {
  expect(houseCautions(house, none)).toEqual(house);
  expect(houseCautions(house, { ...none, hot: true })).toEqual([ASKED, COOLANT, ALWAYS]);
  expect(houseCautions(house, { ...none, coolantHot: true })).toEqual([ASKED, HOT, ALWAYS]);
});

test('of older readings than stand here the house tells no heat, and all else', () => {
  expect(houseCautions(house, { ...none, newer: true })).toEqual([ASKED, ALWAYS]);
});

test('a question that stands on the page with its answer is not asked again', () => {
  expect(houseCautions(house, { ...none, asked: [ASKED] })).toEqual([HOT, COOLANT, ALWAYS]);
  expect(houseCautions(house, { ...none, asked: ['Another.'] })).toEqual(house);
});

test('readings that wait, or are corrected or struck here, are newer than what the house heard', () => {
  const run = { entry: 'r', readings: [{ entry: 'a' }] };
  const told = (kind: string, body: Record<string, unknown>, corrects?: string) =>
    newEntry({ stage: 'strip', kind, who: '', body, ...(corrects ? { corrects } : {}) });
  expect(newerHere(run, [])).toBe(false);
  expect(newerHere(run, [told('run read', { run: 'r' })])).toBe(true);
  expect(newerHere(run, [told('run read', { run: 'other' })])).toBe(false);
  expect(newerHere(run, [told('struck', {}, 'a')])).toBe(true);
  expect(newerHere(run, [told('struck', {}, 'other'), told('jar filled', { run: 'r' })])).toBe(
    false,
  );
});
