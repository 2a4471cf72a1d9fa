import { fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { beforeEach, expect, test, vi } from 'vitest';
import type { FermentForecast } from '../data/answers';
import { bench } from '../data/bench.svelte';
import { NoAnswer } from '../data/problem';
import Ferment from './Ferment.svelte';

// It draws on a canvas, which jsdom has not: drawn after a test has ended, that failed the whole run.
vi.mock('uplot', () => ({
  default: class {
    setData() {}
    setSize() {}
    redraw() {}
    destroy() {}
  },
}));

const at = '2026-11-20T08:00:00.000Z';
const band = (median: number) => ({ low: median - 0.002, median, high: median + 0.002 });
const batch = {
  batch: 'b',
  name: 'Tern 9',
  plan: { entry: 'q', at, recipe: '', kit: '', earlier: 0 },
  ferment: {
    pitch: { entry: 'p', at, specific_gravity: 1.058 },
    readings: [
      { entry: 'one', at: '2026-11-21T08:00:00.000Z', specific_gravity: 1.04 },
      { entry: 'two', at: '2026-11-22T08:00:00.000Z', specific_gravity: 1.061 },
    ],
  },
};
const forecast: Partial<FermentForecast> = {
  readings: 2,
  course: [
    { hours: 0, specific_gravity: band(1.058) },
    { hours: 96, specific_gravity: band(0.995) },
  ],
  dry: {
    hours: { low: 80, median: 96, high: 110 },
    at: {
      low: '2026-11-23T16:00:00.000Z',
      median: '2026-11-24T12:00:00.000Z',
      high: '2026-11-25T12:00:00.000Z',
    },
  },
  rested: { hours: { median: 168 }, at: { median: '2026-11-27T12:00:00.000Z' } },
  end_specific_gravity: band(0.995),
  doubts: [
    { entry: 'two', words: 'Kept, not believed: the others say 1.02.', expected: band(1.02) },
  ],
  why: { what: 'Gravity', inputs: [], model: 'Model of the yeast.', source: 'Cramer 2002' },
};
let told: Partial<FermentForecast> | undefined;
let kept: unknown;

beforeEach(() => {
  told = forecast;
  kept = batch;
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => {
    if (path === '/batches/b') return kept as never;
    if (path === '/batches/b/ferment' && told) return told as never;
    throw new NoAnswer('not there');
  });
});
const show = () => render(Ferment, { props: { batch: 'b' } });

test('dry and rested dates are those of the readings, and what is not believed says why', async () => {
  show();
  await screen.findByText('Dry, by its readings');
  expect(screen.getByText('Tue 24 Nov')).toBeTruthy();
  expect(screen.getAllByText(/Kept, not believed: the others say 1\.02/).length).toBeGreaterThan(0);
  // Where it stands is the last reading that is believed.
  expect(screen.getAllByText('1.0400').length).toBeGreaterThan(0);
});

test('once racked, the head shows what the wash is reckoned by, and that it is not believed', async () => {
  const racked = { entry: 'r', at: '2026-11-29T08:00:00.000Z', clear_L_20C: 50 };
  const wash = {
    entry: 'two',
    at: '2026-11-22T08:00:00.000Z',
    specific_gravity: 1.02,
    strength_percent_vol: 5,
    pure_alcohol_L_20C: 2.5,
  };
  kept = { ...batch, ferment: { ...batch.ferment, racked, wash } };
  show();
  expect(
    await screen.findByText(/reckoned by its last gravity, which the forecast does not/),
  ).toBeTruthy();
  expect(screen.getByText('Racked')).toBeTruthy();
  expect(screen.getAllByText('1.0200').length).toBeGreaterThan(0);
});

test('a ferment that has stuck names what to check, in order', async () => {
  told = {
    ...forecast,
    stuck: { says: 'It stands at 1.030.', causes: ['Warmth: 14 °C.', 'Acid.'] },
  };
  show();
  await screen.findByText(/It stands at 1\.030/);
  const list = screen.getByText('Acid.').closest('ul')!;
  const causes = within(list)
    .getAllByRole('listitem')
    .map((item) => item.textContent);
  expect(causes).toEqual(['Warmth: 14 °C.', 'Acid.']);
});

test('until the forecast is there the page says that it is being reckoned', async () => {
  told = undefined;
  show();
  await screen.findByText(/The forecast is being reckoned/);
  expect(screen.getByText('Dry, by the plan')).toBeTruthy();
});

test('the head says of which day its figure is, and that the newest reading is not believed', async () => {
  show();
  expect(await screen.findByText('read on day 2')).toBeTruthy();
  expect(
    screen.getByText(/^The newest reading, 1\.0610 of day 3, is kept, not believed\.$/),
  ).toBeTruthy();
  const row = screen.getByRole('row', { name: /1\.0610/, hidden: true });
  expect(row.textContent).toMatch(/not believed/);
});

test('a wash racked days after its last gravity is told as the least, and can still be read', async () => {
  const racked = { entry: 'r', at: '2026-11-29T08:00:00.000Z', clear_L_20C: 50 };
  const wash = {
    entry: 'one',
    at: '2026-11-21T08:00:00.000Z',
    unread_days: 8,
    specific_gravity: 1.04,
    strength_percent_vol: 2.4,
    pure_alcohol_L_20C: 1.2,
  };
  kept = { ...batch, ferment: { ...batch.ferment, racked, wash } };
  const record = vi.spyOn(bench, 'record').mockResolvedValue(undefined as never);
  show();
  await screen.findByText(/It was racked 8\.0 days after the last gravity/);
  expect(screen.getByText('read on day 2')).toBeTruthy();
  await fireEvent.input(screen.getByLabelText(/^reads/), {
    target: { value: '0.996' },
  });
  await fireEvent.click(screen.getByRole('button', { name: 'Keep the reading' }));
  await waitFor(() => expect(record).toHaveBeenCalled());
  expect(record.mock.calls[0]![0]).toMatchObject({ kind: 'ferment read', stage: 'ferment' });
  record.mockRestore();
});

