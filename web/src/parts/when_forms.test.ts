// Each form that tells what was done once takes the time it was done at: a time to come keeps nothing, a
// time that has been is the entry's own, and the form is back to now.
import { fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import NoteForm from '../batch/NoteForm.svelte';
import Bottle from '../bottle/Bottle.svelte';
import { bench } from '../data/bench.svelte';
import { NoAnswer } from '../data/problem';
import PitchForm from '../ferment/PitchForm.svelte';
import Racking from '../ferment/Racking.svelte';
import ReadForm from '../ferment/ReadForm.svelte';
import Begin from '../house/Begin.svelte';
import LotBringForm from '../house/LotBringForm.svelte';
import LotGaugeForm from '../house/LotGaugeForm.svelte';
import LotTakeForm from '../house/LotTakeForm.svelte';
import { Telling } from '../house/telling.svelte';
import JarSheet from '../jars/JarSheet.svelte';
import AirForm from '../kit/AirForm.svelte';
import CopperForm from '../kit/CopperForm.svelte';
import AddedForm from '../mash/AddedForm.svelte';
import Checks from '../mash/Checks.svelte';
import WortForm from '../mash/WortForm.svelte';
import EndDrawer from '../spirit_run/EndDrawer.svelte';
import GaugeLowWines from '../spirit_run/GaugeLowWines.svelte';
import JarDrawer from '../spirit_run/JarDrawer.svelte';
import PowerDrawer from '../spirit_run/PowerDrawer.svelte';
import ReadDrawer from '../spirit_run/ReadDrawer.svelte';
import LeakTest from '../wood/LeakTest.svelte';
import MoveOn from '../wood/MoveOn.svelte';
import TopUp from '../wood/TopUp.svelte';
import Wood from '../wood/Wood.svelte';
import Wooded from '../wood/Wooded.svelte';

/** Its own: what the house told other tests of another batch is remembered. */
const BATCH = 'batch of these forms';

interface Told {
  kind: string;
  at?: string;
  clock_ahead_ms?: number;
}
let recorded: Told[];
beforeEach(() => {
  recorded = [];
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) => {
    if (path === '/lots') return { lots: [lot] } as never;
    if (path === '/tables')
      return { ingredients: [], yeasts: [], species: [], toasts: [], label_rules: [] } as never;
    throw new NoAnswer('not there');
  });
  vi.spyOn(bench.api, 'post').mockResolvedValue({
    strength_percent_vol: 60,
    standard_percent_vol: 0.3,
    volume_L_20C: 1,
  } as never);
  vi.spyOn(bench, 'record').mockImplementation(async (wish) => {
    recorded.push(wish);
    return { id: `e${recorded.length}`, ...wish } as never;
  });
});

const fill = async (label: string | RegExp, text: string) => {
  const field = (await screen.findAllByLabelText(label))[0]!;
  const choice = field instanceof HTMLSelectElement;
  await fireEvent[choice ? 'change' : 'input'](field, { target: { value: text } });
};
const tap = async (name: string | RegExp) =>
  userEvent.click((await screen.findAllByRole('button', { name }))[0]!);

const nothing = () => undefined;
const base = { bench, batch: BATCH, onkept: nothing };
const lot = {
  entry: 'l',
  at: '2026-11-01T08:00:00.000Z',
  batch: BATCH,
  lot: { entry: 'l', kind: 'spirit' },
  label: 'Island 46',
  left: { volume_L_20C: 5, strength_percent_vol: 60, pure_alcohol_L_20C: 3 },
  uses: [],
  parents: [],
};
const run = {
  entry: 'r',
  at: '2026-11-01T08:00:00.000Z',
  run: 'strip',
  standing: 'running',
  charge_L_20C: 30,
  lots: [],
  jars: [],
  readings: [],
};
const stocked = () => ({ telling: new Telling(bench), ondone: nothing });
const measured = async () => {
  await fill('Volume', '2');
  await fill('Alcoholmeter reads', '60');
};

