// Why a figure of a plan is what it is: what went into it as it stands in this plan, the model in a
// sentence, and the published source, or that there is none. Of every principal figure, and for the
// pages of the stages that show a plan's figures. Pure.
import type { Plan } from '../data/answers';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';

export type Reason = Pick<Why, 'inputs' | 'model' | 'source'>;
export type Input = Why['inputs'][number];

/** One input, or none where the plan has no such figure. */
export const input = (
  name: string,
  value: number | undefined,
  decimals: number,
  unit: string,
): Input[] =>
  value === undefined || !Number.isFinite(value)
    ? []
    : [{ name, value: `${printed(value, decimals)} ${unit}`.trim() }];
export const told = (name: string, value: string | undefined): Input[] =>
  value ? [{ name, value }] : [];
export const percent = (name: string, fraction: number | undefined, decimals = 1): Input[] =>
  input(name, fraction === undefined ? undefined : 100 * fraction, decimals, '%');

interface Gauged {
  volume_L_20C: number;
  strength_percent_vol: number;
}
const lot = (name: string, of: Gauged | undefined): Input[] =>
  of && of.volume_L_20C > 0
    ? told(name, `${printed(of.volume_L_20C, 2)} L at ${printed(of.strength_percent_vol, 1)} %vol`)
    : [];

export const SOURCES = {
  extract:
    'the extract of each ingredient: from memory, common practice or our estimate, none published; each line of the bill says which',
  heat: 'heat balance, exact; heat of grain and of its wetting: Brewing Room Book (1984/85), as quoted elsewhere; loss of a vessel: the kit’s, else 9 W to a square metre and kelvin, from memory',
  cooling:
    'Newton’s law of cooling; loss of a vessel: the kit’s, else 9 W to a square metre and kelvin, from memory',
  steam:
    'heat balance, exact but for what steams off an open surface: from memory, its order only; ladling 3.2 L a minute: common practice, no source',
  rest: 'structure: Brandam et al. (2003), Biochem. Eng. J. 13:43; its constants our calibration',
  drain: 'mass balance, exact; water that wet grain keeps: common practice, no source',
  worth: 'Bringhurst et al. (1996), J. Inst. Brew. 102:433, from its abstract',
  extractDensity:
    'NBS Circular 440, density of sucrose in water; a wort’s sugars are taken to weigh like it',
  yield:
    'stoichiometry, exact; the share reached is our choice, 0.90, between Bringhurst et al. (1996) 0.888, Balling’s factors 0.899 and textbooks, from memory, 0.90 to 0.95, if the kit has no own',
  pace: 'Cramer et al. (2002), Biotechnol. Bioeng. 77:49; Coleman, Fish and Block (2007), Appl. Environ. Microbiol. 73:5875; their constants at second hand',
  nitrogen:
    'need and supply of nitrogen: from memory; 21.2 % of it in the phosphate, exact by its formula',
  gas: 'stoichiometry, exact; ideal gas, 24.06 L to a mole at 20 °C and 1013 hPa',
  air: '5000 ppm for a working day: OSHA, ACGIH and EH40; steady balance of a well mixed room',
  still:
    'Lord Rayleigh’s differential distillation; vapour and liquid by NRTL (Renon and Prausnitz), its parameters our regression of published sets; pure liquids: Perry’s Handbook, 8th ed.',
  density: 'OIML R 22 (1973), general formula',
  custom: 'common practice, no source; the kit may state its own',
} as const;

/** What the bands of a plan are made of; undefined where it was made without. */
export function bandOfPlan(plan: Plan): string | undefined {
  const members = plan.ensemble?.members;
  return members === undefined
    ? undefined
    : `from ${members} plans with constants, lots and readings drawn from their spread; the models’ own error is not in it`;
}

/** Of a gram of hexose, in ethanol, by the formula alone. */
const THEORY = (2 * 46.068) / 180.156;

