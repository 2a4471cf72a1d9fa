// The shelf of a run: where a jar is gauged, what is said of one that cannot be, and of one not believed.
import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import type { Run } from '../data/answers';
import type { Bench } from '../data/bench.svelte';
import { newEntry, type Entry, type EntryWish } from '../data/entry';
import { FORESHOTS_UNTASTED } from '../data/nosing_words';
import { set } from '../data/settings.svelte';
import RunShelf from './RunShelf.svelte';

const at = '2026-11-25T12:00:00.000Z';
const nothing = { volume_L_20C: 0, strength_percent_vol: 0, pure_alcohol_L_20C: 0 };
const run = (): Run => ({
  entry: 'r',
  at,
  run: 'spirit run',
  standing: 'ended',
  charge_L_20C: 25,
  lots: [],
  readings: [],
  jars: [
    {
      jar: 1,
      as_filled_mL: 500,
      filled: { entry: 'first', at },
      gauged: { entry: 'g', at },
      lot: {
        volume_L_20C: 0.498,
        strength_percent_vol: 72,
        pure_alcohol_L_20C: 0.359,
        proof_gallons: 0.19,
        mass_kg: 0.44,
      },
      notes: [],
    },
    { jar: 2, as_filled_mL: 99999, filled: { entry: 'slip', at }, notes: [] },
  ],
});
let kept: Entry[];
beforeEach(() => {
  kept = [];
});

const bench = (): Bench =>
  ({
    api: {
      get: (path: string) =>
        Promise.resolve(
          path.endsWith('/forecast')
            ? {
                doubts: [
                  {
                    entry: 'slip',
                    instrument: 'collected',
                    words: 'does not fit (expected 980 mL)',
                  },
                ],
              }
            : { lots: [] },
        ),
      post: (path: string) =>
        Promise.resolve(
          path === '/pour'
            ? { foreshots: nothing, hearts: nothing, feints: nothing, apart: nothing }
            : { strength_percent_vol: 70, standard_percent_vol: 0.3 },
        ),
    },
    hear: () => () => true,
    onTurn: () => () => true,
    outbox: { waiting: 0, refused: [], sending: false, answered: true },
    waiting: () => Promise.resolve([]),
    record: (wish: Omit<EntryWish, 'who'>) => {
      const entry = newEntry({ ...wish, who: '' });
      kept.push(entry);
      return Promise.resolve(entry);
    },
  }) as unknown as Bench;
const show = () => render(RunShelf, { bench: bench(), batch: 'b', run: run(), plan: undefined });
const sheet = () => within(screen.getByRole('dialog'));

test('a jar that is not believed stands on the shelf and in the list, marked', async () => {
  show();
  const said = await screen.findByText(
    /Jar 2 as it was filled, with those before it: does not fit/,
  );
  expect(said.textContent).toMatch(/Kept, not believed/);
  expect(screen.getByRole('button', { name: /^Jar\s*2\s*, not believed/ })).toBeTruthy();
  const row = screen.getByRole('row', { name: /Jar 2/ });
  expect(row.textContent).toMatch(/kept, not believed/);
  expect(screen.getByRole('row', { name: /Jar 1/ }).textContent).not.toMatch(/believed/);
});

test('a gauged jar that cannot hold so much is told', async () => {
  const of = run();
  of.jars[0]!.lot!.volume_L_20C = 99.999;
  render(RunShelf, { bench: bench(), batch: 'b', run: of, plan: undefined });
  expect(
    await screen.findByText(/Jar 1 is gauged at 100\.0.L, and 25\.0.L was charged/),
  ).toBeTruthy();
});

test('a cut of a spirit run without foreshots says so beside its button; of a strip it does not', async () => {
  const of = run();
  of.jars = [
    {
      ...of.jars[0]!,
      poured: { foreshots_mL_20C: 0, hearts_mL_20C: 498, feints_mL_20C: 0, apart_mL_20C: 0 },
    },
  ] as Run['jars'];
  const spirit = render(RunShelf, {
    bench: bench(),
    batch: 'b',
    run: { ...of, run: 'spirit run' },
    plan: undefined,
  });
  expect((await screen.findByText('No foreshots.')).parentElement!.textContent).toMatch(
    /jar 1 goes to the hearts.*Neither makes a spirit safe/s,
  );
  spirit.unmount();
  render(RunShelf, { bench: bench(), batch: 'b', run: { ...of, run: 'strip' }, plan: undefined });
  expect(screen.queryByText('No foreshots.')).toBeNull();
});

