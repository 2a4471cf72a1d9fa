// The principal figures of a plan as rows, of one plan or of two side by side. Why they are what they
// are is in plan_reasons.ts and uses.ts.
import type { Plan, PlanFigure } from '../data/answers';
import { printed } from '../data/figures';
import { inUnits, type Units } from '../data/units';
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

/** A figure as it is counted in these units; `of_pure`: it counts pure alcohol. */
export type Counted = PlanFigure & { of_pure?: boolean; beside?: string };

/**
 * Pure alcohol is counted in litres at 20 °C or in US proof gallons; how many of one make one of the
 * other is the house's own, from the two that its ledger tells of the spirit run.
 */
export function asCounted(plan: Plan, key: FigureKey, units: Units): Counted | undefined {
  const figure = plan.figures[key];
  if (!figure || key !== 'hearts_pure_alcohol_L') return figure;
  const litres = { ...figure, unit: 'L pure', of_pure: true };
  if (units === 'metric') return litres;
  const run = plan.ledger.stages.find((stage) => stage.stage === 'Spirit run');
  if (!run || !(run.out_pure_alcohol_L > 0)) return litres;
  const each = run.out_proof_gallons / run.out_pure_alcohol_L;
  if (units === 'both')
    return {
      ...litres,
      beside: `${printed(figure.planned * each, figure.decimals)}\u00a0proof gal`,
    };
  return {
    ...figure,
    unit: 'proof gal',
    of_pure: true,
    planned: figure.planned * each,
    ...(figure.low === undefined ? {} : { low: figure.low * each }),
    ...(figure.high === undefined ? {} : { high: figure.high * each }),
  };
}

export interface FigureRow {
  key: FigureKey;
  figure: Counted;
  other?: Counted; // of the variant beside it
}

export function figureRows(plan: Plan, other?: Plan, units: Units = 'metric'): FigureRow[] {
  return ORDER.flatMap((key) => {
    const first = asCounted(plan, key, units);
    const beside = other && asCounted(other, key, units);
    const figure = first ?? beside;
    if (!figure) return [];
    const own = first ?? { ...figure, planned: Number.NaN };
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

/**
 * The difference of the second variant from the first, as text: of the two figures as they are shown,
 * in their unit and at their decimals, so that it never contradicts what stands beside it. A dash
 * where one is missing or they are not counted alike. Of two strengths it is that of the proofs only
 * where both are told in proof.
 */
export function shownDifference(
  first: number | undefined,
  second: number | undefined,
  unit: string,
  decimals: number,
  units: Units,
): string {
  if (first === undefined || second === undefined) return printed(undefined);
  const shown = [first, second].map((value) => inUnits(value, unit, decimals, units).first);
  const [a, b] =
    shown[0]!.unit === shown[1]!.unit
      ? shown
      : [first, second].map((value) => ({ value, unit, decimals }));
  const change = Number(b!.value.toFixed(b!.decimals)) - Number(a!.value.toFixed(a!.decimals));
  const text = printed(change, a!.decimals);
  return change > 0 && Number(change.toFixed(a!.decimals)) !== 0 ? `+${text}` : text;
}

/** Of a row of the principal figures. */
export function difference({ figure, other }: FigureRow, units: Units): string {
  const alike = other !== undefined && other.unit === figure.unit;
  return shownDifference(
    figure.planned,
    alike ? other.planned : undefined,
    figure.unit,
    figure.decimals,
    units,
  );
}
