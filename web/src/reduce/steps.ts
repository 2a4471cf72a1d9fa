// A reduction in steps of a few points. The strengths between are divided evenly; the water of each
// is the house's, told for the whole way down to it, and the difference is what goes in then.

/** Strengths to stop at, the last one the wanted strength. */
export function strengthsBetween(from: number, to: number, steps: number): number[] {
  const whole = Math.max(1, Math.round(steps));
  return Array.from({ length: whole }, (_, i) =>
    i === whole - 1 ? to : Math.round((from + ((to - from) * (i + 1)) / whole) * 10) / 10,
  );
}

/** What goes in at each step, from what has gone in up to it. */
export function portions(upTo: readonly number[]): number[] {
  return upTo.map((sum, i) => sum - (upTo[i - 1] ?? 0));
}
