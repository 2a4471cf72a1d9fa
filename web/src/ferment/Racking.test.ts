// What was typed of a racking and not told.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Batch } from '../data/answers';
import { bench } from '../data/bench.svelte';
import { set } from '../data/settings.svelte';
import Racking from './Racking.svelte';

const at = '2026-11-29T08:00:00.000Z';
const show = (batch: string, racked?: object) =>
  render(Racking, {
    bench,
    batch,
    told: { ferment: { readings: [], racked } } as unknown as Batch,
    plan: undefined,
    rackedHere: undefined,
    onkept: () => undefined,
  });
const value = (label: string) => screen.getByLabelText<HTMLInputElement>(label).value;
const drafts = () => Object.keys(localStorage).filter((key) => key.startsWith('lynearm-typing-'));

test('a racking that is typed and not told stands after the page was left, until it is told', async () => {
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  record.mockClear();
  const typed = show('racking left');
  await userEvent.type(screen.getByLabelText('Clear wash'), '38.5');
  await userEvent.type(screen.getByLabelText('Lees left'), '2');
  await userEvent.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  typed.unmount();
  set({ units: 'us' });
  const left = show('racking left');
  expect(value('Clear wash')).toBe('38.5 L');
  expect(value('Lees left')).toBe('2 L');
  expect(value('as warm as')).toBe('68'); // nobody typed it
  expect(screen.getByLabelText('It was racked at')).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await userEvent.click(screen.getByRole('button', { name: 'Racked' }));
  expect(record.mock.calls[0]![0].body).toEqual({
    clear: { volume_L: 38.5, at_C: 20 },
    lees_L: 2,
  });
  expect(drafts()).toEqual([]);
  left.unmount();
  show('racking left');
  expect(value('Clear wash')).toBe('');
  expect(value('Lees left')).toBe('');
});

test('the lees that a correction offers are no draft; lees that were taken away stay so', async () => {
  const racked = (lees_L: number) => ({ entry: 'r', at, clear_L_20C: 38.8, lees_L });
  const untouched = show('racking corrected', racked(1.5));
  expect(value('Lees left')).toBe('1.50');
  expect(drafts()).toEqual([]);
  untouched.unmount();
  const emptied = show('racking corrected', racked(2.5));
  expect(value('Lees left')).toBe('2.50');
  await userEvent.clear(screen.getByLabelText('Lees left'));
  emptied.unmount();
  show('racking corrected', racked(2.5));
  expect(value('Lees left')).toBe('');
});
