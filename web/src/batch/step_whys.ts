// Why a step of the plan says what it says: each figure of its sentence, how long it takes, and when it
// begins. Figures of one reason stand together. Pure; in metric, as the plan has it.
import type { Plan } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { lengthOfTime } from '../data/figures';
import { whyPitch, whyPlannedDay, whyPlannedRacking } from '../ferment/ferment_whys';
import { whyStep } from '../mash/mash_whys';
import {
  input,
  reasonOf,
  SOURCES,
  told,
  type FigureKey,
  type Input,
  type Reason,
} from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import { asked, type Asked } from '../parts/asked';
import type { Why } from '../parts/Figure.svelte';
import { whyCharge } from '../spirit_run/run_whys';
import { stageReason } from './plan_whys';
import type { StepAt } from './timeline';

type Figures = readonly (readonly [string, Why | undefined])[];

const CUSTOM = 'common practice, no source';

/** The figures of a sentence, each with its unit or with the word it counts. */
const FIGURES =
  /\d[\d.]*(?:[ \u00a0](?:%vol|°C|mL|L|kg|g|staves|bottles)(?![\p{L}/]))?(?: of \d+)?/gu;

export const figuresOf = (what: string): string[] =>
  [...what.matchAll(FIGURES)].map(([found]) => found);

const by = (what: string, reason: Reason): Why => ({ what, ...reason, band: NO_BAND });
const principal = (plan: Plan, key: FigureKey, what: string): Why => by(what, reasonOf(plan, key));

/** All figures of a sentence, for one reason. */
const all = (what: string, why: Why | undefined): Figures =>
  figuresOf(what).map((figure) => [figure, why] as const);

const custom = (model: string): Why =>
  by('How long it takes, by the plan', { inputs: [], model, source: CUSTOM });
const wished = (of: string, more: Input[] = []): Why =>
  by('How long it takes, by the plan', {
    inputs: more,
    model: `As long as the recipe says: ${of}.`,
    source: 'the recipe, or the plan’s default where it says nothing: common practice, no source',
  });

interface Told {
  figures: Figures;
  length: Why | undefined;
}

const HANDWORK = 'A usual time for such handwork, for a batch of any size.';

function pitched(plan: Plan, what: string): Told {
  const wort = principal(
    plan,
    'wort_volume_L_20C',
    'What the fermenter is filled with, by the plan',
  );
  const [warm, yeast] = [whyPitch(plan, 'temperature'), whyPitch(plan, 'yeast')];
  return {
    figures: figuresOf(what).map((figure) => [
      figure,
      figure.endsWith('°C') ? warm : figure.endsWith(' g') ? yeast : wort,
    ]),
    length: custom(HANDWORK),
  };
}

function fermented(plan: Plan, what: string): Told {
  const [from, to] = figuresOf(what);
  return {
    figures: [
      [from ?? '', principal(plan, 'original_gravity', 'Gravity of the wort, of this plan')],
      [to ?? '', principal(plan, 'final_gravity', 'Gravity in the end, of this plan')],
    ],
    length: whyPlannedDay(plan, 'dry'),
  };
}

/** A run of the still: charged, heated, run, emptied. */
function distilled(plan: Plan, step: StepAt): Told {
  const kind = step.stage === 'Strip' ? 'strip' : 'spirit run';
  const { run } = kind === 'strip' ? plan.strip : plan.spirit_run;
  const whole = stageReason(plan, step.stage);
  // "Strip 2 of 4: " counts the charges; what follows it is of this step.
  const [name, rest] = step.what.split(': ') as [string, string?];
  const charge = whyCharge(plan, kind, 'volume');
  const counted: Figures = [
    [
      /\d+ of \d+/.exec(name)?.[0] ?? '',
      { ...charge, what: 'How many charges it is divided over, by the plan' },
    ],
  ];
  const length = by('How long it takes, by the plan', {
    inputs: [
      ...input('Boiler at full power', plan.kit.boiler_power_kW, 2, 'kW'),
      ...input('Drawn to heat it up', run.heat_up.drawn_kWh, 2, 'kWh'),
      ...input('Of it into the charge', run.heat_up.to_charge_kWh, 2, 'kWh'),
      ...input('Power once it runs', run.power_kW, 2, 'kW'),
      ...input('Running', run.running_min, 0, 'min'),
    ],
    model:
      'Heat that arrives, less what pot and head lose, first warms charge and pot to the boil, then drives vapour over: a heat balance step by step.',
    source: `${SOURCES.still}; losses and efficiency: the kit’s`,
  });
  const own = (why: Why) => all(rest ?? '', why);
  if (rest?.startsWith('charge'))
    return { figures: [...counted, ...own(charge)], length: custom(HANDWORK) };
  if (rest?.startsWith('heat to'))
    return {
      figures: [
        ...counted,
        ...own(
          by('Where the charge boils, by the plan', {
            inputs: [
              ...input('Its strength', run.charge.strength_percent_vol, 1, '%vol'),
              ...input('Air pressure', 10 * plan.kit.pressure_kPa, 0, 'hPa'),
              ...input('Filled at', run.charge.temperature_C, 0, '°C'),
            ],
            model: 'Where the vapours over such a mixture together press as much as the air does.',
            source: SOURCES.still,
          }),
        ),
      ],
      length,
    };
  if (rest?.startsWith('run'))
    return {
      figures: [
        ...counted,
        ...own({ what: 'All that comes over, at 20 °C, by the plan', ...whole, band: NO_BAND }),
      ],
      length,
    };
  return { figures: counted, length: custom('A usual time to let it cool, empty and rinse it.') };
}

