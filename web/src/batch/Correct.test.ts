// What was told late is set right in its time too: a correction may say that it happened earlier.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi, type MockInstance } from 'vitest';
import { bench } from '../data/bench.svelte';
import { momentText } from '../data/dates';
import type { Entry } from '../data/entry';
import { NoAnswer } from '../data/problem';
import Correct from './Correct.svelte';
import type { JournalRow } from './journal';

const entry: Entry = {
  id: '018f0000-0000-7000-8000-000000000001',
  batch: 'b',
  stage: 'ferment',
  kind: 'ferment reading',
  version: 1,
  at: '2026-11-25T12:00:30.123Z',
  clock_ahead_ms: 40,
  who: 'Ada',
  body: { temperature_C: 24 },
};
const row = { first: entry, stands: entry, corrections: [] } as unknown as JournalRow;

let record: MockInstance<typeof bench.record>;
beforeEach(() => {
  record = vi.spyOn(bench, 'record').mockImplementation(async (wish) => ({ ...entry, ...wish }));
});

async function corrected(at: string | undefined, degrees: string | undefined) {
  render(Correct, { batch: 'b', row, ondone: () => undefined });
  const user = userEvent.setup();
  if (at !== undefined) {
    await user.clear(screen.getByLabelText('When it happened'));
    await user.type(screen.getByLabelText('When it happened'), at);
  }
  if (degrees !== undefined) {
    await user.clear(screen.getByLabelText('Temperature'));
    await user.type(screen.getByLabelText('Temperature'), degrees);
  }
  await user.click(screen.getByRole('button', { name: 'Correct it' }));
}

test('its time alone can be corrected', async () => {
  const noon = new Date(2026, 10, 25, 9, 15).getTime();
  await corrected(momentText(noon), undefined);
  expect(record).toHaveBeenCalledOnce();
  expect(record.mock.calls[0]![0]).toMatchObject({
    corrects: entry.id,
    at: new Date(noon).toISOString(),
    body: entry.body,
  });
});

test('a figure is corrected at the time it was told, to the millisecond', async () => {
  await corrected(undefined, '25');
  expect(record.mock.calls[0]![0]).toMatchObject({
    at: entry.at,
    clock_ahead_ms: 40,
    body: { temperature_C: 25 },
  });
});

test('what stands is at its head, and what was told first is marked as that', () => {
  const plain = (text: string | null) => text!.replace(/[\s\u00a0]+/g, ' ').trim();
  const stands = {
    ...entry,
    id: '018f0000-0000-7000-8000-000000000002',
    corrects: entry.id,
    body: { temperature_C: 26 },
  };
  const twice = { ...row, stands, corrections: [stands] } as JournalRow;
  const { container, unmount } = render(Correct, {
    batch: 'b',
    row: twice,
    ondone: () => undefined,
  });
  const [head, first] = [...container.querySelectorAll('p')].map((p) => plain(p.textContent));
  expect(head).toMatch(/, Ada: temperature 26 °C$/);
  expect(first).toMatch(/^First told: .*, Ada: temperature 24 °C$/);
  expect(screen.getByLabelText<HTMLInputElement>('Temperature').value).toBe('26');
  unmount();
  render(Correct, { batch: 'b', row, ondone: () => undefined });
  expect(screen.queryByText(/First told/)).toBeNull();
});

test('a time to come is refused at its field, and nothing is recorded', async () => {
  await corrected('2999-01-01T00:00', '25');
  expect(record).not.toHaveBeenCalled();
  expect(screen.getByText(/accepted: a day and a time that have been/)).toBeTruthy();
});

