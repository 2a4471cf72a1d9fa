// Accepted values as the house words them for a text: src/recipe/field.cpp and read_kit.cpp.
import { expect, test } from 'vitest';
import { sentenceOf } from '../data/problem';
import { set } from '../data/settings.svelte';
import { KIT_SECTIONS } from '../kit/kit_form';
import { faultInForm } from './form_words';
import type { FormField } from './text_form';

/** The sentence at the kit's field of that path; items of lists by their key alone. */
function said(path: string, value: string, accepted: string): string {
  const plain = path.replace(/\[\d+\]/, '');
  const field = KIT_SECTIONS.flatMap(({ list, fields }) =>
    fields.map((one): [string, FormField] => [list ? `${list.path}.${one.path}` : one.path, one]),
  ).find(([of]) => of === plain)![1];
  const fault = { field: `kit.${path}`, value, accepted };
  return sentenceOf(faultInForm(fault, field, KIT_SECTIONS, 'kit.'));
}

test('another field is named by its label', () => {
  expect(said('liquor.hot', '5 °C', 'warmer than liquor.cold, 12 °C')).toBe(
    '“5 °C” was given; accepted: warmer than “Cold water”, 12 °C.',
  );
  expect(said('boiler.element_covered_above', '9 L', '0 L, or heat = "element"')).toBe(
    '“9 L” was given; accepted: 0 L, or “Heated by”: element.',
  );
  expect(
    said('vessel[2].loss_lid_on', '3 W/K', 'either loss_lid_on or a cooling_test, not both'),
  ).toBe('“3 W/K” was given; accepted: either “Heat lost, lid on” or a cooling test, not both.');
});

test('nothing of quotes is said where none are typed', () => {
  expect(
    said('place.air_changes_per_hour', 'some', 'a number, written without quotes, from 0 to 100'),
  ).toBe('“some” was given; accepted: a number, from 0 to 100.');
  expect(said('boiler.power_adjustable', 'maybe', 'true or false, written without quotes')).toBe(
    '“maybe” was given; accepted: yes or no.',
  );
  expect(said('name', '', 'one line of text in quotes, not empty, at most 200 bytes')).toBe(
    'Nothing was given; accepted: one line of words, not empty, at most 200 bytes.',
  );
});

test('the limits of a room are told in its unit, or in US units from there', () => {
  const accepted = 'a volume such as "20 L" or "5 gal", from 1000 L to 100000000 L';
  expect(said('place.ferment_room', '0.5 m³', accepted)).toBe(
    '“0.5 m³” was given; accepted: a volume such as "40 m³" or "1400 ft³", from 1 to 100000 m³.',
  );
  set({ units: 'us' });
  try {
    expect(said('place.ferment_room', '10 ft³', accepted)).toMatch(/from 35 to 3.531.467\sft³\.$/u);
  } finally {
    set({ units: 'metric' });
  }
  // A vessel is told in litres.
  expect(said('vessel[1].total', '9 mL', 'a volume such as "20 L", from 500 mL to 5000 L')).toMatch(
    /from 500 mL to 5000 L\.$/,
  );
});
