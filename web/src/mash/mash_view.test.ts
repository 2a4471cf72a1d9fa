import { expect, test } from 'vitest';
import type { Batch, Plan } from '../data/answers';
import type { Entry } from '../data/entry';
import {
  clocksOver,
  courseOf,
  courseStart,
  drawnOf,
  nowOf,
  overByWort,
  stepsOf,
  temperaturesOf,
} from './mash_view';

const step = (what: string, beside = false, stage = 'Mash') => ({
  stage,
  what,
  start_min: 0,
  clock: 'day 1 08:00',
  length_min: 10,
  attention: 'watch',
  beside,
});
const plan = {
  timeline: {
    steps: [
      step('Mill'),
      step('Cook'),
      step('Heat sparge water', true),
      step('Stir in the malts at 68.8 °C; it settles at 65.5 °C'),
      step('Rest'),
      step('Boil sugar', true),
      step('Drain'),
      step('Pitch', false, 'Ferment'),
    ],
  },
  mash: {
    course: [
      { at_min: 0, temperature_C: 12, phase: 'heating' },
      { at_min: 100, temperature_C: 65.5, phase: 'resting' },
      { at_min: 190, temperature_C: 62.1, phase: 'resting' },
    ],
  },
} as unknown as Plan;
const marked = (step: string, at: string, done = true) => ({
  entry: step,
  at,
  stage: 'mash',
  step,
  done,
});
const batch = (...steps: ReturnType<typeof marked>[]) =>
  ({
    steps,
    mash: { temperatures: [{ entry: 't', at: '2026-11-17T11:27:00Z', temperature_C: 66.1 }] },
  }) as unknown as Batch;
const stir = 'Stir in the malts at 68.8 °C; it settles at 65.5 °C';

test('one step is in hand, those beside it stand with it, and the next two follow', () => {
  const now = nowOf(stepsOf(plan, batch(marked('Mill', '2026-11-17T08:30:00Z')), [], 0));
  expect(now.step?.what).toBe('Cook');
  expect(now.beside.map((s) => s.what)).toEqual(['Heat sparge water']);
  expect(now.next.map((s) => s.what)).toEqual([stir, 'Rest']);
});

test('a step beside that was not marked stays open, and a mark on this device counts', () => {
  const mark: Entry = {
    id: 'm',
    stage: 'mash',
    kind: 'step marked',
    version: 1,
    at: '2026-11-17T10:00:00.000Z',
    clock_ahead_ms: 0,
    who: '',
    body: { step: 'Cook', done: true },
  };
  const steps = stepsOf(plan, batch(marked('Mill', '2026-11-17T08:30:00Z')), [mark], 0);
  const now = nowOf(steps);
  expect(now.step?.what).toBe(stir);
  expect(now.beside.map((s) => s.what)).toEqual(['Heat sparge water']);
});

test('a step that is marked as not done is open again', () => {
  const steps = stepsOf(plan, batch(marked('Mill', '2026-11-17T08:30:00Z', false)), [], 0);
  expect(nowOf(steps).step?.what).toBe('Mill');
});

test('a step that nobody marked is behind when a later one is done', () => {
  const now = nowOf(stepsOf(plan, batch(marked(stir, '2026-11-17T11:40:00Z')), [], 0));
  expect(now.step?.what).toBe('Rest');
  expect(now.beside.map((s) => s.what)).toEqual(['Heat sparge water', 'Boil sugar']);
});

test('when all is done nothing is in hand', () => {
  const all = plan.timeline.steps.map((s) => marked(s.what, '2026-11-17T08:30:00Z'));
  expect(nowOf(stepsOf(plan, batch(...all), [], 0))).toEqual({
    step: undefined,
    beside: [],
    next: [],
  });
});

test('the planned course is laid where the malts went in', () => {
  const steps = stepsOf(plan, batch(marked(stir, '2026-11-17T11:40:00Z')), [], 60_000);
  const start = courseStart(plan, steps);
  expect(start).toBe(Date.parse('2026-11-17T10:01:00Z'));
  expect(courseOf(plan, start).x[1]).toBe(Date.parse('2026-11-17T11:41:00Z'));
  expect(courseOf(plan, undefined).x).toEqual([]);
  expect(temperaturesOf(batch(), [], 60_000)[0]!.x).toBe(Date.parse('2026-11-17T11:28:00Z'));
});

