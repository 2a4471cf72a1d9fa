// What was done earlier is told at its own time, by the house's clock; what is still to come is refused.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, expect, test } from 'vitest';
import { bench } from '../data/bench.svelte';
import { momentText } from '../data/dates';
import { HouseTime } from '../data/house_time';
import { WhenDone as When } from './when_done.svelte';
import WhenDone from './WhenDone.svelte';

afterEach(() => (bench.told_ms = undefined));

const NOW = new Date(2026, 10, 27, 15, 30, 20).getTime();
/** A device five minutes ahead of its house, whose clock shows NOW. */
function ahead(): HouseTime {
  const clock = new HouseTime(() => NOW + 300_000);
  clock.learn(NOW + 300_000, NOW, NOW + 300_000);
  return clock;
}
async function shown(when: When, text?: string) {
  render(WhenDone, { when, label: 'It was read at' });
  const user = userEvent.setup();
  await user.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  const field = screen.getByLabelText<HTMLInputElement>('It was read at');
  if (text !== undefined) {
    await user.clear(field);
    if (text !== '') await user.type(field, text);
  }
  return { user, field };
}

test('shut, it is told as of now and asks for nothing', () => {
  const when = new When(ahead());
  render(WhenDone, { when, label: 'It was read at' });
  expect(screen.queryByLabelText('It was read at')).toBeNull();
  expect(screen.getByRole('button').getAttribute('aria-expanded')).toBe('false');
  expect(when.settled()).toBe(true);
  expect(when.told).toEqual({});
  expect(when.words).toBe('');
});

test('one tap opens it at the house’s own time, not the device’s', async () => {
  const { field } = await shown(new When(ahead()));
  expect(field.value).toBe('2026-11-27T15:30');
  expect(screen.getByRole('button').getAttribute('aria-expanded')).toBe('true');
});

test('a time that has been is told as the device’s clock would have shown it', async () => {
  const when = new When(ahead());
  await shown(when, '2026-11-20T14:05');
  const house = new Date(2026, 10, 20, 14, 5).getTime();
  expect(when.settled()).toBe(true);
  expect(when.told).toEqual({
    at: new Date(house + 300_000).toISOString(),
    clock_ahead_ms: 300_000,
  });
  expect(when.words).toBe(' It stands at 20 November, 14:05.');
});

test('a time to come is refused at the field at once; the minute that comes is no later than now', async () => {
  const when = new When(ahead());
  const { field } = await shown(when, '2026-11-28T08:00');
  expect(screen.getByText(/^28 November 2026, 08:00 is still to come; accepted: /)).toBeTruthy();
  expect(field.getAttribute('aria-invalid')).toBe('true');
  expect(when.settled()).toBe(false);
  expect(when.told).toEqual({});
  // Still to come by the house's clock, though the device's own is past it.
  when.text = momentText(NOW + 200_000);
  expect(when.settled()).toBe(false);
  when.text = '2026-11-27T15:31';
  expect(when.told.at).toBe(new Date(NOW + 300_000).toISOString());
});

test('emptied, it is asked for when the form is kept, and takes the focus', async () => {
  const when = new When(ahead());
  const { user, field } = await shown(when, '');
  expect(screen.queryByText(/accepted/)).toBeNull();
  await user.click(document.body);
  expect(when.settled()).toBe(false);
  expect(await screen.findByText(/^Nothing was given; accepted: a day and a time/)).toBeTruthy();
  expect(document.activeElement).toBe(field);
  // Shut again it is now.
  await user.click(screen.getByRole('button', { name: 'It is now after all' }));
  expect(when.settled()).toBe(true);
  expect(when.told).toEqual({});
});

test('while entries are told as of another time it opens at that', async () => {
  bench.told_ms = NOW + 300_000 - 3_600_000; // by the device's clock
  const { field } = await shown(new When(ahead()));
  expect(field.value).toBe('2026-11-27T14:30');
});

test('once kept, the next is done now', async () => {
  const when = new When(ahead());
  await shown(when, '2026-11-20T14:05');
  when.clear();
  expect(await screen.findByRole('button', { name: 'Earlier than now?' })).toBeTruthy();
  expect(when.told).toEqual({});
});