export const shareReached = ({ ferment: { wash, made } }: Plan): Input[] =>
  made && made.hexose_fermented_kg > 0
    ? percent(
        'Alcohol reached, of the formula’s',
        wash.ethanol_kg / (THEORY * made.hexose_fermented_kg),
      )
    : [];

const sumOf = (plan: Plan): Input[] => [
  ...input('Mass of the bill', plan.mash_bill.mass_kg, 2, 'kg'),
  ...input('Its dry matter', plan.mash_bill.dry_kg, 2, 'kg'),
  ...told(
    'Extract, by the ranges of the ingredients',
    `${printed(plan.mash_bill.least_extract_kg, 2)} to ${printed(plan.mash_bill.most_extract_kg, 2)} kg`,
  ),
];

const landing = ({ mash: of, kit }: Plan): Reason => ({
  inputs: [
    ...input('Cook at the boil', of?.cook?.at_the_boil_L, 1, 'L'),
    ...input('Boils at', of?.cook?.boiling_C, 1, '°C'),
    ...told('Goes into', of?.vessel),
    ...input('Water that waits there', of?.water_L || undefined, 1, 'L'),
    ...input('Moved in', of?.landing?.moving_min, 0, 'min'),
    ...input('Steams off', of?.landing?.steamed_away_kg, 2, 'kg'),
    ...input('Room', kit.ambient_C, 1, '°C'),
  ],
  model:
    'Cook, the vessel’s wall and what waits in it come to one temperature, less what steams off while it is moved.',
  source: SOURCES.steam,
});

const doughIn = ({ mash: of, mash_bill, kit }: Plan): Reason => ({
  inputs: [
    ...input('Wanted for the rest', of?.rest.wanted_C, 1, '°C'),
    ...input(
      'Malts and flaked grain stirred in',
      mash_bill.lines.filter((l) => l.use === 'dough_in').reduce((sum, l) => sum + l.mass_kg, 0),
      2,
      'kg',
    ),
    ...input('As warm as the room', kit.ambient_C, 1, '°C'),
    ...input('Water in the mash', of?.dough_in.water_kg, 1, 'kg'),
    ...told('Vessel', of?.vessel),
  ],
  model:
    'So warm that liquor, vessel and grain settle at the rest, with the heat that dry grain gives off as it is wetted and what is lost while it is stirred.',
  source: SOURCES.heat,
});

export const rest = ({ mash: of, kit }: Plan): Reason => ({
  inputs: [
    ...input('Settles at', of?.dough_in.settles_C, 1, '°C'),
    ...input('Rests for', of?.rest.time_min, 0, 'min'),
    ...input('Water in the mash', of?.dough_in.water_kg, 1, 'kg'),
    ...input('Grain in it', of?.dough_in.grain_kg, 1, 'kg'),
    ...told('Vessel, its lid on', of?.vessel),
    ...input('Room', kit.ambient_C, 1, '°C'),
    ...percent('Starch converted by then', of?.conversion.converted_fraction),
  ],
  model: 'Mash and vessel cool as one body, by the vessel’s loss to the room.',
  source: SOURCES.cooling,
});

const wort = ({ wort: of, mash, sugar_boil }: Plan): Reason => ({
  inputs: [
    ...input('Drained', mash?.draining?.volume_L_20C, 1, 'L'),
    ...input('Boiled sugar', sugar_boil?.hot_L, 1, 'L, hot'),
    ...input('Cold water on top', of.top_up.cold_L || undefined, 1, 'L'),
    ...input('Hot water on top', of.top_up.hot_L || undefined, 1, 'L'),
    ...input('Extract in it', of.extract_kg, 2, 'kg'),
    ...input('Water in it', of.water_kg, 2, 'kg'),
    ...percent('Starch converted', mash?.conversion.converted_fraction),
    ...percent('Extract drained, of what dissolved', mash?.draining?.efficiency_fraction),
  ],
  model:
    'Water and extract of all that runs together add as masses; volume and gravity at 20 °C are those of as much sucrose in as much water.',
  source: `${SOURCES.extractDensity}; conversion: ${SOURCES.rest}`,
});

