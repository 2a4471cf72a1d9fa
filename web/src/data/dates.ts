// Days as people of the house write them: "25 November 2026". No locale, as for figures; in the
// device's time zone.
import { timeOfDay } from './figures';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

const OLDEST_MS = Date.UTC(2000, 0, 1);

const when = (moment: string | number) =>
  new Date(typeof moment === 'number' ? moment : Date.parse(moment));

/** "25 November 2026"; without its year when that is the year of `now`. */
export function dayOf(moment: string | number, now?: number): string {
  const day = when(moment);
  if (Number.isNaN(day.getTime())) return '–';
  const said = `${day.getDate()} ${MONTHS[day.getMonth()]}`;
  const thisYear = now !== undefined && new Date(now).getFullYear() === day.getFullYear();
  return thisYear ? said : `${said} ${day.getFullYear()}`;
}

/** "25 November 2026, 15:02". */
export function dayAndTime(moment: string | number, now?: number): string {
  const day = dayOf(moment, now);
  return day === '–' ? day : `${day}, ${timeOfDay(when(moment).getTime())}`;
}

/** Midnight, in the device's time zone, before a moment. */
export function midnightBefore(moment: string | number): number {
  const day = when(moment);
  return new Date(day.getFullYear(), day.getMonth(), day.getDate()).getTime();
}

/** A moment so many minutes after that midnight, by the calendar: days stay days when clocks change. */
export function minutesAfter(midnight_ms: number, minutes: number): number {
  const start = new Date(midnight_ms);
  const days = Math.floor(minutes / 1440);
  return new Date(
    start.getFullYear(),
    start.getMonth(),
    start.getDate() + days,
    0,
    Math.round(minutes - days * 1440),
  ).getTime();
}

/** "2026-11-25T13:57": as a field for a day and a time holds it, in the device's time zone. */
export function momentText(milliseconds: number): string {
  const when = new Date(milliseconds);
  const two = (n: number) => String(n).padStart(2, '0');
  const day = [when.getFullYear(), two(when.getMonth() + 1), two(when.getDate())].join('-');
  return `${day}T${two(when.getHours())}:${two(when.getMinutes())}`;
}

/** What such a field says: a moment that has been; undefined when it is none. */
export function momentTyped(text: string, now_ms: number): number | undefined {
  const typed = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/.test(text)
    ? new Date(text).getTime()
    : NaN;
  // The minute that is begun counts as having been.
  return Number.isFinite(typed) && typed >= OLDEST_MS && typed < now_ms + 60_000
    ? typed
    : undefined;
}

/** The sentence at the field. */
export const MOMENT_ACCEPTED = 'a day and a time that have been, from 2000 on';
