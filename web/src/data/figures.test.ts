import { expect, test } from 'vitest';
import {
  bandOf,
  countdown,
  lengthOfTime,
  printed,
  range,
  timeOfDay,
  twoWays,
  typed,
  pointed,
} from './figures';

test('figures are printed with a true minus, grouped thousands and their decimals', () => {
  expect(printed(70.24, 1)).toBe('70.2');
  expect(printed(-0.06, 2)).toBe('\u22120.06');
  expect(printed(-0.001, 2)).toBe('0.00');
  expect(printed(12480.5, 1)).toBe('12\u202f480.5');
  expect(printed(4840)).toBe('4840');
  expect(printed(undefined)).toBe('–');
  expect(printed(Number.NaN, 2)).toBe('–');
});

test('what is printed can be typed back', () => {
  for (const value of [0, -12.5, 73.1, 1234567.25]) expect(typed(printed(value, 2))).toBe(value);
});

test('a comma is a decimal point, and a word is no number', () => {
  expect(typed(' 73,1 ')).toBe(73.1);
  expect(typed('.5')).toBe(0.5);
  for (const text of ['', '.', '1.2.3', '12 kg', '1e3', '0x1', '-']) {
    expect(typed(text)).toBeUndefined();
  }
});

test('an even band is told by one figure, an uneven one by its ends', () => {
  expect(bandOf(0.14, 0.05, 0.23, 2)).toBe('±\u202f0.09');
  expect(bandOf(88, 86, 91, 0)).toBe('(86–91)');
  expect(range(-0.2, 0.1, 1)).toBe('\u22120.2 to 0.1');
});

test('a band never says that there is no doubt', () => {
  expect(bandOf(68.8, 68.76, 68.84, 1)).toBe('±\u202f0.04');
  expect(bandOf(68.8, 68.799, 68.801, 1)).toBe('');
  expect(bandOf(20, 20, 20, 0)).toBe('');
  expect(bandOf(68.84, 68.76, 68.845, 1)).toBe('(68.76–68.84)');
  expect(range(68.76, 68.84, 1)).toBe('68.76–68.84');
});

test('lengths of time are told in words, clocks in digits', () => {
  expect(lengthOfTime(70)).toBe('1 h 10 min');
  expect(lengthOfTime(24.4)).toBe('24 min');
  expect(lengthOfTime(3 * 1440)).toBe('3 days');
  expect(lengthOfTime(59.7)).toBe('1 h');
  expect(countdown(31 * 60_000 + 4100)).toBe('31:05');
  expect(countdown(3_849_000)).toBe('1:04:09');
  expect(countdown(-5)).toBe('0:00');
});

test('a whole minute stays that minute whatever the clocks differ by', () => {
  const minute = new Date(2026, 10, 25, 13, 57).getTime();
  for (const off of [-400, -3, 0, 3, 400]) expect(timeOfDay(minute + off)).toBe('13:57');
  expect(timeOfDay(minute + 59_400)).toBe('13:57');
});

test('a comma that may part thousands is refused, with both figures it may stand for', () => {
  for (const text of ['1,200', ' 12,480', '-1,200', '100,000']) expect(typed(text)).toBeUndefined();
  expect(twoWays('1,200')).toBe('“1,200” can be read in two ways: write 1200 or 1.2.');
  expect(twoWays('1,200 gal')).toBe('“1,200 gal” can be read in two ways: write 1200 or 1.2.');
  expect(twoWays('1,150 ft')).toMatch(/write 1150 or 1\.15\.$/);
  expect(twoWays('2,000 mL')).toMatch(/write 2000 or 2\.0\.$/);
});

test('a comma that can only be a decimal one is read as one', () => {
  const plain: [string, number][] = [
    ['1,2', 1.2],
    ['1,25', 1.25],
    ['1,2000', 1.2],
    ['0,500', 0.5],
    ['1200,125', 1200.125],
    [',500', 0.5],
  ];
  for (const [text, value] of plain) {
    expect(typed(text)).toBe(value);
    expect(twoWays(text)).toBeUndefined();
  }
});

test('decimal commas of a text become points; one that may part thousands stays', () => {
  expect(pointed('6,7 kg')).toBe('6.7 kg');
  expect(pointed('1,5 L @ 32,5 %vol')).toBe('1.5 L @ 32.5 %vol');
  expect(pointed('0,250 kg')).toBe('0.250 kg');
  expect(pointed(',5 g/L')).toBe('.5 g/L');
  expect(pointed('1,234 kg')).toBe('1,234 kg');
  expect(pointed('1.234,5 kg')).toBe('1.234,5 kg');
  expect(pointed('oak, 3 staves')).toBe('oak, 3 staves');
});
