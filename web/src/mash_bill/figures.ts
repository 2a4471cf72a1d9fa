// The principal figures of a plan as rows, of one plan or of two side by side, and what they answer
// when asked why: their inputs as they stand in this plan, the model, and where it is written down.
import type { Plan, PlanFigure } from '../data/answers';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';

export type FigureKey = keyof Plan['figures'];

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

// What each room's page says of itself; the page is named as the source.
const MODELS: Record<string, [model: string, source: string]> = {
  'Mash bill': [
    'Each line’s dry matter times the extract that its ingredient gives, summed.',
    'the table of ingredients; its documents stand at each line of the bill',
  ],
  Mash: [
    'Heat balances with the grain’s hydration; starch split by two amylases that die as it rests; draining by what the grain holds.',
    'docs/rooms/mash.md: structure of the rest after Brandam et al. 2003, its constants our calibration',
  ],
  Ferment: [
    'Sugar split to alcohol and gas, of which a share is reached (0.90, our choice between sources that part); pace by nitrogen-limited growth and what alcohol holds back.',
    'docs/rooms/ferment.md: Cramer et al. 2002; Coleman, Fish and Block 2007',
  ],
  Strip: [
    'The pot boiled down in small steps with vapour and liquid in equilibrium at the house’s pressure, and a heat balance of pot and head.',
    'docs/rooms/still.md, docs/rooms/vapour.md',
  ],
  'Spirit run': [
    'As a strip, with the cuts of the recipe: the pot boiled down in small steps, vapour and liquid in equilibrium at the house’s pressure.',
    'docs/rooms/still.md, docs/rooms/vapour.md',
  ],
  Reduce: [
    'Mass of water and spirit kept, volume by the density of their mixture, so contraction is in it.',
    'docs/rooms/spirit.md (OIML R 22)',
  ],
  Wood: ['What the wood soaks up and what evaporates, over its time.', 'docs/rooms/wood.md'],
  Bottle: [
    'Reduced as before, less what vessels and filter keep, divided by a bottle’s size.',
    'docs/rooms/plan.md',
  ],
};

type Input = Why['inputs'][number];
const input = (name: string, value: number | undefined, decimals: number, unit: string): Input[] =>
  value === undefined ? [] : [{ name, value: `${printed(value, decimals)} ${unit}`.trim() }];

function inputsOf(plan: Plan, stage: string): Input[] {
  const { mash_bill, mash, wort, ferment, strip, spirit_run, reduce, wood, bottle, kit } = plan;
  switch (stage) {
    case 'Mash bill':
      return [
        ...input('Mass of the bill', mash_bill.mass_kg, 2, 'kg'),
        ...input('Dry matter', mash_bill.dry_kg, 2, 'kg'),
      ];
    case 'Mash':
      return [
        ...input('Extract in the bill', mash_bill.extract_kg, 2, 'kg'),
        ...input('Rest', mash?.rest.wanted_C, 1, '°C'),
        ...input('Starch converted', mash && 100 * mash.conversion.converted_fraction, 1, '%'),
        ...input(
          'Extract drained of it',
          mash?.draining && 100 * mash.draining.efficiency_fraction,
          1,
          '%',
        ),
        ...input('Room', kit.ambient_C, 1, '°C'),
      ];
    case 'Ferment':
      return [
        ...input('Extract in the wort', wort.extract_kg, 2, 'kg'),
        ...input('Wort', wort.volume_L_20C, 1, 'L'),
        ...input('Of the extract ferments', 100 * wort.fermentable_fraction, 1, '%'),
        ...input('Pitched at', ferment.pitch_C, 1, '°C'),
        ...input('Yeast', ferment.yeast_g, 0, 'g'),
      ];
    case 'Strip':
      return [
        ...input('Strips', strip.runs, 0, ''),
        ...input('Wash in each', strip.run.charge.volume_L_20C, 1, 'L'),
        ...input('Its strength', strip.run.charge.strength_percent_vol, 2, '%vol'),
        ...input('Air pressure', kit.pressure_kPa * 10, 0, 'hPa'),
        ...input('Power', strip.run.power_kW, 2, 'kW'),
      ];
    case 'Spirit run':
      return [
        ...input('Charge', spirit_run.run.charge.volume_L_20C, 1, 'L'),
        ...input('Its strength', spirit_run.run.charge.strength_percent_vol, 1, '%vol'),
        ...input('Air pressure', kit.pressure_kPa * 10, 0, 'hPa'),
        ...input('Power', spirit_run.run.power_kW, 2, 'kW'),
      ];
    case 'Reduce':
      return [
        ...input('Hearts', reduce.hearts.volume_L_20C, 2, 'L'),
        ...input('Their strength', reduce.hearts.strength_percent_vol, 1, '%vol'),
        ...input('Water', reduce.water_kg, 2, 'kg'),
      ];
    case 'Wood':
      return input('Time', wood?.time_days, 0, 'days');
    case 'Bottle':
      return [
        ...input('After wood', wood?.matured.volume_L_20C, 2, 'L'),
        ...input('Water', bottle.water_kg, 2, 'kg'),
        ...input('A bottle holds', bottle.size_mL, 0, 'mL'),
      ];
    default:
      return [];
  }
}

export function whyOf(plan: Plan, figure: PlanFigure): Why {
  const [model, source] = MODELS[figure.stage] ?? [
    'The plan, stage by stage.',
    'docs/rooms/plan.md',
  ];
  const members = plan.ensemble?.members;
  return {
    what: `${figure.name.charAt(0).toUpperCase()}${figure.name.slice(1)}, of this plan`,
    inputs: inputsOf(plan, figure.stage),
    model,
    source,
    band:
      members === undefined
        ? undefined
        : `from ${members} plans with constants, lots and readings drawn from their spread; the models’ own error is not in it`,
  };
}

export interface UseRow {
  name: string;
  unit: string;
  decimals: number;
  value?: number | undefined;
  other?: number | undefined; // of the variant beside it
}

/** What a batch takes: cost, heat, water, hours; a row that neither has is left out. */
export function useRows(plan: Plan, other?: Plan): UseRow[] {
  const of = (
    name: string,
    unit: string,
    decimals: number,
    read: (plan: Plan) => number | undefined,
  ): UseRow => ({ name, unit, decimals, value: read(plan), other: other && read(other) });
  const currency = plan.uses.costs?.currency ?? other?.uses.costs?.currency ?? '';
  const cost = (what: string) => (currency ? `${what}, ${currency}` : what);
  return [
    of('grain and sugar', 'kg', 2, (p) => p.mash_bill.mass_kg),
    of(cost('cost'), '', 2, (p) => p.uses.costs?.amount),
    of(cost('cost of a bottle'), '', 2, (p) => p.uses.costs?.amount_per_bottle),
    of('energy', 'kWh', 1, (p) => p.uses.energy.all_kWh),
    of('coolant', 'L', 0, (p) => p.uses.coolant_L),
    of('hands on', 'h', 1, (p) => p.timeline.hands_on_min / 60),
    of('watching the heat', 'h', 1, (p) => p.timeline.watching_min / 60),
  ].filter((row) => row.value !== undefined || row.other !== undefined);
}

/** The difference of the second variant from the first, or undefined where one has no such figure. */
export function difference(row: FigureRow): number | undefined {
  if (!row.other || !Number.isFinite(row.figure.planned)) return undefined;
  return row.other.planned - row.figure.planned;
}
