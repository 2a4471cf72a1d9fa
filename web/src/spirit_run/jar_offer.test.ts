import { expect, test } from 'vitest';
import type { Run } from '../data/answers';
import { newEntry } from '../data/entry';
import { volumeToOffer } from './jar_offer';

const jar = (n: number, as_filled_mL?: number) => ({
  jar: n,
  notes: [],
  filled: { entry: `f${n}`, at: '2026-11-20T10:00:00.000Z' },
  ...(as_filled_mL === undefined ? {} : { as_filled_mL }),
});
const runOf = (...jars: ReturnType<typeof jar>[]) =>
  ({ entry: 'r', charge_L_20C: 30, jars, readings: [] }) as unknown as Run;
const filled = (n: number, volume_mL: number, corrects?: string) =>
  newEntry({
    stage: 'spirit run',
    kind: 'jar filled',
    who: '',
    body: { run: 'r', jar: n, volume_mL },
    ...(corrects ? { corrects } : {}),
  });
const none = new Set<string>();

test('the last jar’s volume is offered again', () => {
  expect(volumeToOffer(runOf(jar(1, 500), jar(2, 450), jar(3)), [], none)).toBe(450);
  expect(volumeToOffer(runOf(jar(1, 500)), [filled(2, 400)], none)).toBe(400);
});

test('a slip that is doubted or asked about is not offered again', () => {
  // 15 000 mL for 1500 mL: one tap for each next jar told it again.
  expect(volumeToOffer(runOf(jar(1, 15_000)), [], new Set(['f1']))).toBeUndefined();
  expect(volumeToOffer(runOf(jar(1, 500), jar(2, 15_000)), [], new Set(['f2']))).toBe(500);
  const here = filled(2, 15_000);
  expect(volumeToOffer(runOf(jar(1, 500)), [here], new Set([here.id]))).toBe(500);
});

test('more than was charged is no volume of a jar', () => {
  expect(volumeToOffer(runOf(jar(1, 500), jar(2, 50_000)), [], none)).toBe(500);
  expect(volumeToOffer(runOf(jar(1, 500)), [filled(2, 50_000)], none)).toBe(500);
});

test('what was corrected on this device counts as it was corrected', () => {
  expect(volumeToOffer(runOf(jar(1, 15_000)), [filled(1, 1500, 'f1')], new Set(['f1']))).toBe(1500);
});
