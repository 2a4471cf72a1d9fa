// Zones as the law of each has them; here reckoned by rules written out, so that the test does not
// hang on the zone of the machine.
import { describe, expect, it } from 'vitest';
import { clockBetween, clockQuery } from './clock';

const back = Date.parse('2026-10-25T01:00:00Z'); // Central Europe, last Sunday of October 2026
const on = Date.parse('2027-03-28T01:00:00Z');
const central = (ms: number): number => (ms >= back && ms < on ? 60 : 120);

describe('the clock of a record', () => {
  it('has no turn while the clock stayed', () => {
    const clock = clockBetween(Date.parse('2026-10-01T07:00:00Z'), back - 1, central);
    expect(clock).toEqual({ minutes_east: 120, turns: [] });
    expect(clockQuery(clock)).toBe('minutes_east=120');
  });

  it('finds each moment at which it was put on or back', () => {
    const from = Date.parse('2026-10-07T06:30:00Z');
    const clock = clockBetween(from, Date.parse('2027-04-02T12:00:00Z'), central);
    expect(clock.minutes_east).toBe(120);
    expect(clock.turns).toEqual([
      { at_ms: back, minutes_east: 60 },
      { at_ms: on, minutes_east: 120 },
    ]);
    expect(decodeURIComponent(clockQuery(clock))).toBe(
      'minutes_east=120&clock_turns=60@2026-10-25T01:00:00.000Z,120@2027-03-28T01:00:00.000Z',
    );
  });

  it('keeps the last turns when there are more than the server takes', () => {
    const day = 86_400_000;
    const daily = (ms: number): number => (Math.floor(ms / day) % 2) * 60;
    const clock = clockBetween(0, 100.5 * day, daily);
    expect(clock.turns).toHaveLength(64);
    expect(clock.turns.at(-1)).toEqual({ at_ms: 100 * day, minutes_east: 0 });
    expect(clock.minutes_east).toBe(daily((clock.turns[0]?.at_ms ?? NaN) - 1));
  });
});
