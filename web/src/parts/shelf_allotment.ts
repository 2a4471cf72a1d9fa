// Whose each millilitre of a jar is: foreshots, hearts, feints, or set apart. Pure: jars in, jars
// out. The parts of a jar always add up to what is in it. Strength and volume of a blend are not
// reckoned here (mixing contracts): the house tells them.

export const LOTS = ['foreshots', 'hearts', 'feints', 'apart'] as const;
export type Lot = (typeof LOTS)[number];
export type Parts = Record<Lot, number>; // mL

export const NAMES: Record<Lot, string> = {
  foreshots: 'Foreshots',
  hearts: 'Hearts',
  feints: 'Feints',
  apart: 'Set apart',
};
/** By which they are told apart on the shelf and by the keys. */
export const LETTERS: Record<Lot, string> = {
  foreshots: 'F',
  hearts: 'H',
  feints: 'T',
  apart: 'A',
};

export interface Jar {
  id: string;
  name: string; // "7"
  volume_mL: number;
  capacity_mL: number;
  strength?: number | undefined; // %vol at 20 °C, as regauged
  notes?: string | undefined;
  doubted?: boolean; // what it is told to hold is kept and not believed
  parts: Parts;
}

export const wholly = (lot: Lot, volume_mL: number): Parts => ({
  foreshots: 0,
  hearts: 0,
  feints: 0,
  apart: 0,
  [lot]: volume_mL,
});

/** What is less of a jar than this, nobody poured: roundings leave it between a volume and its shares. */
const RESIDUE_mL = 0.05;

/** The shares without roundings, which go to the jar's largest share: they are no lot of their own. */
export function withoutResidues(parts: Parts): Parts {
  const largest = LOTS.reduce((a, b) => (parts[b] > parts[a] ? b : a));
  const rounded = LOTS.filter((l) => l !== largest && Math.abs(parts[l]) < RESIDUE_mL);
  const made = { ...parts };
  for (const lot of rounded) {
    made[largest] += made[lot];
    made[lot] = 0;
  }
  return made;
}

/** Gives whole jars to a lot. */
export function allot(jars: readonly Jar[], ids: readonly string[], lot: Lot): Jar[] {
  const meant = new Set(ids);
  return jars.map((jar) =>
    meant.has(jar.id) ? { ...jar, parts: wholly(lot, jar.volume_mL) } : jar,
  );
}

/** The jars from one to another on the shelf, in either direction, both ends among them. */
export function between(jars: readonly Jar[], from: string, to: string): string[] {
  const a = jars.findIndex((j) => j.id === from);
  const b = jars.findIndex((j) => j.id === to);
  if (a < 0 || b < 0) return [];
  return jars.slice(Math.min(a, b), Math.max(a, b) + 1).map((j) => j.id);
}

/** A sweep gives a run of jars to a lot at once. */
export function sweep(jars: readonly Jar[], from: string, to: string, lot: Lot): Jar[] {
  return allot(jars, between(jars, from, to), lot);
}

/**
 * Splits a jar: so many millilitres to a lot, the rest shared by the others as they stand to each
 * other (all of it to `rest` when they have nothing). Clamped to what is in the jar.
 */
export function split(jar: Jar, lot: Lot, millilitres: number, rest: Lot): Jar {
  const given = Math.min(jar.volume_mL, Math.max(0, millilitres));
  const left = jar.volume_mL - given;
  const others = LOTS.filter((l) => l !== lot);
  const had = others.reduce((sum, l) => sum + jar.parts[l], 0);
  const parts = wholly(lot, given);
  if (had > 0) for (const l of others) parts[l] = (jar.parts[l] / had) * left;
  else if (rest !== lot) parts[rest] = left;
  else parts[lot] = jar.volume_mL;
  return { ...jar, parts };
}

/** Where the rest of a jar is when so much of it goes to a lot; `stays` when it was there before. */
export function restOf(
  jar: Jar,
  lot: Lot,
  millilitres: number,
  rest: Lot,
): { lot: Lot; mL: number; stays: boolean }[] {
  const { parts } = split(jar, lot, millilitres, rest);
  return LOTS.filter((l) => l !== lot && parts[l] > 0).map((l) => ({
    lot: l,
    mL: parts[l],
    stays: jar.parts[l] > 0,
  }));
}

/** What each lot has, in millilitres as they stand in the jars. */
export function totals(jars: readonly Jar[]): Parts {
  const sum = wholly('hearts', 0);
  for (const jar of jars) for (const lot of LOTS) sum[lot] += jar.parts[lot];
  return sum;
}

/** The lot that has the whole jar, or undefined when it is split. */
export function lotOf(jar: Jar): Lot | undefined {
  return LOTS.find((lot) => Math.abs(jar.parts[lot] - jar.volume_mL) < 1e-6);
}
