// What a batch takes: cost, heat, water, hours, and whether its enzymes suffice; each with what it
// answers when asked why. Pure.
import type { Plan } from '../data/answers';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';
import { input, told, type Input, type Reason } from './plan_reasons';

export type Use =
  'mass' | 'cost' | 'cost_per_bottle' | 'energy' | 'coolant' | 'hands_on' | 'watching';

export interface UseRow {
  key: Use;
  name: string;
  unit: string;
  decimals: number;
  value?: number | undefined;
  other?: number | undefined; // of the variant beside it
}

/** A row that neither variant has is left out. */
export function useRows(plan: Plan, other?: Plan): UseRow[] {
  const of = (
    key: Use,
    name: string,
    unit: string,
    decimals: number,
    read: (plan: Plan) => number | undefined,
  ): UseRow => ({ key, name, unit, decimals, value: read(plan), other: other && read(other) });
  const currency = plan.uses.costs?.currency ?? other?.uses.costs?.currency ?? '';
  const cost = (what: string) => (currency ? `${what}, ${currency}` : what);
  return [
    of('mass', 'grain and sugar', 'kg', 2, (p) => p.mash_bill.mass_kg),
    of('cost', cost('cost'), '', 2, (p) => p.uses.costs?.amount),
    of('cost_per_bottle', cost('cost of a bottle'), '', 2, (p) => p.uses.costs?.amount_per_bottle),
    of('energy', 'energy', 'kWh', 1, (p) => p.uses.energy.all_kWh),
    of('coolant', 'coolant', 'L', 0, (p) => p.uses.coolant_L),
    of('hands_on', 'hands on', 'h', 1, (p) => p.timeline.hands_on_min / 60),
    of('watching', 'watching the heat', 'h', 1, (p) => p.timeline.watching_min / 60),
  ].filter((row) => row.value !== undefined || row.other !== undefined);
}

/** Hours of the plan's steps by stage, of those that ask for so much attention. */
function hours(plan: Plan, attention: 'hands_on' | 'watch'): Input[] {
  const minutes = new Map<string, number>();
  for (const step of plan.timeline.steps)
    if (step.attention === attention)
      minutes.set(step.stage, (minutes.get(step.stage) ?? 0) + step.length_min);
  return [...minutes].flatMap(([stage, sum]) => input(stage, sum / 60, 1, 'h'));
}

const PRICES = 'prices: the recipe’s; amounts: this plan’s';

const USES: Record<Use, (plan: Plan) => Reason & { what: string }> = {
  mass: (plan) => ({
    what: 'Mass of the bill, as it comes',
    inputs: plan.mash_bill.lines.flatMap((line, i) =>
      input(`${i + 1}. ${line.name}`, line.mass_kg, 2, 'kg'),
    ),
    model: 'The masses of the lines, summed.',
    source: 'the recipe',
  }),
  cost: (plan) => ({
    what: 'Cost of the batch, as far as the recipe has prices',
    inputs: (plan.uses.costs?.lines ?? []).flatMap((line, i) =>
      told(`${i + 1}. ${line.what}`, printed(line.amount, 2)),
    ),
    model:
      'Each amount times its price, summed. What has no price in the recipe is left out, and so are work and kit.',
    source: PRICES,
  }),
  cost_per_bottle: (plan) => ({
    what: 'Cost of a bottle, as far as the recipe has prices',
    inputs: [
      ...input('Cost of the batch', plan.uses.costs?.amount, 2, ''),
      ...input('Whole bottles', plan.bottle.bottles, 0, ''),
    ],
    model: 'The cost of the batch over its whole bottles; the remainder counts for nothing.',
    source: PRICES,
  }),
  energy: ({ uses: { energy }, kit, strip, spirit_run }) => ({
    what: 'Energy drawn by cook, waters, sugar and still',
    inputs: [
      ...input('Mash', energy.mash_kWh, 1, 'kWh'),
      ...told('Strips', `${strip.runs} × ${printed(strip.run.energy_kWh, 1)} kWh`),
      ...told('Spirit runs', `${spirit_run.runs} × ${printed(spirit_run.run.energy_kWh, 1)} kWh`),
      ...input('Cold water', kit.cold_liquor_C, 0, '°C'),
    ],
    model:
      'Heat balance of each heating, over the efficiency of what heats it; runs of the still by the power they draw, to their end.',
    source:
      'heat balances, exact; efficiencies and losses: the kit’s; heat of boiling: Perry’s Handbook, 8th ed.',
  }),
  coolant: ({ kit, strip, spirit_run }) => ({
    what: 'Coolant that the condenser takes in all runs',
    inputs: [
      ...told('Strips', `${strip.runs} × ${printed(strip.run.coolant.water_L, 0)} L`),
      ...told(
        'Spirit runs',
        `${spirit_run.runs} × ${printed(spirit_run.run.coolant.water_L, 0)} L`,
      ),
      ...input('Comes in at', kit.coolant_inlet_C, 0, '°C'),
      ...input('Leaves the strips at', strip.run.coolant.leaving_C, 0, '°C'),
      ...input('Leaves the spirit run at', spirit_run.run.coolant.leaving_C, 0, '°C'),
    ],
    model:
      'The heat of the vapour goes into water: as much flows as the condenser needs at the start of a run, and half as much again, left so to its end.',
    source:
      'heat balance, exact; heat of condensing: Perry’s Handbook, 8th ed.; how near coolant and vapour come, and the half on top: common practice, no source',
  }),
  hands_on: (plan) => ({
    what: 'Hours of handwork in the plan’s steps',
    inputs: hours(plan, 'hands_on'),
    model: 'The lengths of the steps that want hands, summed; those beside others count as well.',
    source: 'lengths of handwork: common practice, no source',
  }),
  watching: (plan) => ({
    what: 'Hours beside a heated vessel in the plan’s steps',
    inputs: hours(plan, 'watch'),
    model: 'The lengths of the steps that are watched, summed; those beside others count as well.',
    source: 'heat balances and runs of this plan; times at the boil: the recipe’s',
  }),
};

export const NO_BAND = 'none is reckoned for this figure';

/** Of a row of what the batch takes. */
export const whyUse = (plan: Plan, key: Use): Why => ({ ...USES[key](plan), band: NO_BAND });

/** Of the enzymes of a bill: what it has, what converts it, what does so with ease. */
export function whyEnzymes(plan: Plan, which: 'has' | 'need' | 'comfort'): Why {
  const { mash_bill: bill } = plan;
  if (which === 'has')
    return {
      what: 'Power of the bill’s enzymes, over all its grain',
      inputs: [
        ...bill.lines.flatMap((line, i) =>
          line.diastatic_power_lintner > 0
            ? told(
                `${i + 1}. ${line.name}`,
                `${printed(line.mass_kg, 2)} kg of ${printed(line.diastatic_power_lintner, 0)} °Lintner`,
              )
            : [],
        ),
        ...input('All grain', bill.grain_kg, 2, 'kg'),
      ],
      model: 'Degrees Lintner of each grain, weighed by its mass; what is cooked brings none.',
      source:
        'power of each malt: the lot’s own analysis where the recipe has one, else common practice or from memory',
      band: NO_BAND,
    };
  return {
    what:
      which === 'need'
        ? 'Power that converts a bill, given time'
        : 'Power that converts a bill with room to spare',
    inputs: input('This bill has', bill.enzymes?.has_lintner, 0, '°Lintner'),
    model: 'A rule of the trade: 35 to 40 °Lintner convert, 60 to 70 with room.',
    source: 'common practice, no source',
    band: NO_BAND,
  };
}
