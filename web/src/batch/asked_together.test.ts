// Of several entries that are asked about in the very same words the question stands once. A strike of the
// allotment put nine such questions into the journal, one below the other, and each twice.
import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Batch } from '../data/answers';
import { bench } from '../data/bench.svelte';
import type { Entry } from '../data/entry';
import AskedHere from './AskedHere.svelte';
import Journal from './Journal.svelte';

const entry = (n: number): Entry => ({
  id: `0190a4b2-0000-7000-8000-0000000001${String(n).padStart(2, '0')}`,
  batch: 'b',
  stage: 'spirit run',
  kind: 'jar filled',
  version: 1,
  at: new Date(Date.UTC(2026, 10, 17, 11, n)).toISOString(),
  clock_ahead_ms: 0,
  who: '',
  body: { jar: n, volume_mL: 500 },
});
const entries = [1, 2, 3, 4].map(entry);
const why = 'This jar lies outside the run.';
const ask = (n: number, words: string) => ({ entry: entries[n - 1]!.id, why: words, counts: true });
const puzzles = [ask(1, why), ask(2, why), ask(3, 'Another question.')];

test('one question of several entries stands once, and each entry has its own answer', async () => {
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  const { container } = render(Journal, { batch: 'b', entries, puzzles, waiting: [] });
  expect(screen.getAllByText(why)).toHaveLength(1);
  expect(screen.getAllByText('Another question.')).toHaveLength(2); // above, and at its entry
  const group = within(container.querySelector<HTMLElement>('li.together')!);
  expect(group.getByText('It is asked of these 2 entries:')).toBeTruthy();
  expect(group.getAllByRole('button', { name: /^Correct/ })).toHaveLength(2);
  const mine = group.getAllByRole('listitem').find((li) => li.textContent?.includes('jar 1'))!;
  await userEvent.click(within(mine).getByRole('button', { name: /^It is so/ }));
  await userEvent.click(screen.getByRole('button', { name: 'It is so' }));
  expect(record.mock.calls[0]![0].body).toMatchObject({ entry: entries[0]!.id, asked: why });
});

test('on a page too it stands once, with how many it is asked of', () => {
  const told = { batch: 'b', puzzles } as unknown as Batch;
  render(AskedHere, { told, things: entries.map(({ id }) => ({ entry: id })) });
  expect(screen.getAllByText(why)).toHaveLength(1);
  expect(screen.getByText('It is asked of 2 entries.')).toBeTruthy();
});
