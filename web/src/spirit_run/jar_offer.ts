// What the next jar is offered to hold, before anything is typed. Pure.
import type { Run } from '../data/answers';
import type { Entry } from '../data/entry';
import { moreThanCharged } from '../jars/shelf_view';
import { lastJarVolume } from './run_view';

/**
 * The volume of the last jar that is believed: one that is doubted, asked about or more than was charged
 * is a slip, most likely, and one tap would tell it again. Undefined where there is none.
 *
 * unsure   entries that are doubted or asked about
 */
export function volumeToOffer(
  run: Run,
  waiting: readonly Entry[],
  unsure: ReadonlySet<string>,
): number | undefined {
  const queued = waiting.filter((e) => e.kind === 'jar filled');
  // A jar that was corrected here is told by the correction.
  const corrected = new Set(queued.map((e) => e.corrects));
  const holds = (mL: unknown) => typeof mL === 'number' && !moreThanCharged(run.charge_L_20C, mL);
  return lastJarVolume(
    {
      ...run,
      jars: run.jars.filter(
        ({ filled, as_filled_mL }) =>
          holds(as_filled_mL) &&
          !(filled && (unsure.has(filled.entry) || corrected.has(filled.entry))),
      ),
    },
    queued.filter((e) => holds(e.body['volume_mL']) && !unsure.has(e.id) && !corrected.has(e.id)),
  );
}

/** What a jar of the run was told to hold when it was full; undefined where it was not told at all. */
export function jarTold(
  run: Run,
  waiting: readonly Entry[],
  jar: number,
): { volume_mL?: number } | undefined {
  const here = waiting.findLast((e) => e.kind === 'jar filled' && e.body['jar'] === jar);
  const mL = here ? here.body['volume_mL'] : run.jars.find((one) => one.jar === jar)?.as_filled_mL;
  if (!here && !run.jars.some((one) => one.jar === jar)) return undefined;
  return typeof mL === 'number' ? { volume_mL: mL } : {};
}
