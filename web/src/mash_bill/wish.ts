// A wish for the batch: what is asked of the house, and what its answer means in the recipe's text.
import type { Plan, Solved } from '../data/answers';
import { pointed, typedDecimal } from '../data/figures';
import { at, edited, read, removed } from '../data/toml_text';
import type { Units } from '../data/units';
import { lengthOf, shownAt, valueOf, type FormSection } from '../parts/text_form';
import { placeInWords } from './spoken';

export type Want = 'spirit' | 'gravity' | 'kit' | 'replace';

/** What stands in the form, as typed. */
export interface Wish {
  want: Want;
  volume: string;
  strength: string;
  gravity: string;
  by: string; // what mends the gravity, sugar or water; empty: as the recipe and its bill suggest
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
      return {
        want: 'gravity',
        gravity: String(typedDecimal(wish.gravity) ?? pointed(wish.gravity.trim())),
      };
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

export type By = 'sugar' | 'water';

/** What a gravity is reached by while nobody chose: as the recipe says, else by sugar where there is one. */
export function byAtFirst(tree: Record<string, unknown>, sugars: readonly string[]): By {
  const said = shownAt(tree, 'ferment.gravity_by');
  if (said === 'sugar' || said === 'water') return said;
  // What comes in after the mash is what the house changes as sugar.
  const sugar = (i: number) => {
    const use = shownAt(tree, `mash_bill[${i}].use`);
    return use === ''
      ? sugars.includes(shownAt(tree, `mash_bill[${i}].ingredient`))
      : use === 'boil' || use === 'ferment';
  };
  const lines = Array.from({ length: lengthOf(tree, 'mash_bill') }, (_, i) => i + 1);
  return lines.some(sugar) ? 'sugar' : 'water';
}

/** The recipe that is asked about: of a gravity it says what mends it. What stands is not changed. */
export const askedOf = (recipe: string, wish: Wish, by: By): string =>
  wish.want === 'gravity' ? edited(recipe, 'ferment.gravity_by', by) : recipe;

type Change = Solved['changes'][number];

/** What the house proposes: `changes` as they are measured, `solved` as they were worked out. */
export interface Proposal extends Solved {
  solved: readonly Change[];
  recipe: string; // with the changes
}

// As it is weighed and measured: grain to 10 g, less than a kilogram to 1 g; volumes to 0.1 L, what
// the house tells in millilitres to one. Below a tenth of a kilogram (enzymes) it stays as it is.
const FIGURE = /(\d+\.\d+)( ?)(kg|L|mL)(?![A-Za-z/])/g;
function decimalsOf(value: number, unit: string): number | undefined {
  if (unit === 'mL') return 0;
  if (unit === 'L') return 1;
  return value >= 1 ? 2 : value >= 0.1 ? 3 : undefined;
}

/**
 * The changes as a maker measures them. What the kit just takes is rounded down, so that it still
 * fits; all else to the nearest.
 */
export function weighed(changes: readonly Change[], want: Want): Change[] {
  return changes.map((change) => {
    if (change.value === undefined) return change;
    const value = change.value.replace(
      FIGURE,
      (all: string, text: string, gap: string, unit: string) => {
        const figure = Number(text);
        const decimals = decimalsOf(figure, unit);
        if (decimals === undefined) return all;
        const step = 10 ** decimals;
        const whole = want === 'kit' ? Math.floor(figure * step) : Math.round(figure * step);
        return whole > 0 ? `${whole / step}${gap}${unit}` : all;
      },
    );
    return { ...change, value };
  });
}

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
  solved?: string; // as it was worked out, where rounding changed it
}

/** The changes for people: the form's labels, what stands there now, what is proposed. */
export function changeRows(
  changes: readonly Change[],
  tree: Record<string, unknown>,
  sections: readonly FormSection[],
  nameOf: (ingredient: string) => string,
  solved: readonly Change[] = changes,
): ChangeRow[] {
  const shown = (path: string, text: string) =>
    path.endsWith('.ingredient') ? nameOf(text) : text;
  return changes.map(({ path, value }, i) => {
    const exact = solved[i]?.value;
    const there = at(tree, path);
    const before = typeof there === 'object' ? 'as written' : shown(path, shownAt(tree, path));
    return {
      what: labelOf(path, tree, sections, nameOf),
      before: before || '–',
      after: value === undefined ? 'left out' : shown(path, value),
      ...(exact !== undefined && exact !== value ? { solved: exact } : {}),
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
  return placeInWords(path);
}

/** The figures that tell a proposal at a glance. */
export const GLANCE = [
  'wort_volume_L_20C',
  'original_gravity',
  'wash_percent_vol',
  'maturing_volume_L_20C',
  'bottles',
] as const satisfies readonly (keyof Plan['figures'])[];