const wash = (plan: Plan): Reason => ({
  inputs: [
    ...input('Original gravity', plan.ferment.original_gravity, 4, ''),
    ...input('Extract in the wort', plan.wort.extract_kg, 2, 'kg'),
    ...percent('Of it ferments', plan.wort.fermentable_fraction),
    ...shareReached(plan),
    ...percent('Of the sugar, fermented', plan.ferment.pace.done_fraction, 0),
    ...input('Alcohol made', plan.ferment.wash.ethanol_kg, 2, 'kg'),
    ...input('Extract left', plan.ferment.wash.extract_kg, 2, 'kg'),
  ],
  model:
    'Sugar splits to alcohol and gas, of which a share is reached; the rest of it becomes yeast, glycerol and acids. Water, alcohol and what is left weigh together.',
  source: `${SOURCES.yield}; densities: ${SOURCES.density}, and NBS Circular 440`,
});

export const pace = ({ ferment: of, kit }: Plan): Reason => ({
  inputs: [
    ...input('Original gravity', of.original_gravity, 4, ''),
    ...told('Yeast', `${printed(of.yeast_g)} g, ${of.yeast}`),
    ...input('Pitched at', of.pitch_C, 1, '°C'),
    ...input('Warmest it gets', of.heat.warmest_C, 1, '°C'),
    ...input('Room', kit.ambient_C, 1, '°C'),
    ...input(
      'Nitrogen that yeast can take up',
      of.nitrogen.supply_mg_per_L + of.nitrogen.added_mg_per_L,
      0,
      'mg/L',
    ),
  ],
  model:
    'Yeast grows as far as nitrogen lets it and ferments as fast as warmth and the alcohol made allow, with the heat of the vessel; dry is when hardly any sugar is left.',
  source: `${SOURCES.pace}; read a time as ± 40 %, it was not compared with the papers’ own data`,
});

type StillRun = Plan['strip']['run'];
const runInputs = (run: StillRun, kit: Plan['kit'], runs: number): Input[] => [
  ...input('Runs', runs, 0, ''),
  ...lot(runs > 1 ? 'Charge of each' : 'Charge', run.charge),
  ...input('Filled at', run.charge.temperature_C, 0, '°C'),
  ...input('Air pressure', kit.pressure_kPa * 10, 0, 'hPa'),
  ...input('Power once it runs', run.power_kW, 2, 'kW'),
  ...percent('Sent back by the head', run.head_reflux_fraction),
  ...percent(
    'Lost to vapour and walls, of the charge’s alcohol',
    run.charge.pure_alcohol_L > 0 ? run.lost.pure_alcohol_L / run.charge.pure_alcohol_L : undefined,
  ),
];

const BOILED =
  'The pot is boiled down in small steps, vapour and liquid in equilibrium at the house’s air pressure, with what the head sends back';
const strip = ({ strip: of, kit }: Plan): Reason => ({
  inputs: runInputs(of.run, kit, of.runs),
  model: `${BOILED}, to the strength it is stopped at.`,
  source: `${SOURCES.still}; loss in a run: ${SOURCES.custom}`,
});

const spirit = ({ spirit_run: of, kit }: Plan): Reason => ({
  inputs: [
    ...lot('Low wines in it', of.made_of.low_wines),
    ...lot('Feints in it', of.made_of.feints),
    ...runInputs(of.run, kit, of.runs),
    ...input('Foreshots end', of.fractions.foreshots.to.collected_L_20C, 2, 'L over'),
    ...input('Heads end', of.fractions.heads.to.collected_L_20C, 2, 'L over'),
    ...input('Hearts end, at the spout', of.fractions.hearts.to.spout_percent_vol, 1, '%vol'),
  ],
  model: `${BOILED}; the recipe’s cuts are laid over what runs.`,
  source: `${SOURCES.still}; loss in a run: ${SOURCES.custom}; the cuts are the recipe’s own`,
});