test('where a jar is gauged is plain: by its number above the shelf, and at its line', async () => {
  show();
  await userEvent.click(screen.getAllByRole('button', { name: 'Gauge jar 2' })[0]!);
  expect(sheet().getByRole('heading', { name: 'Jar 2' })).toBeTruthy();
  expect(screen.getAllByRole('button', { name: /^Gauge\s*jar 2/, hidden: true })).toHaveLength(2);
  expect(screen.queryByRole('button', { name: /^Gauge\s*jar 1/, hidden: true })).toBeNull();
});

test('a jar that holds more than was charged gets its sentence at its field, and is not kept', async () => {
  show();
  await userEvent.click(screen.getAllByRole('button', { name: 'Gauge jar 2' })[0]!);
  await userEvent.type(sheet().getByLabelText('Volume'), '99999');
  await userEvent.type(sheet().getByLabelText('Alcoholmeter reads'), '70');
  const fault = sheet().getByText(/“99999” was given; accepted: up to 25\.0.L, which is all/);
  expect(fault).toBeTruthy();
  expect(sheet().getByLabelText('Volume').getAttribute('aria-invalid')).toBe('true');
  await userEvent.click(sheet().getByRole('button', { name: 'Keep' }));
  expect(kept).toEqual([]);
  await userEvent.clear(sheet().getByLabelText('Volume'));
  await userEvent.type(sheet().getByLabelText('Volume'), '498');
  await userEvent.click(sheet().getByRole('button', { name: 'Keep' }));
  expect(kept[0]).toMatchObject({
    kind: 'jar gauged',
    body: { jar: 2, volume: { volume_L: 0.498 } },
  });
});

test('a jar gauged anew after the cut is told, and the cut can be corrected to it', async () => {
  const parts = (apart: number) => ({
    jar: 1,
    foreshots_mL_20C: 0,
    hearts_mL_20C: 1.2,
    feints_mL_20C: 0,
    apart_mL_20C: apart,
  });
  const cut = run();
  cut.allotted = { entry: 'cut', at };
  cut.jars = [{ ...cut.jars[0]!, poured: parts(0) }];
  render(RunShelf, { bench: bench(), batch: 'b', run: cut, plan: undefined });
  const said = await screen.findByText(/Jar 1 was gauged anew since the cut/);
  expect(said.textContent).toMatch(/allots 1.mL of it; it holds 498.mL/);
  await userEvent.click(screen.getByRole('button', { name: /^Correct the cut/ }));
  expect(kept[0]).toMatchObject({
    kind: 'jars allotted',
    corrects: 'cut',
    body: { run: 'r', jars: [parts(496.8)] },
  });
});

test('a cut whose jars hold what it allots waits for a change', async () => {
  const cut = run();
  cut.allotted = { entry: 'cut', at };
  const all = { foreshots_mL_20C: 0, hearts_mL_20C: 498, feints_mL_20C: 0, apart_mL_20C: 0 };
  cut.jars = [{ ...cut.jars[0]!, poured: { jar: 1, ...all } }];
  render(RunShelf, { bench: bench(), batch: 'b', run: cut, plan: undefined });
  expect(screen.queryByText(/gauged anew/)).toBeNull();
  const button = screen.getByRole('button', { name: /^Correct the cut/ });
  expect((button as HTMLButtonElement).disabled).toBe(true);
});

test('a cut that was made earlier is told as of then, and its correction keeps that time', async () => {
  const of = run();
  of.jars = [of.jars[0]!];
  const page = render(RunShelf, { bench: bench(), batch: 'b', run: of, plan: undefined });
  await userEvent.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  const field = screen.getByLabelText('It was cut at');
  const tell = async (text: string) => {
    await userEvent.clear(field);
    await userEvent.type(field, text);
  };
  await tell('2999-01-01T00:00');
  document.querySelector<HTMLElement>('[data-jar="1"]')!.focus();
  await userEvent.keyboard('h');
  const cut = () => screen.getByRole('button', { name: /^(Make|Correct) the cut/ });
  await userEvent.click(cut());
  expect(kept).toEqual([]);
  await tell('2026-11-26T18:00');
  await userEvent.click(cut());
  expect(kept.map((one) => [one.kind, one.at])).toEqual([
    ['jars allotted', new Date(2026, 10, 26, 18, 0).toISOString()],
  ]);
  await page.rerender({ run: { ...of, allotted: { entry: 'c', at, jars: [] } } } as never);
  expect(screen.queryByRole('button', { name: 'Earlier than now?' })).toBeNull();
});