/** What shows a form, what fills it, the button that keeps it, and the kinds that it tells. */
interface Form {
  of: string;
  show: () => unknown;
  filled: () => Promise<void>;
  keep: string | RegExp;
  kinds: string[];
}
const forms: Form[] = [
  {
    of: 'the pitch',
    show: () => render(PitchForm, { ...base, plan: undefined }),
    filled: async () => {
      await fill('Wort', '50');
      await fill('reads', '1.06');
      await fill('so much of it', '25 g');
    },
    keep: 'The yeast is in',
    kinds: ['pitched'],
  },
  {
    of: 'a reading of the ferment',
    show: () =>
      render(ReadForm, { ...base, original: 1.06, lastWarmth: undefined, clear: false } as never),
    filled: () => fill('reads', '1.02'),
    keep: 'Keep the reading',
    kinds: ['ferment read'],
  },
  {
    of: 'the racking',
    show: () =>
      render(Racking, {
        ...base,
        told: { ferment: { readings: [] } },
        plan: undefined,
        rackedHere: undefined,
      } as never),
    filled: () => fill('Clear wash', '48'),
    keep: 'Racked',
    kinds: ['racked'],
  },
  {
    of: 'a check of the mash',
    show: () => render(Checks, { batch: BATCH, told: undefined, waiting: [], ahead_ms: 0 }),
    filled: () => fill(/^A drop of iodine/, 'blue'),
    keep: 'Keep',
    kinds: ['mash checked'],
  },
  {
    of: 'a wort',
    show: () => render(WortForm, { ...base, told: undefined, plan: undefined }),
    filled: async () => {
      await fill('Volume', '20');
      await fill('reads', '1.06');
    },
    keep: 'Keep this wort',
    kinds: ['wort drawn'],
  },
  {
    of: 'an addition',
    show: () => render(AddedForm, { ...stocked(), batch: BATCH, stage: 'ferment' }),
    filled: () => fill('Mass', '24 g'),
    keep: 'It went in',
    kinds: ['added'],
  },
  {
    of: 'the gauging of low wines',
    show: () => render(GaugeLowWines, { bench, batch: BATCH, end: 'x' }),
    filled: measured,
    keep: 'The low wines are gauged',
    kinds: ['lot gauged'],
  },
  {
    of: 'the end of a run',
    show: () => render(EndDrawer, { ...base, run, open: true } as never),
    filled: async () => undefined,
    keep: 'Heat is off: end the run',
    kinds: ['run ended'],
  },
  {
    of: 'a reading of a run',
    show: () => render(ReadDrawer, { ...base, run, open: true, temperature_C: 20 } as never),
    filled: async () => {
      await userEvent.click(screen.getByRole('button', { name: '7' }));
    },
    keep: 'Keep',
    kinds: ['run read'],
  },
  {
    of: 'a reading of a run in several figures',
    show: () => render(ReadDrawer, { ...base, run, open: true, temperature_C: 20 } as never),
    filled: async () => {
      await userEvent.click(screen.getByText(/^More: several at once/));
      await fill('Coolant in', '11');
    },
    keep: 'Keep all of these',
    kinds: ['run read'],
  },
  {
    of: 'the power of a run',
    show: () => render(PowerDrawer, { ...base, run, open: true, stopped: false } as never),
    filled: async () => {
      // Less than 50 W is no still's power.
      for (const name of ['7', '0', '0'])
        await userEvent.click(screen.getByRole('button', { name }));
    },
    keep: 'Keep',
    kinds: ['run read'],
  },
  {
    of: 'the heat that is off',
    show: () => render(PowerDrawer, { ...base, run, open: true, stopped: false } as never),
    filled: async () => undefined,
    keep: /^Heat is off/,
    kinds: ['run read'],
  },
  {
    of: 'a jar that is full',
    show: () =>
      render(JarDrawer, {
        ...base,
        run,
        open: true,
        jar: 3,
        volume_mL: 500,
        toldOf: () => undefined,
      } as never),
    filled: async () => undefined,
    keep: /^Full, 500/,
    kinds: ['jar filled'],
  },
  {
    of: 'the gauging of a jar',
    show: () =>
      render(JarSheet, {
        ...base,
        run: 'r',
        charge_L: 30,
        jar: { jar: 3, notes: [] },
        open: true,
      } as never),
    filled: measured,
    keep: 'Keep',
    kinds: ['jar gauged'],
  },
  {
    of: 'a lot brought in',
    show: () => render(LotBringForm, stocked()),
    filled: async () => {
      await fill('Name', 'old feints');
      await measured();
    },
    keep: 'It is in stock',
    kinds: ['lot brought'],
  },
  {
    of: 'a lot gauged',
    show: () => render(LotGaugeForm, { ...stocked(), lot } as never),
    filled: measured,
    keep: 'It is gauged',
    kinds: ['lot gauged'],
  },
  {
    of: 'what was taken out of a lot',
    show: () => render(LotTakeForm, { ...stocked(), lot } as never),
    filled: () => fill(/^Taken out/, '20 mL'),
    keep: 'It is taken out',
    kinds: ['lot taken'],
  },
  {
    of: 'a topping up',
    show: () => render(TopUp, { ...base, lot, lots: [{ ...lot, label: 'more' }] } as never),
    filled: () => fill(/^of it, /, '1'),
    keep: 'It is topped up',
    kinds: ['wood topped'],
  },
  {
    of: 'a move to other wood',
    show: () => render(MoveOn, { ...base, lot, tables: undefined } as never),
    filled: async () => {
      await measured();
      await fill('In', 'Cask 3');
    },
    keep: 'It is on the new wood',
    kinds: ['wood emptied', 'wood filled'],
  },
  {
    of: 'a sample',
    show: () => {
      const of = { lot: { ...lot, wood: { in: 'staves' } }, calendar: [], told: undefined };
      const more = { caution: '', atHome: true, notes: [], lots: [], tables: undefined };
      render(Wooded, { ...base, ...of, ...more, now_ms: Date.now() } as never);
    },
    filled: () => tap('Draw a sample'),
    keep: 'Note the sample',
    kinds: ['wood sampled'],
  },
  {
    of: 'a leak test',
    show: () => render(LeakTest, { ...base, cask: 'Cask 3', notes: [] }),
    filled: async () => {
      const result = await screen.findByLabelText<HTMLSelectElement>('It');
      await fill('It', result.options[1]!.value);
    },
    keep: 'Note the test',
    kinds: ['note'],
  },
  {
    of: 'a note',
    show: () => render(NoteForm, { bench, batch: BATCH, at: 'ferment', place: 'here' }),
    filled: () => fill('Another note', 'it foamed'),
    keep: 'Add the note',
    kinds: ['note'],
  },
  {
    of: 'the day’s air',
    show: () => render(AirForm, { ...stocked(), batch: BATCH }),
    filled: () => fill('Barometer reads', '1009'),
    keep: 'Keep the air',
    kinds: ['air read'],
  },
  {
    of: 'copper that was cleaned',
    show: () => render(CopperForm, stocked()),
    filled: async () => undefined,
    keep: 'Keep the cleaning',
    kinds: ['copper cleaned'],
  },
  {
    of: 'the beginning of a batch',
    show: () => render(Begin, { house: undefined, onleave: nothing }),
    filled: async () => {
      await fill(/of wash that fit your vessels$/, '40');
      await fill('Name of the batch', 'Tern 9');
    },
    keep: 'Begin',
    kinds: ['batch begun', 'batch planned'],
  },
];

