import { fireEvent, render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { NoAnswer } from '../data/problem';
import { FORESHOTS_UNTASTED } from '../data/nosing_words';
import { set } from '../data/settings.svelte';
import Stock from './Stock.svelte';
import { calledOf } from './stock';

const figures = {
  strength_percent_vol: 40,
  pure_alcohol_L_20C: 0.4,
  proof_gallons: 0.21,
  mass_kg: 0.95,
};
const at = '2026-11-20T08:00:00.000Z';
const taken = {
  id: 't',
  batch: 'b7',
  stage: 'jars',
  kind: 'lot taken',
  version: 1,
  at,
  clock_ahead_ms: 40,
  who: 'Wren',
  body: { lot: { entry: 'r', kind: 'feints' }, volume_L_20C: 0.2, gone: 'spilt' },
};
const lot = {
  entry: 'r',
  at,
  batch: 'b7',
  lot: { entry: 'r', kind: 'feints' },
  label: 'feints of Tern 7',
  made: { ...figures, volume_L_20C: 1.2 },
  left: { ...figures, volume_L_20C: 1 },
  measured: true,
  why: { what: '', inputs: [], model: '', source: '' },
  parents: [{ entry: 'q', kind: 'low wines' }],
  uses: [
    {
      entry: 't',
      at,
      where: 'spilt',
      pure_alcohol_L_20C: 0.08,
      proof_gallons: 0.042,
      mass_kg: 0.2,
    },
  ],
};
let recorded: Record<string, unknown>[];

beforeEach(() => {
  recorded = [];
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => {
    if (path === '/lots') return { lots: [lot] } as never;
    if (path === '/house') return { batches: [{ batch: 'b7', name: 'Tern 7' }] } as never;
    if (path === '/batches/b7/entries') return { entries: [taken] } as never;
    throw new NoAnswer('not there');
  });
  vi.spyOn(bench.api, 'post').mockImplementation(async () => {
    throw new NoAnswer('not asked here');
  });
  vi.spyOn(bench, 'record').mockImplementation(async (wish) => {
    recorded.push(wish as never);
    return { id: 's', who: '', version: 1, ...wish } as never;
  });
});
const fill = (field: HTMLElement, value: string) => fireEvent.input(field, { target: { value } });
const dialog = () => within(screen.getByRole('dialog'));
const tap = (name: string | RegExp) => userEvent.click(screen.getByRole('button', { name }));
const end = (name: string) => userEvent.click(dialog().getByRole('button', { name }));

test('no more is taken out than there is, and what is taken stands in the lot’s own batch', async () => {
  render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  await tap('Take out of feints of Tern 7');
  const field = dialog().getByLabelText('Taken out, at 20 °C');
  for (const [text, sentence] of [
    [' ', /Nothing was given/],
    ['some', /“some” was given/],
    ['0', /“0” was given/],
    ['1 kg', /“1 kg” was given/],
    ['99999', /more than there is; accepted: up to 1\.000 L/],
  ] as const) {
    await fill(field, text);
    await end('It is taken out');
    expect(dialog().getByText(sentence)).toBeTruthy();
  }
  expect(recorded).toEqual([]);
  await fill(field, '50 mL');
  await userEvent.selectOptions(dialog().getByLabelText('It was'), 'given');
  expect(dialog().getByText(/may owe duty/)).toBeTruthy();
  await end('It is taken out');
  expect(recorded).toEqual([
    {
      batch: 'b7',
      stage: 'ledger',
      kind: 'lot taken',
      body: { lot: lot.lot, volume_L_20C: 0.05, gone: 'given' },
    },
  ]);
});

test('what was taken is corrected up to what there was, by what the journal told of it', async () => {
  render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  await userEvent.click(screen.getByText(/What became of it/));
  await tap(/^Correct spilt/);
  await screen.findByRole('dialog');
  const field = await dialog().findByLabelText<HTMLInputElement>('Taken out, at 20 °C');
  expect(field.value).toBe('0.2 L');
  await fill(field, '1.1 L'); // one litre is left, and 0.2 L was taken
  await end('Correct it');
  const { corrects, stage, at: when, clock_ahead_ms, body } = recorded[0]!;
  expect({ corrects, stage, when, clock_ahead_ms }).toEqual({
    corrects: 't',
    stage: 'jars',
    when: at,
    clock_ahead_ms: 40,
  });
  expect(body).toEqual({ ...taken.body, volume_L_20C: 1.1 });
});

