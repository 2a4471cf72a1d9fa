// The shelf made from a run, and an allotment made into what the journal keeps. Pure. Volumes are at
// 20 °C; strengths of blends are the house's to tell.
import type { Batch, JarPoured, Lot, Poured, Run } from '../data/answers';
import { quantity, type Units } from '../data/units';
import { split, wholly, withoutResidues, type Jar, type Parts } from '../parts/shelf_allotment';

export type Allotment = Readonly<Record<string, Parts>>; // by jar number

/** Runs whose jars stand on the shelf, or may be told of late, the latest first. */
export const runsWithJars = (batch: Batch | undefined): Run[] =>
  (batch?.runs ?? [])
    .filter((run) => run.run === 'spirit run' && (run.jars.length > 0 || run.standing === 'ended'))
    .reverse();

/** "Jar 4", "Jars 1 to 18", "Jars 1 to 3, 7". */
export function jarsNamed(jars: readonly number[]): string {
  const spans: [number, number][] = [];
  for (const jar of jars.toSorted((a, b) => a - b)) {
    const last = spans.at(-1);
    if (last && jar === last[1] + 1) last[1] = jar;
    else spans.push([jar, jar]);
  }
  const names = spans.map(([from, to]) =>
    from === to ? `${from}` : to === from + 1 ? `${from}, ${to}` : `${from} to ${to}`,
  );
  return `${jars.length === 1 ? 'Jar' : 'Jars'} ${names.join(', ')}`;
}

const volumeOf = (jar: Run['jars'][number]): number =>
  jar.lot ? jar.lot.volume_L_20C * 1000 : (jar.as_filled_mL ?? 0);

const partsOf = (poured: JarPoured): Parts => ({
  foreshots: poured.foreshots_mL_20C,
  hearts: poured.hearts_mL_20C,
  feints: poured.feints_mL_20C,
  apart: poured.apart_mL_20C,
});

/** What was allotted may be less than the jar holds now: what is over stays apart, but for a rounding. */
function fitted(parts: Parts, volume_mL: number): Parts {
  const used = parts.foreshots + parts.hearts + parts.feints;
  if (used <= volume_mL) return withoutResidues({ ...parts, apart: volume_mL - used });
  const k = volume_mL / used;
  return withoutResidues({
    foreshots: parts.foreshots * k,
    hearts: parts.hearts * k,
    feints: parts.feints * k,
    apart: 0,
  });
}

/** A jar that is not gauged, and whose volume as it was filled is not believed: it stands there, marked. */
export const notBelieved = (jar: Run['jars'][number], doubted: ReadonlySet<string>): boolean =>
  jar.lot === undefined && jar.filled !== undefined && doubted.has(jar.filled.entry);

/** No jar holds more than was charged, as a mark is read. */
export const moreThanCharged = (charge_L: number, volume_mL: number): boolean =>
  volume_mL > 1010 * charge_L;

/** What the journal rounds a part of a jar by is no other gauging. */
const GAUGED_ANEW_mL = 0.5;

/** Jars that hold another volume than the cut allots: they were gauged anew since. */
export const gaugedSince = (run: Run): { jar: number; allotted_mL: number; volume_mL: number }[] =>
  run.jars.flatMap((jar) => {
    if (!run.allotted || !jar.poured || !jar.lot) return [];
    const { foreshots, hearts, feints, apart } = partsOf(jar.poured);
    const allotted_mL = foreshots + hearts + feints + apart;
    const volume_mL = volumeOf(jar);
    const same = Math.abs(volume_mL - allotted_mL) <= GAUGED_ANEW_mL;
    return same ? [] : [{ jar: jar.jar, allotted_mL, volume_mL }];
  });

/**
 * The jars as the shelf draws them: by the draft, else as allotted, else all set apart.
 *
 * `doubted`: entries that are kept and not believed.
 */
export function shelfOf(
  run: Run,
  draft: Allotment | undefined,
  doubted: ReadonlySet<string> = new Set(),
): Jar[] {
  const volumes = run.jars.map(volumeOf);
  // A volume that is not believed, or cannot be, would draw all other jars empty.
  const held_mL = run.jars.flatMap((jar) => [
    jar.lot ? volumeOf(jar) : 0,
    jar.filled && doubted.has(jar.filled.entry) ? 0 : (jar.as_filled_mL ?? 0),
  ]);
  const capacity_mL = Math.max(
    1,
    ...held_mL.filter((mL) => !moreThanCharged(run.charge_L_20C, mL)),
  );
  return run.jars.map((jar, i) => {
    const volume_mL = volumes[i]!;
    const own = draft?.[String(jar.jar)] ?? (jar.poured ? partsOf(jar.poured) : undefined);
    const notes = jar.notes.flatMap((n) => [...(n.words ?? []), ...(n.text ? [n.text] : [])]);
    return {
      id: String(jar.jar),
      name: String(jar.jar),
      volume_mL,
      capacity_mL,
      parts: own ? fitted(own, volume_mL) : wholly('apart', volume_mL),
      ...(jar.lot ? { strength: jar.lot.strength_percent_vol } : {}),
      ...(notes.length > 0 ? { notes: notes.join(', ') } : {}),
      ...(notBelieved(jar, doubted) ? { doubted: true } : {}),
    };
  });
}

export const allotmentOf = (jars: readonly Jar[]): Allotment =>
  Object.fromEntries(jars.map((jar) => [jar.id, jar.parts]));

const hundredths = (mL: number) => Math.floor(mL * 100 + 1e-6) / 100;

