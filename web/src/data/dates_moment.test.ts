import { expect, test } from 'vitest';
import { momentText, momentTyped } from './dates';

const noon = new Date(2026, 10, 25, 12, 0).getTime();

test('a moment is typed as it is shown, in the time zone of the device', () => {
  expect(momentText(noon)).toBe('2026-11-25T12:00');
  expect(momentTyped('2026-11-25T12:00', noon + 3_600_000)).toBe(noon);
});

test('a moment that has not been, or is none, is not taken', () => {
  expect(momentTyped('2026-11-25T12:00', noon - 60_001)).toBeUndefined();
  for (const text of ['', 'noon', '2026-11-25', '2026-13-40T12:00', '0026-11-25T12:00']) {
    expect(momentTyped(text, noon)).toBeUndefined();
  }
});
