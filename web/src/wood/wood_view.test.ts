import { expect, test } from 'vitest';
import {
  caskName,
  caskTime,
  hasCourse,
  inVessel,
  lastLeakTest,
  leakNote,
  leaks,
  leakTests,
  noStaves,
  noWood,
  samplingOf,
  woodFaults,
  woodText,
  woodTyped,
} from './wood_view';

const day = 86_400_000;
const calendar = [3, 11, 26];
const drawn = (...days: number[]) =>
  days.map((d) => ({ entry: `s${d}`, day: d, volume_L_20C: 0.02 }));

test('the cask that others are held against is named in the units that are set', () => {
  expect(caskName('metric')).toBe('200\u00a0L cask');
  expect(caskName('us')).toBe('53\u00a0gal cask'); // 200 L are 52.8 gal
  expect(caskName('both')).toBe('200\u00a0L (53\u00a0gal) cask');
});

test('a sample is due when its day of the calendar has come and it was not drawn', () => {
  expect(samplingOf(0, 2 * day, calendar, [])).toMatchObject({
    days: 2,
    next_day: 3,
    due: false,
    in_ms: day,
  });
  // Not from whole days: on day 2 and 23 hours it is in an hour, as the house says too.
  expect(samplingOf(0, 2 * day + 82_800_000, calendar, [])).toMatchObject({
    days: 2,
    in_ms: 3_600_000,
  });
  expect(samplingOf(0, 12 * day, calendar, drawn(3.2))).toMatchObject({ next_day: 11, due: true });
  expect(samplingOf(0, 40 * day, calendar, drawn(3, 11, 26))).toMatchObject({
    next_day: undefined,
    due: false,
  });
});

test('each day of the calendar tells what was drawn; a sample besides it stands by itself', () => {
  const rows = samplingOf(0, 12 * day, calendar, drawn(1, 10.7)).rows;
  expect(rows.map((r) => [r.day, r.standing, r.drawn.length])).toEqual([
    [undefined, 'drawn', 1],
    [3, 'not drawn', 0],
    [11, 'drawn', 1],
    [26, 'ahead', 0],
  ]);
  expect(samplingOf(0, 12 * day, calendar, drawn(3)).rows[1]?.standing).toBe('due');
});

test('wood is named as in the tables', () => {
  const tables = {
    species: [{ id: 'american-oak', name: 'American white oak, Quercus alba' }],
    toasts: [{ id: 'medium', name: 'Medium toast' }],
  };
  const wood = { in: 'staves', species: 'american-oak', toast: 'medium', staves: 4 };
  expect(woodText(wood, tables)).toBe('American white oak, medium toast, 4 staves');
  expect(woodText({ in: 'the little cask', species: 'pine' }, tables)).toBe(
    'pine, the little cask',
  );
  const besides = [{ staves: 1, species: 'american-oak', used_times: 1 }];
  expect(woodText({ in: 'the little cask', species: 'pine', besides }, tables)).toBe(
    'pine, the little cask; with American white oak, 1 stave, used once before',
  );
});

test('the time of a cask is told in days, months or years', () => {
  expect(caskTime(0.02)).toEqual({ median: expect.closeTo(7.3, 1), unit: 'days' });
  expect(caskTime(1.5)).toEqual({ median: 18, unit: 'months' });
  expect(caskTime(8)).toEqual({ median: 8, unit: 'years' });
  expect(caskTime(undefined).median).toBeUndefined();
});

test('wood is told as it was typed, or its faults', () => {
  const texts = { ...noWood(), in: ' oak 3 ', species: 'oak' };
  expect(woodTyped(texts)).toEqual({ in: 'oak 3', species: 'oak' });
  expect(woodTyped({ ...texts, in: 'staves', staves: '2', used: '1' })).toEqual({
    in: 'staves',
    species: 'oak',
    staves: 2,
    used_times: 1,
  });
  // What was planned of staves is not meant of a cask.
  expect(woodTyped({ ...texts, staves: '2' })?.staves).toBeUndefined();
  expect(woodTyped({ ...texts, in: 'staves', staves: '2.5' })).toBeUndefined();
  expect(woodFaults({ ...texts, in: ' ' }).in).toMatch(/accepted: a cask/);
});

