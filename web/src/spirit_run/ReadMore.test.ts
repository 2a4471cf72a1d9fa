import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test } from 'vitest';
import type { RunReading } from '../data/answers';
import { set } from '../data/settings.svelte';
import ReadMore from './ReadMore.svelte';

beforeEach(() => set({ units: 'metric' }));

function open(before: Partial<RunReading> = {}) {
  const kept: Record<string, unknown>[] = [];
  render(ReadMore, { before, temperature_C: 21, onkeep: (told) => kept.push(told) });
  return kept;
}
const type = (label: string, text: string) => userEvent.type(screen.getByLabelText(label), text);
const keep = () => userEvent.click(screen.getByRole('button', { name: 'Keep all of these' }));

test('several figures go into one entry, and what is wrong is held at its field', async () => {
  const kept = open();
  await keep();
  expect(screen.getByText(/Nothing was given; accepted: one figure at least/)).toBeTruthy();
  await type('Alcoholmeter reads', '71.5');
  await type('Coolant in', '11');
  await type('Coolant out', '38');
  await type('Coolant flow', '5000');
  await keep();
  expect(kept).toEqual([]);
  expect(screen.getByText(/“5000” was given; accepted: a flow such as/)).toBeTruthy();
  await userEvent.clear(screen.getByLabelText('Coolant flow'));
  await type('Coolant flow', '1.5');
  await keep();
  expect(kept).toEqual([
    {
      spout: { reading: 71.5, scale: 'percent_vol' },
      spout_temperature_C: 21,
      coolant_in_C: 11,
      coolant_out_C: 38,
      coolant_flow_L_per_min: 1.5,
    },
  ]);
});

test('in a correction what nobody touched stays as it was told, and a figure can be taken away', async () => {
  set({ units: 'us' });
  const kept = open({ head_temperature_C: 91.73, coolant_flow_L_per_min: 1.5, power_W: 2000 });
  await userEvent.clear(screen.getByLabelText('Power'));
  await keep();
  expect(kept).toEqual([{ head_temperature_C: 91.73, coolant_flow_L_per_min: 1.5 }]);
});

test('kilowatts in the field of watts are asked about at it', async () => {
  const kept = open();
  await type('Power', '1,5');
  await keep();
  expect(kept).toEqual([]);
  expect(
    screen.getByText(/“1,5” was given; accepted: a power such as 1500.W or 1\.5.kW/),
  ).toBeTruthy();
  await type('Power', ' kW');
  await keep();
  expect(kept).toEqual([{ power_W: 1500 }]);
});
