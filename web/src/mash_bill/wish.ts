// A wish for the batch: what is asked of the house, and what its answer means in the recipe's text.
import type { Plan, Solved } from '../data/answers';
import { at, edited, read, removed } from '../data/toml_text';
import type { Units } from '../data/units';
import { shownAt, valueOf, type FormSection } from '../parts/text_form';

export type Want = 'spirit' | 'gravity' | 'kit' | 'replace';

/** What stands in the form, as typed. */
export interface Wish {
  want: Want;
  volume: string;
  strength: string;
  gravity: string;
  line: string; // from 1
  ingredient: string;
}

/** The question; what is not of this want is left out, a plain number gets the device's unit. */
export function question(wish: Wish, units: Units): Record<string, unknown> {
  const amount = (text: string, unit: string) =>
    valueOf(text, { path: '', label: '', unit }, units) ?? '';
  switch (wish.want) {
    case 'spirit':
      return {
        want: 'spirit',
        volume: amount(wish.volume, 'L'),
        strength: amount(wish.strength, '%vol'),
      };
    case 'gravity':
      return { want: 'gravity', gravity: wish.gravity.trim() };
    case 'replace':
      return {
        want: 'replace',
        ...(wish.line ? { line: Number(wish.line) } : {}),
        ingredient: wish.ingredient,
      };
    case 'kit':
      return { want: 'kit' };
  }
}

type Change = Solved['changes'][number];

/** The recipe's text with the changes in it, each at its line. */
export function withChanges(text: string, changes: readonly Change[]): string {
  return changes.reduce((made, { path, value }) => {
    if (value !== undefined) return edited(made, path, value);
    const there = at(read(made), path);
    if (there === undefined) return made;
    return typeof there === 'object' ? removed(made, path) : edited(made, path, undefined);
  }, text);
}

export interface ChangeRow {
  what: string;
  before: string;
  after: string;
}

/** The changes for people: the form's labels, what stands there now, what is proposed. */
export function changeRows(
  changes: readonly Change[],
  tree: Record<string, unknown>,
  sections: readonly FormSection[],
  nameOf: (ingredient: string) => string,
): ChangeRow[] {
  const shown = (path: string, text: string) =>
    path.endsWith('.ingredient') ? nameOf(text) : text;
  return changes.map(({ path, value }) => {
    const there = at(tree, path);
    const before = typeof there === 'object' ? 'as written' : shown(path, shownAt(tree, path));
    return {
      what: labelOf(path, tree, sections, nameOf),
      before: before || '–',
      after: value === undefined ? 'left out' : shown(path, value),
    };
  });
}

const OF_A_LINE: Record<string, string> = {
  mass: 'mass',
  use: 'comes in at',
  ingredient: 'ingredient',
  price: 'price',
};

function labelOf(
  path: string,
  tree: Record<string, unknown>,
  sections: readonly FormSection[],
  nameOf: (ingredient: string) => string,
): string {
  const line = /^mash_bill\[(\d+)\]\.(\w+)$/.exec(path);
  if (line) {
    const ingredient = shownAt(tree, `mash_bill[${line[1]}].ingredient`);
    return `${nameOf(ingredient)}: ${OF_A_LINE[line[2]!] ?? line[2]!.replace('_', ' ')}`;
  }
  for (const section of sections) {
    if (section.table?.path === path) return section.title;
    const list = section.list;
    const item =
      list && new RegExp(`^${list.path.replace('.', '\\.')}\\[(\\d+)\\]\\.(.+)$`).exec(path);
    const field = section.fields.find((f) => f.path === (item ? item[2] : path));
    if (field && (item || !list)) {
      const of = item ? `${section.title.replace(/s$/, '')} ${item[1]}` : section.title;
      return `${of}: ${field.label.toLowerCase()}`;
    }
  }
  return path;
}

/** The figures that tell a proposal at a glance. */
export const GLANCE = [
  'wort_volume_L_20C',
  'original_gravity',
  'wash_percent_vol',
  'maturing_volume_L_20C',
  'bottles',
] as const satisfies readonly (keyof Plan['figures'])[];
