// The journal of a batch as people read it: one row for what happened, with what now stands of it.
// A correction stands in the place of what it corrects; the first telling stays visible beside it.
import type { Batch } from '../data/answers';
import type { Entry } from '../data/entry';
import { printed } from '../data/figures';
import { restated, type Units } from '../data/units';

export interface JournalRow {
  first: Entry; // as it was first told
  stands: Entry; // the last correction, or the first telling
  struck?: Entry; // the entry that says it never happened
  corrections: Entry[]; // in the order of their making
  puzzles: Puzzle[]; // one that counts, or what the fold makes nothing of, which may be more
}

export type Puzzle = Batch['puzzles'][number];

/** When it happened, by the house's clock: of an entry of a device whose offset was not known, by its own. */
export const happened = (entry: Entry): number => Date.parse(entry.at) - entry.clock_ahead_ms;

/** Without what was upheld by entries of this device that the house has yet to hear of. */
export function unanswered(puzzles: readonly Puzzle[], waiting: readonly Entry[]): Puzzle[] {
  const struck = new Set(waiting.filter((e) => e.kind === 'struck').map((e) => e.corrects));
  const answered = ({ entry, why }: Puzzle) =>
    waiting.some(
      ({ id, kind, body }) =>
        kind === 'upheld' && !struck.has(id) && body['entry'] === entry && body['asked'] === why,
    );
  return puzzles.filter((puzzle) => !(puzzle.counts && answered(puzzle)));
}

/** Rows that are asked about, those of the very same questions together, at the place of the first. */
export function askedTogether(rows: readonly JournalRow[]): JournalRow[][] {
  const groups = new Map<string, JournalRow[]>();
  for (const row of rows) {
    if (row.puzzles.length === 0) continue;
    const questions = row.puzzles.map(({ why }) => why).join('\n');
    groups.set(questions, [...(groups.get(questions) ?? []), row]);
  }
  return [...groups.values()];
}

/** Rows in the order of what happened, the newest first. */
export function journalRows(
  entries: readonly Entry[],
  puzzles: readonly Puzzle[] = [],
): JournalRow[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const rootOf = (entry: Entry): Entry => {
    let root = entry;
    const seen = new Set<string>();
    while (root.corrects !== undefined && byId.has(root.corrects) && !seen.has(root.id)) {
      seen.add(root.id);
      root = byId.get(root.corrects)!;
    }
    return root;
  };
  const rows = new Map<string, JournalRow>();
  const row = (root: Entry) => {
    const there = rows.get(root.id) ?? {
      first: root,
      stands: root,
      corrections: [],
      puzzles: [],
    };
    rows.set(root.id, there);
    return there;
  };
  // Ids sort in the order of their making, which decides between corrections.
  for (const entry of [...entries].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    const root = rootOf(entry);
    const of = row(root);
    of.puzzles.push(...puzzles.filter((puzzle) => puzzle.entry === entry.id));
    if (entry === root) continue;
    of.corrections.push(entry);
    if (entry.kind !== 'struck') of.stands = entry;
    else if (entry.corrects === root.id) of.struck = entry;
    else undo(of, entry, byId);
  }
  return [...rows.values()].sort(
    (a, b) => happened(b.stands) - happened(a.stands) || (a.first.id < b.first.id ? 1 : -1),
  );
}

/** A correction struck out: what stood before it stands again. */
function undo(row: JournalRow, strike: Entry, byId: ReadonlyMap<string, Entry>): void {
  const gone = new Set(
    row.corrections.filter((c) => c.kind === 'struck').map((c) => c.corrects ?? ''),
  );
  if (byId.get(strike.corrects ?? '')?.kind === 'struck') {
    delete row.struck;
    return;
  }
  const left = row.corrections.filter((c) => c.kind !== 'struck' && !gone.has(c.id));
  row.stands = left.at(-1) ?? row.first;
}

export type Bounds = readonly [number, number];

// Endings of the journal's keys, longest first: their unit and decimals for people, and what the house
// accepts.
export const UNITS: readonly [string, string, number, Bounds][] = [
  ['_L_per_min', 'L/min', 1, [0, 1000]],
  ['_percent_vol', '%vol', 1, [0, 100]],
  ['_mL_20C', 'mL', 0, [0, 1e7]],
  ['_L_20C', 'L', 2, [0, 10_000]],
  ['_hPa', 'hPa', 0, [300, 1100]],
  ['_mL', 'mL', 0, [0, 1e7]],
  ['_kg', 'kg', 3, [0, 10_000]],
  ['_L', 'L', 2, [0, 10_000]],
  ['_C', '°C', 1, [-20, 120]],
  ['_W', 'W', 0, [0, 100_000]],
  ['_g', 'g', 0, [0, 1e6]],
];

