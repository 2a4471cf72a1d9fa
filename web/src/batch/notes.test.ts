import { render, screen } from '@testing-library/svelte';
import { expect, test } from 'vitest';
import Notes from './Notes.svelte';

test('that there is no note is said once the house has told so, and not while it does not answer', async () => {
  const { rerender } = render(Notes, { props: { batch: 'b', notes: undefined, waiting: [] } });
  expect(screen.queryByText('No note yet.')).toBeNull();
  expect(screen.getByText(/once the house answers/)).toBeTruthy();
  await rerender({ notes: [] });
  expect(screen.getByText('No note yet.')).toBeTruthy();
  expect(screen.queryByText(/once the house answers/)).toBeNull();
});
