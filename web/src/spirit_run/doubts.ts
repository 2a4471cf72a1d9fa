// Which doubts of a forecast still stand. A forecast takes seconds to reckon, a correction is here at
// once: a doubt of an entry that was corrected or struck since the forecast was asked for says
// nothing of what stands now. Pure; times are milliseconds of the device.
import type { Run, RunForecast } from '../data/answers';
import type { Entry } from '../data/entry';

export type Doubt = RunForecast['doubts'][number];

/** How often each reading and each telling of a filled jar was corrected. */
export const versionsOf = (run: Run): Map<string, number> =>
  new Map(
    [...run.readings, ...run.jars.flatMap((jar) => (jar.filled ? [jar.filled] : []))].map(
      (told) => [told.entry, told.corrections ?? 0],
    ),
  );

/** Minutes of each reading and of each jar that was filled, from the run's nought. */
const minutesOf = (run: Run): Map<string, number> =>
  new Map([
    ...run.readings.map((r): [string, number] => [r.entry, r.minutes]),
    ...run.jars.flatMap((jar): [string, number][] =>
      jar.filled
        ? [[jar.filled.entry, (Date.parse(jar.filled.at) - Date.parse(run.at)) / 60_000]]
        : [],
    ),
  ]);

/** Readings that were corrected since; at first sight those that ever were. */
export const correctedSince = (
  before: ReadonlyMap<string, number> | undefined,
  now: ReadonlyMap<string, number>,
): string[] =>
  [...now].filter(([entry, times]) => times > (before?.get(entry) ?? 0)).map(([entry]) => entry);

/**
 * The doubts that stand, the newest reading first, and those of readings that were corrected at or
 * after the forecast was asked for. A doubt of what is not among the readings (it was struck) is
 * dropped.
 */
export function standing(
  doubts: readonly Doubt[],
  run: Run,
  waiting: readonly Entry[],
  changed_ms: ReadonlyMap<string, number>,
  asked_ms: number,
): { stand: Doubt[]; anew: Doubt[] } {
  const minutes = minutesOf(run);
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  const corrected = new Set(waiting.map((e) => e.corrects));
  const known = doubts
    .filter((d) => minutes.has(d.entry) && !struck.has(d.entry))
    .toSorted((a, b) => minutes.get(b.entry)! - minutes.get(a.entry)!);
  const old = (d: Doubt) =>
    corrected.has(d.entry) || (changed_ms.get(d.entry) ?? -Infinity) > asked_ms;
  return { stand: known.filter((d) => !old(d)), anew: known.filter(old) };
}
