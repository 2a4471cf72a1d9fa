// Why the plan's ledger says what it says: for each stage what goes in and comes out, and for each of
// its lines, the figures of this plan that it is made of, by which model, after which source. The
// principal figures' own reasons (plan_reasons.ts), told of the pure alcohol. Pure.
import type { Plan } from '../data/answers';
import { printed } from '../data/figures';
import { input as figure, percent, reasonOf, SOURCES } from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

export type Reason = Pick<Why, 'inputs' | 'model' | 'source' | 'band'>;
type Input = Why['inputs'][number];

export const input = (name: string, value: string): Input => ({ name, value });
const share = (name: string, part: number, whole: number | undefined): Input[] =>
  whole ? percent(name, part / whole) : [];
const pure = (name: string, litres: number): Input[] =>
  figure(name, litres, 3, 'L of pure alcohol');

interface Gauged {
  volume_L_20C: number;
  strength_percent_vol: number;
}
export const gauged = ({ volume_L_20C, strength_percent_vol }: Gauged): string =>
  `${printed(volume_L_20C, 2)} L at ${printed(strength_percent_vol, 1)} %vol`;

const STOICHIOMETRY =
  'Told as the alcohol it holds if all of it were sugar: 0.511 g of ethanol from a gram of hexose.';

/** With more of what is behind it. */
const and = (of: Reason, inputs: Input[], model = ''): Reason => ({
  ...of,
  inputs: [...of.inputs, ...inputs],
  model: `${of.model} ${model}`.trimEnd(),
});

const bill = (plan: Plan): Reason => ({
  ...and(
    reasonOf(plan, 'extract_potential_kg'),
    figure('Extract in the bill', plan.mash_bill.extract_kg, 2, 'kg'),
    STOICHIOMETRY,
  ),
  source: `stoichiometry, exact; ${SOURCES.extract}`,
});

const mash = ({ mash: of, mash_bill, wort }: Plan): Reason => ({
  inputs: [
    ...figure('Extract in the bill', mash_bill.extract_kg, 2, 'kg'),
    ...figure('Rest', of?.rest.wanted_C, 1, '°C'),
    ...percent('Starch converted', of?.conversion.converted_fraction),
    ...percent('Extract drained, of what dissolved', of?.draining?.efficiency_fraction),
    ...figure('Kept by the spent grain', of?.draining?.kept_extract_kg, 2, 'kg of extract'),
    ...figure('Extract in the wort', wort.extract_kg, 2, 'kg'),
  ],
  model: `Two amylases split the starch and die as it rests; what the wet grain holds stays in it, by a mass balance of its liquor. ${STOICHIOMETRY}`,
  source: `${SOURCES.rest}; ${SOURCES.drain}`,
});

const ferment = (plan: Plan): Reason => {
  const { racked_volume_L_20C, strength_percent_vol, lees, wash } = plan.ferment;
  return {
    ...and(
      reasonOf(plan, 'wash_percent_vol'),
      [
        ...figure('Strength of the wash', strength_percent_vol, 2, '%vol'),
        ...figure('Racked', racked_volume_L_20C, 1, 'L'),
        ...share('Left with the lees', lees.pure_alcohol_L, wash.pure_alcohol_L),
      ],
      'Lees keep their share of the wash.',
    ),
    source: `${SOURCES.yield}; lees: ${SOURCES.custom}`,
  };
};

const strip = (plan: Plan): Reason =>
  and(reasonOf(plan, 'low_wines_volume_L_20C'), [
    input('Low wines', gauged(plan.strip.low_wines)),
    ...pure('Left in the pots', plan.strip.left_in_pots.pure_alcohol_L),
  ]);

const spirit = (plan: Plan): Reason =>
  and(reasonOf(plan, 'hearts_pure_alcohol_L'), [
    input('Hearts', gauged(plan.spirit_run.hearts)),
    ...pure('Left in the pot', plan.spirit_run.left_in_pots.pure_alcohol_L),
  ]);

const reduce = (plan: Plan): Reason => reasonOf(plan, 'maturing_volume_L_20C');
const bottle = (plan: Plan): Reason =>
  and(reasonOf(plan, 'bottles'), figure('Whole bottles', plan.bottle.bottles, 0, ''));

function wood({ wood: of }: Plan): Reason {
  if (!of) return NOTHING;
  return {
    inputs: [
      input('Laid on wood', gauged(of.into_wood)),
      ...figure('For', of.time_days, 0, 'days'),
      ...pure('Taken up by the wood', of.soaked.pure_alcohol_L),
      ...pure('Evaporated', of.evaporated_pure_alcohol_L),
      ...pure('Samples', of.samples.pure_alcohol_L),
      input('Off the wood', gauged(of.matured)),
    ],
    model:
      'New wood drinks by its surface; water and ethanol pass a cask’s staves by their vapour pressures, and glass lets through what its closure does; samples are the recipe’s.',
    source:
      'permeation, our calibration; what wood drinks: from memory; a closure of glass: our estimate',
  };
}

const NOTHING: Reason = { inputs: [], model: 'The plan, stage by stage.', source: 'our own model' };

const STAGES: Record<string, (plan: Plan) => Reason> = {
  'Mash bill': bill,
  Mash: mash,
  Ferment: ferment,
  Strip: strip,
  'Spirit run': spirit,
  Reduce: reduce,
  Wood: wood,
  Bottle: bottle,
};

/** What a stage of the plan rests on. */
export const stageReason = (plan: Plan, stage: string): Reason =>
  (STAGES[stage] ?? (() => NOTHING))(plan);

/** What goes into a stage is what the stage before gave; the first is the bill itself. */
const BEFORE: Record<string, string> = {
  Mash: 'Mash bill',
  Ferment: 'Mash',
  Strip: 'Ferment',
  'Spirit run': 'Strip',
  Reduce: 'Spirit run',
  Wood: 'Reduce',
};

/** Of a planned figure of the ledger: what a stage takes in, or what comes of it. */
export function whyPlanned(plan: Plan, stage: string, side: 'in' | 'out'): Why {
  const before = stage === 'Bottle' ? (plan.wood ? 'Wood' : 'Reduce') : (BEFORE[stage] ?? stage);
  const reason = stageReason(plan, side === 'in' ? before : stage);
  const feints = plan.spirit_run.made_of.feints;
  const beside =
    side === 'in' && stage === 'Spirit run' && feints.pure_alcohol_L > 0
      ? [input('Feints put in, by the recipe', gauged(feints))]
      : [];
  const end = side === 'in' ? 'that goes into' : 'that comes of';
  return {
    what: `Pure alcohol at 20 °C ${end} this stage of the plan: ${stage.toLowerCase()}`,
    ...reason,
    inputs: [...reason.inputs, ...beside],
    band: NO_BAND,
  };
}

type Line = Plan['ledger']['entries'][number];

/** Of one named line of the plan's ledger. */
export function whyLine(plan: Plan, line: Line): Why {
  const whole = plan.ledger.stages.find((one) => one.stage === line.stage)?.in_pure_alcohol_L;
  const reason = stageReason(plan, line.stage);
  return {
    what: `Pure alcohol at 20 °C, ${line.stage.toLowerCase()}: ${line.name}; as planned`,
    ...reason,
    inputs: [
      ...reason.inputs,
      ...share('This, of what goes into the stage', line.pure_alcohol_L, whole),
    ],
    band: NO_BAND,
  };
}