test('other staves in the same vessel are told besides, each with its count', () => {
  const one = { ...noStaves(), staves: '3', toast: 'light', used: '2' };
  const texts = { ...noWood(), in: 'oak 3', besides: [one, { ...one, staves: '0' }] };
  expect(woodTyped(texts)).toBeUndefined();
  expect(woodFaults(texts).besides[0]).toBeUndefined();
  expect(woodFaults(texts).besides[1]).toMatch(/accepted: a whole number of staves/);
  expect(woodFaults({ ...texts, besides: [noStaves()] }).besides[0]).toMatch(/Nothing was given/);
  expect(woodTyped({ ...texts, besides: [one] })).toEqual({
    in: 'oak 3',
    besides: [{ staves: 3, toast: 'light', used_times: 2 }],
  });
});

test('the last leak test of a cask is found among the notes', () => {
  const note = (at: string, text: string) => ({ entry: at, at, text }) as never;
  const notes = [
    note('2026-10-02T00:00:00Z', leakNote('oak 3', 48, 'holds', 'tight')),
    note('2026-10-01T00:00:00Z', leakNote('oak 3', 24, 'leaks', '')),
    note('2026-10-03T00:00:00Z', leakNote('oak 30', 24, 'leaks', '')),
    note('2026-10-04T00:00:00Z', 'thin yet'),
  ];
  expect(leakTests(notes)).toHaveLength(3);
  const last = lastLeakTest(notes, 'oak 3')!;
  expect(last.text).toBe('Leak test of oak 3: water stood in it for 48 h; it holds. tight');
  expect(leaks(last)).toBe(false);
  expect(leaks(lastLeakTest(notes, 'oak 30')!)).toBe(true);
  expect(lastLeakTest(notes, 'oak')).toBeUndefined();
});

test('where vessel and journal differ, it is told where the rest went', () => {
  const band = (median: number) => ({ low: median, median, high: median });
  const forecast = (there: number, gone: number, soaked: number) =>
    ({
      now: { volume_L_20C: band(there), evaporated_L_20C: band(gone) },
      soaked_L_20C: soaked,
      why_air: { what: 'air' },
    }) as never;
  const lot = (volume_L_20C: number, ...uses: string[]) =>
    ({ left: { volume_L_20C }, uses: uses.map((where) => ({ where })) }) as never;
  const mL = (value: number) => `${value.toFixed(0)} mL`;
  expect(inVessel(forecast(4.97, 0, 0.0745), lot(5.046), mL)).toMatchObject({
    there_L: 4.97,
    words: 'the wood drinks 75 mL at once; the journal takes that off when it is gauged.',
  });
  expect(inVessel(forecast(4.9, 0.07, 0.0745), lot(5.046), mL)?.words).toMatch(
    /75 mL at once, and the air has taken about 70 mL; /,
  );
  expect(inVessel(forecast(4.9, 0.07, 0.0745), lot(4.95, 'gauging'), mL)?.words).toMatch(/gauging/);
  expect(inVessel(forecast(5.046, 0, 0), lot(5.046), mL)).toBeUndefined();
});

test('a course that is one point, at nothing, is not drawn', () => {
  const point = (days: number, high: number) => ({
    days,
    extract_fraction: { low: 0, median: high / 2, high },
  });
  const has = (...course: ReturnType<typeof point>[]) => hasCourse({ course } as never);
  expect(has()).toBe(false);
  expect(has(point(0, 0))).toBe(false);
  expect(has(point(0, 0), point(0, 0))).toBe(false);
  expect(has(point(0, 0), point(0.02, 0.0001))).toBe(false);
  expect(has(point(0, 0), point(1, 0.02))).toBe(true);
});
