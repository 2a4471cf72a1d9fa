// Entries told as of another time, until one is back to now.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { Bench } from '../data/bench.svelte';
import ToldAt from './ToldAt.svelte';

test('what a tab remembers and is no time is not taken for one', () => {
  for (const left of ['', 'noon']) {
    sessionStorage.setItem('lynearm-told-at', left);
    expect(new Bench().told_ms).toBeUndefined();
  }
});

test('what is written up in the evening is told as of noon, until one is back to now', async () => {
  vi.stubGlobal(
    'EventSource',
    class {
      addEventListener() {}
      close() {}
    },
  );
  const bench = new Bench();
  const close = bench.open();
  render(ToldAt, { bench });
  const user = userEvent.setup();
  const field = screen.getByLabelText('It happened at');
  await user.clear(field);
  await user.type(field, '2026-11-25T12:00');
  await user.click(screen.getByRole('button', { name: 'Tell entries as of then' }));
  const wish = { batch: 'b', stage: 'ferment', kind: 'note', body: { text: 'foam' } } as const;
  const noon = new Date(2026, 10, 25, 12, 0).toISOString();
  expect((await bench.record(wish)).at).toBe(noon);
  // A correction keeps the time it tells.
  expect((await bench.record({ ...wish, at: '2026-11-24T08:00:00.000Z' })).at).toBe(
    '2026-11-24T08:00:00.000Z',
  );
  // As after a reload of its tab: told as of then, not of now without a word.
  const reloaded = new Bench();
  expect(reloaded.told_ms).toBe(Date.parse(noon));
  await user.click(screen.getByRole('button', { name: 'Back to now' }));
  expect(new Bench().told_ms).toBeUndefined();
  expect(Math.abs(Date.parse((await bench.record(wish)).at) - Date.now())).toBeLessThan(60_000);
  close();
});
