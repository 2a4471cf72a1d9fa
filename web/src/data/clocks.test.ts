import { beforeEach, expect, test, vi } from 'vitest';
import { Clocks } from './clocks.svelte';

let now: number;
let ringing: boolean;
const open = () =>
  new Clocks(
    (on) => (ringing = on),
    () => now,
  );

beforeEach(() => {
  localStorage.clear();
  now = 1_000_000;
  ringing = false;
});

test('a clock counts down and rings when it has run out, until it is heard', () => {
  const clocks = open();
  const id = clocks.start('Cook maize', 31);
  now += 30 * 60_000;
  clocks.tick();
  expect(clocks.left(clocks.all[0]!)).toBe(60_000);
  expect(ringing).toBe(false);
  now += 61_000;
  clocks.tick();
  expect(ringing).toBe(true);
  clocks.hear(id);
  expect(ringing).toBe(false);
});

test('several clocks run at once', () => {
  const clocks = open();
  clocks.start('Cook maize', 31);
  clocks.start('Boiler', 12);
  now += 12 * 60_000;
  clocks.tick();
  expect(clocks.all.map((c) => clocks.rings(c))).toEqual([false, true]);
});

test('a reload does not stop a clock; one that ran out meanwhile rings', () => {
  open().start('Rest', 90);
  now += 89 * 60_000;
  const later = open();
  expect(later.left(later.all[0]!)).toBe(60_000);
  now += 10 * 60_000;
  const latest = open();
  expect(ringing).toBe(true);
  expect(latest.left(latest.all[0]!)).toBe(-9 * 60_000);
});

test('a held clock keeps what is left, also over a reload', () => {
  const clocks = open();
  const id = clocks.start('Rest', 10);
  now += 4 * 60_000;
  clocks.hold(id);
  now += 60 * 60_000;
  const later = open();
  expect(later.left(later.all[0]!)).toBe(6 * 60_000);
  expect(ringing).toBe(false);
  later.goOn(id);
  now += 60_000;
  later.tick();
  expect(later.left(later.all[0]!)).toBe(5 * 60_000);
});

test('more time after it rang silences it and counts from now', () => {
  const clocks = open();
  const id = clocks.start('Rest', 1);
  now += 5 * 60_000;
  clocks.tick();
  clocks.add(id, 3);
  expect(ringing).toBe(false);
  expect(clocks.left(clocks.all[0]!)).toBe(3 * 60_000);
});

// The rest of one batch stood on the mash page of another as if its own.
test('a clock knows its batch, over a reload, and goes with the step of its own only', () => {
  const clocks = open();
  const [first, other] = ['First go', 'Maize one'].map((name) => ({ batch: name[0]!, name }));
  clocks.start('Rest', 90, first);
  clocks.set('Rest', 60, other!);
  clocks.set('Rest', 30, other!);
  const later = open();
  expect(later.all.map((c) => [c.of?.name, c.length_ms / 60_000])).toEqual([
    ['First go', 90],
    ['Maize one', 30],
  ]);
  later.drop(['Rest'], 'M');
  expect(later.all.map((c) => c.of?.name)).toEqual(['First go']);
});

test('what an entry began counts from there, once, and its end is set right', () => {
  const clocks = open();
  const of = { batch: 'b', name: 'Tern 7' };
  expect(clocks.follow('Rest', 90, of, { by: 'm', from_ms: now - 600_000 })).toBe(true);
  expect(clocks.left(clocks.all[0]!)).toBe(80 * 60_000);
  // The offset to the house is known better by now: this device was 3 min ahead.
  clocks.follow('Rest', 90, of, { by: 'm', from_ms: now - 420_000 });
  expect(clocks.all.map((c) => clocks.left(c))).toEqual([83 * 60_000]);
  clocks.add(clocks.all[0]!.id, 1);
  clocks.follow('Rest', 90, of, { by: 'm', from_ms: now - 420_000 });
  expect(clocks.all.map((c) => clocks.left(c))).toEqual([84 * 60_000]);
  // Of two beginnings the later counts, in whatever order they are heard of.
  clocks.follow('Rest', 60, of, { by: 't', from_ms: now });
  clocks.follow('Rest', 90, of, { by: 'm', from_ms: now - 420_000 });
  expect(clocks.all.map((c) => [c.by, clocks.left(c)])).toEqual([['t', 60 * 60_000]]);
});

test('what is over, or was removed by hand, is not begun again, also after a reload', () => {
  const of = { batch: 'b', name: 'Tern 7' };
  const clocks = open();
  expect(clocks.follow('Rest', 5, of, { by: 'm', from_ms: now - 300_000 })).toBe(false);
  clocks.follow('Rest', 5, of, { by: 'n', from_ms: now });
  clocks.remove(clocks.all[0]!.id);
  const later = open();
  expect(later.follow('Rest', 5, of, { by: 'n', from_ms: now })).toBe(false);
  expect(later.knows('n')).toBe(true);
  expect(later.all).toEqual([]);
});

test('spoilt storage gives no clocks and no fault', () => {
  localStorage.setItem('lynearm-clocks', '[{"id":1},{"name":"x"}]');
  expect(open().all).toEqual([]);
  localStorage.setItem('lynearm-clocks', '{');
  expect(open().all).toEqual([]);
});

test('it ticks by itself while it runs, and no longer', () => {
  vi.useFakeTimers();
  try {
    const clocks = open();
    const stop = clocks.run();
    clocks.start('Rest', 1);
    now += 61_000;
    vi.advanceTimersByTime(300);
    expect(ringing).toBe(true);
    stop();
    expect(ringing).toBe(false);
    vi.advanceTimersByTime(1000);
    expect(ringing).toBe(false);
  } finally {
    vi.useRealTimers();
  }
});

test('a clock set for a forecast moment moves with it, and keeps the time that a hand gave it', () => {
  const clocks = open();
  const of = { batch: 'b', name: 'Tern 8' };
  const at = now + 30 * 60_000;
  clocks.aim('tails near', at, of);
  const ends = () => clocks.all[0]!.ends_ms - at;
  expect(ends()).toBe(0);
  clocks.aimAgain('tails near', at + 5_000, of); // nobody sees it
  expect(ends()).toBe(0);
  clocks.aimAgain('tails near', at - 10 * 60_000, of); // the start was corrected
  expect(ends()).toBe(-10 * 60_000);
  clocks.add(clocks.all[0]!.id, 2);
  clocks.aimAgain('tails near', at, of);
  expect(ends()).toBe(2 * 60_000);
  clocks.aimAgain('tails near', at + 60 * 60_000, { batch: 'other', name: 'Tern 9' });
  expect(ends()).toBe(2 * 60_000);
  clocks.hold(clocks.all[0]!.id);
  clocks.aimAgain('tails near', at + 60 * 60_000, of);
  expect(clocks.all[0]!.left_ms).toBe(32 * 60_000);
});

test('a clock set by hand follows no forecast of its name', () => {
  const clocks = open();
  const of = { batch: 'b', name: 'Tern 8' };
  clocks.start('tails near', 10, of);
  const { ends_ms } = clocks.all[0]!;
  clocks.aimAgain('tails near', now + 60 * 60_000, of);
  expect(clocks.all[0]!.ends_ms).toBe(ends_ms);
});
