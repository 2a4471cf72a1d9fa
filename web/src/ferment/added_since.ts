// What went into a wash after it was pitched: the house's forecast is of the wash as it was pitched and
// does not know it, and so the page says. Pure.
import type { Batch } from '../data/answers';

/** These move neither gravity nor pace to speak of (common practice, no source). */
const OF_NO_MOMENT = ['antifoam', 'finings'];

/** What each addition since the pitch was; each name once, in the order told. */
export function addedSincePitch(batch: Batch | undefined): string[] {
  const pitched = batch?.ferment.pitch?.at;
  if (pitched === undefined) return [];
  const racked = batch?.ferment.racked?.at;
  const since = (batch?.additions ?? []).filter(
    (one) =>
      !OF_NO_MOMENT.includes(one.what) &&
      Date.parse(one.at) > Date.parse(pitched) &&
      (racked === undefined || Date.parse(one.at) < Date.parse(racked)),
  );
  return [...new Set(since.map((one) => one.what))];
}

/** The sentence for it; empty where nothing went in. */
export function notInTheForecast(batch: Batch | undefined): string {
  const what = addedSincePitch(batch);
  if (what.length === 0) return '';
  const list = what.length < 2 ? what[0]! : `${what.slice(0, -1).join(', ')} and ${what.at(-1)!}`;
  return `${list[0]!.toUpperCase()}${list.slice(1)} went in after the pitch. The forecast does not know it: it is of the wash as it was pitched, and the strength too. Sugar and water also move what is read, so trust the gravity you read over the dates; a fall over a day or more tells the pace.`;
}
