// When a decision is told: once, by the page's clock or by a reading, also over a reload.
import { flushSync } from 'svelte';
import { expect, test } from 'vitest';
import { timeOfDay } from '../data/figures';
import type { Ahead } from './run_view';
import { dueAt, dueWords, saysAt, Tones, type Tone, type Which } from './tones.svelte';

const MINUTE = 60_000;
const T = Date.parse('2026-11-26T21:00:00Z');
const at = (decision: Ahead['decision'], minutes: number, doubt_min = 9): Ahead => ({
  decision,
  name: decision,
  words: decision,
  at_ms: T + minutes * MINUTE,
  doubt_min,
  why_no_time: undefined,
});
const says = (which: Which, read: boolean) => saysAt(which, 'spirit run', read, '89.8 °C');
const none = new Set<Which>();

test('each jar is smelled from the beginning of the doubt on; other decisions come at the middle', () => {
  expect(dueAt(at('tails_near', 48))).toBe(T + 39 * MINUTE);
  expect(dueAt(at('hearts_end', 48))).toBe(T + 48 * MINUTE);
  expect(dueAt({ ...at('stop', 0), at_ms: undefined })).toBeUndefined();
});

test('a decision sounds once when it is due, stands until it is heard, and never again on a reload', () => {
  const tones = new Tones('r');
  const ahead = [at('tails_near', 48), at('hearts_end', 90)];
  expect(tones.check(ahead, none, T + 38 * MINUTE, says)).toEqual([]);
  expect(tones.check(ahead, none, T + 39 * MINUTE, says)).toHaveLength(1);
  expect(tones.check(ahead, none, T + 40 * MINUTE, says)).toEqual([]);
  expect(tones.standing).toEqual([
    [
      'tails_near',
      {
        at_ms: T + 39 * MINUTE,
        due_ms: T + 48 * MINUTE,
        says: 'Head about 89.8 °C. Tails near, by the forecast. Smell each jar from here.',
      },
    ],
  ]);

  const reloaded = new Tones('r');
  expect(reloaded.check(ahead, none, T + 41 * MINUTE, says)).toEqual([]);
  expect(reloaded.standing.map(([which]) => which)).toEqual(['tails_near']);
  reloaded.hear('tails_near');
  flushSync();
  expect(reloaded.standing).toEqual([]);
  expect(new Tones('r').standing).toEqual([]);
  expect(new Tones('another').check(ahead, none, T + 41 * MINUTE, says)).toHaveLength(1);
});

test('two pages of one device sound once between them', () => {
  const [one, other] = [new Tones('r'), new Tones('r')];
  const ahead = [at('stop', 5)];
  expect(one.check(ahead, none, T + 5 * MINUTE, says)).toHaveLength(1);
  expect(other.check(ahead, none, T + 5 * MINUTE, says)).toEqual([]);
  expect(other.standing).toHaveLength(1);
});

test('a reading that shows the decision has come is told too, but not what had passed before', () => {
  const tones = new Tones('r');
  const passed = new Set<Which>(['heads_end']);
  expect(tones.check([at('hearts_end', 30)], passed, T, says)).toEqual([]);
  passed.add('hearts_end');
  expect(tones.check([at('stop', 60)], passed, T + 20 * MINUTE, says)).toHaveLength(1);
  expect(tones.standing[0]![1].says).toMatch(/^Hearts end, by the readings/);
  expect(tones.check([at('stop', 60)], passed, T + 21 * MINUTE, says)).toEqual([]);
});

test('when the forecast moves a decision well away again, it is told anew when it comes', () => {
  const tones = new Tones('r');
  expect(tones.check([at('hearts_end', 10, 4)], none, T + 10 * MINUTE, says)).toHaveLength(1);
  // A wobble of a few minutes is not a new one.
  expect(tones.check([at('hearts_end', 18, 4)], none, T + 11 * MINUTE, says)).toEqual([]);
  expect(tones.check([at('hearts_end', 18, 4)], none, T + 19 * MINUTE, says)).toEqual([]);
  expect(tones.check([at('hearts_end', 60, 12)], none, T + 20 * MINUTE, says)).toEqual([]);
  expect(tones.standing).toEqual([]);
  expect(tones.check([at('hearts_end', 60, 12)], none, T + 60 * MINUTE, says)).toHaveLength(1);
});

