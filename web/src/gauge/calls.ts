// The calls of the gauge, as api/openapi.yaml has them, and what a refusal or silence is told as.
import type { Gauged as GaugedAnswer, ReductionCheck } from '../data/answers';
import type { Api } from '../data/api';
import { NoAnswer, Problem, type Fault } from '../data/problem';
import type { Why } from '../parts/Figure.svelte';

/** The glass that a reading is taken to be read on. */
export type GlassOf = GaugedAnswer['glass'];

export interface LotFigures {
  volume_L_20C: number;
  strength_percent_vol: number;
  pure_alcohol_L_20C: number;
  mass_kg: number;
  why?: Why;
}

export interface Gauged {
  strength_percent_vol: number;
  standard_percent_vol: number; // one standard deviation
  glass?: GlassOf;
  lot?: LotFigures;
  remarks?: string[];
  why?: Why;
}

export interface Reduced {
  spirit_L?: number; // that goes in, as warm as it is
  apparent_percent_vol?: number; // where something is dissolved
  residue_g_L?: number; // in what it becomes
  besides?: LotFigures; // weaker spirit or tea, without what is dissolved in it
  mass_kg: number; // of what it becomes
  check?: ReductionCheck;
  water_kg: number;
  water_L: number;
  volume_L_20C: number;
  contraction_L_20C: number;
  pure_alcohol_L_20C: number;
  proof_gallons?: number;
  why?: Why;
}

/** Half the width of the 80 % band of a normal distribution, in standard deviations. */
export const BAND_80 = 1.2815515655446004;

export interface Told {
  faults: readonly Fault[];
  sentence: string; // empty when the faults say it all
}

/** What went wrong with a call, for a form whose fields have these paths. */
export function toldOf(fault: unknown, paths: readonly string[]): Told {
  if (fault instanceof Problem) {
    const elsewhere = fault.faults.filter((f) => !paths.includes(f.field));
    const said = elsewhere.map((f) => `${f.field}: accepted is ${f.accepted ?? 'another value'}.`);
    const sentence = fault.faults.length === 0 ? fault.message : said.join(' ');
    return { faults: fault.faults, sentence };
  }
  if (fault instanceof NoAnswer) {
    return { faults: [], sentence: 'The house does not answer; it is needed to reckon this.' };
  }
  throw fault;
}

export const nothingTold: Told = { faults: [], sentence: '' };

/** The true strength where something is dissolved, of a spirit that the alcoholmeter showed so weak. */
export async function truly(
  api: Pick<Api, 'post'>,
  shown_percent_vol: number,
  residue_g_L: number,
  stop?: AbortSignal,
): Promise<number> {
  if (residue_g_L === 0) return shown_percent_vol;
  const read = { reading: shown_percent_vol, scale: 'percent_vol', at_C: 20, residue_g_L };
  const gauged = await (stop
    ? api.post<Gauged>('/gauge', read, stop)
    : api.post<Gauged>('/gauge', read));
  return gauged.strength_percent_vol;
}
