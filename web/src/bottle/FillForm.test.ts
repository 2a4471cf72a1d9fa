import { fireEvent, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { set } from '../data/settings.svelte';
import FillForm from './FillForm.svelte';

const lot = {
  entry: 's',
  batch: 'b',
  lot: { entry: 's', kind: 'spirit' },
  label: 'Tern 9 at 45',
  at: '2026-11-20T08:00:00.000Z',
  left: { volume_L_20C: 8.18, strength_percent_vol: 45.1, pure_alcohol_L_20C: 3.7, mass_kg: 7.7 },
  measured: true,
  why: { what: '', inputs: [], model: '', source: '' },
  uses: [],
  parents: [],
};
const record = vi.fn<(wish: unknown) => Promise<never>>();

beforeEach(() => {
  set({ units: 'metric' });
  record.mockReset().mockResolvedValue({ id: 'e' } as never);
  vi.spyOn(bench, 'record').mockImplementation(record as never);
  const props = { batch: 'b', all: [lot], lots: [lot], plan: undefined, lack: undefined };
  render(FillForm, { props: props as never });
});
const type = (label: RegExp | string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });
const keep = () => userEvent.click(screen.getByRole('button', { name: 'Bottled' }));

test('a size of 0.7 without a unit is not bottled; with it, it is', async () => {
  await type(/^of it/, '8.18 L');
  await type('Size', '0.7');
  expect(screen.getByText(/is “0\.7 L” meant\?/)).toBeTruthy();
  expect(screen.getByLabelText<HTMLInputElement>('Bottles').value).toBe('');
  await type('Bottles', '11685');
  await keep();
  expect(record).not.toHaveBeenCalled();
  await type('Size', '0.7 L');
  await type('Bottles', '11');
  await keep();
  expect(record.mock.calls[0]![0]).toMatchObject({ body: { bottles: 11, size_L: 0.7 } });
});

test('a strength well below the lot’s is warned of at once', async () => {
  await type(/^of it/, '8.18 L');
  expect(screen.queryByText(/Bottled at/)).toBeNull();
  await type('True strength', '43.5');
  expect(screen.getByText(/Bottled at/).textContent!.replaceAll('\u00a0', ' ')).toMatch(
    /Bottled at 43\.5 %vol, and the lot stands at 45\.1 %vol/,
  );
});

test('of more bottles than the volume fills it is told what fills, what is left over, and that they cannot be', async () => {
  const comes = () =>
    document
      .querySelector('.comes')!
      .textContent!.replace(/[\s\u00a0]+/g, ' ')
      .trim();
  await type(/^of it/, '0.52 L');
  await type('Size', '200 mL');
  expect(comes()).toMatch(/which fills 2; 120 mL left over\. The lot/);
  await type('Bottles', '9');
  expect(comes()).toMatch(/which fills 2; 120 mL left over\. 9 cannot be filled of it\./);
  await keep();
  expect(record).not.toHaveBeenCalled();
  expect(screen.getByText(/“9” does not fit; accepted: up to 2/)).toBeTruthy();
  await type('Bottles', '1');
  expect(comes()).toMatch(/which fills 2; with 1 filled, 320 mL left over\./);
});
