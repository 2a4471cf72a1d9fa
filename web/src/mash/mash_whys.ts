// Why the mash day says what it says: the temperatures, volumes and lengths of its steps, the water that
// mends a mash, what runs off and what a sparge is worth. Pure; in metric, as the plan has it.
import type { Batch, MashCorrection, Plan } from '../data/answers';
import { printed } from '../data/figures';
import {
  input,
  percent,
  reasonOf,
  rest,
  SOURCES,
  told,
  type Input,
  type Reason,
} from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

export type Part = { text: string; figure: boolean };

const figures =
  /\d[\d.,\u202f]*[ \u00a0](?:°[CF]|mL|L|gal|fl oz|K|kg|lb|g|oz)(?![\p{L}/])(?: \(\d[\d.,\u202f]*[ \u00a0](?:°F|gal|fl oz|lb|oz)\))?/gu;

/** A sentence cut at its figures, each with its unit and, in both units, what stands behind it. */
export function partsOf(sentence: string): Part[] {
  const parts: Part[] = [];
  let from = 0;
  for (const found of sentence.matchAll(figures)) {
    if (found.index > from) parts.push({ text: sentence.slice(from, found.index), figure: false });
    parts.push({ text: found[0], figure: true });
    from = found.index + found[0].length;
  }
  if (from < sentence.length) parts.push({ text: sentence.slice(from), figure: false });
  return parts;
}

const CUSTOM = 'common practice, no source';

const heating = (inputs: Input[], model: string): Reason => ({
  inputs,
  model,
  source: SOURCES.heat,
});

const cooling = (of: NonNullable<Plan['wort']['cooling']>, kit: Plan['kit']): Reason => ({
  inputs: [
    ...input('From', of.from_C, 1, '°C'),
    ...input('To', of.to_C, 1, '°C'),
    ...input('Room', kit.ambient_C, 1, '°C'),
    ...input('Cold water', kit.cold_liquor_C, 1, '°C'),
    ...input('Minutes, lid on', of.lid_on_min, 0, 'min'),
    ...input('Minutes, lid off', of.lid_off_min, 0, 'min'),
    ...input('Minutes, with the coil', of.with_coil_min, 0, 'min'),
  ],
  model: 'It cools as one body, by what vessel and coil take to each degree above room or water.',
  source: SOURCES.cooling,
});

function cook({ mash, mash_bill, kit }: Plan): Reason {
  const of = mash?.cook;
  return heating(
    [
      ...input('Water, cold', of?.water_L, 1, 'L'),
      ...input('As cold as', kit.cold_liquor_C, 1, '°C'),
      ...input(
        'Grain in it',
        mash_bill.lines.filter((l) => l.use === 'cook').reduce((sum, l) => sum + l.mass_kg, 0),
        2,
        'kg',
      ),
      ...input('Boils at', of?.boiling_C, 1, '°C'),
      ...input('Energy drawn', of?.heating_kWh, 1, 'kWh'),
      ...told('Pot', of?.vessel),
    ],
    'Water, grain and pot are heated from cold to the boil by the pot’s own heat, less what its wall and lid lose; the volume is the recipe’s.',
  );
}

const sparges = ({ mash, kit }: Plan): Reason =>
  heating(
    [
      ...(mash?.draining?.run_offs ?? [])
        .filter((run) => run.given_L !== undefined)
        .flatMap((run, i) =>
          told(`Sparge ${i + 1}`, `${printed(run.given_L, 1)} L at ${printed(run.given_C, 0)} °C`),
        ),
      ...input('Heated from', kit.cold_liquor_C, 1, '°C'),
      ...input('Power', kit.boiler_power_kW, 1, 'kW'),
    ],
    'The waters of the sparges together, heated from cold by the still’s boiler at its efficiency.',
  );

const sugar = ({ sugar_boil: of, kit }: Plan): Reason =>
  heating(
    [
      ...input('Water', of?.water_L, 1, 'L'),
      ...input('Extract in it', of?.extract_kg, 2, 'kg'),
      ...input('To the boil', of?.to_the_boil_min, 0, 'min'),
      ...input('At the boil, by the recipe', of?.boil_min, 0, 'min'),
      ...input('Cold water', kit.cold_liquor_C, 1, '°C'),
      ...told('Pot', of?.vessel),
    ],
    'Water, sugar and pot are heated from cold by the pot’s own heat; water and time at the boil are the recipe’s.',
  );