test('a strike is asked once more, is of the same batch, and can be taken back', async () => {
  render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  await userEvent.click(screen.getByText(/What became of it/));
  await tap(/^Correct spilt/);
  await userEvent.click(await screen.findByRole('button', { name: 'It never happened' }));
  expect(recorded).toEqual([]);
  await userEvent.click(await screen.findByRole('button', { name: 'Yes, it never happened' }));
  await tap('Let it stand again');
  expect(recorded.map(({ kind, batch, corrects }) => [kind, batch, corrects])).toEqual([
    ['struck', 'b7', 't'],
    ['struck', 'b7', 's'],
  ]);
});

test('a lot from outside needs name, volume and strength; a gauging keeps the reading', async () => {
  render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  await tap('Bring a lot in');
  await end('It is in stock');
  expect(dialog().getAllByText(/^Nothing was given/)).toHaveLength(3);
  await fill(dialog().getByLabelText('Name'), 'Feints of last winter');
  await fill(dialog().getByLabelText('Volume'), '1 gal');
  await fill(dialog().getByLabelText('Alcoholmeter reads'), '84 proof');
  await end('It is in stock');
  expect(recorded[0]!['batch']).toBeUndefined();
  expect(recorded[0]!['body']).toEqual({
    name: 'Feints of last winter',
    kind: 'feints',
    volume: { volume_L: expect.closeTo(3.785411784, 9), at_C: 20 },
    strength: { reading: 84, scale: 'proof', at_C: 20 },
  });
});

test('lots of one batch that bear the same label are told apart by run and day', () => {
  const of = (entry: string, at: string, batch = 'b7', label = 'low wines of Tern 7') =>
    ({ entry, at, batch, label, lot: { entry, kind: 'low wines' } }) as never;
  const lots = [
    of('s2', '2026-04-01T12:50:00'),
    of('s1', '2026-03-31T12:50:00'),
    of('t1', '2026-04-01T09:00:00', 'b8', 'low wines of Tern 8'),
  ];
  const called = calledOf(lots, 0, Date.parse('2026-04-02T08:00:00'));
  expect([...called]).toEqual([
    ['s1 low wines', 'low wines of Tern 7, run 1, 31 March'],
    ['s2 low wines', 'low wines of Tern 7, run 2, 1 April'],
    ['t1 low wines', 'low wines of Tern 8'],
  ]);
});

test('pure alcohol is told in what the ledger counts it in', async () => {
  const plainText = () => document.body.textContent!.replaceAll('\u00a0', ' ');
  set({ units: 'us' });
  const us = render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  expect(plainText()).toMatch(/0\.210 proof gal/);
  expect(plainText()).toMatch(/spilt: 0\.042 proof gal/);
  expect(plainText()).not.toMatch(/ pure/);
  us.unmount();
  set({ units: 'both' });
  render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  expect(plainText()).toMatch(/0\.400 L pure \(0\.210 proof gal\)/);
  set({ units: 'metric' });
});

test('foreshots are not told as tasted, and the drawer says why', async () => {
  const told = { ...lot, lot: { entry: 'r', kind: 'foreshots' }, label: 'foreshots of Tern 7' };
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => {
    if (path === '/lots') return { lots: [told] } as never;
    if (path === '/batches/b7/entries')
      return { entries: [{ ...taken, body: { ...taken.body, gone: 'tasted' } }] } as never;
    return { batches: [{ batch: 'b7', name: 'Tern 7' }] } as never;
  });
  render(Stock);
  await screen.findByRole('heading', { name: 'Tern 7' });
  await tap('Take out of foreshots of Tern 7');
  const offered = () =>
    [...dialog().getByLabelText<HTMLSelectElement>('It was').options].map((o) => o.value);
  expect(offered()).toEqual(['sample', 'spilt', 'destroyed', 'given', 'other']);
  const words = () => screen.getByRole('dialog').textContent!;
  expect(words()).toContain(FORESHOTS_UNTASTED);
  expect(words()).not.toMatch(/a few drops, and spit/);
  expect(words()).toMatch(/Nothing here says that a spirit is safe/);
  await userEvent.selectOptions(dialog().getByLabelText('It was'), 'spilt');
  expect(words()).toContain(FORESHOTS_UNTASTED);
  expect(words()).toMatch(/burns with a flame/);
  await userEvent.click(dialog().getByRole('button', { name: 'Close' }));
  // What was told so before is not hidden by a correction of its volume.
  await userEvent.click(screen.getByText(/What became of it/));
  await tap(/^Correct spilt/);
  await screen.findByRole('dialog');
  await dialog().findByLabelText('It was');
  expect(offered()).toContain('tasted');
  expect(words()).toContain(FORESHOTS_UNTASTED);
});
