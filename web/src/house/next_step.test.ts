import { expect, test } from 'vitest';
import type { NextStep } from '../data/answers';
import { away } from '../data/figures';
import { dueText, inOrder, sinceIsTold, slugOf, whenOf } from './next_step';

const next = (change: Partial<NextStep> = {}): NextStep => ({
  what: 'Read the ferment',
  stage: 'ferment',
  since: '2026-11-20T08:00:00.000Z',
  standing: 'waits',
  ...change,
});
const due = { due: '2026-11-21T08:00:00.000Z', late_after: '2026-11-22T08:00:00.000Z' };
const at = (text: string) => Date.parse(text);

test('a stage is found at its address, and what has none is on the batch’s page', () => {
  expect(slugOf(next({ stage: 'spirit run' }))).toBe('spirit-run');
  expect(slugOf({ what: 'Closed', since: '', standing: 'done' })).toBeUndefined();
});

test('what is due lies ahead, is due, or is overdue', () => {
  expect(whenOf(next(due), at('2026-11-21T07:59:00Z'))).toBe('ahead');
  expect(whenOf(next(due), at('2026-11-21T08:00:00Z'))).toBe('due');
  expect(whenOf(next(due), at('2026-11-22T08:00:00Z'))).toBe('late');
  expect(whenOf(next(), at('2026-11-22T08:00:00Z'))).toBe('unknown');
  expect(whenOf(next({ ...due, standing: 'done' }), at('2026-11-22T08:00:00Z'))).toBe('unknown');
});

test('the time is told by the device’s clock, which may be ahead of the house’s', () => {
  const ahead_ms = 10 * 60_000;
  const device = at('2026-11-21T05:10:00Z'); // 05:00 at home: three hours before
  expect(dueText(next(due), device, ahead_ms)).toMatch(/^due 21 November, \d\d:10 \(in 3 h\)$/);
  expect(dueText(next(due), at('2026-11-23T08:00:00Z'), 0)).toMatch(/^overdue: it was due 21 Nov/);
  expect(dueText(next(due), at('2026-11-21T09:00:00Z'), 0)).toMatch(/^due now, since 21 November/);
  expect(dueText(next(), device, 0)).toBe('');
});

test('a length of time is told in one figure', () => {
  expect([40 * 60_000, -5 * 3_600_000, 75 * 3_600_000].map(away)).toEqual([
    '40 min',
    '5 h',
    '3 days',
  ]);
});

test('a step that is due in the minute since which it is next tells that time once', () => {
  const seconds = next({ since: '2026-11-21T08:00:12.345Z', due: '2026-11-21T08:00:40.000Z' });
  expect(sinceIsTold(seconds, at('2026-11-21T09:00:00Z'), 600_000)).toBe(true);
  expect(sinceIsTold(next(due), at('2026-11-21T09:00:00Z'), 0)).toBe(false);
  expect(sinceIsTold(next(), at('2026-11-21T09:00:00Z'), 0)).toBe(false);
});

test('stills that are on come first, then what is overdue, what is due soonest, what is done', () => {
  const now = at('2026-11-25T00:00:00Z');
  const lines = [
    { id: 'done', next: next({ standing: 'done' }) },
    { id: 'no time', next: next() },
    { id: 'later', next: next({ due: '2026-11-28T08:00:00.000Z' }) },
    { id: 'soon', next: next({ due: '2026-11-25T08:00:00.000Z' }) },
    { id: 'late', next: next(due) },
    { id: 'on', next: next({ standing: 'now' }) },
  ];
  expect(inOrder(lines, now).map((one) => one.id)).toEqual([
    'on',
    'late',
    'soon',
    'later',
    'no time',
    'done',
  ]);
});
