// How a batch begins: two entries, "batch begun" and "batch planned", from a recipe and a kit.
// Where there is no recipe yet, a first draft is made from three answers. Its amounts are common
// practice (0.23 kg of grain to a litre of wash, three litres of water to a
// kilogram), not a forecast: the house reckons what comes of it as soon as it is opened.
import type { EntryWish } from '../data/entry';
import { read } from '../data/toml_text';
import { inUs, quantity, typedAs, type Units } from '../data/units';
import { newId } from '../data/uuid7';

type Wish = Omit<EntryWish, 'who'>;

export interface Beginning {
  name: string;
  remark?: string;
  invented?: boolean;
  recipe: string;
  kit: string;
}

/** The id of the new batch and the entries to record, in their order. */
export function begin(
  wish: Beginning,
  id: () => string = newId,
): { batch: string; entries: Wish[] } {
  const batch = id();
  const of = { batch, stage: 'mash bill' as const };
  return {
    batch,
    entries: [
      {
        ...of,
        kind: 'batch begun',
        body: {
          name: wish.name.trim(),
          ...(wish.remark ? { remark: wish.remark } : {}),
          ...(wish.invented ? { invented: true } : {}),
        },
      },
      {
        ...of,
        kind: 'batch planned',
        body: { recipe: named(wish.recipe, wish.name.trim()), kit: wish.kit },
      },
    ],
  };
}

/** The recipe with the batch's name at its first line that gives one. */
export function named(recipe: string, name: string): string {
  const line = `name = ${JSON.stringify(name)}`;
  return /^name\s*=/m.test(recipe)
    ? recipe.replace(/^name\s*=.*$/m, () => line)
    : `${line}\n${recipe}`;
}

/**
 * A name to offer for the next batch: the house's own counted on, "Tern 9" after "Tern 8"; where none
 * ends in a number, "Batch 1". The newest name that ends in one leads; what is invented does not.
 */
export function nextName(batches: readonly { name: string; invented: boolean }[]): string {
  const numbered = batches
    .filter((one) => !one.invented)
    .flatMap(({ name }) => {
      const found = /^(.*\D)(\d{1,6})$/.exec(name.trim());
      return found ? [{ stem: found[1]!, number: Number(found[2]) }] : [];
    });
  const stem = numbered.at(-1)?.stem ?? 'Batch ';
  const names = new Set(batches.map((one) => one.name.trim()));
  let number = Math.max(0, ...numbered.filter((n) => n.stem === stem).map((n) => n.number)) + 1;
  while (names.has(`${stem}${number}`)) number += 1;
  return `${stem}${number}`;
}

export interface FileRead {
  name: string;
  remark?: string;
  fault?: string; // a sentence: what is wrong with the file
}

/** What a recipe file calls itself. Whether it can be planned, the house says. */
export function readRecipe(text: string): FileRead {
  try {
    const tree = read(text);
    if (!('mash_bill' in tree)) {
      return { name: '', fault: 'This file has no [[mash_bill]]; accepted: a recipe as TOML.' };
    }
    const { name, remark } = tree;
    return {
      name: typeof name === 'string' ? name : '',
      ...(typeof remark === 'string' ? { remark } : {}),
    };
  } catch (fault) {
    const place = fault as { line?: number; column?: number };
    const where = place.line === undefined ? '' : ` at line ${place.line}, column ${place.column}`;
    return {
      name: '',
      fault: `This is no TOML${where}; accepted: a recipe file such as recipe.toml.`,
    };
  }
}

/** Grains that need no cook: malted, or rolled hot, so that their starch is open. */
export const MAIN_GRAINS = [
  { value: 'barley-malt-distillers', label: 'Barley malt' },
  { value: 'rye-malt', label: 'Rye malt' },
  { value: 'wheat-malt', label: 'Wheat malt' },
  { value: 'oat-malt', label: 'Oat malt' },
  { value: 'maize-flaked', label: 'Maize, flaked' },
  { value: 'rye-flaked', label: 'Rye, flaked' },
  { value: 'oats-flaked', label: 'Oats, flaked' },
  { value: 'wheat-flaked', label: 'Wheat, flaked' },
] as const;

