// The principal figures of a plan as rows, of one plan or of two side by side. Why they are what they
// are is in plan_reasons.ts and uses.ts.
import type { Plan, PlanFigure } from '../data/answers';
import type { Why } from '../parts/Figure.svelte';
import { bandOfPlan, reasonOf, type FigureKey } from './plan_reasons';

export type { FigureKey } from './plan_reasons';

/** In the order of the work. */
export const ORDER: readonly FigureKey[] = [
  'extract_potential_kg',
  'landing_temperature_C',
  'dough_in_temperature_C',
  'wort_volume_L_20C',
  'original_gravity',
  'final_gravity',
  'wash_percent_vol',
  'days_to_dry',
  'strip_run_hours',
  'low_wines_volume_L_20C',
  'low_wines_percent_vol',
  'spirit_run_hours',
  'hearts_volume_L_20C',
  'hearts_percent_vol',
  'hearts_pure_alcohol_L',
  'feints_kept_volume_L_20C',
  'maturing_volume_L_20C',
  'bottled_volume_L_20C',
  'bottles',
];

export interface FigureRow {
  key: FigureKey;
  figure: PlanFigure;
  other?: PlanFigure; // of the variant beside it
}

export function figureRows(plan: Plan, other?: Plan): FigureRow[] {
  return ORDER.flatMap((key) => {
    const figure = plan.figures[key] ?? other?.figures[key];
    if (!figure) return [];
    const beside = other?.figures[key];
    const own = plan.figures[key] ?? { ...figure, planned: Number.NaN };
    return [{ key, figure: own, ...(beside ? { other: beside } : {}) }];
  });
}

/** Of one of the principal figures of a plan. */
export function whyOf(plan: Plan, key: FigureKey): Why {
  const name = plan.figures[key]!.name;
  return {
    what: `${name.charAt(0).toUpperCase()}${name.slice(1)}, of this plan`,
    ...reasonOf(plan, key),
    band: bandOfPlan(plan),
  };
}

/** The difference of the second variant from the first, or undefined where one has no such figure. */
export function difference(row: FigureRow): number | undefined {
  if (!row.other || !Number.isFinite(row.figure.planned)) return undefined;
  return row.other.planned - row.figure.planned;
}