type RunOff = NonNullable<NonNullable<Plan['mash']>['draining']>['run_offs'][number];

function drained(plan: Plan, run: RunOff | undefined): Reason {
  const { mash } = plan;
  return {
    inputs: [
      ...input('Water in the mash', mash?.dough_in.water_kg, 1, 'kg'),
      ...input('Extract dissolved in it', mash?.conversion.extract_made_kg, 2, 'kg'),
      ...told(
        'Sparge water given',
        run?.given_L === undefined
          ? undefined
          : `${printed(run.given_L, 1)} L at ${printed(run.given_C, 0)} °C, by the recipe`,
      ),
      ...percent('Brought by it, of all extract in the mash', run?.gained_fraction),
      ...input('Kept by the grain in the end', mash?.draining?.kept_water_kg, 1, 'kg of water'),
      ...input('Extract kept with it', mash?.draining?.kept_extract_kg, 2, 'kg'),
    ],
    model:
      'The liquor is one mixture; grain keeps the water of its wetness; each sparge mixes with what it holds and runs off again.',
    source: SOURCES.drain,
  };
}

type Reasoned = (plan: Plan, place: number) => Reason | undefined;

// By the words the plan gives its steps.
const STEPS: [RegExp, Reasoned][] = [
  [
    /^Mill /,
    () => ({
      inputs: [],
      model: 'Half an hour to mill, weigh and set out, for a batch of any size.',
      source: CUSTOM,
    }),
  ],
  [/ with the grain to cook/, cook],
  [/ of sparge water/, sparges],
  [
    /^Cook the grain/,
    ({ mash }) => ({
      inputs: [
        ...input('Boils for', mash?.cook?.boil_min, 0, 'min'),
        ...input('At', mash?.cook?.boiling_C, 1, '°C'),
        ...percent('Starch opened by then', mash?.cook?.opened_fraction),
      ],
      model: 'The time at the boil is the recipe’s; starch opens as it cooks.',
      source: 'the recipe; how quickly starch opens: our estimate',
    }),
  ],
  [/^Move to /, (plan) => reasonOf(plan, 'landing_temperature_C')],
  [/^Cool to /, ({ mash, kit }) => mash?.cooling && cooling(mash.cooling, kit)],
  [/^Cool the wort/, ({ wort, kit }) => wort.cooling && cooling(wort.cooling, kit)],
  [
    /^Fill /,
    (plan) => {
      const reason = reasonOf(plan, 'dough_in_temperature_C');
      return {
        ...reason,
        inputs: [
          ...reason.inputs,
          ...input('Hottest water at hand, by the kit', plan.kit.hot_liquor_C, 0, '°C'),
          ...input('Cold water', plan.kit.cold_liquor_C, 0, '°C'),
        ],
        model: `${reason.model} The kit heats no water in that vessel: hot and cold are mixed by their heat.`,
      };
    },
  ],
  [/^(Warm to|Heat|Stir in the malts)\b/, (plan) => reasonOf(plan, 'dough_in_temperature_C')],
  [/^Rest;/, rest],
  [/^Dissolve the sugar/, sugar],
  [
    /^(Drain|Sparge)/,
    (plan, place) => {
      const reason = drained(plan, plan.mash?.draining?.run_offs[place]);
      return { ...reason, source: `${reason.source}; its length: ${CUSTOM}` };
    },
  ],
];

/** Of the figures of a step of the mash, by its words; undefined for one that is not the plan's. */
export function whyStep(plan: Plan | undefined, what: string): Why | undefined {
  const reasoned = STEPS.find(([words]) => words.test(what))?.[1];
  if (!plan || !reasoned) return undefined;
  const drains = plan.timeline.steps
    .filter((step) => /^(Drain|Sparge)/.test(step.what))
    .map((step) => step.what);
  const reason = reasoned(plan, Math.max(0, drains.indexOf(what)));
  return reason && { what: `By the plan: ${what}`, ...reason, band: NO_BAND };
}

