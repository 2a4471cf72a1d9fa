// A TOML text as a form: which of its values stand in fields, in which sections, and how what a
// person types becomes a value. Each edit changes its own line of the text (data/toml_text.ts), so
// remarks stay and everything the form does not show is kept.
import { pointed, typed, twoWays } from '../data/figures';
import { at, edited, read, removed, type Value } from '../data/toml_text';
import { unitOfField, unitWritten, type Units } from '../data/units';

export interface FormField {
  path: string; // "mash.rest_time"; in a list below its item: "water"
  label: string;
  unit?: string; // what a plain number means, in metric units
  options?: readonly { value: string; label: string }[];
  kind?: 'flag' | 'number' | 'words'; // words as they are; else a quantity or a word, in quotes
  usual?: string; // what holds when it is left out
}

export interface FormSection {
  title: string;
  stage?: string; // findings of this stage stand beside it
  fields: readonly FormField[];
  /** A list of tables, "vessel": the fields are those of each item. */
  list?: { path: string; one: string; fresh: Record<string, Value> };
  /** A table that may be missing: what to write when it is wanted. */
  table?: { path: string; name: string; fresh: Record<string, Value> };
}

/** What stands at a path, as a field shows it: degrees by their sign, which the house reads as well. */
export function shownAt(tree: unknown, path: string): string {
  const value = at(tree, path);
  if (value === undefined || typeof value === 'object') return '';
  return String(value).replace(/(\d *)deg ?(?=[CF](?![A-Za-z]))/g, '$1°');
}

/** What was typed into a field, as a value of the text; undefined takes it out. */
export function valueOf(text: string, field: FormField, units: Units): Value | undefined {
  const said = text.trim();
  if (said === '') return undefined;
  if (field.kind === 'flag') return said === 'true';
  const number = typed(said);
  if (field.kind === 'number') return number ?? said;
  if (field.kind === 'words' || field.options) return said;
  if (number !== undefined && field.unit) return `${number} ${unitOfField(field.unit, units)}`;
  // One figure with its unit: spelt as other fields take it, it is written as the house reads it.
  const one = /^([-+\u2212]?[\d.,\s\u202f\u00a0]*\d[.,]?)\s*([^\d\s][^\d]*)$/.exec(said);
  if (one && typed(one[1]!) !== undefined) {
    const figure = one[1]!.replace(/[\s\u202f\u00a0]/g, '').replace(',', '.');
    return `${figure} ${unitWritten(one[2]!.trim())}`;
  }
  return pointed(said);
}

/** The page's own sentence at a field whose figure can be read in two ways; the house need not be asked. */
export const doubtIn = (text: string, field: FormField): string | undefined =>
  field.kind === 'words' || field.options ? undefined : twoWays(text);

/**
 * The text with one field set. A needed field that is emptied stays as an empty word while it is
 * typed into, so that its line, with the remark on it, is there for what is typed next.
 */
export function setField(
  text: string,
  path: string,
  field: FormField,
  said: string,
  units: Units,
): string {
  const value = valueOf(said, field, units);
  const needed =
    field.usual === undefined &&
    field.options === undefined &&
    (!field.kind || field.kind === 'words');
  if (value === undefined && needed && shownAt(read(text), path) !== '') {
    return edited(text, path, '');
  }
  return edited(text, path, value);
}

/** The text when these fields are left: one that stayed empty is taken out. */
export function left(text: string, paths: readonly string[]): string {
  return paths.reduce(
    (made, path) => (at(read(made), path) === '' ? edited(made, path, undefined) : made),
    text,
  );
}

/** The text with a table in it that was missing. */
export function withTable(text: string, path: string, fresh: Record<string, Value>): string {
  return Object.entries(fresh).reduce(
    (made, [key, value]) => edited(made, `${path}.${key}`, value),
    text,
  );
}

export const withoutTable = (text: string, path: string): string => removed(text, path);

/** How many items a list has, and whether a table is there. */
export function lengthOf(tree: unknown, path: string): number {
  const value = at(tree, path);
  return Array.isArray(value) ? value.length : 0;
}

export interface TextRead {
  tree: Record<string, unknown>;
  fault?: string; // a sentence, when the text is no TOML
}

export function readText(text: string): TextRead {
  try {
    return { tree: read(text) };
  } catch (fault) {
    const { line, column, message } = fault as { line?: number; column?: number; message: string };
    const where = line === undefined ? '' : ` at line ${line}, column ${column}`;
    const why = message.split('\n')[0]!.replace(/^Invalid TOML document: /, '');
    return { tree: {}, fault: `The text cannot be read${where}: ${why}.` };
  }
}

/** All paths of the house's faults that have a field in these sections. */
export function pathsOf(sections: readonly FormSection[], tree: unknown, prefix = ''): string[] {
  return sections.flatMap(({ list, fields }) =>
    list
      ? Array.from({ length: lengthOf(tree, list.path) }, (_, i) => i).flatMap((i) =>
          fields.map((f) => `${prefix}${list.path}[${i + 1}].${f.path}`),
        )
      : fields.map((f) => prefix + f.path),
  );
}
