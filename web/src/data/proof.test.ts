import { expect, test } from 'vitest';
import { percentTyped } from './measured';
import { percentOfProof, proofOfPercent } from './proof';

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
    expect(percentOfProof(proof)).toBeCloseTo(percent, 3);
});

test('a strength is told in proof as the house tells it, to the tenth that is printed', () => {
  // lynearm gauge --strength "P %vol" --json, its us_proof.
  for (const [percent, proof] of [
    [0, 0],
    [5, 9.96056],
    [20, 39.87024],
    [40, 79.86283],
    [46, 91.87225],
    [55, 109.88456],
    [62.5, 124.89454],
    [73.1, 146.11552],
    [94.9, 189.78552],
    [100, 200],
  ] as const) {
    expect(proofOfPercent(percent)).toBeCloseTo(proof, 3);
    expect(proofOfPercent(percent).toFixed(1)).toBe(proof.toFixed(1));
  }
});

test('what was told in proof is told back as it was', () => {
  for (let proof = 0; proof <= 200; proof += 0.7)
    expect(proofOfPercent(percentOfProof(proof))).toBeCloseTo(proof, 9);
});

test('a true strength may be typed in proof', () => {
  expect(percentTyped('110 proof')).toBeCloseTo(55.058, 2);
  expect(percentTyped('200 proof')).toBe(100);
  expect(percentTyped('201 proof')).toBeUndefined();
  expect(percentTyped('55 %vol')).toBe(55);
});
