import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { LabelRule, Lot, Plan } from '../data/answers';
import { bench } from '../data/bench.svelte';
import Labels from './Labels.svelte';

const lot = {
  entry: '01a1346b-75b1-710e-9ba4-8147f49a0dbf',
  batch: 'b',
  at: '2026-10-13T09:00:00Z',
  lot: { entry: '01a1346b-75b1-710e-9ba4-8147f49a0dbf', kind: 'bottles' },
  bottles: { bottles: 2, size_L: 0.5, strength_percent_vol: 44.9 },
} as unknown as Lot;
const malt = { id: 'malt', name: 'Malt spirit', jurisdiction: 'Here', ruling: 'could_carry' };
const legal = {
  permission: 'No finding is permission.',
  classes: [{ ...malt, document: '', place: '', standing: '', rules: [] }],
} as unknown as Plan['legal_classes'];
const show = (of: Lot, rules: LabelRule[] = []) =>
  render(Labels, { lot: of, name: 'Tern 7', of: 'x', rules, legal });

const glass = (half: number, name: string) => ({
  strength_percent_vol: 44.9,
  standard_percent_vol: half / 1.2816,
  glass: { id: 'house', name, by_kit: true },
  why: { what: '', inputs: [], model: '', source: '' },
});

beforeEach(() => {
  vi.spyOn(bench.api, 'post').mockImplementation((_, body) =>
    Promise.resolve(
      (body as { glass?: string }).glass
        ? glass(0.2, 'class II of OIML R 44, division 0.2 %')
        : glass(0.8, 'an uncertified glass'),
    ),
  );
});
afterEach(() => vi.restoreAllMocks());

test('a label is not told to be within what the glass cannot tell, until a finer word is given', async () => {
  const rule = { jurisdiction: 'Here', within_percent_vol: 0.3 } as LabelRule;
  show(lot, [rule]);
  expect((await screen.findByText('Cannot tell.')).parentElement!.textContent).toMatch(
    /44\.1 to 45\.7\s%vol/,
  );
  expect(
    await screen.findByText(/a reading on a glass of class II of OIML R 44, good to/),
  ).toBeTruthy();
  expect(screen.getByText(/Taken as read on an uncertified glass/)).toBeTruthy();
  await userEvent.type(screen.getByLabelText('True strength good to ±'), '0.1');
  expect(screen.getByText('Within.')).toBeTruthy();
});

test('a lot the house asks about is held against no rule, and printed by a second act only', async () => {
  const print = vi.spyOn(window, 'print').mockImplementation(() => undefined);
  vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  const rule = { jurisdiction: 'Here', within_percent_vol: 0.3 } as LabelRule;
  const why = 'The bottling tells 40.0 %vol; hearts was gauged at 62.0 %vol.';
  render(Labels, { lot, name: 'x', of: 'x', rules: [rule], legal, doubts: [why] });
  expect(screen.getByText('Does not fit.').parentElement!.textContent).toMatch(/gauged at 62\.0/);
  await vi.waitFor(() => expect(bench.api.post).toHaveBeenCalled());
  expect(screen.queryByText(/Here:/)).toBeNull();
  const button = screen.getByRole('button', { name: 'Print the sheet', hidden: true });
  const folded = button.closest('details')!;
  expect(folded.open).toBe(false);
  await userEvent.click(screen.getByText('Print it nevertheless'));
  await userEvent.click(button);
  await vi.waitFor(() => expect(print).toHaveBeenCalled());
});

test('what the labels state goes into the journal', async () => {
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  show(lot);
  await userEvent.clear(screen.getByLabelText('Strength on the label'));
  await userEvent.type(screen.getByLabelText('Strength on the label'), '45');
  await userEvent.selectOptions(screen.getByLabelText('Class on the label'), 'malt');
  await userEvent.click(screen.getByRole('button', { name: 'Keep what it states' }));
  expect(record).toHaveBeenCalledExactlyOnceWith({
    batch: 'b',
    stage: 'bottle',
    kind: 'labelled',
    body: {
      lot: lot.lot,
      name: 'Tern 7',
      strength_percent_vol: 45,
      class: 'Malt spirit',
      rule: 'malt',
    },
  });
});

test('what was stated stands on the sheet again, also a class that is closed now', async () => {
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  const print = vi.spyOn(window, 'print').mockImplementation(() => undefined);
  const label = {
    at: '2026-10-14T09:00:00Z',
    name: 'The first',
    strength_percent_vol: 45,
    class: 'Old class',
    rule: 'old',
  };
  show({ ...lot, bottles: { ...lot.bottles!, label } });
  const sheet = screen.getByRole('list', { name: 'Labels of x' });
  expect(sheet.textContent).toContain('The first');
  expect(sheet.textContent).toContain('45.0 % vol');
  expect(sheet.textContent).toContain('Old class');
  expect(screen.getByText(/does not leave that class open/)).toBeTruthy();
  // The same again is not told twice.
  await userEvent.click(screen.getByRole('button', { name: 'Print the sheet' }));
  expect(print).toHaveBeenCalledOnce();
  expect(record).not.toHaveBeenCalled();
});
