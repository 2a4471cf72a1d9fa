import { expect, test } from 'vitest';
import { samplingOf } from './wood_view';

const day = 86_400_000;

test('a sample is due when its day of the calendar has come and it was not drawn', () => {
  const calendar = [3, 11, 26];
  expect(samplingOf(0, 2 * day, calendar, 0)).toEqual({
    days: 2,
    next_day: 3,
    due: false,
    in_ms: day,
    taken: 0,
  });
  // Not from whole days: on day 2 and 23 hours it is in an hour, as the house says too.
  expect(samplingOf(0, 2 * day + 82_800_000, calendar, 0)).toMatchObject({
    days: 2,
    in_ms: 3_600_000,
  });
  expect(samplingOf(0, 12 * day, calendar, 1)).toMatchObject({ next_day: 11, due: true });
  expect(samplingOf(0, 40 * day, calendar, 3)).toMatchObject({ next_day: undefined, due: false });
});