const time = (run: StillRun, of: Reason): Reason => ({
  inputs: [
    ...of.inputs,
    ...input('Heating up', run.heat_up.length_min, 0, 'min'),
    ...input('Running', run.running_min, 0, 'min'),
  ],
  model:
    'Heat that arrives, less what pot and head lose, first warms charge and pot to the boil, then drives vapour over: a heat balance step by step.',
  source: `${SOURCES.still}; losses and efficiency: the kit’s`,
});

const reduce = ({ reduce: of }: Plan): Reason => ({
  inputs: [
    ...lot('Hearts', of.hearts),
    ...input('Left in vessels on the way', of.moved_loss.pure_alcohol_L, 3, 'L of pure alcohol'),
    ...input('Water', of.water_kg, 2, 'kg'),
    ...input('Brought down to', of.result.strength_percent_vol, 1, '%vol'),
    ...input('Contraction', of.contraction_L_20C, 2, 'L'),
  ],
  model:
    'Masses of ethanol and water add exactly; the volume is asked of them by the density of their mixture, so contraction is in it.',
  source: `${SOURCES.density}; loss at a move: ${SOURCES.custom}`,
});

const bottle = ({ bottle: of, wood, reduce: before }: Plan): Reason => ({
  inputs: [
    ...(wood
      ? [
          ...lot('Off the wood', wood.matured),
          ...input('Time on it', wood.time_days, 0, 'days'),
          ...input('The wood drank', wood.soaked.volume_L_20C, 2, 'L'),
          ...input('Evaporated', wood.evaporated_volume_L_20C, 2, 'L'),
          ...input('Samples', wood.samples.volume_L_20C, 2, 'L'),
        ]
      : lot('Spirit', before.result)),
    ...input('Left in vessels', of.moved_loss.pure_alcohol_L, 3, 'L of pure alcohol'),
    ...input('Left in the filter', of.filter_loss.pure_alcohol_L, 3, 'L of pure alcohol'),
    ...input('Water', of.water_kg, 2, 'kg'),
    ...input('Bottled at', of.strength_percent_vol, 1, '%vol'),
    ...input('A bottle holds', of.size_mL, 0, 'mL'),
  ],
  model:
    'Reduced to bottling strength, less what wood, air, vessels and filter take; whole bottles are filled, the rest is the remainder.',
  source: `${SOURCES.density}; loss at a move: ${SOURCES.custom}; what wood drinks: from memory; what evaporates: our calibration`,
});

export type FigureKey = keyof Plan['figures'];

const REASONS: Record<FigureKey, (plan: Plan) => Reason> = {
  extract_potential_kg: (plan) => ({
    inputs: sumOf(plan),
    model:
      'Each line’s dry matter, or its mass as it comes, times the extract that its ingredient gives, summed: what the bill holds if all of it converts.',
    source: SOURCES.extract,
  }),
  landing_temperature_C: landing,
  dough_in_temperature_C: doughIn,
  wort_volume_L_20C: wort,
  original_gravity: wort,
  final_gravity: wash,
  wash_percent_vol: wash,
  days_to_dry: pace,
  strip_run_hours: (plan) => time(plan.strip.run, strip(plan)),
  low_wines_volume_L_20C: strip,
  low_wines_percent_vol: strip,
  spirit_run_hours: (plan) => time(plan.spirit_run.run, spirit(plan)),
  hearts_volume_L_20C: spirit,
  hearts_percent_vol: spirit,
  hearts_pure_alcohol_L: spirit,
  feints_kept_volume_L_20C: spirit,
  maturing_volume_L_20C: reduce,
  bottled_volume_L_20C: bottle,
  bottles: bottle,
};

/** What a principal figure of the plan rests on. */
export const reasonOf = (plan: Plan, key: FigureKey): Reason => REASONS[key](plan);