export interface KeyName {
  name: string;
  unit: string;
  decimals: number;
}

/** "spout_temperature_C" as "spout temperature" in °C. */
export function keyName(key: string): KeyName {
  const found = UNITS.find(([ending]) => key.endsWith(ending));
  const bare = found ? key.slice(0, -found[0].length) : key;
  const name = bare.replaceAll('_', ' ') || 'at';
  return { name, unit: found?.[1] ?? '', decimals: found?.[2] ?? 4 };
}

const shortNumber = (value: number, decimals: number) => {
  const text = printed(value, decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
};

export const DOCUMENTS = ['recipe', 'kit'];
export const SCALES: Record<string, string> = {
  specific_gravity: '',
  plato: '°P',
  brix: '°Bx',
  percent_vol: '%vol',
  percent_mass: '%mass',
  proof: 'proof',
};

/** The name that an entry gave to what it made, by the entry's id. */
export type Names = ReadonlyMap<string, string>;

/** The names that these rows gave, as they stand. */
export const namesGiven = (rows: readonly JournalRow[]): Names =>
  new Map(
    rows.flatMap(({ first, stands }) => {
      const name = stands.body['name'];
      return typeof name === 'string' && name !== '' ? [[first.id, name] as const] : [];
    }),
  );

/**
 * A body in words: "spout 73.2 %vol, spout temperature 20.5 °C". Ids and long texts are left out; a lot
 * stands by its kind and by the name that was given to it, where that is known.
 */
export function inWords(
  body: Record<string, unknown>,
  units: Units = 'metric',
  names: Names = new Map(),
): string {
  if (typeof body['recipe'] === 'string') return 'recipe and kit';
  if (typeof body['kit'] === 'string') return 'the kit';
  return Object.entries(body)
    .map(([key, value]) => words(key, value, units, names))
    .filter((text) => text !== '')
    .join(', ');
}

/** What a person wrote stays as it was written; figures are told in the units that are set. */
function figure(value: number, unit: string, decimals: number, units: Units): string {
  if (unit === 'L' && Math.abs(value) < 1) return figure(1000 * value, 'mL', 0, units);
  const text = `${shortNumber(value, decimals)}${unit ? `\u00a0${unit}` : ''}`;
  return restated(text, units, false);
}

// Keys whose word stands alone; before others stands what they are.
const ALONE = 'text step note reason remark name what event from run gone kind in class'.split(' ');
/** For machines: the class that it names stands beside it in words. */
const MUTE = ['rule'];
const HASH = /^[0-9a-f]{64}$/; // of a file, which stands beside it
const KEY_OF_A_TABLE = /^[a-z]+(-[a-z]+)+$/; // "american-oak"

function words(key: string, value: unknown, units: Units, names: Names, within = false): string {
  const { name, unit, decimals } = keyName(key);
  if (value === null || value === undefined || DOCUMENTS.includes(key) || MUTE.includes(key))
    return '';
  if (typeof value === 'number') {
    const text = figure(value, unit, decimals, units);
    return within && name === 'volume' ? text : `${name} ${text}`;
  }
  // A step that is not done is marked as its clock is started.
  if (typeof value === 'boolean' && key === 'done') return value ? 'done' : 'begun';
  if (typeof value === 'boolean') return value ? name : '';
  if (typeof value === 'string') {
    if (ID.test(value) || HASH.test(value)) return '';
    if (key === 'asked') return restated(value, units).replace(/\.$/, ''); // the house's words
    if (ALONE.includes(key)) return value;
    return `${name} ${KEY_OF_A_TABLE.test(value) ? value.replaceAll('-', ' ') : value}`;
  }
  if (Array.isArray(value)) {
    if (value.every((one) => typeof one === 'string')) {
      return value.filter((one) => !HASH.test(one)).join(', ');
    }
    return `${value.length} ${value.length === 1 ? name.replace(/s$/, '') : name}`;
  }
  const inner = value as Record<string, unknown>;
  if ('reading' in inner && typeof inner['reading'] === 'number') {
    const scale = String(inner['scale'] ?? '');
    const at =
      typeof inner['at_C'] === 'number' ? ` at ${figure(inner['at_C'], '°C', 1, units)}` : '';
    const of = SCALES[scale] ?? scale.replaceAll('_', ' ');
    return `${name} ${shortNumber(inner['reading'], 4)}${of ? `\u00a0${of}` : ''}${at}`;
  }
  if ('entry' in inner && 'kind' in inner) {
    const name = names.get(String(inner['entry']));
    return name === undefined ? String(inner['kind']) : `${String(inner['kind'])} “${name}”`;
  }
  return `${name} ${Object.entries(inner)
    .map(([k, v]) => words(k, v, units, names, true))
    .filter((text) => text !== '')
    .join(' ')}`;
}

export const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-/;
