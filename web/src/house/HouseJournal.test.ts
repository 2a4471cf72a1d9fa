import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import type { Entry } from '../data/entry';
import HouseJournal from './HouseJournal.svelte';

const air: Entry = {
  id: '018f0000-0000-7000-8000-000000000001',
  stage: 'kit',
  kind: 'air read',
  version: 1,
  at: '2026-11-25T12:00:30.123Z',
  clock_ahead_ms: 40,
  who: 'Ada',
  body: { pressure_hPa: 1003 },
};

test('what belongs to no batch is listed, corrected and noted, and stays of no batch', async () => {
  const answers: Record<string, unknown> = {
    '/house': { batches: [], airs: [], cleanings: [], notes: [], puzzles: [] },
    '/house/entries': { entries: [air] },
  };
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => answers[path] as never);
  vi.spyOn(bench, 'waiting').mockResolvedValue([
    { ...air, id: 'q', kind: 'note', body: { text: 'New lid' } },
    { ...air, id: 'r', kind: 'note', batch: 'b', body: { text: 'Of a batch' } },
  ]);
  const record = vi.spyOn(bench, 'record').mockImplementation(async (wish) => wish as never);
  render(HouseJournal);
  const user = userEvent.setup();
  expect(await screen.findByText(/pressure 1\s?003/)).toBeTruthy();
  expect(screen.getAllByText(/New lid/)).toHaveLength(2); // among the notes, and in the journal
  expect(screen.queryByText(/Of a batch/)).toBeNull();

  await user.click(screen.getByRole('button', { name: /^Correct air read/ }));
  const figure = screen.getByLabelText('Pressure');
  await user.clear(figure);
  await user.type(figure, '1013');
  await user.click(screen.getByRole('button', { name: 'Correct it' }));
  const [told] = record.mock.calls[0]!;
  expect(told).toMatchObject({ stage: 'kit', corrects: air.id, body: { pressure_hPa: 1013 } });
  expect(told).not.toHaveProperty('batch');

  await user.type(screen.getByLabelText(/^Another note/), 'The drain is slow');
  await user.click(screen.getByRole('button', { name: 'Add the note' }));
  const [noted] = record.mock.calls[1]!;
  expect(noted).toMatchObject({ stage: 'kit', kind: 'note', body: { text: 'The drain is slow' } });
  expect(noted).not.toHaveProperty('batch');
});
