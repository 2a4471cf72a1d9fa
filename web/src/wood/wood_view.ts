// When a spirit on wood is to be sampled: days since it was filled, by the plan's calendar. Pure.
const DAY = 86_400_000;

export interface Sampling {
  days: number; // on wood
  next_day: number | undefined; // of the calendar, counted from the filling
  due: boolean;
  in_ms: number; // until it is due; below nought when it was
  taken: number;
}

export function samplingOf(
  filled_ms: number,
  now_ms: number,
  calendar: readonly number[],
  taken: number,
): Sampling {
  const on_wood_ms = Math.max(0, now_ms - filled_ms);
  const next_day = calendar[taken];
  const in_ms = (next_day ?? 0) * DAY - on_wood_ms;
  const due = next_day !== undefined && in_ms <= 0;
  return { days: Math.floor(on_wood_ms / DAY), next_day, due, in_ms, taken };
}
