import { expect, test } from 'vitest';
import { percentTyped } from './measured';
import { percentOfProof } from './proof';

test('proof is told as the house reckons it, also between the tens', () => {
  // lynearm blend --part "1 L @ P proof": OIML R 22 at 60 °F and 20 °C.
  for (const [proof, percent] of [
    [0, 0],
    [100, 50.0609],
    [110, 55.0577],
    [195, 97.5026],
    [199, 99.5],
    [200, 100],
  ] as const)
    expect(percentOfProof(proof)).toBeCloseTo(percent, 2);
});

test('a true strength may be typed in proof', () => {
  expect(percentTyped('110 proof')).toBeCloseTo(55.058, 2);
  expect(percentTyped('200 proof')).toBe(100);
  expect(percentTyped('201 proof')).toBeUndefined();
  expect(percentTyped('55 %vol')).toBe(55);
});