const GRAIN_KG_PER_L = 0.23;
const WATER_L_PER_KG = 3;
/** That a kilogram of grain fills of the tub: its water, swollen at 65 °C, and itself (src/mash/heat.hpp). */
const MASH_L_PER_KG = 1.02 * WATER_L_PER_KG + 0.67;
/** As it stands in a text, in the units of who writes it: to a tenth, of a gallon to a hundredth. */
const written =
  (units: Units) =>
  (value: number, unit: string, rounded: (value: number) => number = Math.round) => {
    const us = units === 'us' ? inUs(value, unit, 0) : undefined;
    const parts = us?.unit === 'gal' ? 100 : 10;
    return `${rounded((us?.value ?? value) * parts) / parts} ${us?.unit ?? unit}`;
  };
/** So that no rounding takes of the room; a thousandth for what a tenth is not in binary. */
const down = (value: number) => Math.floor(value + 0.001);

export interface Vessels {
  mash: string;
  ferment: string;
  wash_L: number; // that they take, with room for the foam; 0: the kit does not tell it
  brim_L: number; // of the vessel that bounds it
  by: 'safe fill' | 'foam' | 'mash'; // what bounds it: of the fermenter, or its mash the other one
}

/** Of a vessel whose kit states no safe fill, and what the house's plan leaves for foam at the least. */
const SAFE_SHARE = 0.9;

/** What a maker calls the one vessel and the other; from practice, no source. */
const FERMENTS = /ferment/i;
const MASHES = /\bmash|\btun\b|lauter/i;

/** The vessels a draft may name: for the ferment the one that is called so, else the largest that is not
 *  called the mash's; for the mash another, if there is one, and no fermenter if there is one that is none. */
export function vesselsOf(kit: string): Vessels | undefined {
  const vessels = read(kit)['vessel'];
  if (!Array.isArray(vessels)) return undefined;
  const litres = (told: unknown) => typedAs(String(told ?? ''), 'L', 'metric');
  const sized = vessels
    .map((v) => v as { name?: unknown; total?: unknown; working?: unknown })
    .filter(
      (v): v is { name: string; total?: unknown; working?: unknown } => typeof v.name === 'string',
    )
    .map((v) => ({ name: v.name, brim_L: litres(v.total) ?? 0, safe_L: litres(v.working) }))
    .sort((a, b) => b.brim_L - a.brim_L);
  const ferments =
    sized.find(({ name }) => FERMENTS.test(name)) ??
    sized.find(({ name }) => !MASHES.test(name)) ??
    sized[0];
  if (!ferments) return undefined;
  const others = sized.filter((vessel) => vessel !== ferments);
  const tub =
    others.find(({ name }) => MASHES.test(name)) ??
    others.find(({ name }) => !FERMENTS.test(name)) ??
    others[0] ??
    ferments;
  const { brim_L, safe_L } = ferments;
  const foamless_L = SAFE_SHARE * brim_L;
  const stated = safe_L !== undefined && safe_L <= foamless_L;
  const ferments_L = stated ? safe_L : foamless_L;
  const mashes_L =
    Math.min(tub.safe_L ?? Infinity, SAFE_SHARE * tub.brim_L) / (MASH_L_PER_KG * GRAIN_KG_PER_L);
  const names = { ferment: ferments.name, mash: tub.name };
  if (mashes_L > 0 && mashes_L < ferments_L) {
    return { ...names, wash_L: down(10 * mashes_L) / 10, brim_L: tub.brim_L, by: 'mash' };
  }
  return {
    ...names,
    wash_L: down(10 * ferments_L) / 10,
    brim_L,
    by: stated || safe_L === undefined ? 'safe fill' : 'foam',
  };
}

