import { expect, test } from 'vitest';
import {
  CLOCK_STEPS,
  clockMarks,
  columnsOf,
  countSteps,
  curveAt,
  endsOf,
  inScreenUnits,
  thinned,
  tickDecimals,
} from './chart_data';

const curve = { x: [0, 10, 20], middle: [80, 70, 50], low: [79, 68, 46], high: [81, 72, 54] };

test('curve and points share one axis, and the curve is straight between its points', () => {
  const [x, high, low, middle, believed, doubted] = columnsOf(curve, [
    { x: 15, y: 61, believed: true },
    { x: 5, y: 37, believed: false },
  ]);
  expect(x).toEqual([0, 5, 10, 15, 20]);
  expect(middle).toEqual([80, 75, 70, 60, 50]);
  expect(low).toEqual([79, 73.5, 68, 57, 46]);
  expect(high).toEqual([81, 76.5, 72, 63, 54]);
  expect(believed).toEqual([null, null, null, 61, null]);
  expect(doubted).toEqual([null, 37, null, null, null]);
});

test('in US units both axes are: litres over become gallons, a doubt keeps no offset', () => {
  const told = {
    curve: { x: [0, 3.785411784], middle: [60, 70] },
    measured: [{ x: 3.785411784, y: 100, believed: true }],
    decisions: [{ x: 3.785411784, label: 'stop', doubt: 0.3785411784 }],
    now: 3.785411784,
  };
  const [x, y] = [
    { unit: 'L', decimals: 2 },
    { unit: '°C', decimals: 1 },
  ];
  const us = inScreenUnits(told, x, y, 'us');
  expect([us.x.unit, us.y.unit]).toEqual(['gal', '°F']);
  expect(us.curve.x[1]).toBeCloseTo(1, 12);
  expect(us.curve.middle).toEqual([140, 158]);
  expect(us.measured[0]).toEqual({ x: us.now, y: 212, believed: true });
  expect(us.decisions[0]!.doubt).toBeCloseTo(0.1, 12);
  expect(inScreenUnits(told, x, y, 'both')).toEqual({ ...told, x, y });
});

test('a point beyond the curve does not lengthen it', () => {
  const [x, , , middle] = columnsOf(curve, [{ x: 30, y: 40, believed: true }]);
  expect(x.at(-1)).toBe(30);
  expect(middle!.at(-1)).toBeNull();
  expect(curveAt(curve, 30)).toBeUndefined();
  expect(curveAt(curve, 15)).toBe(60);
});

test('a curve without band, or no curve at all, is drawn without', () => {
  const [, high] = columnsOf({ x: [0, 1], middle: [1, 2] }, []);
  expect(high).toEqual([null, null]);
  expect(columnsOf({ x: [], middle: [] }, [])[0]).toEqual([]);
});

test('thinning keeps the first and the last point', () => {
  expect(thinned(5, 15)).toEqual([0, 1, 2, 3, 4]);
  const kept = thinned(1000, 15);
  expect(kept).toHaveLength(15);
  expect([kept[0], kept.at(-1)]).toEqual([0, 999]);
});

test('marks of a clock are whole by the clock on the wall, also where it goes by half hours', () => {
  const at = (time: string) => Date.parse(`2026-11-26T${time}:00Z`);
  expect(clockMarks(at('08:53'), at('09:25'), 10 * 60_000, 0)).toEqual(
    ['09:00', '09:10', '09:20'].map(at),
  );
  // 05:30 ahead: 14:00 on the wall is 08:30.
  expect(clockMarks(at('08:10'), at('10:00'), 3_600_000, -330)).toEqual(['08:30', '09:30'].map(at));
  expect(CLOCK_STEPS.slice(0, 6).map((ms) => ms / 60_000)).toEqual([1, 2, 5, 10, 15, 30]);
});

test('days are marked whole, once there are two', () => {
  expect(Math.min(...countSteps(6))).toBe(1);
  expect(Math.min(...countSteps(0.8))).toBeLessThan(0.5);
});

test('the axis holds what was measured, with room for its dot', () => {
  const [low, high] = endsOf(0, 6.4, [0.5, 6.4], 1);
  expect(low).toBe(0);
  expect(high).toBeCloseTo(6.592);
  expect(endsOf(0, 6.4, [3], 1)).toEqual([0, 6.4]);
  expect(endsOf(2, 2, [2], 1)).toEqual([1.5, 2.5]);
});

test('a mark of an axis is told with as many decimals as it needs', () => {
  expect([5, 2.5, 0.1, 0.25, 0.025, 0.005, 20].map(tickDecimals)).toEqual([0, 1, 1, 2, 3, 3, 0]);
  expect(tickDecimals(1.125 - 1.1)).toBe(3); // as sums of fractions come out
});
