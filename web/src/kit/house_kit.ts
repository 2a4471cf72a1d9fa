// The house's kit for a batch that was planned with another: a batch is often begun with a plain kit,
// before the real one is stated. The recipe speaks of vessels by their names, so those that the house's
// kit has not are given the vessels that a first draft would: the ferment the largest, all else the next.
// What else does not fit is for the house to say. Pure.
import { edited, read } from '../data/toml_text';
import { vesselsOf } from '../house/new_batch';

export interface Fitted {
  recipe: string;
  renamed: { from: string; to: string }[];
}

/** Where a recipe names a vessel, "ferment.vessel", with the name. */
function named(tree: unknown, path = ''): { path: string; name: string }[] {
  if (Array.isArray(tree)) return tree.flatMap((one, i) => named(one, `${path}[${i + 1}]`));
  if (typeof tree !== 'object' || tree === null) return [];
  return Object.entries(tree).flatMap(([key, value]) => {
    const here = path ? `${path}.${key}` : key;
    return key === 'vessel' && typeof value === 'string'
      ? [{ path: here, name: value }]
      : named(value, here);
  });
}

/** The recipe with vessels that the kit has; as it was where the kit names none. */
export function fitted(recipe: string, kit: string): Fitted {
  const list = read(kit)['vessel'];
  const has = new Set((Array.isArray(list) ? list : []).map((v) => (v as { name?: unknown }).name));
  const vessels = vesselsOf(kit);
  const renamed = new Map<string, { from: string; to: string }>();
  let text = recipe;
  if (!vessels) return { recipe, renamed: [] };
  for (const { path, name } of named(read(recipe))) {
    if (has.has(name)) continue;
    const to = path.startsWith('ferment') ? vessels.ferment : vessels.mash;
    text = edited(text, path, to);
    renamed.set(`${name} ${to}`, { from: name, to });
  }
  return { recipe: text, renamed: [...renamed.values()] };
}

/** "Its recipe names “tub” in place of “mash tub”." */
export const renamedWords = (renamed: Fitted['renamed']): string =>
  renamed.map(({ from, to }) => `Its recipe names “${to}” in place of “${from}”.`).join(' ');
