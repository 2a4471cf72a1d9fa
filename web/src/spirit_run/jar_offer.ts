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
