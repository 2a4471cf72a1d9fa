import { expect, test } from 'vitest';
import { strengthApart, tooSmall } from './filling';

const plain = (text: string | undefined) => text?.replace(/[\u00a0\u202f]/g, ' ');

test('a size without its unit that makes no bottle is asked about, and named as it was typed', () => {
  // “0.7” was read as 0.7 mL and filled 11 685 bottles.
  expect(plain(tooSmall('0.7', 0.7, 'metric'))).toBe(
    '“0.7” is read as 0.7 mL, and no bottle is so small; accepted: 10 mL or more. Type the unit with it: is “0.7 L” meant?',
  );
  expect(plain(tooSmall('5 mL', 5, 'metric'))).toMatch(/Look at its unit\.$/);
  expect(tooSmall('10', 10, 'metric')).toBeUndefined();
  expect(tooSmall('0.7 L', 700, 'metric')).toBeUndefined();
});

test('a strength more than one %vol off its lot is told, but for what wood hides', () => {
  const glass = { wooded: false, dried: false };
  const wood = { wooded: true, dried: false };
  expect(strengthApart(43, 45.1, glass)).toBe(true);
  expect(strengthApart(44.5, 45.1, glass)).toBe(false);
  expect(strengthApart(46.5, 45.1, glass)).toBe(true);
  // An alcoholmeter reads low over what the wood gave: above, but not below.
  expect(strengthApart(47.5, 45.1, wood)).toBe(false);
  expect(strengthApart(48.5, 45.1, wood)).toBe(true);
  expect(strengthApart(43.5, 45.1, wood)).toBe(true);
  const dried = { wooded: true, dried: true };
  expect(strengthApart(49, 45.1, dried)).toBe(false);
  expect(strengthApart(43, 45.1, dried)).toBe(true);
});
