import { fireEvent, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { Telling } from '../house/telling.svelte';
import { airWords, pressureTyped, sinceCleaned, sinceWords } from './air';
import AirForm from './AirForm.svelte';
import CopperForm from './CopperForm.svelte';

test('a pressure is read in the units that a barometer has, within what the house takes', () => {
  for (const text of ['1003', '1003 hPa', '1003 mbar', '1003 hpa'])
    expect(pressureTyped(text, 'metric')).toBe(1003);
  expect(pressureTyped('29.62 inHg', 'metric')).toBeCloseTo(1003.05, 2); // 33.86389 hPa each
  expect(pressureTyped('29.62', 'us')).toBeCloseTo(1003.05, 2);
  for (const text of ['', 'low', '-5', '299', '1101', '1003 kg', '1e999'])
    expect(pressureTyped(text, 'metric')).toBeUndefined();
  expect(airWords({ pressure_hPa: 1003, boiling_water_C: 99.6 }, 'metric')).toBe(
    '1003\u00a0hPa, boiling water reads 99.6\u00a0°C',
  );
});

test('runs are counted from the last cleaning, of whatever batch', () => {
  const runs = [
    { at: '2026-11-20T08:00:00Z', run: 'spirit run' },
    { at: '2026-11-22T08:00:00Z', run: 'strip' },
  ];
  const batches = [{ runs }, { runs: [{ at: '2026-11-21T07:00:00Z', run: 'strip' }] }];
  const since = sinceCleaned(
    [{ at: '2026-11-21T06:00:00Z' }, { at: '2026-10-01T06:00:00Z' }],
    batches,
  );
  expect(sinceWords(since!)).toBe('2 runs since; the first was a strip.');
  expect(sinceCleaned([], batches)).toBeUndefined();
});

function shown(Form: typeof AirForm | typeof CopperForm, batch?: string) {
  const record = vi.fn(async (wish: unknown) => ({ id: 'x', ...(wish as object) }) as never);
  const telling = new Telling({ record });
  render(Form as typeof AirForm, { telling, batch, ondone: () => undefined });
  return record;
}
const fill = (field: HTMLElement, value: string) => fireEvent.input(field, { target: { value } });
const tap = (name: string) => userEvent.click(screen.getByRole('button', { name }));

test('the air is told by one of the two at least', async () => {
  const record = shown(AirForm, 'b');
  await tap('Keep the air');
  expect(screen.getByText(/Nothing was given; accepted: a pressure, or below it/)).toBeTruthy();
  await fill(screen.getByLabelText(/^Barometer/), '30');
  await fill(screen.getByLabelText(/^Thermometer/), '99.2');
  await tap('Keep the air');
  expect(screen.getByText(/“30” was given; accepted: a pressure such as 1003 hPa/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await fill(screen.getByLabelText(/^Barometer/), '');
  await tap('Keep the air');
  const body = { boiling_water_C: 99.2 };
  expect(record).toHaveBeenCalledWith({ batch: 'b', stage: 'kit', kind: 'air read', body });
});

test('caustic and acid bring their own cautions to the cleaning of copper', async () => {
  const record = shown(CopperForm);
  expect(screen.queryByText(/collapses it/)).toBeNull();
  await userEvent.selectOptions(screen.getByLabelText('With'), 'caustic');
  expect(screen.getByText(/Caustic in a vessel full of carbon dioxide collapses it/)).toBeTruthy();
  await userEvent.selectOptions(screen.getByLabelText('With'), 'citric acid');
  expect(screen.queryByText(/collapses it/)).toBeNull();
  expect(screen.getByText(/Never near a cleaner with chlorine/)).toBeTruthy();
  await userEvent.selectOptions(screen.getByLabelText('What was cleaned'), 'something else');
  await tap('Keep the cleaning');
  expect(screen.getByText(/Nothing was given; accepted: what was cleaned/)).toBeTruthy();
  await fill(screen.getByLabelText('Namely'), 'x'.repeat(201));
  expect(screen.getByText(/is 201 letters long; accepted: up to 200/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await fill(screen.getByLabelText('Namely'), 'worm');
  await tap('Keep the cleaning');
  const body = { what: 'worm', with: 'citric acid' };
  expect(record).toHaveBeenCalledWith({ stage: 'kit', kind: 'copper cleaned', body });
});
