// Which lot a page offers: its own batch's first; another batch's only when it is chosen.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { lotKey, type Lot } from '../data/answers';
import { chosenLot, lackOf, lotsBrief } from '../data/lot_shelf';
import type { Units } from '../data/units';
import { nameFor } from '../bottle/label';
import LotPick from './LotPick.svelte';

const lotOf = (entry: string, batch: string, kind = 'hearts', left_L = 2) =>
  ({
    lot: { entry, kind },
    batch,
    label: `${kind} ${entry}`,
    left: { volume_L_20C: left_L, strength_percent_vol: 70 },
    parents: [],
    uses: [],
  }) as unknown as Lot;
const own = lotOf('a', 'b');
const other = lotOf('x', 'old');

test('a batch’s own is preselected, another’s never', () => {
  expect(chosenLot([own, other], '', 'b')).toBe(own);
  expect(chosenLot([other], '', 'b')).toBeUndefined();
  expect(chosenLot([own, other], lotKey(other.lot), 'b')).toBe(other);
});

test('that there is nothing of it yet, or no more, is said by its name', () => {
  expect(lackOf([own, other], 'b', 'Tern 8', 'to reduce')).toBeUndefined();
  expect(lackOf([other], 'b', 'Tern 8', 'to reduce')).toBe(
    'Nothing of Tern 8 to reduce yet. Lots of other batches stand in the list; none is chosen.',
  );
  expect(lackOf([lotOf('a', 'b', 'hearts', 0)], 'b', 'Tern 8', 'to bottle')).toBe(
    'Nothing of Tern 8 is left to bottle.',
  );
});

test('in a list each figure stands in one unit', () => {
  const label = (lot: Lot, units: Units) => lotsBrief([lot], 'b', units)[0]!.label;
  expect(label(own, 'both')).toBe('hearts a, 2.00\u00a0L at 70.0\u00a0%vol');
  expect(label(other, 'metric')).toMatch(/^another batch: hearts x, /);
});

test('lots of one name are told apart by when they were made', () => {
  const called = (entry: string, batch: string, at: string) => ({
    ...lotOf(entry, batch),
    label: 'Island 46',
    at,
  });
  const first = called('m', 'b', '2026-11-20T08:00:00');
  const second = called('n', 'b', '2026-11-21T08:00:00');
  const elsewhere = called('o', 'old', '2026-11-22T08:00:00');
  const now = Date.parse('2026-11-28T08:00:00');
  expect(lotsBrief([first, second, elsewhere], 'b', 'metric', now).map((l) => l.label)).toEqual([
    'Island 46, 20 November, 08:00, 2.00\u00a0L at 70.0\u00a0%vol',
    'Island 46, 21 November, 08:00, 2.00\u00a0L at 70.0\u00a0%vol',
    'another batch: Island 46, 2.00\u00a0L at 70.0\u00a0%vol',
  ]);
});

test('where none is its own the list starts empty, and a form sent so says what is missing', async () => {
  const props = { lots: [other], batch: 'b', chosen: '', volume: '', label: 'Lot' };
  const page = render(LotPick, { props });
  const list = screen.getByLabelText<HTMLSelectElement>('Lot');
  expect(list.value).toBe('');
  expect(screen.getByRole<HTMLButtonElement>('button', { name: 'All' }).disabled).toBe(true);
  await page.rerender({ ...props, tried: true });
  expect(screen.getByText(/No lot is chosen/)).toBeTruthy();
  await userEvent.selectOptions(list, lotKey(other.lot));
  expect(screen.queryByText(/No lot is chosen/)).toBeNull();
});

test('bottles of another batch’s lot are not offered this batch’s name', () => {
  const bottles = (from: Lot) =>
    ({ ...lotOf('o', 'b', 'bottles'), label: 'Tern 7, bottled', parents: [from.lot] }) as Lot;
  expect(nameFor(bottles(own), [own, other], 'Tern 8')).toBe('Tern 8');
  expect(nameFor(bottles(other), [own, other], 'Tern 8')).toBe('Tern 7');
});
