// Whether the grain of a bill has room in its mash vessel at all. The house then tells of the water that such
// a bill would need, or of the vessel; a slip of the scale stands in the bill, and is told there too. Pure.
import type { Tables } from '../data/answers';
import { typedAs } from '../data/units';

/** What a kilogram of grain fills when it is only just wetted through: some 0.7 L itself, and 1 L of water
 *  that it holds (common practice, no source). No mash is thicker. */
const SOAKED_L_PER_KG = 1.7;

/** Kinds of the house's table that go into the mash only where the bill says so. */
const SUGARS: ReadonlySet<string> = new Set(['sugar', 'honey', 'molasses']);
const IN_THE_MASH: ReadonlySet<unknown> = new Set(['cook', 'dough-in']);
const APART: ReadonlySet<unknown> = new Set(['boil', 'ferment']);

export interface NoRoom {
  /** The line that is heaviest, counted from 0: a slip is likeliest there. */
  line: number;
  says: string;
  remedy: string;
}

interface Line {
  ingredient?: unknown;
  mass?: unknown;
  use?: unknown;
}

const listOf = <T>(value: unknown): T[] => (Array.isArray(value) ? (value as T[]) : []);
const read = (value: unknown, unit: 'kg' | 'L') =>
  typeof value === 'string' ? typedAs(value, unit, 'metric') : undefined;

/** Undefined where it has room, or nothing can be told. Texts as read from the recipe's and the kit's. */
export function noRoomForGrain(
  recipe: Record<string, unknown>,
  kit: Record<string, unknown>,
  tables: Pick<Tables, 'ingredients'> | undefined,
): NoRoom | undefined {
  const named = (recipe['mash'] as { vessel?: unknown } | undefined)?.vessel;
  const vessel = listOf<{ name?: unknown; total?: unknown }>(kit['vessel']).find(
    ({ name }) => name === named,
  );
  const brim_L = read(vessel?.total, 'L');
  if (typeof named !== 'string' || brim_L === undefined || brim_L <= 0) return undefined;
  const sugars = new Set(
    (tables?.ingredients ?? []).filter(({ kind }) => SUGARS.has(kind)).map(({ id }) => id),
  );
  const mashed = listOf<Line>(recipe['mash_bill']).map(({ ingredient, mass, use }) =>
    IN_THE_MASH.has(use) || (!APART.has(use) && !sugars.has(String(ingredient)))
      ? (read(mass, 'kg') ?? 0)
      : 0,
  );
  const all_kg = mashed.reduce((sum, kg) => sum + kg, 0);
  const soaked_L = all_kg * SOAKED_L_PER_KG;
  if (soaked_L <= brim_L) return undefined;
  return {
    line: mashed.indexOf(Math.max(...mashed)),
    says: `The grain weighs ${all_kg.toFixed(1)} kg: only just wetted through it fills about ${soaked_L.toFixed(0)} L, and the ${named} holds ${brim_L.toFixed(0)} L to its brim.`,
    remedy: 'Look at the masses first: no water mends that. Less grain, or a larger vessel.',
  };
}
