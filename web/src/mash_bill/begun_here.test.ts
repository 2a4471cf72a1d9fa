// A batch begun while the house is away: its page shows what was entered, and says what it waits for.
import { configure, render, screen, within } from '@testing-library/svelte';
import { beforeEach, expect, test, vi } from 'vitest';
import Batch from '../batch/Batch.svelte';
import { bench } from '../data/bench.svelte';
import { newEntry } from '../data/entry';
import { NoAnswer } from '../data/problem';
import House from '../house/House.svelte';
import { begin, draft, plainKit } from '../house/new_batch';
import MashBill from './MashBill.svelte';

configure({ asyncUtilTimeout: 20_000 });
vi.setConfig({ testTimeout: 60_000 });

beforeEach(() => {
  const vessels = { mash: 'mash tub', ferment: 'fermenter' };
  const recipe = draft('Tern 9', 40, 'rye-malt', vessels);
  const wish = { name: 'Tern 9', remark: 'Rye, for the shed.', recipe, kit: plainKit(40) };
  const entries = begin(wish, () => 'new').entries.map((one) => newEntry({ ...one, who: '' }));
  const away = new NoAnswer('The house does not answer.');
  vi.spyOn(bench.api, 'get').mockRejectedValue(away);
  vi.spyOn(bench.api, 'post').mockRejectedValue(away);
  vi.spyOn(bench, 'waiting').mockResolvedValue(entries);
});

test('the mash bill has its name and its recipe, and the plan is to come', async () => {
  render(MashBill, { batch: 'new' });
  expect((await screen.findByRole('link', { name: 'Tern 9' })).textContent).toBe('Tern 9');
  expect(screen.getByText('Rye, for the shed.')).toBeTruthy();
  expect(await screen.findByText(/This batch was begun on this device/)).toBeTruthy();
  expect(screen.queryByText(/was not opened on this device before/)).toBeNull();
  const results = (await screen.findByRole('heading', { name: 'What it comes to' })).parentElement!;
  expect(
    await within(results).findByText(/the plan is computed when the house answers again/),
  ).toBeTruthy();
  expect(screen.getAllByLabelText<HTMLInputElement>('Mass')[0]!.value).toBe('6 kg');
  expect(screen.getByRole('combobox', { name: 'Ingredient 1' }).textContent).toContain('Rye malt');
});

test('the page of the batch and the list of the house have it', async () => {
  const page = render(Batch, { batch: 'new' });
  expect(await screen.findByRole('heading', { name: 'Tern 9' })).toBeTruthy();
  expect(screen.getByRole('link', { name: 'The mash bill as it was entered' })).toBeTruthy();
  expect(screen.getByText('The plan is computed when the house answers again.')).toBeTruthy();
  page.unmount();
  render(House);
  const link = await screen.findByRole<HTMLAnchorElement>('link', { name: 'Tern 9' });
  expect(link.pathname).toBe('/batch/new');
  expect(screen.getByText(/not yet saved at home; planned when the house answers/)).toBeTruthy();
});
