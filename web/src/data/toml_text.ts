// Recipe and kit are TOML texts that a person may have written, with remarks between the lines. A
// form edits one value at a time: the text is changed at that value's line only, so remarks and
// order stay. Each edit is proved: the changed text is read again by smol-toml and must hold what
// was meant and nothing else; where it does not (multi-line strings, inline tables), the whole
// text is written anew from its values, and only then remarks are lost.
// Paths are those of the house's faults, the items of a list counted from 1: "mash_bill[2].mass".
import { parse, stringify } from 'smol-toml';

export type Value = string | number | boolean;
export type Tree = { [key: string]: unknown };
export type Step = string | number;

/** The values of a text; throws smol-toml's error with line and column when it is no TOML. */
export const read = (text: string): Tree => parse(text) as Tree;

/** "mash_bill[2].mass" as steps; those into a list count from 0. */
export function stepsOf(path: string): Step[] {
  return [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((m) =>
    m[2] === undefined ? m[1]! : Number(m[2]) - 1,
  );
}

/** The value at a path, or undefined. */
export function at(tree: unknown, path: string): unknown {
  return stepsOf(path).reduce<unknown>(
    (here, step) =>
      typeof here === 'object' && here !== null ? (here as Tree)[step as string] : undefined,
    tree,
  );
}

/** The text with one value set; undefined takes it out. */
export function edited(text: string, path: string, value: Value | undefined): string {
  const steps = stepsOf(path);
  const wanted = withValue(read(text), steps, value);
  return proved(atLine(text, steps, value), wanted);
}

/** The text with one more table at the end of an array of tables, "mash_bill". */
export function added(text: string, path: string, table: Record<string, Value>): string {
  const steps = stepsOf(path);
  const before = at(read(text), path);
  const length = Array.isArray(before) ? before.length : 0;
  const wanted = withValue(read(text), [...steps, length], table);
  const lines = text.split('\n');
  const places = placesOf(lines);
  const mine = (place: Step[]) => startsWith(place, [...steps, length - 1]);
  const last = length > 0 ? places.findLastIndex((p) => mine(p.table)) : lines.length - 1;
  let end = last;
  while (end >= 0 && lines[end]!.trim() === '') end -= 1;
  const block = [
    ...(end >= 0 ? [''] : []),
    `[[${steps.join('.')}]]`,
    ...Object.entries(table).map(([key, value]) => `${key} = ${written(value)}`),
  ];
  lines.splice(end + 1, 0, ...block);
  return proved(lines.join('\n'), wanted);
}

/** The text without one table of an array of tables, "mash_bill[2]". */
export function removed(text: string, path: string): string {
  const steps = stepsOf(path);
  const wanted = withValue(read(text), steps, undefined);
  const lines = text.split('\n');
  const places = placesOf(lines);
  const kept = lines.filter((_, i) => !startsWith(places[i]!.table, steps));
  return proved(kept.join('\n'), wanted);
}

interface Place {
  table: Step[]; // of the line; a header line belongs to its own table
  key?: string;
}

const HEADER = /^\s*(\[\[?)\s*([\w\s.-]+?)\s*\]\]?\s*(#.*)?$/;
const KEY = /^(\s*([\w-]+)\s*=\s*)(.*)$/;
// A value that ends on its line: basic or literal string, or a bare word up to a remark.
const VALUE = /^("(?:[^"\\]|\\.)*"|'[^']*'|[^"'\s#[{][^#]*?)(\s*(?:#.*)?)$/;

function startsWith(steps: readonly Step[], begin: readonly Step[]): boolean {
  return begin.every((step, i) => steps[i] === step);
}

function placesOf(lines: readonly string[]): Place[] {
  const counts = new Map<string, number>(); // of arrays of tables, by their written place
  let table: Step[] = [];
  return lines.map((line) => {
    const header = HEADER.exec(line);
    if (header) {
      const names = header[2]!.split('.').map((n) => n.trim());
      const made: Step[] = [];
      names.forEach((name, i) => {
        made.push(name);
        const key = JSON.stringify(made);
        const own = header[1] === '[[' && i === names.length - 1;
        if (own) counts.set(key, (counts.get(key) ?? -1) + 1);
        const index = counts.get(key);
        if (index !== undefined) made.push(index);
      });
      table = made;
      return { table };
    }
    const key = KEY.exec(line)?.[2];
    return key === undefined ? { table } : { table, key };
  });
}

function atLine(text: string, steps: readonly Step[], value: Value | undefined): string {
  const lines = text.split('\n');
  const places = placesOf(lines);
  const table = steps.slice(0, -1);
  const key = String(steps.at(-1));
  const here = (p: Place) => p.table.length === table.length && startsWith(p.table, table);
  const line = places.findIndex((p) => p.key === key && here(p));
  if (line >= 0 && value === undefined) lines.splice(line, 1);
  else if (line >= 0) {
    const head = KEY.exec(lines[line]!)![1]!;
    const tail = VALUE.exec(lines[line]!.slice(head.length))?.[2] ?? '';
    lines[line] = head + written(value!) + tail;
  } else if (value !== undefined) {
    let end = places.findLastIndex((p) => p.key !== undefined && here(p));
    if (end < 0) end = places.findIndex((p, i) => here(p) && HEADER.test(lines[i]!));
    if (end < 0 && table.length > 0) {
      while (lines.at(-1)?.trim() === '') lines.pop();
      lines.push('', `[${table.join('.')}]`, `${key} = ${written(value)}`, '');
    } else lines.splice(end + 1, 0, `${key} = ${written(value)}`);
  }
  return lines.join('\n');
}

const written = (value: Value): string =>
  typeof value === 'string' ? JSON.stringify(value).replace(/\x7f/g, '\\u007f') : String(value);

function withValue(tree: unknown, steps: readonly Step[], value: unknown): Tree {
  const [step, ...rest] = steps;
  if (step === undefined) return value as Tree;
  if (typeof step === 'number') {
    const list: unknown[] = Array.isArray(tree) ? [...(tree as unknown[])] : [];
    if (rest.length === 0 && value === undefined) list.splice(step, 1);
    else list[step] = withValue(list[step], rest, value);
    return list as unknown as Tree;
  }
  const made: Tree = { ...((tree ?? {}) as Tree) };
  if (rest.length === 0 && value === undefined) delete made[step];
  else made[step] = withValue(made[step], rest, value);
  return made;
}

function alike(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (a instanceof Date || b instanceof Date) return String(a) === String(b);
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const emptyList = (v: object) => Array.isArray(v) && v.length === 0;
  const keys = (v: object) =>
    Object.keys(v).filter((k) => {
      const inner = (v as Tree)[k];
      // The last table of an array taken out leaves an empty list, which TOML does not write.
      return !(typeof inner === 'object' && inner !== null && emptyList(inner));
    });
  const [of, other] = [keys(a), keys(b)];
  return (
    Array.isArray(a) === Array.isArray(b) &&
    of.length === other.length &&
    of.every((k) => alike((a as Tree)[k], (b as Tree)[k]))
  );
}

function proved(text: string, wanted: Tree): string {
  try {
    if (alike(read(text), wanted)) return text;
  } catch {
    // No TOML any more: written anew below.
  }
  return `${stringify(wanted).trimEnd()}\n`;
}
