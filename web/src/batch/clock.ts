// The clock by which the record of a batch tells its times: this device's zone, and the moments at
// which its clock was put on or back while the batch was made. The server knows no zones.

export interface Clock {
  minutes_east: number; // of UTC, before the first turn
  turns: { at_ms: number; minutes_east: number }[];
}

const DAY_MS = 86_400_000; // no zone was ever put on and back within a day
const MOST_TURNS = 64; // that the server takes

const eastHere = (ms: number): number => Math.round(-new Date(ms).getTimezoneOffset());

/** The clock between two moments; `east` gives the minutes east of UTC at a moment. */
export function clockBetween(
  from_ms: number,
  to_ms: number,
  east: (ms: number) => number = eastHere,
): Clock {
  const turns: Clock['turns'] = [];
  let first = east(from_ms);
  for (let at = from_ms; at < to_ms; at += DAY_MS) {
    let before = at;
    let after = Math.min(at + DAY_MS, to_ms);
    if (east(before) === east(after)) continue;
    while (after - before > 1) {
      const middle = Math.floor((before + after) / 2);
      if (east(middle) === east(at)) before = middle;
      else after = middle;
    }
    turns.push({ at_ms: after, minutes_east: east(after) });
  }
  const dropped = turns.splice(0, Math.max(0, turns.length - MOST_TURNS));
  first = dropped.at(-1)?.minutes_east ?? first;
  return { minutes_east: first, turns };
}

/** As the sheet is asked for it: "minutes_east=120&clock_turns=60@2026-10-25T01:00:00.000Z". */
export function clockQuery(clock: Clock): string {
  const turns = clock.turns.map(
    (turn) => `${turn.minutes_east}@${new Date(turn.at_ms).toISOString()}`,
  );
  const asked = `minutes_east=${clock.minutes_east}`;
  return turns.length > 0 ? `${asked}&clock_turns=${encodeURIComponent(turns.join(','))}` : asked;
}
