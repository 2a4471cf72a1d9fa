import { expect, test } from 'vitest';
import type { Jar } from '../data/answers';
import { whyJar } from './jar_why';

const filled: Jar = {
  jar: 4,
  notes: [],
  filled: { entry: '', at: '2026-10-07T12:27:00.000Z', who: 'the apprentice' },
  as_filled_mL: 300,
};

test('a jar that is not gauged says the mark it was filled to', () => {
  const why = whyJar(filled);
  expect(why.inputs).toHaveLength(1);
  expect(why.inputs[0]!.value).toMatch(/^300 mL by its mark; .*, the apprentice$/);
  expect(why.model).toContain('not gauged yet');
});

test('a gauged jar says when, and names the tables', () => {
  const why = whyJar({
    ...filled,
    gauged: { entry: '', at: '2026-10-09T08:00:00.000Z' },
    lot: {
      volume_L_20C: 0.299,
      strength_percent_vol: 77.4,
      pure_alcohol_L_20C: 0.2314,
    } as NonNullable<Jar['lot']>,
  });
  expect(why.inputs.map((input) => input.name)).toEqual(['Filled', 'Gauged', 'Pure alcohol']);
  expect(why.inputs.at(-1)!.value).toBe('0.231 L pure');
  expect(why.source).toContain('OIML R 22');
});
