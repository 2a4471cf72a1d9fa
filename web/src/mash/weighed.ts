// What a step of mash day needs to be at hand, weighed or measured: from the bill and the recipe,
// beside the step's own words. Pure.
import type { Plan } from '../data/answers';
import { input, told } from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

export interface Needed {
  what: string; // "Maize, cracked"
  when: string; // "to cook"; empty where the step says it
  value: number;
  unit: string;
  decimals: number;
  why: Why;
}

type Line = Plan['mash_bill']['lines'][number];

const WHEN: Record<Line['use'], string> = {
  cook: 'to cook',
  dough_in: 'stirred in',
  boil: 'to boil',
  ferment: 'to the wort, dry',
};

const byRecipe = (what: string, inputs: Why['inputs'], model: string): Why => ({
  what,
  inputs,
  model,
  source: 'the recipe',
  band: `${NO_BAND}; the scale’s resolution aside`,
});

function grain(line: Line, when: string): Needed {
  return {
    what: line.name,
    when,
    value: line.mass_kg,
    unit: 'kg',
    decimals: 2,
    why: byRecipe(
      `By the bill: ${line.name}`,
      [
        ...input('Of the bill, by mass', 100 * line.mass_share_fraction, 1, '%'),
        ...input('Moisture in it', line.moisture_kg, 2, 'kg'),
        ...input('Extract it can yield', line.extract_kg, 2, 'kg'),
        ...told('Comes in', WHEN[line.use]),
      ],
      'As the recipe says, as is, with its moisture.',
    ),
  };
}

const water = (what: string, litres: number | undefined, model: string): Needed[] =>
  litres === undefined || litres <= 0
    ? []
    : [
        {
          what,
          when: '',
          value: litres,
          unit: 'L',
          decimals: 1,
          why: byRecipe(what, input('Water', litres, 1, 'L'), model),
        },
      ];

/** The names that the house has for the ids of a plan. */
export type Names = readonly { id: string; name: string }[];

function yeast(plan: Plan, yeasts: Names): Needed[] {
  const id = plan.ferment.yeast;
  return [
    {
      what: yeasts.find((one) => one.id === id)?.name ?? 'Yeast',
      when: '',
      value: plan.ferment.yeast_g,
      unit: 'g',
      decimals: 0,
      why: byRecipe(
        'Yeast to pitch',
        [
          ...input('In the fermenter', plan.wort.fill_L, 1, 'L'),
          ...input('Pitched at', plan.ferment.pitch_C, 1, '°C'),
        ],
        'Dry, so many grams to a litre as the recipe says.',
      ),
    },
  ];
}

const lines = (plan: Plan, use: Line['use'], when = ''): Needed[] =>
  plan.mash_bill.lines.filter((line) => line.use === use).map((line) => grain(line, when));

function sparges(plan: Plan): Needed[] {
  return (plan.mash?.draining?.run_offs ?? [])
    .filter((run) => run.given_L !== undefined)
    .flatMap((run, i) =>
      water(
        `Water for sparge ${i + 1}`,
        run.given_L,
        'Measured at its own temperature, as the recipe says.',
      ),
    );
}

const GIVEN = 'As the recipe says, measured cold.';

/** All that is set out before the first step. */
function all(plan: Plan, yeasts: Names): Needed[] {
  const { mash, sugar_boil, wort } = plan;
  return [
    ...plan.mash_bill.lines.map((line) => grain(line, WHEN[line.use])),
    ...water('Water to cook with', mash?.cook?.water_L, GIVEN),
    ...water(mash?.cook ? 'Water in the mash vessel' : 'Strike water', mash?.water_L, GIVEN),
    ...sparges(plan),
    ...water('Water for the sugar', sugar_boil?.water_L, GIVEN),
    ...water(
      'Cold water to top up',
      wort.top_up.cold_L,
      'What brings the wort to its volume and to where the yeast is pitched, by the plan.',
    ),
    ...yeast(plan, yeasts),
  ];
}

/** What the step takes that its words do not say; for the last one done, what pitching takes. */
export function neededFor(
  plan: Plan | undefined,
  what: string | undefined,
  yeasts: Names = [],
): Needed[] {
  if (!plan) return [];
  if (what === undefined) return [...lines(plan, 'ferment'), ...yeast(plan, yeasts)];
  if (/^Mill /.test(what)) return all(plan, yeasts);
  if (/ with the grain to cook/.test(what)) return lines(plan, 'cook');
  if (/^Move to /.test(what))
    return water('Water that stands in it before', plan.mash?.water_L, GIVEN);
  if (/^Stir in the malts/.test(what)) return lines(plan, 'dough_in');
  if (/^Dissolve the sugar/.test(what)) return lines(plan, 'boil');
  return [];
}
