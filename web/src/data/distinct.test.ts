import { expect, test } from 'vitest';
import { distinct } from './distinct';

test('rows that are alike have keys of their own, and keep them when another comes in before', () => {
  const keys = distinct(['a', 'b', 'a'], (row) => row);
  expect(new Set(keys).size).toBe(3);
  expect(distinct(['c', 'a', 'b', 'a'], (row) => row).slice(1)).toEqual(keys);
});