/** "54.0 L, the safe fill of “fermenter” (60.0 L to the brim, a tenth of it left for foam)". */
export function fillWords({ ferment, mash, wash_L, brim_L, by }: Vessels, units: Units): string {
  const litres = (value: number) => quantity(value, 'L', 1, units);
  const brim = `${litres(brim_L)} to the brim`;
  if (by === 'mash') {
    return `${litres(wash_L)}: for more the mash would not fit into “${mash}” (${brim})`;
  }
  const tenth = wash_L >= SAFE_SHARE * brim_L - 0.1;
  return by === 'foam'
    ? `${litres(wash_L)}, nine tenths of “${ferment}” (${brim}): its safe fill is more, but a tenth is left for foam`
    : `${litres(wash_L)}, the safe fill of “${ferment}” (${brim}${tenth ? ', a tenth of it left for foam' : ''})`;
}

/** A recipe to begin from: a name, litres of wash, the main grain. */
export function draft(
  name: string,
  wash_L: number,
  grain: string,
  vessels: Pick<Vessels, 'mash' | 'ferment'>,
  units: Units = 'metric',
): string {
  const of = written(units);
  const mass = wash_L * GRAIN_KG_PER_L;
  const malt = grain === 'barley-malt-distillers' ? mass : mass * 0.35;
  const lines = [
    `# A first draft for ${of(wash_L, 'L')} of wash: change what you like.`,
    `name = ${JSON.stringify(name)}`,
    '',
  ];
  const line = (ingredient: string, kg: number) =>
    lines.push('[[mash_bill]]', `ingredient = "${ingredient}"`, `mass = "${of(kg, 'kg')}"`, '');
  if (grain !== 'barley-malt-distillers') line(grain, mass - malt);
  line('barley-malt-distillers', malt);
  lines.push(
    '[mash]',
    `vessel = ${JSON.stringify(vessels.mash)}`,
    `water = "${of(mass * WATER_L_PER_KG, 'L')}"`,
    `rest_temperature = "${of(64.5, '°C')}"`,
    'rest_time = "90 min"',
    '',
    '[[mash.sparge]]',
    `water = "${of(wash_L * 0.3, 'L')}"`,
    `temperature = "${of(75, '°C')}"`,
    '',
    '[ferment]',
    `vessel = ${JSON.stringify(vessels.ferment)}`,
    `fill_to = "${of(wash_L, 'L', down)}"`,
    `pitch_temperature = "${of(25, '°C')}"`,
    'yeast = "distillers-dry"',
    '',
    '[strip]',
    'stop = "10 %vol"',
    '',
    '[spirit_run]',
    'hearts_end = "58 %vol"',
    '',
    '[reduce]',
    'maturing_strength = "55 %vol"',
    '',
    '[bottle]',
    'strength = "45 %vol"',
    '',
  );
  return lines.join('\n');
}

/** A plain kit for so much wash, for a house that has stated none; to be changed to the real one. */
export function plainKit(wash_L: number, units: Units = 'metric'): string {
  const of = written(units);
  return [
    '# A plain kit to begin from: put in your own vessels and still.',
    'name = "The house"',
    '',
    '[place]',
    `altitude = "${of(0, 'm')}"`,
    `ambient = "${of(18, '°C')}"`,
    '',
    '[liquor]',
    `cold = "${of(12, '°C')}"`,
    `hot = "${of(90, '°C')}"`,
    '',
    '[[vessel]]',
    'name = "mash tub"',
    `total = "${of(wash_L * 1.2, 'L')}"`,
    `wall_mass = "${of(2 + wash_L * 0.08, 'kg')}"`,
    '',
    '[[vessel]]',
    'name = "fermenter"',
    `total = "${of(wash_L * 1.3, 'L')}"`,
    'wall = "plastic"',
    `wall_mass = "${of(1 + wash_L * 0.05, 'kg')}"`,
    '',
    '[boiler]',
    `total = "${of(Math.max(10, wash_L * 0.5), 'L')}"`,
    `wall_mass = "${of(3 + wash_L * 0.1, 'kg')}"`,
    `power = "${of(Math.max(2, wash_L * 0.05), 'kW')}"`,
    'power_adjustable = true',
    '',
    '[condenser]',
    'greatest_flow = "4 L/min"',
    '',
  ].join('\n');
}
