// A reason of 19,000 letters made a row of the journal many windows tall.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import type { Entry } from '../data/entry';
import LongText from '../parts/LongText.svelte';
import Journal from './Journal.svelte';

const entry: Entry = {
  id: '0190a4b2-0000-7000-8000-000000000201',
  batch: 'b',
  stage: 'spirit run',
  kind: 'note',
  version: 1,
  at: '2026-11-17T11:20:00.000Z',
  clock_ahead_ms: 0,
  who: '',
  body: {},
};

test('of a very long text the journal shows the beginning, and the rest at a tap or a key', async () => {
  const long = { ...entry, body: { reason: 'It boiled over. '.repeat(1200) } };
  const { container } = render(Journal, { batch: 'b', entries: [long], puzzles: [], waiting: [] });
  const rest = container.querySelector('.rest')!;
  const shown = 1200 * 'It boiled over. '.length - rest.textContent!.length;
  expect(shown).toBeGreaterThan(300);
  expect(shown).toBeLessThan(420);
  expect(rest.classList.contains('folded')).toBe(true);
  const more = screen.getByRole('button', { name: 'More of what was told' });
  more.focus();
  await userEvent.keyboard('{Enter}');
  expect(rest.classList.contains('folded')).toBe(false);
  expect(screen.getByRole('button', { name: 'Less of what was told' })).toBe(more);
  expect(container.textContent).toContain(`${'It boiled over. '.repeat(1199)}It boiled over.`);
});

test('a text that is no longer than some lines stands whole', () => {
  const { container } = render(LongText, { text: 'a'.repeat(600) });
  expect(container.textContent!.trim()).toBe('a'.repeat(600));
  expect(screen.queryByRole('button')).toBeNull();
});

test('where it is cut behind a full stop, the dots stand apart from it', () => {
  const shown = (text: string) => {
    const { container, unmount } = render(LongText, { text });
    container.querySelector('.rest')!.remove();
    const words = container.textContent!.trim();
    unmount();
    return words;
  };
  expect(shown('Foam on the floor. '.repeat(40))).toMatch(/on the floor\. … More$/);
  expect(shown('foam '.repeat(200))).toMatch(/foam foam… More$/);
});
