// The calls of the gauge, as api/openapi.yaml has them, and what a refusal or silence is told as.
import type { ReductionCheck } from '../data/answers';
import { NoAnswer, Problem, type Fault } from '../data/problem';
import type { Why } from '../parts/Figure.svelte';

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
  lot?: LotFigures;
  remarks?: string[];
  why?: Why;
}

export interface Reduced {
  spirit_L?: number; // that goes in, as warm as it is
  apparent_percent_vol?: number; // where something is dissolved
  check?: ReductionCheck;
  water_kg: number;
  water_L: number;
  volume_L_20C: number;
  contraction_L_20C: number;
  pure_alcohol_L_20C: number;
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
