// Finding, Caution, Figure, Field, Table, Drawer: the parts that mostly show.
import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { createRawSnippet } from 'svelte';
import { expect, test, vi } from 'vitest';
import { set } from '../data/settings.svelte';
import { asked } from './asked';
import Caution from './Caution.svelte';
import Field from './Field.svelte';
import Figure, { type Why } from './Figure.svelte';
import Finding from './Finding.svelte';
import Table from './Table.svelte';
import Whys from './Whys.svelte';

const text = (says: string) => createRawSnippet(() => ({ render: () => `<p>${says}</p>` }));

test('a finding tells its weight by a word, not by colour alone', () => {
  for (const [weight, word] of [
    ['stop', 'Does not fit.'],
    ['danger', 'Danger.'],
    ['caution', 'Caution.'],
    ['remark', 'Remark.'],
    ['well', 'Good.'],
  ] as const) {
    const { unmount } = render(Finding, { weight, says: 'The sentence', remedy: 'Do this.' });
    expect(screen.getByText(word)).toBeTruthy();
    expect(screen.getByText('Do this.')).toBeTruthy();
    unmount();
  }
});

test('a caution is a note with its word', () => {
  render(Caution, { gravity: 'danger', children: text('Heat off first.') });
  expect(
    within(screen.getByRole('note', { name: 'Danger' })).getByText('Heat off first.'),
  ).toBeTruthy();
});

test('a figure shows value, band and unit', () => {
  const { container } = render(Figure, {
    value: 0.14,
    unit: 'L',
    decimals: 2,
    low: 0.05,
    high: 0.23,
  });
  expect(container.textContent).toContain('0.14 ±\u202f0.09\u00a0L');
});

test('a figure, with its band, follows the units of the device', () => {
  set({ units: 'us' });
  const { container } = render(Figure, { value: 70, unit: '°C', decimals: 0, low: 69, high: 71 });
  expect(container.textContent).toContain('158 ±\u202f2\u00a0°F');
});

test('an unknown figure is a dash and not a zero', () => {
  const { container } = render(Figure, { value: undefined, unit: 'kg' });
  expect(container.textContent).toContain('–');
  expect(container.textContent).not.toContain('0');
});

test('a figure can be asked why, and answers with inputs, model, source and band', async () => {
  render(Figure, {
    value: 70.2,
    unit: '%vol',
    low: 69.9,
    high: 70.5,
    name: 'True strength',
    why: {
      what: 'True strength at 20 °C',
      inputs: [{ name: 'Alcoholmeter', value: '73.1 %vol' }],
      model: 'Density',
      source: 'OIML R 22 (1973)',
    },
  });
  await userEvent.click(screen.getByRole('button', { name: /^True strength:\s*70\.2.*why\?$/ }));
  const dialog = within(screen.getByRole('dialog', { name: 'Why 70.2?' }));
  for (const said of ['73.1 %vol', 'Density', 'OIML R 22 (1973)']) {
    expect(dialog.getByText(said)).toBeTruthy();
  }
  expect(dialog.getByText(/69\.9–70\.5/)).toBeTruthy();
  await userEvent.click(dialog.getByRole('button', { name: 'Close' }));
  expect(screen.queryByRole('dialog')).toBeNull();
});

test('a sentence answers for its figures with one button, each with its own reason', async () => {
  const plain = { inputs: [], source: 'the journal' };
  const one: Why = { ...plain, what: 'Volume left', model: 'One' };
  const asks = vi.fn(() =>
    asked(
      ['1.14 L', one],
      ['none', undefined],
      ['40.5 %vol', { ...one, model: 'Two' }],
      ['2', one],
    ),
  );
  render(Whys, { of: 'What is left', asked: asks });
  expect(asks).not.toHaveBeenCalled();
  await userEvent.click(screen.getByRole('button', { name: 'why? What is left' }));
  const dialog = within(screen.getByRole('dialog', { name: 'Why?' }));
  const heads = dialog.getAllByRole('heading', { level: 3 }).map((head) => head.textContent.trim());
  expect(heads).toEqual(['1.14\u00a0L, 2', '40.5\u00a0%vol']);
  expect(dialog.getByText('Two')).toBeTruthy();
  await userEvent.click(dialog.getByRole('button', { name: 'Close' }));
  expect(screen.queryByRole('dialog')).toBeNull();
});

test('a figure without a reason is no button', () => {
  render(Figure, { value: 1 });
  expect(screen.queryByRole('button')).toBeNull();
});

test('a fault of the house stands at its field, tied to it, and what was typed stays', () => {
  render(Field, {
    label: 'Condenser inlet',
    path: 'condenser.inlet',
    value: '180 °C',
    help: 'Of the water.',
    faults: [
      { field: 'condenser.inlet', value: '180 °C', accepted: '0 to 60 °C' },
      { field: 'name', value: '' },
    ],
  });
  const input = screen.getByLabelText<HTMLInputElement>('Condenser inlet');
  expect(input.value).toBe('180 °C');
  expect(input.getAttribute('aria-invalid')).toBe('true');
  const said = input
    .getAttribute('aria-describedby')!
    .split(' ')
    .map((id) => document.getElementById(id)!.textContent)
    .join(' ');
  expect(said).toContain('Of the water.');
  expect(said).toContain('“180 °C” was given; accepted: 0 to 60 °C.');
  expect(said).not.toContain('missing');
});

test('a field without fault is not invalid', () => {
  render(Field, { label: 'Name', path: 'name', value: 'Tern 8' });
  expect(screen.getByLabelText('Name').hasAttribute('aria-invalid')).toBe(false);
  expect(screen.getByLabelText('Name').hasAttribute('aria-describedby')).toBe(false);
});

test('figures of a column stand with their points under each other', () => {
  const { container } = render(Table, {
    caption: 'Jars',
    columns: [
      { key: 'jar', head: 'Jar', rowHead: true },
      { key: 'strength', head: 'Strength', unit: '%vol', decimals: 1 },
    ],
    rows: [
      { jar: '1', strength: 78.2 },
      { jar: '2', strength: 69, decimals_strength: 0 },
      { jar: '3', strength: 7.25, decimals_strength: 2 },
      { jar: '4' },
    ],
  });
  const cells = [...container.querySelectorAll('td')].map((c) =>
    c.textContent!.replace(/[\t\n ]/g, ''),
  );
  // Behind the point each has two places: digits, or figure spaces as wide as digits.
  expect(cells).toEqual(['78.2\u2007', '69\u2008\u2007\u2007', '7.25', '–']);
  expect(screen.getByRole('table', { name: 'Jars' })).toBeTruthy();
  expect(screen.getAllByRole('rowheader')).toHaveLength(4);
});

test('an empty table says so', () => {
  render(Table, { caption: 'Jars', columns: [{ key: 'a', head: 'A' }], rows: [] });
  expect(screen.getByText('Nothing yet.')).toBeTruthy();
});