/** Of the planned curve of the mash. */
export const whyCourse = ({ mash, kit }: Plan): Why => ({
  what: 'Temperature of the mash from the first heat to the last sparge, by the plan',
  inputs: [
    ...input('Water in the mash', mash?.dough_in.water_kg, 1, 'kg'),
    ...input('Grain in it', mash?.dough_in.grain_kg, 1, 'kg'),
    ...input('The malts go in at', mash?.dough_in.liquor_C, 1, '°C'),
    ...input('It settles at', mash?.dough_in.settles_C, 1, '°C'),
    ...input('Rests for', mash?.rest.time_min, 0, 'min'),
    ...told('Vessel', mash?.vessel),
    ...input('Room', kit.ambient_C, 1, '°C'),
  ],
  model:
    'Each step by its heat: what is heated takes the vessel’s power less its loss, what goes together comes to one temperature, what stands cools as one body. The curve is laid where the malts went in.',
  source: `${SOURCES.heat}; ${SOURCES.cooling}`,
  band: NO_BAND,
});

/** Of the temperatures that were read. */
export const whyTemperatures = (readings: number, plan: Plan | undefined): Why => ({
  what: 'Temperature of the mash as it was read',
  inputs: input('Readings', readings, 0, ''),
  model: 'As the thermometer showed it; nothing is corrected.',
  source: 'the journal',
  band: plan
    ? `a thermometer is off by what its kit says, ${printed(plan.kit.thermometer_K, 1)} K here`
    : 'none: the kit that says how far a thermometer is off is the plan’s',
});

const PLACES: Record<MashCorrection['at'], string> = {
  milling: 'What a temperature asks for before the mash',
  cooking: 'How long to the boil',
  strike: 'What brings the water to where the malts go in',
  moving: 'Where the cooked grain lands, and how long until the malts go in',
  'dough-in': 'What brings it to where the malts go in',
  rest: 'Water that brings the mash to its rest, in two halves',
  draining: 'What a temperature asks for when the rest is over',
  sparging: 'What brings the sparge water to its temperature',
  wort: 'How long the wort cools, and the water that tops it up',
  pitching: 'How long the wort cools, and the water that tops it up',
  over: 'What a temperature asks for when the mash is over',
};

const waited = (name: string, wait: MashCorrection['lid_on']): Input[] =>
  wait === undefined
    ? []
    : told(
        name,
        `${printed(wait.middle_min, 0)} min (${printed(wait.least_min, 0)} to ${printed(wait.most_min, 0)})`,
      );

/** Of what a temperature asks for at the step in hand. */
export function whyCorrection(advice: MashCorrection, read_C: number, plan: Plan | undefined): Why {
  const waits = [advice.lid_on, advice.lid_off, advice.with_coil, advice.heating].some(Boolean);
  const inRest = advice.at === 'rest';
  const models = [
    ...(advice.lands_C === undefined
      ? []
      : [
          'What is cooked, the vessel’s wall and the water in it come to one temperature, less what steams off on the way.',
        ]),
    ...(waits
      ? [
          'It cools as one body, by what vessel and coil take to each degree above room or water; heated, it takes the heat less that loss.',
        ]
      : []),
    ...(advice.target_then_C === undefined
      ? []
      : ['The malts take the same heat of more water, so they go in less hot.']),
    ...(advice.beta_halves_min === undefined
      ? []
      : ['Heat kills an enzyme at a rate that grows with the temperature (Arrhenius).']),
    ...(advice.with === 'nothing'
      ? []
      : [
          'Mash, the vessel’s wall and the water come to one temperature; half of it first, since a mash just stirred is never even and water cannot be taken out again.',
        ]),
    ...(advice.topped_up_C === undefined
      ? []
      : ['Wort, the fermenter’s wall, cold and hot water come to the volume and one temperature.']),
  ];
  return {
    what: PLACES[advice.at],
    inputs: [
      ...input('Read', read_C, 1, '°C'),
      ...input('Wanted', advice.target_C, 1, '°C'),
      ...input('Where it lands', advice.lands_C, 1, '°C'),
      ...(inRest ? input('Water in the mash', plan?.mash?.dough_in.water_kg, 1, 'kg') : []),
      ...(inRest ? input('Grain in it', plan?.mash?.dough_in.grain_kg, 1, 'kg') : []),
      ...input('Sparge water', advice.of_L, 1, 'L'),
      ...told('Vessel', advice.at === 'wort' ? plan?.ferment.vessel : plan?.mash?.vessel),
      ...(waits ? input('Room', plan?.kit.ambient_C, 1, '°C') : []),
      ...waited('With the coil', advice.with_coil),
      ...waited('With the lid off', advice.lid_off),
      ...waited('With the lid on', advice.lid_on),
      ...waited('With its heat on', advice.heating),
      ...input('Half of the beta-amylase dies in', advice.beta_halves_min, 1, 'min'),
      ...input('Half of the alpha-amylase dies in', advice.alpha_halves_min, 1, 'min'),
      ...input('Water at hand', advice.water_at_C, 0, '°C'),
      ...input('For the whole way', advice.wanted_L, 2, 'L'),
      ...input('The malts then go in at', advice.target_then_C, 1, '°C'),
      ...input('There is room for', advice.room_is_short ? advice.at_most_L : undefined, 2, 'L'),
      ...input('Cold water to top up', advice.top_up_cold_L, 1, 'L'),
      ...input('Hot water to top up', advice.top_up_hot_L, 1, 'L'),
    ],
    model: models.join(' ') || 'By the step in hand nothing is asked of it.',
    source: [
      'heat balance, exact; heat of grain: Brewing Room Book (1984/85), as quoted elsewhere',
      ...(waits ? [SOURCES.cooling] : []),
      ...(advice.beta_halves_min === undefined ? [] : [SOURCES.rest]),
      ...(advice.with === 'nothing' ? [] : [`the halves and the wait: ${CUSTOM}`]),
    ].join('; '),
    band: `${waits ? 'of the times: from what the kit says its heat losses are known to; of the rest ' : ''}${NO_BAND}; a thermometer is off by what its kit says, ${printed(plan?.kit.thermometer_K, 1)} K here`,
  };
}

