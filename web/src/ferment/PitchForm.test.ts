// What cannot be meant is told at its field before it is kept.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Plan } from '../data/answers';
import { bench } from '../data/bench.svelte';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import PitchForm from './PitchForm.svelte';

vi.setConfig({ testTimeout: 60_000 });

test('kilograms for grams of yeast are refused at the field, and its range is named', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({ ingredients: [], yeasts: [] } as never);
  vi.spyOn(bench.api, 'post').mockResolvedValue({} as never);
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  render(PitchForm, {
    bench,
    batch: 'b',
    plan: ternPlan as unknown as Plan,
    onkept: () => undefined,
  });
  const user = userEvent.setup();
  const into = async (label: string, text: string) => {
    await user.clear(screen.getByLabelText(label));
    await user.type(screen.getByLabelText(label), text);
  };
  await into('Wort', '150');
  // It is more than the fermenter holds, which is asked about and can be kept.
  await screen.findByText(/more than the fermenter of the plan holds: 140\.0\sL to its brim/);
  await into('reads', '1.058');
  await into('so much of it', '26 kg');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(screen.getByText(/^“26 kg” was given; accepted: 3\.0\sg to 1500\sg/)).toBeTruthy();
  expect(screen.getByLabelText('so much of it').getAttribute('aria-invalid')).toBe('true');
  expect(record).not.toHaveBeenCalled();
  await into('so much of it', '26 g');
  await into('Wort', '9999');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(screen.getByText(/^“9999” was given; accepted: up to 1400\sL/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  // A pitch into nothing was kept, and no ferment could be reckoned of it.
  await into('Wort', '0 L');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(screen.getByText(/^“0 L” was given; accepted: a volume over nought such as/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  await into('Wort', '150');
  await user.click(screen.getByRole('button', { name: 'The yeast is in' }));
  expect(record).toHaveBeenCalledOnce();
  expect(record.mock.calls[0]![0].body).toMatchObject({ mass_g: 26, volume: { volume_L: 150 } });
});
