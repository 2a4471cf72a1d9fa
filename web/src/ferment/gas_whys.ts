// Why the gas of a ferment, and the air it asks for, are what they are: as pitched, or by the plan. Pure.
import type { Batch, Plan } from '../data/answers';
import { input, pace, percent, SOURCES, type Input, type Reason } from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

type Ferment = Batch['ferment'];

export type Gas = 'mass' | 'peak' | 'when' | 'air';

/** What the gas of a pitched wort is reckoned of. */
function pitchedInputs(of: Ferment): Input[] {
  const { pitch, carbon_dioxide: gas } = of;
  return [
    ...input('Pitched, at 20 °C', pitch?.volume_L_20C, 1, 'L'),
    ...input('Gravity at the pitch', pitch?.specific_gravity, 4, ''),
    ...input('Extract in it', pitch?.extract_kg, 2, 'kg'),
    ...input('Yeast pitched', pitch?.mass_g, 0, 'g'),
    ...input('Put in since, all taken for sugar', gas?.fed_kg, 2, 'kg'),
  ];
}

/**
 * Of the gas a ferment gives off, and of the air it asks for: as `pitched`, where that is told and reckoned,
 * else by the plan.
 */
export function whyGas(plan: Plan, which: Gas, pitched?: Ferment): Why {
  const { ferment: of, kit } = plan;
  const asPitched = pitched?.carbon_dioxide;
  const gas = asPitched ?? of.carbon_dioxide;
  const by = asPitched ? 'as pitched' : 'by the plan';
  const split = asPitched
    ? pitchedInputs(pitched)
    : input('Sugar that ferments, as hexose', of.made.hexose_fermented_kg, 2, 'kg');
  const peak = input(
    'At most',
    gas.peak_L_per_h === undefined ? undefined : gas.peak_L_per_h / 1000,
    3,
    'm³/h',
  );
  const pressure = input('Air pressure', 10 * kit.pressure_kPa, 0, 'hPa');
  const planned = pace(plan);
  // Of a wort as pitched: what of the plan's pace is the kit's and the recipe's.
  const kept = ['Pitched at', 'Room'];
  const paced = asPitched
    ? {
        ...planned,
        inputs: [
          ...pitchedInputs(pitched),
          ...planned.inputs
            .filter(({ name }) => kept.includes(name))
            .map((one) =>
              one.name === 'Pitched at' ? { ...one, name: 'Pitched at, by the plan' } : one,
            ),
        ],
      }
    : planned;
  const whys: Record<Gas, Reason & { what: string }> = {
    mass: {
      what: `Carbon dioxide given off in all, ${by}`,
      inputs: split,
      model: `Each molecule of hexose gives two of ethanol and two of carbon dioxide, less what grows into yeast, glycerol and acids.${asPitched ? ' Of the extract pitched so much ferments as the plan’s wort has of sugar that yeast takes.' : ''}`,
      source: SOURCES.yield,
    },
    peak: {
      what: `Carbon dioxide given off in an hour when it ferments quickest, ${by}`,
      inputs: [
        ...(asPitched ? [] : split),
        ...input('In all', gas.volume_L / 1000, 2, 'm³'),
        ...pressure,
        ...paced.inputs,
      ],
      model: `${paced.model} The gas is as much as the sugar that goes then.${asPitched?.fed_kg ? ' What was put in since counts as if it had been in the wort: rather too much than too little.' : ''}`,
      source: `${paced.source}; ${SOURCES.gas}`,
    },
    when: { what: `When it ferments quickest, after the pitch, ${by}`, ...paced },
    air: {
      what: `Fresh air that holds the room at the limit for a working day while it ferments quickest, ${by}`,
      inputs: [
        ...peak,
        ...input('Limit', 0.5, 1, '% of the air'),
        ...input('Outdoors', 0.04, 2, '% of the air'),
        ...input('Room, by the kit', asPitched?.room_m3, 0, 'm³'),
        ...percent('The closed room as it is would come to', gas.room_at_peak_fraction),
      ],
      model:
        'As much of the gas goes out with the air as the ferment gives off, the room well mixed. In truth it gathers low: air from below.',
      source: SOURCES.air,
    },
  };
  return { ...whys[which], band: `${NO_BAND}; a rate is as uncertain as the pace, ± 40 %` };
}