test('the switch is remembered', () => {
  new Tones('r').setSound(false);
  expect(new Tones('another').sound).toBe(false);
  new Tones('r').setSound(true);
  expect(new Tones('another').sound).toBe(true);
});

test('the latest decision overtakes those before, and a pot that runs low stands beside it', () => {
  const tones = new Tones('r');
  const ahead = [at('heads_end', 5), at('hearts_end', 60), at('tails_near', 60)];
  tones.check(ahead, none, T + 5 * MINUTE, says);
  tones.check([...ahead, at('pot_low', 61)], none, T + 60 * MINUTE, says); // came due together
  expect(tones.standing.map(([which]) => which)).toEqual(['pot_low', 'hearts_end']);
  tones.hear('hearts_end');
  expect(tones.standing.map(([which]) => which)).toEqual(['pot_low']);
});

test('the banner tells when it was due, not when a page that was opened late noticed', () => {
  const tones = new Tones('r');
  const ahead = at('hearts_end', 48);
  tones.check([ahead], none, T + 54 * MINUTE, says);
  const [, tone] = tones.standing[0]!;
  const clock = (minutes: number) => timeOfDay(T + minutes * MINUTE);
  expect(dueWords(tone, ahead, T + 54 * MINUTE)).toBe(`Due ${clock(48)}, 6 min ago`);
  // Behind it by a reading, what it was stands.
  expect(dueWords(tone, undefined, T + 60 * MINUTE)).toBe(`Due ${clock(48)}, 12 min ago`);
  expect(dueWords(tone, at('hearts_end', 52), T + 54 * MINUTE)).toBe(`Due ${clock(52)}, 2 min ago`);
  expect(dueWords(tone, ahead, T + 48 * MINUTE)).toBe(`Due ${clock(48)}, now`);
});

test('one told when its band begins is due later, and one that a reading showed was seen', () => {
  const tones = new Tones('r');
  const ahead = at('tails_near', 48);
  tones.check([ahead], none, T + 39 * MINUTE, says);
  const tone: Tone = tones.standing[0]![1];
  expect(dueWords(tone, ahead, T + 39 * MINUTE)).toBe(
    `Due about ${timeOfDay(T + 48 * MINUTE)}, in 9 min`,
  );
  expect(dueWords({ at_ms: T, says: '' }, undefined, T + MINUTE)).toBe(`Seen ${timeOfDay(T)}`);
});

test('what the forecast tells no more goes; without a forecast what was told stands', () => {
  const tones = new Tones('gone');
  const tails = at('tails_near', 90);
  tones.check([at('pot_low', 5), tails], none, T + 5 * MINUTE, says);
  tones.check([], none, T + 6 * MINUTE, says, { whole: false });
  expect(tones.standing.map(([which]) => which)).toEqual(['pot_low']);
  tones.check([{ ...at('pot_low', 0), at_ms: undefined }, tails], none, T + 7 * MINUTE, says);
  expect(tones.standing).toEqual([]);
  expect(new Tones('gone').standing).toEqual([]);
});

test('a corrected start begins anew: nothing of the old one stands, and what comes is told', () => {
  const old = new Tones('begun', '2026-11-26T10:00:00Z');
  expect(old.check([at('first_drops', 5)], none, T + 5 * MINUTE, says)).toHaveLength(1);
  const anew = new Tones('begun', '2026-11-26T10:30:00Z');
  expect(anew.standing).toEqual([]);
  expect(anew.check([at('first_drops', 35)], none, T + 35 * MINUTE, says)).toHaveLength(1);
  // Clocks that agree better by now move it by seconds: that is no correction.
  expect(new Tones('begun', '2026-11-26T10:30:02Z').standing).toHaveLength(1);
});

test('a pot that stands dry is told once, before all that runs low, and again when it does so anew', () => {
  const tones = new Tones('dry');
  const ahead = [at('pot_low', 5), at('stop', 5)];
  const dry = { dry: true };
  expect(tones.check(ahead, none, T + 5 * MINUTE, says, dry)).toContain('heat_off');
  expect(tones.check(ahead, none, T + 6 * MINUTE, says, dry)).toEqual([]);
  expect(tones.standing.map(([which]) => which)).toEqual(['heat_off', 'stop']);
  tones.check(ahead, none, T + 7 * MINUTE, says);
  expect(tones.standing.map(([which]) => which)).toEqual(['pot_low', 'stop']);
  expect(tones.check(ahead, none, T + 8 * MINUTE, says, dry)).toEqual(['heat_off']);
});
