import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { tick } from 'svelte';
import { expect, test } from 'vitest';
import { Clocks } from '../data/clocks.svelte';
import ClockFace from './ClockFace.svelte';

test('a clock is started, rings with a word, is heard and removed', async () => {
  let now = 0;
  let ringing = false;
  const clocks = new Clocks(
    (on) => (ringing = on),
    () => now,
  );
  render(ClockFace, { clocks });
  expect(screen.getByText('No clock runs.')).toBeTruthy();
  await userEvent.type(screen.getByLabelText('For what'), 'Cook maize');
  await userEvent.type(screen.getByLabelText('Minutes'), '31');
  await userEvent.click(screen.getByRole('button', { name: 'Start clock' }));
  expect(screen.getByRole('timer', { name: 'Cook maize: 31:00 left' })).toBeTruthy();
  now += 31 * 60_000;
  clocks.tick();
  await tick();
  expect(ringing).toBe(true);
  expect(screen.getByRole('alert').textContent).toContain('Cook maize: time.');
  await userEvent.click(screen.getByRole('button', { name: 'Heard' }));
  expect(ringing).toBe(false);
  expect(screen.getByText(/^Heard; ended/)).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Remove Cook maize' }));
  expect(clocks.all).toEqual([]);
});

test('a length that is none has its sentence, and what was typed stays', async () => {
  const clocks = new Clocks(undefined, () => 0);
  render(ClockFace, { clocks });
  const minutes = screen.getByLabelText<HTMLInputElement>('Minutes');
  for (const wrong of ['soon', '0', '-3']) {
    await userEvent.clear(minutes);
    await userEvent.type(minutes, wrong);
    await userEvent.click(screen.getByRole('button', { name: 'Start clock' }));
    expect(screen.getByText(new RegExp(`“${wrong}” is not a length of time`))).toBeTruthy();
    expect(minutes.value).toBe(wrong);
  }
  await userEvent.clear(minutes);
  await userEvent.type(minutes, '99999999');
  await userEvent.click(screen.getByRole('button', { name: 'Start clock' }));
  expect(
    screen.getByText(/“99999999” minutes are more than a clock runs; accepted: .*up to 100\s000/),
  ).toBeTruthy();
  expect(clocks.all).toEqual([]);
});

test('a clock is held and goes on', async () => {
  const clocks = new Clocks(undefined, () => 0);
  clocks.start('Rest', 10);
  render(ClockFace, { clocks });
  await userEvent.click(screen.getByRole('button', { name: 'Hold' }));
  expect(screen.getByText('Held')).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Go on' }));
  expect(screen.getByText(/^until/)).toBeTruthy();
});

test('a clock tells its batch, and on the page of a batch another batch has none', () => {
  localStorage.clear();
  const clocks = new Clocks(undefined, () => 0);
  clocks.start('Rest', 90, { batch: 'a', name: 'First go' });
  clocks.start('Boiler', 10);
  const all = render(ClockFace, { clocks });
  expect(screen.getByText('First go: Rest')).toBeTruthy();
  all.unmount();
  const other = render(ClockFace, { clocks, batch: 'b' });
  expect(screen.queryByText(/Rest/)).toBeNull();
  expect(screen.getByText('Boiler')).toBeTruthy();
  other.unmount();
  render(ClockFace, { clocks, batch: 'a' });
  expect(screen.getByText('Rest')).toBeTruthy();
});
