// A journal entry as it goes over the wire. The page makes entries and never changes one: a
// correction is a new entry that names the one it corrects.
import { houseTime, type HouseTime } from './house_time';
import { newId } from './uuid7';

export const STAGES = [
  'kit',
  'mash bill',
  'mash',
  'ferment',
  'strip',
  'spirit run',
  'jars',
  'reduce',
  'wood',
  'bottle',
  'ledger',
] as const;

export type Stage = (typeof STAGES)[number];

export interface Entry {
  id: string;
  batch?: string; // absent: of the house
  stage: Stage;
  kind: string;
  version: number;
  at: string; // the device's time, UTC with milliseconds
  clock_ahead_ms: number; // device less house, 0 if unknown
  who: string;
  corrects?: string;
  body: Record<string, unknown>;
}

export interface EntryWish {
  batch?: string;
  stage: Stage;
  kind: string;
  version?: number;
  who: string;
  corrects?: string;
  /** When it happened; now, unless a correction tells anew what happened before. */
  at?: string;
  clock_ahead_ms?: number; // of that moment
  body: Record<string, unknown>;
}

/** A new entry, with its id and the time now. */
export function newEntry(
  wish: EntryWish,
  clock: HouseTime = houseTime,
  now: () => number = Date.now,
  id: () => string = newId,
): Entry {
  return {
    id: id(),
    ...(wish.batch === undefined ? {} : { batch: wish.batch }),
    stage: wish.stage,
    kind: wish.kind,
    version: wish.version ?? 1,
    at: wish.at ?? new Date(now()).toISOString(),
    clock_ahead_ms: wish.clock_ahead_ms ?? (wish.at === undefined ? clock.ahead_ms : 0),
    who: wish.who,
    ...(wish.corrects === undefined ? {} : { corrects: wish.corrects }),
    body: wish.body,
  };
}