function wooded(plan: Plan, what: string): Told {
  const { wood } = plan;
  if (what === 'Mature')
    return {
      figures: [],
      length: wished('how long it lies on wood', input('Time on wood', wood?.time_days, 0, 'days')),
    };
  if (what.startsWith('Draw')) return { figures: [], length: custom(HANDWORK) };
  const laid: Why = {
    what: 'What is laid on wood, at 20 °C, by the plan',
    ...reasonOf(plan, 'maturing_volume_L_20C'),
    band: NO_BAND,
  };
  const staves: Why = by('How many staves, by the plan', {
    inputs: [
      ...told('Wood', wood && `${wood.species}, ${wood.toast}`),
      ...input('Wood met by a litre', wood?.surface_cm2_per_L, 0, 'cm²/L'),
      ...input('For', wood?.time_days, 0, 'days'),
    ],
    model:
      'The recipe’s number; where it has none, as many as bring such wood in that time to where the trade calls the spirit ready. Never more than the kit has.',
    source: 'extraction of wood: our calibration; what is called ready: common practice, no source',
  });
  return {
    figures: figuresOf(what).map((figure) => [figure, figure.endsWith('staves') ? staves : laid]),
    length: custom(HANDWORK),
  };
}

/** Of the figures of a step's sentence, and of its length. */
function reasons(plan: Plan, step: StepAt): Told {
  const { stage, what } = step;
  switch (stage) {
    case 'Mash': {
      const why = whyStep(plan, what);
      return { figures: all(what, why), length: why ?? custom(HANDWORK) };
    }
    case 'Ferment':
      if (what.includes('pitch')) return pitched(plan, what);
      if (what.startsWith('Ferment from')) return fermented(plan, what);
      if (what.startsWith('Rack'))
        return { figures: all(what, whyPlannedRacking(plan)), length: custom(HANDWORK) };
      return { figures: [], length: wished('how long it rests on its yeast when it is dry') };
    case 'Strip':
    case 'Spirit run':
      return distilled(plan, step);
    case 'Reduce':
      return {
        figures: all(
          what,
          principal(
            plan,
            'maturing_volume_L_20C',
            'Water, and the strength it brings it down to, by the plan',
          ),
        ),
        length: custom(HANDWORK),
      };
    case 'Wood':
      return wooded(plan, what);
    case 'Bottle':
      return {
        figures: all(what, principal(plan, 'bottles', 'Bottles and their strength, by the plan')),
        length: custom(HANDWORK),
      };
    default: // Jars
      return {
        figures: [],
        length: custom(
          step.attention === 'wait' ? 'A day under a cloth, so that what is sharp goes.' : HANDWORK,
        ),
      };
  }
}

/** Of when it begins, among the steps of its plan. */
function whyBegins(step: StepAt, steps: readonly StepAt[]): Why {
  const at = steps.indexOf(step);
  const before = steps.slice(0, Math.max(0, at)).findLast((one) => !one.beside);
  return {
    what: 'When it begins, by the plan',
    inputs: before
      ? [
          { name: step.beside ? 'Beside' : 'After', value: before.what },
          {
            name: 'Which begins',
            value: before.from_ms === undefined ? before.clock : dayAndTime(before.from_ms),
          },
          { name: 'And takes', value: lengthOfTime(before.length_min) },
        ]
      : [{ name: 'The first step', value: 'the mash day begins at eight' }],
    model: step.beside
      ? 'It runs beside that step and does not hold up the next; a sample is drawn on its own day.'
      : 'When the step before has ended; nothing that wants hands begins between nine in the evening and seven, and no heated still is left: a run that would end after eleven at night waits for the morning.',
    source: 'the hours of a house: common practice, no source',
    band: 'none is reckoned for the days; the mash bill has one of the day it is dry',
  };
}

/** All that a step tells, each with its reason: `begins` as it is printed. */
export function askedOfStep(
  plan: Plan,
  step: StepAt,
  steps: readonly StepAt[],
  begins: string,
): Asked[] {
  const { figures, length } = reasons(plan, step);
  return asked(
    ...figures,
    [lengthOfTime(step.length_min), length],
    [begins, whyBegins(step, steps)],
  );
}
