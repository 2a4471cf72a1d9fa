// The shelf made from a run, and an allotment made into what the journal keeps. Pure. Volumes are at
// 20 °C; strengths of blends are the house's to tell.
import type { Batch, JarPoured, Run } from '../data/answers';
import { split, wholly, type Jar, type Parts } from '../parts/shelf_allotment';

export type Allotment = Readonly<Record<string, Parts>>; // by jar number

/** Runs whose jars stand on the shelf, the latest first. */
export const runsWithJars = (batch: Batch | undefined): Run[] =>
  (batch?.runs ?? []).filter((run) => run.run === 'spirit run' && run.jars.length > 0).reverse();

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

/** What was allotted may be less than the jar holds now: what is over stays apart. */
function fitted(parts: Parts, volume_mL: number): Parts {
  const used = parts.foreshots + parts.hearts + parts.feints;
  if (used <= volume_mL) return { ...parts, apart: volume_mL - used };
  const k = volume_mL / used;
  return {
    foreshots: parts.foreshots * k,
    hearts: parts.hearts * k,
    feints: parts.feints * k,
    apart: 0,
  };
}

/** The jars as the shelf draws them: by the draft, else as allotted, else all set apart. */
export function shelfOf(run: Run, draft: Allotment | undefined): Jar[] {
  const volumes = run.jars.map(volumeOf);
  const capacity_mL = Math.max(1, ...volumes, ...run.jars.map((j) => j.as_filled_mL ?? 0));
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
    .map((jar) => ({
      jar: Number(jar.id),
      foreshots_mL_20C: hundredths(jar.parts.foreshots),
      hearts_mL_20C: hundredths(jar.parts.hearts),
      feints_mL_20C: hundredths(jar.parts.feints),
      apart_mL_20C: hundredths(jar.parts.apart),
    }));
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

/** Those that can be poured: their strength is known. */
export const gaugedJars = (jars: readonly Jar[]): Jar[] =>
  jars.filter((jar) => jar.strength !== undefined);
