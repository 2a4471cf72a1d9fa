// What was told of one kind, as rows: those the house tells, and those that are only on this device,
// with what is still to reach the house of a correction. Pure but for the looking up of one entry.
import { journalRows, type JournalRow } from '../batch/journal';
import type { Api } from '../data/api';
import type { Entry, Stage } from '../data/entry';
import { NoAnswer } from '../data/problem';

/** What a correction has to know of what it corrects. */
export interface Before {
  entry: string; // its first telling
  at: string;
  clock_ahead_ms?: number;
  batch?: string | undefined;
  stage: Stage;
  kind: string;
  body: Record<string, unknown>;
}

export interface ToldRow extends Before {
  at_ms: number; // by the device's clock
  who: string;
  /** What of it has not reached the house. */
  waits?: 'told' | 'corrected' | 'struck';
}

interface Told {
  entry: string;
  at: string;
  who?: string;
  corrections?: number;
}

/** What is on this device, and which of it has not reached the house (Queued). */
interface Waiting {
  readonly all: readonly Entry[];
  unsaved: (entry: Entry) => boolean;
}

const about = new Set(['entry', 'at', 'who', 'corrections', 'stage']);

/** Rows of one kind and stage, the newest first; `told` is the house's list. */
export function toldRows(
  { kind, stage, batch }: { kind: string; stage: Stage; batch?: string | undefined },
  told: readonly Told[],
  { all, unsaved }: Waiting,
  ahead_ms = 0,
): ToldRow[] {
  const known = new Set(told.map((one) => one.entry));
  const rows = told.map((one): ToldRow => ({
    entry: one.entry,
    at: one.at,
    at_ms: Date.parse(one.at) + ahead_ms,
    who: one.who ?? '',
    batch,
    stage,
    kind,
    body: Object.fromEntries(Object.entries(one).filter(([key]) => !about.has(key))),
  }));
  const mine = all.filter((entry) => entry.batch === batch);
  for (const entry of mine) {
    if (entry.kind !== kind || entry.corrects || known.has(entry.id) || entry.stage !== stage)
      continue;
    rows.push({
      entry: entry.id,
      at: entry.at,
      at_ms: Date.parse(entry.at),
      clock_ahead_ms: entry.clock_ahead_ms,
      who: entry.who,
      batch,
      stage,
      kind,
      body: entry.body,
      ...(unsaved(entry) ? { waits: 'told' } : {}),
    });
  }
  for (const row of rows) {
    for (const entry of mine) {
      if (entry.corrects !== row.entry) continue;
      // Letting it stand again names the strike.
      const stands = mine.some((one) => one.kind === 'struck' && one.corrects === entry.id);
      if (entry.kind !== 'struck') row.body = entry.body;
      if (entry.kind === 'struck' && !stands) row.waits = 'struck';
      else if (unsaved(entry)) row.waits = 'corrected';
    }
  }
  return rows.sort((a, b) => b.at_ms - a.at_ms);
}

/** Exactly, for a field that is filled with what was told before. */
export const plainly = (value: unknown): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(10))) : '';

/**
 * An entry as it now stands, from the journal of its batch or else that of the house, which is long:
 * asked for only when something is to be corrected. Undefined where the journal has none such.
 */
export async function lookUp(
  api: Pick<Api, 'get' | 'address'>,
  id: string,
  batch: string | undefined,
): Promise<JournalRow | undefined> {
  const among = (entries: readonly Entry[]) =>
    journalRows(entries).find((row) => row.first.id === id);
  if (batch !== undefined) {
    const { entries } = await api.get<{ entries: Entry[] }>(
      `/batches/${encodeURIComponent(batch)}/entries`,
    );
    const found = among(entries);
    if (found) return found;
  }
  let text: string;
  try {
    const answer = await fetch(api.address('/journal'), {
      credentials: 'same-origin',
      cache: 'no-store',
    });
    if (!answer.ok) throw new Error(answer.statusText);
    text = await answer.text();
  } catch {
    throw new NoAnswer('The house does not answer.');
  }
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  return among(lines.map((line) => ({ clock_ahead_ms: 0, who: '', ...JSON.parse(line) }) as Entry));
}

/** What of a row a form needs in order to correct it. */
export const beforeOf = ({ first, stands }: JournalRow): Before => ({
  entry: first.id,
  at: stands.at,
  clock_ahead_ms: stands.clock_ahead_ms,
  batch: first.batch,
  stage: stands.stage,
  kind: stands.kind,
  body: stands.body,
});
