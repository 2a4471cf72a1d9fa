// Which lot a page offers: its own batch's first; another batch's only when it is chosen.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { lotKey, type Lot } from '../data/answers';
import { chosenLot, lackOf, lotBrief } from '../data/lot_shelf';
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
  expect(lotBrief(own, 'b', 'both')).toBe('hearts a, 2.00\u00a0L at 70.0\u00a0%vol');
  expect(lotBrief(other, 'b', 'metric')).toMatch(/^another batch: hearts x, /);
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
