// What the house asks about of what a page shows. Pure.
import type { Batch } from '../data/answers';

type Asked = Batch['puzzles'][number];

/** The entries that told a thing and its parts; not those of the lots it was made of. */
export function entriesIn(thing: unknown, into = new Set<string>()): Set<string> {
  if (typeof thing !== 'object' || thing === null) return into;
  for (const [key, value] of Object.entries(thing)) {
    if (key === 'parents') continue;
    if (key === 'entry' && typeof value === 'string') into.add(value);
    else entriesIn(value, into);
  }
  return into;
}

/** The questions at these things; in the order of the house's telling. */
export function askedHere(puzzles: readonly Asked[] | undefined, things: unknown): Asked[] {
  if (!puzzles || puzzles.length === 0) return [];
  const entries = entriesIn(things);
  return puzzles.filter(({ entry }) => entries.has(entry));
}

/** A question by its entry and its words: figures in it move a little with those of other entries. */
export const questionKey = ({ entry, why }: Pick<Asked, 'entry' | 'why'>): string =>
  `${entry} ${why.replace(/\d+(?:[.,]\d+)*/g, '#')}`;

/** So much of a sentence as stands in a notice of a few lines; cut behind a word. */
export function inBrief(says: string, most = 140): string {
  if (says.length <= most) return says;
  const cut = says.slice(0, most);
  return `${cut.slice(0, cut.lastIndexOf(' ') > most / 2 ? cut.lastIndexOf(' ') : most)} …`;
}
