// A tablet whose clock was never set shows the days of the house, not its own.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import type { Batch, Plan } from '../data/answers';
import { dayAndTime, momentText } from '../data/dates';
import type { Entry } from '../data/entry';
import { clockWords, houseTime } from '../data/house_time';
import Correct from './Correct.svelte';
import Journal from './Journal.svelte';
import type { JournalRow } from './journal';
import Timeline from './Timeline.svelte';

const FAST_MS = 3 * 86_400_000; // three days ahead
let house_ms: number;
let entry: Entry;

beforeEach(() => {
  house_ms = Date.now() - FAST_MS;
  houseTime.learn(Date.now(), house_ms, Date.now());
  // Told an hour ago on this same tablet.
  entry = {
    id: '018f0000-0000-7000-8000-000000000001',
    batch: 'b',
    stage: 'mash',
    kind: 'mash temperature',
    version: 1,
    at: new Date(house_ms - 3_600_000 + FAST_MS).toISOString(),
    clock_ahead_ms: FAST_MS,
    who: '',
    body: { temperature_C: 66.1 },
  };
});

// The clock of the page is one for all test files, and is looked at again as it ticks.
afterEach(() => {
  houseTime.learn(Date.now(), Date.now(), Date.now());
  bench.clocks.tick();
});

test('the journal tells when it happened by the house’s clock', () => {
  render(Journal, { batch: 'b', entries: [entry], puzzles: [], waiting: [] });
  const when = dayAndTime(house_ms - 3_600_000, house_ms);
  expect(screen.getByText(when)).toBeTruthy();
  expect(screen.getByRole('button', { name: `Correct mash temperature, ${when}` })).toBeTruthy();
});

test('today stands on the timeline by the house’s clock', () => {
  const plan = {
    timeline: {
      steps: [
        {
          stage: 'Mash',
          what: 'Mill',
          start_min: 0,
          length_min: 30,
          clock: 'day 1 00:00',
          attention: 'hands_on',
          beside: false,
        },
      ],
      hands_on_min: 30,
      watching_min: 0,
      whole_min: 30,
    },
  } as unknown as Plan;
  const batch = {
    steps: [
      { stage: 'mash', step: 'Mill', done: true, entry: 's', at: new Date(house_ms).toISOString() },
    ],
    mash: { temperatures: [], waters: [], worts: [] },
    ferment: { readings: [] },
    runs: [],
    lots: [],
  } as unknown as Batch;
  render(Timeline, { plan, batch });
  const today = screen.getByRole('rowheader', { name: 'Today' }).closest('tr')!;
  expect(today.textContent).toContain(dayAndTime(house_ms, house_ms).replace(/:\d\d$/, ''));
});

test('a time is corrected by the house’s clock', async () => {
  const record = vi
    .spyOn(bench, 'record')
    .mockImplementation(async (wish) => ({ ...entry, ...wish }));
  const row = { first: entry, stands: entry, corrections: [] } as unknown as JournalRow;
  render(Correct, { batch: 'b', row, ondone: () => undefined });
  const field = screen.getByLabelText<HTMLInputElement>('When it happened');
  expect(field.value).toBe(momentText(house_ms - 3_600_000));
  const earlier = new Date(momentText(house_ms - 7_200_000)).getTime();
  await userEvent.clear(field);
  await userEvent.type(field, momentText(earlier));
  await userEvent.click(screen.getByRole('button', { name: 'Correct it' }));
  expect(record.mock.calls[0]![0]).toMatchObject({
    at: new Date(earlier).toISOString(),
    clock_ahead_ms: 0,
  });
});

test('a page says when this device’s clock is off, or when that is not known', () => {
  expect(clockWords({ known: true, ahead_ms: 20_000 })).toBe('');
  expect(clockWords({ known: true, ahead_ms: -180_000 })).toBe(
    'This device’s clock is 3 min behind the house’s; the times here are the house’s.',
  );
  expect(clockWords({ known: true, ahead_ms: 2 * 86_400_000 })).toContain('2 days ahead of');
  expect(clockWords({ known: false, ahead_ms: 0 })).toContain('has not told its time');
});