test('a racking is corrected with the lees that were told, unless others are typed', async () => {
  const racked = { entry: 'r', at: '2026-11-29T08:00:00.000Z', clear_L_20C: 38.8, lees_L: 1.234 };
  kept = { ...batch, ferment: { ...batch.ferment, racked } };
  const record = vi.spyOn(bench, 'record').mockResolvedValue(undefined as never);
  show();
  const lees = (await screen.findByLabelText('Lees left')) as HTMLInputElement;
  expect(lees.value).toBe('1.23');
  const correct = async () => {
    await fireEvent.input(screen.getByLabelText('Clear wash'), { target: { value: '37.5' } });
    await fireEvent.click(screen.getByRole('button', { name: 'Correct it' }));
    await waitFor(() => expect(record).toHaveBeenCalled());
    const { body } = record.mock.calls[0]![0];
    record.mockClear();
    return body;
  };
  expect(await correct()).toMatchObject({ clear: { volume_L: 37.5 }, lees_L: 1.234 });
  // Nothing racked is no racking; lees there may be none of.
  await fireEvent.input(screen.getByLabelText('Clear wash'), { target: { value: '0' } });
  await fireEvent.input(lees, { target: { value: '0' } });
  await fireEvent.click(screen.getByRole('button', { name: 'Correct it' }));
  expect(await screen.findByText(/^“0” was given; accepted: a volume over nought/)).toBeTruthy();
  expect(record).not.toHaveBeenCalled();
  expect(await correct()).toMatchObject({ clear: { volume_L: 37.5 }, lees_L: 0 });
  await fireEvent.input(lees, { target: { value: '' } });
  expect(await correct()).not.toHaveProperty('lees_L');
  record.mockRestore();
});

test('a wrong pitch is corrected on the page of its ferment', async () => {
  const entry = {
    id: 'p',
    batch: 'b',
    stage: 'ferment',
    kind: 'pitched',
    version: 1,
    at,
    clock_ahead_ms: 0,
    who: '',
    body: {
      volume: { volume_L: 50, at_C: 20 },
      gravity: { reading: 1.085, scale: 'specific_gravity', at_C: 20 },
      yeast: 'a baker’s yeast',
      mass_g: 50,
    },
  };
  const record = vi.spyOn(bench, 'record').mockResolvedValue(entry as never);
  const pitch = { ...batch.ferment.pitch, volume_L_20C: 50, yeast: 'a baker’s yeast', mass_g: 50 };
  kept = { ...batch, ferment: { ...batch.ferment, pitch } };
  const told_ = vi.mocked(bench.api.get).getMockImplementation()!;
  vi.mocked(bench.api.get).mockImplementation(async (path) =>
    path === '/batches/b/entries' ? ({ entries: [entry] } as never) : told_(path),
  );
  show();
  await fireEvent.click(
    await screen.findByRole('button', { name: /^Correct 50\.0.L at 1\.0580, with 50.g of/ }),
  );
  const field = await screen.findByLabelText(/^Mass/);
  await fireEvent.input(field, { target: { value: '55' } });
  await fireEvent.click(screen.getByRole('button', { name: 'Correct it' }));
  await waitFor(() => expect(record).toHaveBeenCalled());
  expect(record.mock.lastCall![0]).toMatchObject({
    kind: 'pitched',
    corrects: 'p',
    at,
    body: { ...entry.body, mass_g: 55 },
  });
});

test('a reading of the ferment is struck out only when it was asked once more', async () => {
  const record = vi.spyOn(bench, 'record').mockResolvedValue({} as never);
  record.mockClear();
  show();
  await fireEvent.click(
    await screen.findByRole('button', { name: /^Strike out the reading of .*22/, hidden: true }),
  );
  expect(record).not.toHaveBeenCalled();
  const group = { name: /^Strike it out\? The reading of .*22.*1\.0610/, hidden: true };
  await screen.findByRole('group', group);
  await fireEvent.click(screen.getByRole('button', { name: 'Leave it standing', hidden: true }));
  expect(screen.queryByRole('group', group)).toBeNull();
  await fireEvent.click(
    screen.getByRole('button', { name: /^Strike out the reading of .*22/, hidden: true }),
  );
  await fireEvent.click(
    await screen.findByRole('button', { name: 'Yes, it never happened', hidden: true }),
  );
  expect(record).toHaveBeenCalledOnce();
  expect(record.mock.lastCall![0]).toMatchObject({ kind: 'struck', corrects: 'two' });
});

test('the yeast of the pitch stands by its name, not by the key of a table', async () => {
  const pitch = { ...batch.ferment.pitch, volume_L_20C: 50, yeast: 'distillers-dry', mass_g: 50 };
  const yeasts = [{ id: 'distillers-dry', name: 'Dry distilling yeast' }];
  kept = { ...batch, ferment: { ...batch.ferment, pitch } };
  const told_ = vi.mocked(bench.api.get).getMockImplementation()!;
  vi.mocked(bench.api.get).mockImplementation(async (path) =>
    path === '/tables' ? ({ yeasts, ingredients: [] } as never) : told_(path),
  );
  show();
  expect(await screen.findByText(/with 50.g of Dry distilling yeast/)).toBeTruthy();
  expect(screen.queryByText(/distillers-dry/)).toBeNull();
});
