import { expect, test } from 'vitest';
import type { Batch } from '../data/answers';
import { addedSincePitch, notInTheForecast } from './added_since';

const batch = (...additions: [string, string][]) =>
  ({
    ferment: { pitch: { at: '2026-11-02T10:00:00Z' }, racked: { at: '2026-11-12T10:00:00Z' } },
    additions: additions.map(([at, what]) => ({ at, what, entry: at, stage: 'ferment' })),
  }) as unknown as Batch;

test('the forecast does not know what went in between pitch and racking, and that is said', () => {
  const told = batch(
    ['2026-11-02T09:00:00Z', 'yeast food'],
    ['2026-11-04T09:00:00Z', 'sugar'],
    ['2026-11-05T09:00:00Z', 'water'],
    ['2026-11-06T09:00:00Z', 'sugar'],
    ['2026-11-06T10:00:00Z', 'antifoam'],
    ['2026-11-13T09:00:00Z', 'finings'],
  );
  expect(addedSincePitch(told)).toEqual(['sugar', 'water']);
  expect(notInTheForecast(told)).toMatch(/^Sugar and water went in after the pitch/);
  expect(notInTheForecast(batch(['2026-11-01T09:00:00Z', 'malt']))).toBe('');
  expect(notInTheForecast(undefined)).toBe('');
});
