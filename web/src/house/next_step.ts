// What a batch needs next is the house's word; here it becomes a link, a day in words and an order.
import type { NextStep } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { away } from '../data/figures';

/** The address of a stage by the trade's word for it: "spirit run" lives at spirit-run. */
export const slugOf = (next: NextStep): string | undefined => next.stage?.replaceAll(' ', '-');

export type When = 'late' | 'due' | 'ahead' | 'unknown';

/** How its time stands to now, both by the house's clock. */
export function whenOf(next: NextStep, house_ms: number): When {
  if (next.due === undefined || next.standing === 'done') return 'unknown';
  if (house_ms < Date.parse(next.due)) return 'ahead';
  return next.late_after !== undefined && house_ms >= Date.parse(next.late_after) ? 'late' : 'due';
}

/** Whether the moment since which it is next is told already, as that at which it is due. */
export const sinceIsTold = (next: NextStep, device_ms: number, ahead_ms: number): boolean =>
  next.due !== undefined &&
  dayAndTime(Date.parse(next.due) + ahead_ms, device_ms) ===
    dayAndTime(Date.parse(next.since) + ahead_ms, device_ms);

/** "due 28 November, 09:10 (in 5 h)"; "overdue since 27 November, 09:10". Device times are told. */
export function dueText(next: NextStep, device_ms: number, ahead_ms: number): string {
  if (next.due === undefined) return '';
  const due_ms = Date.parse(next.due) + ahead_ms;
  const said = dayAndTime(due_ms, device_ms);
  switch (whenOf(next, device_ms - ahead_ms)) {
    case 'late':
      return `overdue: it was due ${said}`;
    case 'due':
      return `due now, since ${said}`;
    case 'ahead':
      return `due ${said} (in ${away(due_ms - device_ms)})`;
    default:
      return '';
  }
}

/** The order of a morning: stills that are on or stopped, then what is overdue, then what is due
 *  soonest, then what has no time, the latest first, then what is done. */
export function inOrder<Line extends { next: NextStep }>(
  lines: readonly Line[],
  house_ms: number,
): Line[] {
  const rank = (next: NextStep) => {
    if (next.standing === 'now') return 0;
    if (next.standing === 'done') return 4;
    const when = whenOf(next, house_ms);
    return when === 'late' ? 1 : when === 'unknown' ? 3 : 2;
  };
  return [...lines].sort(
    (a, b) =>
      rank(a.next) - rank(b.next) ||
      (a.next.due ?? '').localeCompare(b.next.due ?? '') ||
      b.next.since.localeCompare(a.next.since),
  );
}