forms.push(
  {
    of: 'a bottling, with what stayed in the filter and in the hoses',
    show: () => render(Bottle, { batch: BATCH }),
    filled: async () => {
      await fill(/^of it, /, '1.1');
      await fill('Left in the filter', '40 mL');
      await fill('Bottles', '2');
      await fill('What is left over', 'lost');
    },
    keep: 'Bottled',
    kinds: ['bottled', 'lot taken', 'lot taken'],
  },
  {
    of: 'a lot laid on wood',
    show: () => render(Wood, { batch: BATCH }),
    filled: async () => {
      await fill(/^of it, /, '1');
      await fill('In', 'Cask 3');
    },
    keep: 'It is on wood',
    kinds: ['wood filled'],
  },
);

const moment = () => document.querySelector<HTMLInputElement>('input[type="datetime-local"]')!;

/** Opens the time of the form that this button keeps: a page may hold several. */
async function open(keep: string | RegExp) {
  const buttons = await screen.findAllByRole('button', { name: keep });
  const near = buttons[0]!.closest('form, dialog, section') as HTMLElement;
  // Several forms of one drawer share it.
  const form = within(near).queryByText('Earlier than now?') ? near : near.closest('dialog')!;
  await userEvent.click(within(form).getByRole('button', { name: 'Earlier than now?' }));
}

