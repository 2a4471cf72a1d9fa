import { expect, test } from 'vitest';
import { faultsAt, faultsElsewhere, problemOf, sentenceOf } from './problem';
import { set } from './settings.svelte';

const answer = (body: string, status = 422) =>
  new Response(body, { status, headers: { 'Content-Type': 'application/problem+json' } });

test('faults are read with field, value and what would be accepted', async () => {
  const problem = await problemOf(
    answer(
      JSON.stringify({
        title: 'The input has faults',
        status: 422,
        errors: [{ field: 'condenser.inlet', value: '180 °C', accepted: '0 to 60 °C' }, 'noise'],
      }),
    ),
  );
  expect(problem.message).toBe('The input has faults');
  expect(problem.faults).toHaveLength(1);
  expect(faultsAt(problem.faults, 'condenser.inlet')).toEqual([
    '“180 °C” was given; accepted: 0 to 60 °C.',
  ]);
});

test('an answer that is no problem document is told all the same', async () => {
  expect((await problemOf(answer('<html>', 502))).status).toBe(502);
  expect((await problemOf(answer('null', 500))).message).not.toBe('');
});

test('a fault is shown at its field, or above the form when no field has it', () => {
  const faults = [{ field: 'mash.grain[2].mass', value: '' }, { field: 'name' }];
  expect(faultsAt(faults, 'mash.grain')).toEqual([]);
  expect(faultsAt(faults, 'mash.grain', true)).toEqual(['This is missing.']);
  expect(faultsElsewhere(faults, ['name'])).toEqual([faults[0]]);
});

test('the house’s own sentence comes first', () => {
  expect(sentenceOf({ field: 'a', value: '1', sentence: 'Too little malt.' })).toBe(
    'Too little malt.',
  );
});

test('limits of the house are told in the units of this device, its examples as they are', () => {
  set({ units: 'us' });
  const said = sentenceOf({
    field: 'place.ambient',
    value: '90 °C',
    accepted: 'a temperature such as "20 °C" or "68 °F", from -10 to 45 °C',
  });
  set({ units: 'metric' });
  expect(said.replaceAll('\u00a0', ' ')).toBe(
    '“90 °C” was given; accepted: a temperature such as "20 °C" or "68 °F", from 14 to 113 °F.',
  );
});

test('a temperature that the house cannot take is told to a tenth, as all others are', () => {
  // A refractometer's reading at 68 °C on mash day: “68.00 °C” was given.
  const fault = { field: 'temperature', value: '68.00 °C', accepted: '0 to 40 °C' };
  expect(sentenceOf(fault)).toBe('“68.0 °C” was given; accepted: 0 to 40 °C.');
});