/** The allotment of the gauged jars, as the house takes it. Never more than the jar by rounding. */
export function pouredOf(jars: readonly Jar[]): JarPoured[] {
  return jars
    .filter((jar) => jar.strength !== undefined)
    .map((jar) => {
      const parts = withoutResidues(jar.parts);
      return {
        jar: Number(jar.id),
        foreshots_mL_20C: hundredths(parts.foreshots),
        hearts_mL_20C: hundredths(parts.hearts),
        feints_mL_20C: hundredths(parts.feints),
        apart_mL_20C: hundredths(parts.apart),
      };
    });
}

/** An alternative of the house laid over the shelf. */
export const taken = (jars: readonly JarPoured[]): Allotment =>
  Object.fromEntries(jars.map((jar) => [String(jar.jar), partsOf(jar)]));

/**
 * From the glass to the bulk: millilitres of jars in a measuring glass, scaled so that the first jar
 * runs empty (or to `hearts_mL` when that is less). Other jars give up their hearts to the feints.
 */
export function fromGlass(
  jars: readonly Jar[],
  glass: Readonly<Record<string, number>>,
  hearts_mL = Infinity,
): { jars: Jar[]; scale: number } | undefined {
  const poured = jars.filter((jar) => (glass[jar.id] ?? 0) > 0);
  const inGlass = poured.reduce((sum, jar) => sum + glass[jar.id]!, 0);
  if (inGlass === 0) return undefined;
  const reach = Math.min(...poured.map((jar) => jar.volume_mL / glass[jar.id]!));
  const scale = Math.min(reach, hearts_mL / inGlass);
  return {
    scale,
    jars: jars.map((jar) => split(jar, 'hearts', (glass[jar.id] ?? 0) * scale, 'feints')),
  };
}

/** Jars that give something to the feints which they did not before: wholly, or what is left of them. */
export function newToFeints(
  before: readonly Jar[],
  after: readonly Jar[],
): { whole: number[]; rest: number[] } {
  const had = new Map(before.map((jar) => [jar.id, jar.parts.feints]));
  const more = after.filter((jar) => jar.parts.feints > (had.get(jar.id) ?? 0) + 0.5);
  const all = (jar: Jar) => jar.parts.feints > jar.volume_mL - 0.5;
  return {
    whole: more.filter(all).map((jar) => Number(jar.name)),
    rest: more.filter((jar) => !all(jar)).map((jar) => Number(jar.name)),
  };
}

/** Why the shelf cannot be made a cut yet; undefined when it can. */
export function missing(jars: readonly Jar[]): string | undefined {
  const ungauged = jars.filter((jar) => jar.strength === undefined);
  const gauged = gaugedJars(jars);
  if (gauged.length === 0) return 'No jar is gauged yet: a cut is made of gauged jars.';
  const has = (lot: keyof Parts) => gauged.some((jar) => jar.parts[lot] > 0);
  if (has('hearts')) return undefined;
  if (ungauged.length > 0)
    return `No hearts yet, and ${jarsNamed(ungauged.map((j) => Number(j.name))).toLowerCase()} ${
      ungauged.length === 1 ? 'is' : 'are'
    } not gauged: gauge first.`;
  if (!has('foreshots') && !has('feints'))
    return 'Nothing is allotted yet: pick a lot, then tap or sweep its jars.';
  return undefined;
}

/** The first jar of a run, where it goes to the hearts and nothing of the run to the foreshots. */
export function firstIntoHearts(jars: readonly Jar[]): Jar | undefined {
  if (jars.some((jar) => jar.parts.foreshots > 0)) return undefined;
  const first = [...jars].sort((a, b) => Number(a.name) - Number(b.name))[0];
  return first && first.parts.hearts > 0 ? first : undefined;
}

/** Of a lot so little is left that it counts as used up, and so much is a rounding. */
const CLINGS_L = 0.005;

/**
 * Why the cut of a run cannot be corrected so: its hearts are used up, or a lot has given more than it
 * is to hold now. Undefined when it can, also while the house has not told the lots.
 */
export function usedBeyond(
  run: Run,
  lots: readonly Lot[],
  poured: Poured | undefined,
  units: Units,
): string | undefined {
  for (const lot of lots) {
    const { entry, kind } = lot.lot;
    if (!run.allotted || (entry !== run.allotted.entry && entry !== run.entry)) continue;
    if (kind !== 'hearts' && kind !== 'foreshots' && kind !== 'feints' && kind !== 'apart')
      continue;
    if (lot.uses.length === 0) continue;
    const name = kind === 'apart' ? 'what was set apart' : `the ${kind}`;
    if (kind === 'hearts' && lot.left.volume_L_20C < CLINGS_L)
      return 'The hearts of this cut are used up: it can no longer be corrected.';
    const used_L = lot.made.volume_L_20C - lot.left.volume_L_20C;
    if (poured && poured[kind].volume_L_20C < used_L - CLINGS_L)
      return `Of ${name} ${quantity(used_L, 'L', 2, units)} is used already; accepted: a cut that gives at least so much.`;
  }
  return undefined;
}

/** Those that can be poured: their strength is known. */
export const gaugedJars = (jars: readonly Jar[]): Jar[] =>
  jars.filter((jar) => jar.strength !== undefined);

/** Jars that may stand in a trial in the glass: gauged, and not wholly allotted to the foreshots. */
export const tastedJars = (jars: readonly Jar[]): Jar[] =>
  gaugedJars(jars).filter((jar) => jar.parts.foreshots < jar.volume_mL - 0.5);