test('a wort that was drawn ends its run-off, told at home or only here', () => {
  const steps = ['Rest', 'Drain', 'Sparge with 18.0 L', 'Sparge with 15.0 L', 'Cool the wort'];
  const water = 'Heat 33 L of sparge water';
  const sparged = {
    ...plan,
    timeline: {
      steps: [...steps.slice(0, 1), water, ...steps.slice(1)].map((s) => step(s, s === water)),
    },
  } as unknown as Plan;
  const told = stepsOf(sparged, batch(marked('Rest', '2026-11-17T13:00:00Z')), [], 0);
  const drawn = (...from: string[]) =>
    drawnOf({ mash: { worts: from.map((f) => ({ from: f })) } } as unknown as Batch, []);
  expect(nowOf(told).step?.what).toBe('Drain');
  const first = nowOf(told, drawn('first runnings', 'sugar'));
  expect(first.step?.what).toBe('Sparge with 18.0 L');
  expect(first.beside.map((s) => s.what)).toEqual([water]);
  // Its water was asked for when both sparges were done and the mash was over.
  const last = nowOf(told, drawn('first runnings', 'sparge 1', 'sparge 2'));
  expect(last.step?.what).toBe('Cool the wort');
  expect(last.beside).toEqual([]);
  const queued = { kind: 'wort drawn', body: { from: 'first runnings' } } as unknown as Entry;
  expect(drawnOf(undefined, [queued])).toBe(1);
});

test('a wort drawn to be looked at ends no step whose clock still runs', () => {
  const steps = ['Stir', 'Rest', 'Drain', 'Sparge with 18.0 L', 'Cool the wort'];
  const mash = { ...plan, timeline: { steps: steps.map((s) => step(s)) } } as unknown as Plan;
  const told = stepsOf(mash, batch(marked('Stir', '2026-11-17T13:00:00Z')), [], 0);
  const running = new Set(['Rest']);
  expect(nowOf(told, 1, running).step?.what).toBe('Rest');
  expect(overByWort(told, nowOf(told, 1, running))).toEqual([]);
  // Neither the wort of a sparge: the rest first.
  expect(nowOf(told, 2, running).step?.what).toBe('Rest');
  // Its clock is over: then whoever drained did not mark it, and it can be opened again.
  const after = nowOf(told, 1);
  expect(after.step?.what).toBe('Sparge with 18.0 L');
  expect(overByWort(told, after).map((s) => s.what)).toEqual(['Rest', 'Drain']);
  // The clock of a run-off whose wort is drawn runs for nothing.
  expect(nowOf(told, 1, new Set(['Drain'])).step?.what).toBe('Sparge with 18.0 L');
  expect(clocksOver(told, 1)).toEqual(['Stir', 'Drain']);
  expect(clocksOver(told, 0)).toEqual(['Stir']);
  const rested = stepsOf(mash, batch(marked('Rest', '2026-11-17T14:00:00Z')), [], 0);
  expect(nowOf(rested, 1, running).step?.what).toBe('Sparge with 18.0 L');
  expect(clocksOver(rested, 1)).toEqual(['Stir', 'Rest', 'Drain']);
  const done = stepsOf(mash, batch(...steps.map((s) => marked(s, '2026-11-17T14:00:00Z'))), [], 0);
  expect(clocksOver(done, 0)).toEqual(steps);
});

test('a temperature told stands as it was corrected here, at its own time, and not once it is struck', () => {
  const at = (hour: string) => `2026-11-17T${hour}:00.000Z`;
  const told = {
    mash: { temperatures: [{ entry: 'home', at: at('11:27'), temperature_C: 65.1 }] },
  } as unknown as Batch;
  const entry = (id: string, when: string, temperature_C: number, corrects?: string) =>
    ({
      id,
      kind: 'mash temperature',
      at: at(when),
      clock_ahead_ms: 0,
      body: { temperature_C },
      ...(corrects ? { corrects } : {}),
    }) as unknown as Entry;
  const shown = (...waiting: Entry[]) =>
    temperaturesOf(told, waiting, 0).map(({ x, y }) => [new Date(x).toISOString(), y]);
  const here = entry('here', '11:40', 63);
  expect(shown(here)).toEqual([
    [at('11:27'), 65.1],
    [at('11:40'), 63],
  ]);
  expect(shown(here, entry('c', '11:10', 64, 'here'), entry('d', '11:27', 56.1, 'home'))).toEqual([
    [at('11:10'), 64],
    [at('11:27'), 56.1],
  ]);
  const struck = { id: 's', kind: 'struck', corrects: 'home', body: {} } as unknown as Entry;
  expect(shown(here, struck)).toEqual([[at('11:40'), 63]]);
});