test('of wood that was filled with nothing told, species, toast, staves and use can be told', async () => {
  vi.spyOn(bench.api, 'get').mockImplementation((path: string) =>
    path === '/tables'
      ? Promise.resolve({
          species: [{ id: 'american-white-oak', name: 'American white oak, Quercus alba' }],
          toasts: [{ id: 'medium', name: 'Medium toast' }],
        } as never)
      : Promise.reject(new NoAnswer('not there')),
  );
  const body = {
    from: { lot: { entry: entry.id, kind: 'spirit' }, volume_L_20C: 1.5 },
    in: 'staves',
  };
  const wood = { ...entry, stage: 'wood', kind: 'wood filled', body };
  const of = { first: wood, stands: wood, corrections: [] } as unknown as JournalRow;
  render(Correct, { batch: 'b', row: of, ondone: () => undefined });
  const user = userEvent.setup();
  await screen.findByRole('option', { name: /^American white oak/ });
  await user.selectOptions(screen.getByLabelText('Species'), 'american-white-oak');
  await user.selectOptions(screen.getByLabelText('Toast'), 'medium');
  await user.selectOptions(screen.getByLabelText('Used before'), 'once');
  await user.type(screen.getByLabelText('Staves'), '2');
  await user.click(screen.getByRole('button', { name: 'Correct it' }));
  expect(record.mock.calls[0]![0]).toMatchObject({
    corrects: entry.id,
    body: { ...body, species: 'american-white-oak', toast: 'medium', used_times: 1, staves: 2 },
  });
});

test('a cask that was filled counts no staves, and what stands of it can be taken out', async () => {
  const body = { in: 'Cask 3', species: 'my own oak' };
  const wood = { ...entry, stage: 'wood', kind: 'wood filled', body };
  const of = { first: wood, stands: wood, corrections: [] } as unknown as JournalRow;
  render(Correct, { batch: 'b', row: of, ondone: () => undefined });
  const user = userEvent.setup();
  expect(screen.queryByLabelText('Staves')).toBeNull();
  expect((screen.getByLabelText('Species') as HTMLSelectElement).value).toBe('my own oak');
  await user.selectOptions(screen.getByLabelText('Species'), 'not told');
  await user.click(screen.getByRole('button', { name: 'Correct it' }));
  expect(record.mock.calls[0]![0].body).toEqual({ in: 'Cask 3' });
});

test('a strike is asked once more, apart from the first tap, and needs no reason', async () => {
  render(Correct, { batch: 'b', row, ondone: () => undefined });
  const user = userEvent.setup();
  const strike = screen.getByRole('button', { name: 'Strike it out' });
  await user.dblClick(strike);
  expect(record).not.toHaveBeenCalled();
  // It is read out, and the keyboard goes on from there: first to what leaves it standing.
  const asks = screen.getByRole('group', { name: /^Strike it out\? .*no reason is told/ });
  expect(asks.contains(document.activeElement)).toBe(true);
  await user.tab();
  expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Leave it standing' }));
  await user.keyboard('{Enter}');
  expect(record).not.toHaveBeenCalled();
  expect(screen.queryByRole('group', { name: /^Strike it out\?/ })).toBeNull();
  expect(document.activeElement).toBe(strike);
  await user.keyboard('{Enter}');
  await user.tab();
  await user.tab();
  await user.keyboard('{Enter}');
  expect(record).toHaveBeenCalledOnce();
  expect(record.mock.calls[0]![0]).toMatchObject({ kind: 'struck', corrects: entry.id, body: {} });
});

test('the reason of a strike is told where there is one, and one that is too long strikes nothing', async () => {
  render(Correct, { batch: 'b', row, ondone: () => undefined });
  const user = userEvent.setup();
  const reason = screen.getByLabelText('Why it is struck');
  await user.type(reason, 'told twice{Enter}');
  expect(record).not.toHaveBeenCalled();
  await user.click(reason);
  await user.paste('x'.repeat(20_001));
  expect(screen.queryByRole('button', { name: 'Yes, it never happened' })).toBeNull();
  await user.clear(reason);
  await user.type(reason, 'told twice');
  await user.click(screen.getByRole('button', { name: 'Yes, it never happened' }));
  expect(record.mock.calls[0]![0].body).toEqual({ reason: 'told twice' });
});
