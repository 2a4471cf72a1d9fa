import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import NumberPad from './NumberPad.svelte';

async function tap(...names: string[]) {
  for (const name of names) await userEvent.click(screen.getByRole('button', { name }));
}

const display = () => screen.getByLabelText<HTMLInputElement>('Strength');
const pad = (more = {}) => {
  const onkeep = vi.fn();
  render(NumberPad, { value: '', label: 'Strength', unit: '%vol', onkeep, ...more });
  return onkeep;
};

test('a number is tapped and kept', async () => {
  const onkeep = pad();
  await tap('7', '3', 'Point', '1', 'Keep');
  expect(onkeep).toHaveBeenCalledExactlyOnceWith(73.1);
});

test('a keyboard types and keeps as well', async () => {
  const onkeep = pad();
  await userEvent.type(display(), '73,1{Enter}');
  expect(onkeep).toHaveBeenCalledExactlyOnceWith(73.1);
});

test('the last digit can be taken back, and all of them', async () => {
  pad();
  await tap('7', '2', 'Delete last', '3');
  expect(display().value).toBe('73');
  await tap('Clear');
  expect(display().value).toBe('');
});

test('a second point is not typed, and a point alone begins with nought', async () => {
  pad();
  await tap('Point', '5', 'Point', '2');
  expect(display().value).toBe('0.52');
});

test('a minus is there only where it can be meant', async () => {
  const onkeep = pad({ minus: true });
  await tap('4', 'Minus', 'Keep');
  expect(onkeep).toHaveBeenCalledWith(-4);
});

test('nothing typed, and no number, each have their sentence and keep nothing', async () => {
  const onkeep = pad();
  await tap('Keep');
  expect(screen.getByText('Type the strength first.')).toBeTruthy();
  await userEvent.type(display(), 'seven{Enter}');
  expect(screen.getByText(/“seven” is not a number/)).toBeTruthy();
  expect(display().getAttribute('aria-invalid')).toBe('true');
  expect(onkeep).not.toHaveBeenCalled();
});

test('what may not be kept is not kept by Enter either', async () => {
  const onkeep = pad({ mayKeep: false, fault: 'Off the scale.' });
  await userEvent.type(display(), '130{Enter}');
  expect(onkeep).not.toHaveBeenCalled();
  expect(screen.getByText('Off the scale.')).toBeTruthy();
  expect(display().value).toBe('130');
});

test('a phone’s own keyboard stays away', () => {
  pad();
  expect(display().inputMode).toBe('none');
});

test('a comma before three digits keeps nothing: it is asked which figure is meant', async () => {
  const onkeep = pad({ label: 'Volume of jar 1', unit: 'mL' });
  await userEvent.type(screen.getByRole('textbox'), '1,200');
  expect(screen.getByText(/“1,200” can be read in two ways: write 1200 or 1\.2\./)).toBeTruthy();
  await tap('Keep');
  expect(onkeep).not.toHaveBeenCalled();
});
