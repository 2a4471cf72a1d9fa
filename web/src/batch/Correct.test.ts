// What was told late is set right in its time too: a correction may say that it happened earlier.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi, type MockInstance } from 'vitest';
import { bench } from '../data/bench.svelte';
import { momentText } from '../data/dates';
import type { Entry } from '../data/entry';
import Correct from './Correct.svelte';
import type { JournalRow } from './journal';

const entry: Entry = {
  id: '018f0000-0000-7000-8000-000000000001',
  batch: 'b',
  stage: 'ferment',
  kind: 'ferment reading',
  version: 1,
  at: '2026-11-25T12:00:30.123Z',
  clock_ahead_ms: 40,
  who: 'Ada',
  body: { temperature_C: 24 },
};
const row = { first: entry, stands: entry, corrections: [] } as unknown as JournalRow;

let record: MockInstance<typeof bench.record>;
beforeEach(() => {
  record = vi.spyOn(bench, 'record').mockImplementation(async (wish) => ({ ...entry, ...wish }));
});

async function corrected(at: string | undefined, degrees: string | undefined) {
  render(Correct, { batch: 'b', row, ondone: () => undefined });
  const user = userEvent.setup();
  if (at !== undefined) {
    await user.clear(screen.getByLabelText('When it happened'));
    await user.type(screen.getByLabelText('When it happened'), at);
  }
  if (degrees !== undefined) {
    await user.clear(screen.getByLabelText('Temperature'));
    await user.type(screen.getByLabelText('Temperature'), degrees);
  }
  await user.click(screen.getByRole('button', { name: 'Correct it' }));
}

test('its time alone can be corrected', async () => {
  const noon = new Date(2026, 10, 25, 9, 15).getTime();
  await corrected(momentText(noon), undefined);
  expect(record).toHaveBeenCalledOnce();
  expect(record.mock.calls[0]![0]).toMatchObject({
    corrects: entry.id,
    at: new Date(noon).toISOString(),
    body: entry.body,
  });
});

test('a figure is corrected at the time it was told, to the millisecond', async () => {
  await corrected(undefined, '25');
  expect(record.mock.calls[0]![0]).toMatchObject({
    at: entry.at,
    clock_ahead_ms: 40,
    body: { temperature_C: 25 },
  });
});

test('a time to come is refused at its field, and nothing is recorded', async () => {
  await corrected('2999-01-01T00:00', '25');
  expect(record).not.toHaveBeenCalled();
  expect(screen.getByText(/accepted: a day and a time that have been/)).toBeTruthy();
});
