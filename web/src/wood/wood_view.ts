// When a spirit on wood is to be sampled: days since it was filled, by the plan's calendar. Pure.
const DAY = 86_400_000;

export interface Sampling {
  days: number; // on wood
  next_day: number | undefined; // of the calendar, counted from the filling
  due: boolean;
  taken: number;
}

export function samplingOf(
  filled_ms: number,
  now_ms: number,
  calendar: readonly number[],
  taken: number,
): Sampling {
  const days = Math.max(0, Math.floor((now_ms - filled_ms) / DAY));
  const next_day = calendar[taken];
  return { days, next_day, due: next_day !== undefined && days >= next_day, taken };
}
