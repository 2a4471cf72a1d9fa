import { expect, test } from 'vitest';
import {
  faultOf,
  gravityRead,
  quoted,
  strengthRead,
  tooLong,
  volumeRead,
  volumeTyped,
  wattsTyped,
} from './measured';

test('a figure is read with its unit, and not beyond what can be meant', () => {
  expect(volumeRead('3,9 L', '20', 'metric')).toEqual({ volume_L: 3.9, at_C: 20 });
  expect(volumeTyped('400', 'metric', 'mL')).toBe(0.4);
  for (const text of ['10 lb', '-5', '99999', 'NaN', '1e999', '9'.repeat(400), ''])
    expect(volumeRead(text, '20', 'metric')).toBeUndefined();
  for (const at of ['10 lb', '4000', '-300', ''])
    expect(volumeRead('3.9', at, 'metric')).toBeUndefined();
  expect(wattsTyped('2.2 kW')).toBe(2200);
  expect(wattsTyped('-5')).toBeUndefined();
});

test('a spirit is gauged on its scale and no warmer than the formula reaches', () => {
  expect(strengthRead('136.4 proof', '68 F', 'metric')).toEqual({
    reading: 136.4,
    scale: 'proof',
    at_C: 20,
  });
  expect(strengthRead('101', '20', 'metric')).toBeUndefined();
  expect(strengthRead('60', '78', 'metric')).toBeUndefined();
  expect(gravityRead('1.062', 'specific_gravity', '20', 'metric')?.reading).toBe(1.062);
  expect(gravityRead('14.2', 'specific_gravity', '20', 'metric')).toBeUndefined();
  expect(gravityRead('14.2', 'brix', '20', 'metric')?.scale).toBe('brix');
});

test('the sentence names what was typed, shortened when it is long', () => {
  expect(faultOf('  ', undefined, 'a volume')).toBe('Nothing was given; accepted: a volume.');
  expect(faultOf('', undefined, 'a volume', false)).toBeUndefined();
  expect(faultOf('warm', undefined, 'a volume', false)).toContain('“warm” was given');
  expect(quoted('9'.repeat(400))).toBe(`“${'9'.repeat(40)}…”`);
  expect(tooLong('né', 3)).toBeUndefined(); // the house counts bytes
  expect(tooLong('née', 3)).toContain('accepted: up to 3');
});
