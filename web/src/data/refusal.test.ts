import { expect, test } from 'vitest';
import { Problem, type Fault } from './problem';
import { asSentence, refusalOf } from './refusal';

const refused = (...errors: Fault[]) =>
  new Problem({ title: 'Not so', detail: 'as the house says it', status: 422, errors });

test('a refusal that names no field of a form is a sentence of its own', () => {
  const charge = { field: 'run', value: 'a charge of unknown strength', accepted: 'a charge' };
  expect(refusalOf(refused(charge))).toMatch(/^How strong the charge of this run was is not known/);
  const pitch = { field: 'batch', value: 'Tern 9', accepted: 'a batch whose yeast was pitched' };
  expect(refusalOf(refused(pitch))).toBe(
    'This is not to be had yet: it wants a batch whose yeast was pitched.',
  );
});

test('what names a field of a text, and what is no refusal, is said as the house says it, as a sentence', () => {
  const field = { field: 'mash.grain[0].mass', value: '-1', accepted: 'a mass' };
  expect(refusalOf(refused(field))).toBe('As the house says it');
  expect(refusalOf(new Error('out of order'))).toBe('Out of order');
  expect(asSentence('mash.grain[0].mass is "-1".')).toBe(
    'The house says: mash.grain[0].mass is "-1".',
  );
});

test('a charge too small for a forecast is told as a sentence', () => {
  // "No forecast." stood before "charge is “400 mL”; accepted: ...".
  const charge = { field: 'charge', value: '400 mL', accepted: 'a volume of 500 mL or more' };
  expect(refusalOf(refused(charge))).toBe(
    'A charge of 400 mL cannot be reckoned; accepted: a volume of 500 mL or more.',
  );
});

test('a border of a run that its charge cannot have is told by its name', () => {
  const field = {
    field: 'rules.hearts_end',
    value: '58.0 %vol',
    accepted: 'a border that comes after the end of the heads, 0.350 L',
  };
  expect(refusalOf(refused(field))).toMatch(
    /^The end of the hearts by the recipe, 58\.0 %vol, does not fit this charge; accepted: a border/,
  );
});
