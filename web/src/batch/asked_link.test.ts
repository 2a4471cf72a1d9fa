// A link to what a batch is asked about leads to it, once.
import { render, screen } from '@testing-library/svelte';
import { expect, test } from 'vitest';
import type { Entry } from '../data/entry';
import Journal from './Journal.svelte';

const entry = {
  id: 'a',
  batch: 'b',
  stage: 'mash',
  kind: 'mash temperature',
  version: 1,
  at: '2026-11-17T11:20:00.000Z',
  clock_ahead_ms: 0,
  who: '',
  body: { temperature_C: 6.6 },
} as Entry;
const puzzle = { entry: 'a', why: 'A mash at 6.6 °C.', counts: true };
const props = { batch: 'b', entries: [] as Entry[], puzzles: undefined, waiting: [] };

test('it leads to the question once that has come, and takes the focus there', async () => {
  Element.prototype.scrollIntoView = () => undefined;
  history.replaceState(null, '', '/batch/b#asked');
  const page = render(Journal, { props });
  await page.rerender({ ...props, entries: [entry] });
  expect(location.hash).toBe('#asked');
  await page.rerender({ ...props, entries: [entry], puzzles: [puzzle] });
  expect(location.hash).toBe('');
  expect(document.activeElement).toBe(screen.getByRole('heading', { name: 'Asked about' }));
});

test('where it was answered since, the next question does not make the page jump', async () => {
  history.replaceState(null, '', '/batch/b#asked');
  const page = render(Journal, { props });
  await page.rerender({ ...props, entries: [entry], puzzles: [] });
  expect(location.hash).toBe('');
  await page.rerender({ ...props, entries: [entry], puzzles: [puzzle] });
  expect(document.activeElement).toBe(document.body);
});