test.each(forms)('$of is told at the time it was done', async ({ show, filled, keep, kinds }) => {
  show();
  await filled();
  await open(keep);
  await fireEvent.input(moment(), { target: { value: '2999-01-01T00:00' } });
  await tap(keep);
  expect(recorded).toEqual([]);
  expect(screen.getByText(/1 January 2999, 00:00 is still to come; accepted:/)).toBeTruthy();
  expect(document.activeElement).toBe(moment());
  await fireEvent.input(moment(), { target: { value: '2026-11-20T14:05' } });
  await tap(keep);
  await waitFor(() => expect(recorded.map((one) => one.kind)).toEqual(kinds));
  const at = new Date(2026, 10, 20, 14, 5).toISOString();
  for (const one of recorded) expect(one).toMatchObject({ at, clock_ahead_ms: 0 });
});

test.each(forms)('$of is told as of now where nobody says otherwise', async (form) => {
  form.show();
  await form.filled();
  await tap(form.keep);
  await waitFor(() => expect(recorded.map((one) => one.kind)).toEqual(form.kinds));
  for (const one of recorded) expect(one).not.toHaveProperty('at');
});

test('once a reading was kept, the next is of now', async () => {
  const form = forms.find(({ of }) => of === 'a reading of the ferment')!;
  form.show();
  await form.filled();
  await tap('Earlier than now?');
  await fireEvent.input(moment(), { target: { value: '2026-11-20T14:05' } });
  await tap(form.keep);
  await waitFor(() => expect(recorded).toHaveLength(1));
  await form.filled();
  await tap(form.keep);
  await waitFor(() => expect(recorded).toHaveLength(2));
  expect(recorded[1]).not.toHaveProperty('at');
});

test('a correction keeps its own time: it is not asked for', () => {
  const before = {
    entry: 'x',
    at: '2026-11-20T08:00:00.000Z',
    stage: 'ferment',
    kind: 'added',
    body: { what: 'sugar', mass_kg: 1 },
  };
  render(AddedForm, { ...stocked(), batch: BATCH, stage: 'ferment', before } as never);
  expect(screen.getByRole('button', { name: 'Correct it' })).toBeTruthy();
  expect(screen.queryByRole('button', { name: 'Earlier than now?' })).toBeNull();
});

test('a reading of a run that is corrected keeps its own time, and one kept short of it keeps its number', async () => {
  const shown = render(ReadDrawer, {
    ...base,
    run,
    open: true,
    temperature_C: 20,
    correcting: { entry: 'x', at: '2026-11-20T08:00:00.000Z', minutes: 10 },
  } as never);
  expect(screen.queryByRole('button', { name: 'Earlier than now?' })).toBeNull();
  shown.unmount();
  render(ReadDrawer, { ...base, run, open: true, temperature_C: 20 } as never);
  await userEvent.click(screen.getByRole('button', { name: '7' }));
  await open('Keep');
  await fireEvent.input(moment(), { target: { value: '' } });
  await tap('Keep');
  expect(recorded).toEqual([]);
  expect(screen.getByLabelText<HTMLInputElement>('Alcoholmeter').value).toBe('7');
});