/** With its one jar gauged, and nothing allotted yet. */
const toCut = (): Run => {
  const of = run();
  return { ...of, jars: [of.jars[0]!] };
};

test('a double press of the cut makes one cut', async () => {
  localStorage.clear();
  render(RunShelf, { bench: bench(), batch: 'b', run: toCut(), plan: undefined });
  document.querySelector<HTMLElement>('[data-jar="1"]')!.focus();
  await userEvent.keyboard('h');
  const cut = await screen.findByRole('button', { name: /^Make the cut: / });
  cut.click();
  await vi.waitFor(() => expect(kept).toHaveLength(1));
  await new Promise((done) => setTimeout(done, 30));
  cut.click();
  await new Promise((done) => setTimeout(done, 30));
  expect(kept.map((e) => e.kind)).toEqual(['jars allotted']);
  // Laid otherwise since, it is another.
  await userEvent.keyboard('t');
  screen.getByRole('button', { name: /^(Make|Correct) the cut/ }).click();
  await vi.waitFor(() => expect(kept).toHaveLength(2));
});

test('a trial in the glass says that foreshots are not tasted, and so does the sheet of a jar', async () => {
  localStorage.clear();
  render(RunShelf, { bench: bench(), batch: 'b', run: toCut(), plan: undefined });
  await userEvent.click(screen.getByRole('button', { name: 'Trial in the glass' }));
  expect(screen.getByRole('dialog').textContent).toContain(FORESHOTS_UNTASTED);
  await userEvent.click(sheet().getByRole('button', { name: 'Close' }));
  await userEvent.click(screen.getByRole('button', { name: /^Jar\s*1$/ }));
  expect(screen.getByRole('dialog').textContent).toContain(FORESHOTS_UNTASTED);
});

test('a gauging that is typed and not kept stands after the page was left, at its jar, until it is kept', async () => {
  const drafts = () => Object.keys(localStorage).filter((key) => key.startsWith('lynearm-typing-'));
  const value = (label: string) => sheet().getByLabelText<HTMLInputElement>(label).value;
  const showJar = async (jar: number) => {
    const page = render(RunShelf, {
      bench: bench(),
      batch: 'gauging left',
      run: { ...run(), entry: 'run whose gauging is left' },
      plan: undefined,
    });
    await userEvent.click(
      screen.getByRole('button', { name: new RegExp(`^Jar\\s*${jar}\\s*(, not believed|$)`) }),
    );
    return page;
  };
  const typed = await showJar(2);
  expect(drafts()).toEqual([]);
  await userEvent.type(sheet().getByLabelText('Volume'), '480');
  await userEvent.type(sheet().getByLabelText('Alcoholmeter reads'), '70');
  await userEvent.click(sheet().getByRole('button', { name: 'Earlier than now?' }));
  typed.unmount();
  const other = await showJar(1);
  expect(value('Volume')).toBe('');
  other.unmount();

  set({ units: 'us' });
  const left = await showJar(2);
  expect(value('Volume')).toBe('480 mL');
  expect(value('Alcoholmeter reads')).toBe('70');
  expect(sheet().getByLabelText('It was gauged at')).toBeTruthy();
  expect(kept).toEqual([]);
  await userEvent.click(sheet().getByRole('button', { name: 'Keep' }));
  expect(kept[0]).toMatchObject({
    kind: 'jar gauged',
    body: { jar: 2, volume: { volume_L: 0.48, at_C: 20 }, strength: { reading: 70 } },
  });
  await vi.waitFor(() => expect(drafts()).toEqual([]));
  left.unmount();
  await showJar(2);
  expect(value('Volume')).toBe('');
  expect(sheet().queryByLabelText('It was gauged at')).toBeNull();
});
