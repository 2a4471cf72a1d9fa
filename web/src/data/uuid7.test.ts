import { expect, test } from 'vitest';
import { makerOfIds } from './uuid7';

const form = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

test('an id has the form of version 7', () => {
  const make = makerOfIds();
  for (let i = 0; i < 1000; ++i) expect(make()).toMatch(form);
});

test('an id holds its time in the first 48 bits, as in the example of RFC 9562, A.6', () => {
  // RFC 9562, A.6: unix_ts_ms 0x017F22E279B0 (2022-02-22 19:22:22 UTC)
  const make = makerOfIds(() => 0x017f22e279b0);
  expect(make().slice(0, 13)).toBe('017f22e2-79b0');
});

test('ids of one page sort in the order they were made, also within a millisecond', () => {
  let time = 1_000_000;
  const make = makerOfIds(() => (Math.random() < 0.001 ? ++time : time));
  const made = Array.from({ length: 9000 }, make);
  expect(made).toEqual([...made].sort());
  expect(new Set(made).size).toBe(made.length);
});

test('a clock that is set back does not break the order', () => {
  const times = [500_000, 400_000, 400_001, 600_000];
  const make = makerOfIds(() => times.shift()!);
  const made = [make(), make(), make(), make()];
  expect(made).toEqual([...made].sort());
});
