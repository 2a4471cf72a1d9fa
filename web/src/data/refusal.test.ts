import { expect, test } from 'vitest';
import { Problem, type Fault } from './problem';
import { refusalOf } from './refusal';

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

test('what names a field of a text, and what is no refusal, stays as it was said', () => {
  const field = { field: 'mash.grain[0].mass', value: '-1', accepted: 'a mass' };
  expect(refusalOf(refused(field))).toBe('as the house says it');
  expect(refusalOf(new Error('out of order'))).toBe('out of order');
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
