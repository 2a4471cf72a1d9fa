import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import type { Entry } from '../data/entry';
import Journal from './Journal.svelte';

const racked: Entry = {
  id: '0190a4b2-0000-7000-8000-000000000001',
  batch: 'b',
  stage: 'ferment',
  kind: 'racked',
  version: 1,
  at: '2026-11-17T11:20:00.000Z',
  clock_ahead_ms: 0,
  who: '',
  body: { clear: { volume_L: 62, at_C: 20 } },
};
const puzzle = { entry: racked.id, why: '62 L of 52 L.', counts: true };
const shown = (puzzles: (typeof puzzle)[]) =>
  render(Journal, { batch: 'b', entries: [racked], puzzles, waiting: [] });

test('what is asked is upheld with its reason, in the words of the question', async () => {
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  shown([puzzle]);
  await fireEvent.click(screen.getAllByRole('button', { name: /^It is so: racked/ })[0]!);
  await fireEvent.input(screen.getByLabelText(/Why it is so/), { target: { value: ' two tubs ' } });
  await fireEvent.click(screen.getByRole('button', { name: 'It is so' }));
  await waitFor(() => expect(record).toHaveBeenCalledOnce());
  expect(record.mock.calls[0]![0]).toEqual({
    batch: 'b',
    stage: 'ferment',
    kind: 'upheld',
    body: { entry: racked.id, asked: puzzle.why, reason: 'two tubs' },
  });
});

test('what counts for nothing can be corrected, and not upheld', () => {
  shown([{ ...puzzle, counts: false }]);
  expect(screen.queryAllByRole('button', { name: /^Uphold/ })).toEqual([]);
  expect(screen.getAllByRole('button', { name: /^Correct racked/ }).length).toBeGreaterThan(0);
});
