import { fireEvent, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { Telling } from '../house/telling.svelte';
import AddedForm from './AddedForm.svelte';
import { addedMass, addedVolume, addedWords } from './additions';

test('amounts keep the unit that was typed, else take the field’s', () => {
  expect(addedMass('24', 'g', 'metric')).toBe(0.024);
  expect(addedMass('24', 'kg', 'metric')).toBe(24);
  expect(addedMass('24 g', 'kg', 'metric')).toBe(0.024);
  expect(addedMass('1 lb', 'g', 'metric')).toBeCloseTo(0.45359237, 8);
  expect(addedVolume('30', 'mL', 'metric')).toBe(0.03);
  expect(addedVolume('1 gal', 'mL', 'metric')).toBeCloseTo(3.785411784, 8);
  for (const text of ['', 'some', '-1', '0', '3 L', '99999999'])
    expect(addedMass(text, 'g', 'metric')).toBeUndefined();
  for (const text of ['', 'some', '-1', '0', '3 kg', '99999999'])
    expect(addedVolume(text, 'mL', 'metric')).toBeUndefined();
  expect(addedMass('99999', 'kg', 'metric')).toBeUndefined(); // not taken for grams
  expect(addedVolume('99999', 'L', 'metric')).toBeUndefined();
  expect(addedWords({ volume_L: 0.4, temperature_C: 18 }, 'metric')).toBe(
    'water, 400\u00a0mL at 18.0\u00a0°C',
  );
});

function shown(stage: 'mash' | 'ferment', before?: object) {
  const record = vi.fn(async (wish: unknown) => ({ id: 'x', ...(wish as object) }) as never);
  const telling = new Telling({ record });
  render(AddedForm, {
    telling,
    batch: 'b',
    stage,
    before: before as never,
    ondone: () => undefined,
  });
  return record;
}
const what = () => screen.getByLabelText('What went in');
const fill = (field: HTMLElement, value: string) => fireEvent.input(field, { target: { value } });
const tap = (name: string) => userEvent.click(screen.getByRole('button', { name }));

test('an addition needs its name and one amount; another thing does not change the amount', async () => {
  const record = shown('ferment');
  expect(screen.getByText(/foams over when a powder falls in/)).toBeTruthy();
  await tap('It went in');
  expect(screen.getByText(/Nothing was given; accepted: a mass over nought/)).toBeTruthy();
  await fill(screen.getByLabelText('Mass'), '24');
  await userEvent.selectOptions(what(), 'sugar'); // told in kilograms
  expect(screen.getByLabelText<HTMLInputElement>('Mass').value).toBe('24 g');
  await userEvent.selectOptions(what(), 'something else');
  await tap('It went in');
  expect(screen.getByText(/Nothing was given; accepted: what went in/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await fill(screen.getByLabelText('Namely'), 'raisins');
  await tap('It went in');
  const body = { what: 'raisins', mass_kg: 0.024 };
  expect(record).toHaveBeenCalledWith({ batch: 'b', stage: 'ferment', kind: 'added', body });
});

test('water into the mash is told with its temperature, and is corrected as water', async () => {
  const at = '2026-11-26T08:00:00.000Z';
  const record = shown('mash', {
    entry: 'w',
    at,
    batch: 'b',
    stage: 'mash',
    kind: 'mash water',
    body: { volume_L: 0.25, temperature_C: 12 },
  });
  expect(screen.getAllByRole('option').map((o) => o.textContent)).toEqual(['water']);
  await fill(screen.getByLabelText('as warm as'), '');
  await tap('Correct it');
  expect(screen.getByText(/Nothing was given; accepted: a temperature/)).toBeTruthy();
  await fill(screen.getByLabelText('as warm as'), '50 F');
  await tap('Correct it');
  const wish = record.mock.calls[0]![0] as Record<string, unknown>;
  expect([wish['kind'], wish['corrects'], wish['at']]).toEqual(['mash water', 'w', at]);
  expect(wish['body']).toEqual({ volume_L: 0.25, temperature_C: 10 });
});
