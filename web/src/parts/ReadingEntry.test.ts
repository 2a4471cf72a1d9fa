import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { set } from '../data/settings.svelte';
import ReadingEntry, { type Scale } from './ReadingEntry.svelte';

const scales: Scale[] = [
  {
    id: 'hydrometer',
    name: 'Alcoholmeter',
    unit: '%vol',
    decimals: 1,
    expected: { low: 72, high: 74 },
    accepted: { low: 0, high: 100 },
  },
  { id: 'head', name: 'Head', unit: '°C', decimals: 1 },
];

async function tap(...names: (string | RegExp)[]) {
  for (const name of names) await userEvent.click(screen.getByRole('button', { name }));
}

const entry = (more = {}) => {
  const onkeep = vi.fn();
  render(ReadingEntry, { scales, temperature_C: 29, onkeep, ...more });
  return onkeep;
};

test('a reading is one number and one tap; the temperature is kept from before', async () => {
  const onkeep = entry();
  await tap('7', '3', 'Point', '1', 'Keep');
  expect(onkeep).toHaveBeenCalledExactlyOnceWith({
    scale: 'hydrometer',
    value: 73.1,
    unit: '%vol',
    temperature_C: 29,
  });
  expect(screen.getByLabelText<HTMLInputElement>('Alcoholmeter').value).toBe('');
});

test('another temperature is typed on the same pad, before or after the number', async () => {
  const onkeep = entry();
  await tap('7', '3', /^at 29/, '2', '7', 'Keep');
  expect(onkeep).toHaveBeenLastCalledWith(
    expect.objectContaining({ value: 73, temperature_C: 27 }),
  );
  await tap(/^at 27/, '2', '6', 'Then', '7', '2', 'Keep');
  expect(onkeep).toHaveBeenLastCalledWith(
    expect.objectContaining({ value: 72, temperature_C: 26 }),
  );
});

test('a number that does not fit is said to be odd, and kept all the same', async () => {
  const onkeep = entry();
  await tap('3', '7', 'Point', '2');
  expect(screen.getByText('Does not fit.')).toBeTruthy();
  expect(screen.getByText(/Expected 72\.0–74\.0 %vol/)).toBeTruthy();
  await tap('Keep');
  expect(onkeep).toHaveBeenCalledWith(expect.objectContaining({ value: 37.2 }));
});

test('a number off the instrument’s scale is not a reading: its sentence names what is accepted', async () => {
  const onkeep = entry();
  await tap('7', '3', '1', 'Keep');
  expect(
    screen.getByText('Alcoholmeter 731.0 is off its scale; accepted: 0–100 %vol.'),
  ).toBeTruthy();
  expect(onkeep).not.toHaveBeenCalled();
  expect(screen.getByLabelText<HTMLInputElement>('Alcoholmeter').value).toBe('731');
});

test('another instrument has its own unit', async () => {
  const onkeep = entry({ withTemperature: false });
  await tap('Head', '8', '8', 'Point', '1', 'Keep');
  expect(onkeep).toHaveBeenCalledExactlyOnceWith({ scale: 'head', value: 88.1, unit: '°C' });
});

test('in US units the temperature is typed and shown in °F, and kept in °C', async () => {
  set({ units: 'us' });
  const onkeep = entry({ temperature_C: 20 });
  await tap(/^at 68 °F/, '7', '7', 'Then', '7', '3', 'Keep');
  expect(onkeep.mock.calls[0]![0].temperature_C).toBeCloseTo(25, 9);
});