export type RunOffFigure = 'volume' | 'gravity' | 'extract' | 'worth';

const RUN_OFF: Record<RunOffFigure, { what: string; model?: string; source?: string }> = {
  volume: { what: 'Volume at 20 °C' },
  gravity: {
    what: 'Gravity at 20 °C',
    model: 'Its gravity is that of as much sucrose in as much water.',
    source: SOURCES.extractDensity,
  },
  extract: { what: 'Extract' },
  worth: {
    what: 'Pure alcohol that its extract is worth',
    model: '0.606 L to a kilogram of what ferments of it.',
    source: SOURCES.worth,
  },
};

/** Of what is planned to run off at a place of the draining. */
export function whyRunOff(plan: Plan, place: number, which: RunOffFigure, name: string): Why {
  const of = RUN_OFF[which];
  const run = plan.mash?.draining?.run_offs[place];
  const reason = drained(plan, run);
  return {
    what: `${of.what}: ${name}, planned`,
    inputs: [
      ...reason.inputs,
      ...(which === 'gravity' || which === 'worth'
        ? input('Extract of this run-off', run?.extract_kg, 2, 'kg')
        : []),
      ...(which === 'worth'
        ? percent('Of it ferments in the end', plan.mash?.conversion.limit_attenuation_fraction)
        : []),
    ],
    model: of.model ? `${reason.model} ${of.model}` : reason.model,
    source: of.source ? `${reason.source}; ${of.source}` : reason.source,
    band: NO_BAND,
  };
}

type Wort = Batch['mash']['worts'][number];

/** Of a wort that was drawn and measured. */
export function whyWort(wort: Wort, which: Exclude<RunOffFigure, 'worth'>): Why {
  return {
    what: `${RUN_OFF[which].what}: ${wort.from}, as it was measured`,
    inputs: [
      ...input('Volume at 20 °C', wort.volume_L_20C, 2, 'L'),
      ...input('True gravity at 20 °C', wort.specific_gravity, 4, ''),
    ],
    model: {
      volume: 'The volume as it was read, warm, shrunk to 20 °C as a wort of its extract does.',
      gravity:
        'The instrument’s reading, corrected for its temperature; a hydrometer’s for its glass as well.',
      extract: 'Volume times density times the share of extract that the gravity tells.',
    }[which],
    source: {
      volume:
        'density of water: Kell (1975), coefficients from memory; a wort’s further swelling: our fit to recalled corrections',
      gravity: 'NBS Circular 440; hydrometers: OIML R 44 (1985); refraction of sucrose: ICUMSA',
      extract: 'NBS Circular 440',
    }[which],
    band: 'none is reckoned; a volume at a mark is read to 1 %, our estimate',
  };
}
