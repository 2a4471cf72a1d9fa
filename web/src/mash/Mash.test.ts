// Mash day on a device that did not mark the steps: its clocks run from what was told elsewhere, and
// what was kept is told where it was pressed.
import { cleanup, configure, render, screen, waitFor, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { momentText } from '../data/dates';
import type { EntryWish } from '../data/entry';
import { NoAnswer } from '../data/problem';
import { set } from '../data/settings.svelte';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import Mash from './Mash.svelte';

// It draws on a canvas, which jsdom has not.
vi.mock('uplot', () => ({
  default: class {
    setData() {}
    setSize() {}
    redraw() {}
    destroy() {}
  },
}));

configure({ asyncUtilTimeout: 20_000 });
vi.setConfig({ testTimeout: 60_000 });

const step = (what: string, length_min: number, attention: string) => ({
  stage: 'Mash',
  what,
  start_min: 0,
  clock: 'day 1 08:00',
  length_min,
  attention,
  beside: false,
});
const plan = {
  ...ternPlan,
  timeline: {
    steps: [
      step('Mill', 30, 'hands_on'),
      step('Cool to 66', 90, 'wait'),
      step('Drain', 20, 'hands_on'),
    ],
  },
  findings: [],
};
let batch: Record<string, unknown>;
let recorded: Omit<EntryWish, 'who'>[];
let ids = 0; // never again the same: a clock that was taken away does not come back

const milled = (at_ms: number) => ({
  entry: 'm',
  at: new Date(at_ms).toISOString(),
  stage: 'mash',
  step: 'Mill',
  done: true,
});

beforeEach(() => {
  recorded = [];
  batch = {
    name: 'Tern 9',
    steps: [milled(Date.now() - 600_000)],
    mash: { temperatures: [], waters: [], worts: [], checks: [], added: [] },
    ferment: { readings: [], added: [] },
    lots: [],
    runs: [],
    notes: [],
  };
  vi.spyOn(bench.api, 'get').mockImplementation(
    async (path) =>
      (path === '/batches/b/plan' ? plan : path === '/batches/b' ? batch : {}) as never,
  );
  vi.spyOn(bench, 'record').mockImplementation(async (wish) => {
    recorded.push(wish);
    return { id: `e${++ids}`, at: new Date().toISOString(), who: '', ...wish } as never;
  });
});
afterEach(() => {
  cleanup(); // a page that is open begins them anew
  for (const clock of bench.clocks.all) bench.clocks.remove(clock.id);
  localStorage.clear();
});
const left_min = (name: string) => {
  const clock = bench.clocks.named(name, 'b');
  return clock && Math.round(bench.clocks.left(clock) / 60_000);
};

test('what another device began runs here, from its moment', async () => {
  render(Mash, { batch: 'b' });
  await waitFor(() => expect(left_min('Cool to 66')).toBe(80));
  expect(screen.getByRole('button', { name: 'Its clock runs' })).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Remove Cool to 66' }));
  expect(left_min('Cool to 66')).toBeUndefined();
});

test('a reading on another device sets the clock here to what the house reckons, from the reading', async () => {
  (batch['mash'] as Record<string, unknown>)['temperatures'] = [
    { entry: 't', at: new Date(Date.now() - 120_000).toISOString(), temperature_C: 80 },
  ];
  const post = vi.spyOn(bench.api, 'post').mockResolvedValue({
    step: 'Cool to 66',
    clock_min: 50,
    with: 'nothing',
    at: 'moving',
  } as never);
  render(Mash, { batch: 'b' });
  await waitFor(() => expect(left_min('Cool to 66')).toBe(48));
  expect(post.mock.calls[0]!.slice(0, 2)).toEqual([
    '/mash-correction',
    { batch: 'b', temperature_C: 80, step: 'Cool to 66' },
  ]);
  // As on a phone that dropped the page: what it asks for stands there again.
  await waitFor(() => expect(document.querySelector('.advice .big')).not.toBeNull());
});

test('what was stirred in since answers a reading, and an old one advises nothing for now', async () => {
  const at = (minutes: number) => new Date(Date.now() - minutes * 60_000).toISOString();
  const post = vi.spyOn(bench.api, 'post').mockResolvedValue({
    step: 'Cool to 66',
    clock_min: 50,
    with: 'nothing',
    at: 'moving',
  } as never);
  const mash = batch['mash'] as Record<string, unknown>;
  mash['temperatures'] = [{ entry: 'read 62', at: at(4), temperature_C: 62 }];
  mash['waters'] = [{ entry: 'w', at: at(3), volume_L_20C: 2, temperature_C: 90 }];
  const first = render(Mash, { batch: 'b' });
  await waitFor(() => expect(left_min('Cool to 66')).toBe(46));
  expect(document.querySelector('.advice .big')).toBeNull();
  first.unmount();
  batch['steps'] = [milled(Date.now() - 3_600_000)];
  mash['waters'] = [];
  mash['temperatures'] = [{ entry: 'old', at: at(50), temperature_C: 62 }];
  post.mockClear();
  render(Mash, { batch: 'b' });
  await waitFor(() => expect(post).toHaveBeenCalled());
  expect(document.querySelector('.advice .big')).toBeNull();
});

const hot = {
  step: 'Cool to 66',
  clock_min: 50,
  with: 'cold water',
  at: 'rest',
  target_C: 66,
  first_half_L: 2,
};
const advice = () => document.querySelector('.advice .big');

test('what is stirred in elsewhere while the advice stands answers it', async () => {
  const hearers: (() => void)[] = [];
  vi.spyOn(bench, 'hear').mockImplementation((heard) => {
    hearers.push(() => heard('entry', undefined as never));
    return () => undefined;
  });
  const now = Date.now();
  const mash = batch['mash'] as Record<string, unknown>;
  mash['temperatures'] = [
    { entry: 'read 80', at: new Date(now - 60_000).toISOString(), temperature_C: 80 },
  ];
  vi.spyOn(bench.api, 'post').mockResolvedValue(hot as never);
  render(Mash, { batch: 'b' });
  await waitFor(() => expect(advice()).not.toBeNull());
  const water = { entry: 'w', at: new Date(now).toISOString(), volume_L_20C: 2, temperature_C: 15 };
  batch = { ...batch, mash: { ...mash, waters: [water] } };
  for (const heard of hearers) heard();
  await waitFor(() => expect(advice()).toBeNull());
});

test('advice that grew old says so, and nothing goes in by it', async () => {
  (batch['mash'] as Record<string, unknown>)['temperatures'] = [
    { entry: 'aged', at: new Date(Date.now() - 9 * 60_000).toISOString(), temperature_C: 80 },
  ];
  vi.spyOn(bench.api, 'post').mockResolvedValue(hot as never);
  render(Mash, { batch: 'b' });
  expect(await screen.findByRole('button', { name: /^Stirred in/ })).toBeTruthy();
  bench.clocks.now = Date.now() + 3 * 60_000;
  await screen.findByText(/It was read 12 min ago, and this was said of it then/);
  expect(screen.queryByRole('button', { name: /^Stirred in/ })).toBeNull();
  bench.clocks.tick();
});

test('a reading that the house did not answer is asked about again', async () => {
  (batch['mash'] as Record<string, unknown>)['temperatures'] = [
    { entry: 'unheard', at: new Date(Date.now() - 60_000).toISOString(), temperature_C: 80 },
  ];
  const post = vi.spyOn(bench.api, 'post').mockRejectedValueOnce(new NoAnswer('cut off'));
  post.mockResolvedValue(hot as never);
  render(Mash, { batch: 'b' });
  await waitFor(() => expect(left_min('Cool to 66')).toBe(49));
  await waitFor(() => expect(advice()).not.toBeNull());
  expect(post).toHaveBeenCalledTimes(2);
});

test('a reading sets its clock also where the page is left before the house answers', async () => {
  // A clock that an earlier test took away by hand does not come back.
  batch['steps'] = [{ ...milled(Date.now() - 600_000), entry: 'milled anew' }];
  let answer = (_: unknown) => {};
  vi.spyOn(bench.api, 'post').mockReturnValue(new Promise((done) => (answer = done)) as never);
  const page = render(Mash, { batch: 'b' });
  await waitFor(() => expect(left_min('Cool to 66')).toBe(80));
  await userEvent.click(await screen.findByRole('button', { name: 'Temperature' }));
  const pad = within(await screen.findByRole('dialog'));
  await userEvent.type(pad.getByRole('textbox'), '80{Enter}');
  await waitFor(() => expect(bench.api.post).toHaveBeenCalled());
  page.unmount();
  answer(hot);
  await waitFor(() => expect(left_min('Cool to 66')).toBe(50));
});

test('two taps on Done mark one step, though the next comes to stand under the thumb', async () => {
  batch['steps'] = [];
  render(Mash, { batch: 'b' });
  await userEvent.dblClick((await screen.findAllByRole('button', { name: 'Done' }))[0]!);
  expect(recorded.filter(({ kind }) => kind === 'step marked')).toHaveLength(1);
});

/** The page of a batch that no other test knows. */
function pageOf(id: string) {
  const answers: Record<string, unknown> = {
    [`/batches/${id}`]: batch,
    [`/batches/${id}/plan`]: plan,
  };
  vi.mocked(bench.api.get).mockImplementation(async (path) => (answers[path] ?? {}) as never);
  render(Mash, { batch: id });
}
/** Other forms of the page have one too. */
const earlierOfStep = async () => {
  const start = await screen.findByRole('button', { name: /^(Start its clock|Its clock runs)$/ });
  const step = start.closest<HTMLElement>('.now')!;
  return within(step).getByRole('button', { name: 'Earlier than now?' });
};

test('a step that was done earlier is told as of then, and the next press is now', async () => {
  batch['steps'] = [];
  pageOf('done-earlier');
  const user = userEvent.setup();
  const earlier = new Date(Date.now() - 20 * 60_000);
  earlier.setSeconds(0, 0);
  await user.click(await earlierOfStep());
  const field = screen.getByLabelText('It was done, or begun, at');
  await user.clear(field);
  await user.click(screen.getAllByRole('button', { name: 'Done' })[0]!);
  expect(recorded).toEqual([]); // no time was given
  await user.type(field, momentText(earlier.getTime()));
  await new Promise((resolve) => setTimeout(resolve, 1100)); // no second tap of the first press
  await user.click(screen.getAllByRole('button', { name: 'Done' })[0]!);
  expect(recorded[0]).toMatchObject({
    body: { step: 'Mill', done: true },
    at: earlier.toISOString(),
  });
  expect(await screen.findByText(/^Done: Mill\. It stands at /)).toBeTruthy();
  expect(screen.queryByLabelText('It was done, or begun, at')).toBeNull();
});

test('a step is not told done before it was begun', async () => {
  batch['steps'] = [{ ...milled(Date.now() - 600_000), done: false }];
  pageOf('done-before-begun');
  const user = userEvent.setup();
  await user.click(await earlierOfStep());
  const field = screen.getByLabelText('It was done, or begun, at');
  await user.clear(field);
  await user.type(field, momentText(Date.now() - 3_600_000));
  await user.click(screen.getAllByRole('button', { name: 'Done' })[0]!);
  expect(
    await screen.findByText(/^Mill was begun .*; accepted: a time after that\.$/),
  ).toBeTruthy();
  expect(recorded).toEqual([]);
});

test('a clock that is started is told to the house as the step begun; its word stands beside the button', async () => {
  batch['steps'] = [];
  render(Mash, { batch: 'b' });
  const start = await screen.findByRole('button', { name: 'Start its clock' });
  await userEvent.click(start);
  expect(recorded[0]).toMatchObject({ kind: 'step marked', body: { step: 'Mill', done: false } });
  expect(left_min('Mill')).toBe(30);
  const said = await screen.findByText('Begun: Mill.');
  expect(said.getAttribute('role')).toBe('status');
  // Nothing stands between the button that was pressed and what was said of it.
  expect(start.closest('.now')!.nextElementSibling).toBe(said);
});

test('a temperature that is kept is told beside its button', async () => {
  vi.spyOn(bench.api, 'post').mockResolvedValue({ with: 'nothing', at: 'over' } as never);
  render(Mash, { batch: 'b' });
  await userEvent.click(await screen.findByRole('button', { name: 'Temperature' }));
  const pad = within(await screen.findByRole('dialog'));
  await userEvent.type(pad.getByRole('textbox'), '66{Enter}');
  const said = await screen.findByText('Kept: 66.0 °C.');
  expect(said.getAttribute('role')).toBe('status');
  const section = screen.getByRole('heading', { name: 'Temperature' }).closest('section')!;
  expect(section.contains(said)).toBe(true);
});

// Two of one code, of two vessels, took the page down.
test('what the plan finds of mash day stands there, of each vessel', async () => {
  const finding = (code: string, says: string, stage = 'Mash') => ({
    weight: 'danger',
    code,
    stage,
    says,
    remedy: '',
  });
  plan.findings = [
    finding('vessel-too-full', 'The boiling pot holds 56.0 L.'),
    finding('vessel-too-full', 'The mash tub holds 86.0 L.'),
    finding('element-exposed', '5.4 L of sparge water is heated in the still.'),
    finding('element-exposed', 'The charge is 5.0 L.', 'Strip'),
  ] as never;
  render(Mash, { batch: 'b' });
  await screen.findByText(/The boiling pot holds/);
  expect(screen.getByText(/The mash tub holds/)).toBeTruthy();
  expect(screen.getByText(/5.4 L of sparge water/)).toBeTruthy();
  expect(screen.queryByText(/The charge is 5.0 L/)).toBeNull();
  plan.findings = [];
});

test('first runnings beyond the mash vessel are asked about at the field', async () => {
  vi.spyOn(bench.api, 'post').mockResolvedValue({} as never);
  render(Mash, { batch: 'b' });
  const volume = await screen.findByLabelText('Volume');
  await userEvent.type(volume, '95');
  await screen.findByText(
    /95\.0\sL is more than the mash tub of the plan holds: 90\.0\sL to its brim/,
  );
  await userEvent.type(volume, '99');
  await userEvent.click(screen.getByRole('button', { name: 'Keep this wort' }));
  expect(await screen.findByText(/^“9599” was given; accepted: up to 900\sL/)).toBeTruthy();
  await userEvent.clear(volume);
  await userEvent.type(volume, '0');
  await userEvent.type(within(volume.closest('form')!).getByLabelText('reads'), '1.06');
  await userEvent.click(screen.getByRole('button', { name: 'Keep this wort' }));
  expect(await screen.findByText(/^“0” was given; accepted: a volume over nought/)).toBeTruthy();
  expect(recorded).toEqual([]);
});

test('first runnings told while a step runs leave its clock, and the step in hand', async () => {
  // Another entry than those whose clocks were removed before.
  batch['steps'] = [{ ...milled(Date.now() - 600_000), entry: 'm of the sample' }];
  (batch['mash'] as Record<string, unknown>)['worts'] = [
    { entry: 'w', at: new Date().toISOString(), from: 'first runnings', volume_L_20C: 0.2 },
  ];
  render(Mash, { batch: 'b' });
  await waitFor(() => expect(left_min('Cool to 66')).toBe(80));
  await new Promise((then) => setTimeout(then, 50)); // it is not dropped right after
  expect(left_min('Cool to 66')).toBe(80);
  expect(document.querySelector('.now .what')!.textContent).toMatch(/^Cool to 66/);
  expect(screen.getByRole('button', { name: 'Its clock runs' })).toBeTruthy();
});

test('a step that a wort makes look over says so, and can be opened again', async () => {
  batch['steps'] = [milled(Date.now() - 100 * 60_000)]; // the cooling after it is over by its clock
  (batch['mash'] as Record<string, unknown>)['worts'] = [
    { entry: 'w', at: new Date().toISOString(), from: 'first runnings', volume_L_20C: 20 },
  ];
  render(Mash, { batch: 'b' });
  const note = await screen.findAllByText(/Not marked: taken as over, since wort was drawn/);
  expect(note).toHaveLength(2);
  await userEvent.click(screen.getAllByRole('button', { name: /^Not over/, hidden: true })[0]!);
  expect(recorded[0]).toMatchObject({
    kind: 'step marked',
    body: { step: 'Cool to 66', done: false },
  });
});

test('what the house asks about a wort is shown here', async () => {
  const wort = { entry: 'w', at: new Date().toISOString(), from: 'first runnings' };
  (batch['mash'] as Record<string, unknown>)['worts'] = [wort];
  const why = 'With this 241.0 L of wort were drawn off; all the water planned or told is 76.0 L.';
  batch['puzzles'] = [
    { entry: 'w', why },
    { entry: 'elsewhere', why: 'Something of a run.' },
  ];
  render(Mash, { batch: 'b' });
  expect(await screen.findByText(why)).toBeTruthy();
  expect(screen.queryByText('Something of a run.')).toBeNull();
});

test('a temperature that was read earlier is kept at its time, and advises nothing for now', async () => {
  const post = vi
    .spyOn(bench.api, 'post')
    .mockResolvedValue({ with: 'nothing', at: 'over' } as never);
  render(Mash, { batch: 'b' });
  await userEvent.click(await screen.findByRole('button', { name: 'Temperature' }));
  const pad = within(await screen.findByRole('dialog'));
  await userEvent.click(pad.getByRole('button', { name: 'Earlier than now?' }));
  const field = pad.getByLabelText('It was read at');
  await userEvent.clear(field);
  await userEvent.type(field, '2999-01-01T00:00');
  await userEvent.type(pad.getByRole('textbox'), '66{Enter}');
  expect(recorded).toEqual([]);
  await userEvent.clear(field);
  await userEvent.type(field, '2026-11-20T11:20');
  await userEvent.click(pad.getByRole('button', { name: 'Keep' }));
  await screen.findByText('Kept: 66.0 °C. It stands at 20 November, 11:20.');
  expect(recorded[0]).toMatchObject({
    kind: 'mash temperature',
    at: new Date(2026, 10, 20, 11, 20).toISOString(),
  });
  expect(screen.getByText(/what to do now is told by a reading of now/)).toBeTruthy();
  expect(post).not.toHaveBeenCalled();
});

test('a wort that was kept says what of it, and one that was told can be corrected here', async () => {
  vi.spyOn(bench.api, 'post').mockResolvedValue({} as never);
  const entry = {
    id: 'w',
    batch: 'b',
    stage: 'mash',
    kind: 'wort drawn',
    version: 1,
    at: '2026-11-26T10:00:00.000Z',
    clock_ahead_ms: 0,
    who: '',
    body: {
      from: 'first runnings',
      volume: { volume_L: 22, at_C: 60 },
      gravity: { reading: 1.062, scale: 'specific_gravity', at_C: 20 },
    },
  };
  (batch['mash'] as Record<string, unknown>)['worts'] = [
    {
      entry: 'w',
      at: entry.at,
      from: 'first runnings',
      volume_L_20C: 21.6,
      specific_gravity: 1.062,
      extract_kg: 3,
    },
  ];
  const get = bench.api.get as unknown as ReturnType<typeof vi.fn>;
  get.mockImplementation(async (path: string) =>
    path === '/batches/b/entries'
      ? { entries: [entry] }
      : path === '/batches/b/plan'
        ? plan
        : path === '/batches/b'
          ? batch
          : {},
  );
  render(Mash, { batch: 'b' });
  // The next is offered; what was kept is told in full.
  const from = await screen.findByLabelText<HTMLSelectElement>('From');
  await waitFor(() => expect(from.value).toBe('sparge 1'));
  await userEvent.type(screen.getByLabelText('Volume'), '9.5');
  await userEvent.type(screen.getAllByLabelText('reads').at(-1)!, '1.024');
  await userEvent.click(screen.getByRole('button', { name: 'Keep this wort' }));
  const said = await screen.findByText(/^Kept: sparge 1, /);
  expect(said.textContent).toMatch(/9\.5\sL.*1\.024/);
  expect(said.getAttribute('role')).toBe('status');
  await userEvent.click(
    screen.getByRole('button', { name: /^Correct first runnings, 21\.6\sL at 1\.062/ }),
  );
  const drawer = within(await screen.findByRole('dialog', { name: 'Correct a wort' }));
  await userEvent.clear(drawer.getByLabelText('Volume'));
  await userEvent.type(drawer.getByLabelText('Volume'), '20');
  await userEvent.click(drawer.getByRole('button', { name: 'Correct it' }));
  expect(recorded.at(-1)).toMatchObject({
    corrects: 'w',
    kind: 'wort drawn',
    body: { ...entry.body, volume: { volume_L: 20, at_C: 60 } },
  });
});

test('a mash temperature that was told is corrected where it is shown', async () => {
  const at = new Date(Date.now() - 300_000).toISOString();
  batch['mash'] = {
    ...(batch['mash'] as object),
    temperatures: [{ entry: 't', at, temperature_C: 56.1 }],
  };
  const entry = {
    id: 't',
    batch: 'b',
    stage: 'mash',
    kind: 'mash temperature',
    version: 1,
    at,
    clock_ahead_ms: 0,
    who: '',
    body: { temperature_C: 56.1 },
  };
  const told = vi.mocked(bench.api.get).getMockImplementation()!;
  vi.mocked(bench.api.get).mockImplementation(async (path) =>
    path === '/batches/b/entries' ? ({ entries: [entry] } as never) : told(path),
  );
  render(Mash, { batch: 'b' });
  await userEvent.click(await screen.findByText('Temperatures told: correct one'));
  await userEvent.click(screen.getByRole('button', { name: /^Correct 56\.1/ }));
  const drawer = within(await screen.findByRole('dialog'));
  const field = drawer.getByLabelText(/^Temperature/);
  await userEvent.clear(field);
  await userEvent.type(field, '65.1');
  await userEvent.click(drawer.getByRole('button', { name: 'Correct it' }));
  expect(recorded.at(-1)).toMatchObject({
    kind: 'mash temperature',
    corrects: 't',
    at,
    body: { temperature_C: 65.1 },
  });
});

test('a wort that is typed and not told survives the page being left, with its time, and is forgotten once told', async () => {
  const volume = () => screen.getByLabelText<HTMLInputElement>('Volume');
  const form = () => within(volume().closest('form')!);
  render(Mash, { batch: 'b' });
  await userEvent.type(await screen.findByLabelText('Volume'), '21.5');
  await userEvent.type(form().getByLabelText('reads'), '1.062');
  await userEvent.click(form().getByRole('button', { name: /earlier/i }));
  cleanup();
  set({ units: 'us' });
  render(Mash, { batch: 'b' });
  expect((await screen.findByLabelText<HTMLInputElement>('Volume')).value).toBe('21.5 L');
  expect(form().getByLabelText<HTMLInputElement>('reads').value).toBe('1.062');
  expect(screen.getByLabelText('It was drawn at')).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Keep this wort' }));
  await waitFor(() => expect(recorded.at(-1)?.kind).toBe('wort drawn'));
  expect(recorded.at(-1)!.body['volume']).toEqual({ volume_L: 21.5, at_C: 60 });
  cleanup();
  set({ units: 'metric' });
  render(Mash, { batch: 'b' });
  await screen.findByLabelText('Volume');
  expect(volume().value).toBe('');
  expect(screen.queryByLabelText('It was drawn at')).toBeNull();
});
