// Why the bottling page says what it says: what comes through the filter, how many bottles that fills,
// what is left over, and the strength it stands at. Pure; in metric, as the house has it.
import type { Lot, Plan } from '../data/answers';
import { printed } from '../data/figures';
import { input, percent, reasonOf, SOURCES, told } from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

/** What is typed on the page and taken from the lot, in litres. */
export interface Filling {
  lot: Lot;
  taken_L: number; // of the lot, at 20 °C
  filter_L: number;
  size_L: number;
  bottles: number;
}

const VOLUME = 'a volume read at a mark to 1 %, one standard deviation; our estimate';

const taken = ({ lot, taken_L, filter_L }: Filling) => [
  ...told('Out of', lot.label),
  ...input('Taken', taken_L, 3, 'L at 20 °C'),
  ...input('Left in the filter', 1000 * filter_L, 0, 'mL'),
];

export const whyThrough = (of: Filling): Why => ({
  what: 'Volume that comes through the filter, at 20 °C',
  inputs: taken(of),
  model:
    'What is taken out of the lot less what stays in the filter; its strength does not change.',
  source: 'a volume balance, exact at one strength; what the filter keeps is as typed',
  band: VOLUME,
});

export const whyFills = (of: Filling): Why => ({
  what: 'Whole bottles that the volume fills',
  inputs: [...taken(of), ...input('A bottle holds', 1000 * of.size_L, 0, 'mL')],
  model: 'What comes through the filter over a bottle’s size, rounded down. Fill at 20 °C.',
  source: 'arithmetic; the size is as typed, or the plan’s',
  band: VOLUME,
});

export const whyOver = (of: Filling): Why => ({
  what: 'Left over when the bottles are filled, at 20 °C',
  inputs: [
    ...taken(of),
    ...input('Bottles', of.bottles, 0, ''),
    ...input('A bottle holds', 1000 * of.size_L, 0, 'mL'),
  ],
  model: 'What comes through the filter less the bottles times their size.',
  source: 'a volume balance, exact at one strength',
  band: VOLUME,
});

/** Of the strength of the lot, which the field takes where none is typed: the house says why. */
export const whyStrength = (lot: Lot): Why => ({
  ...lot.why,
  what: `True strength of ${lot.label}, by what the house knows of it`,
  inputs: [
    ...input('Pure alcohol left', lot.left.pure_alcohol_L_20C, 3, 'L pure'),
    ...input('Volume left', lot.left.volume_L_20C, 3, 'L'),
    ...lot.why.inputs,
  ],
});

/** Of how many bottles were filled. */
export const whyFilled = (lot: Lot): Why => ({
  what: `Bottles filled: ${lot.label}`,
  inputs: [
    ...input('Bottles', lot.bottles?.bottles, 0, ''),
    ...input('A bottle holds', lot.bottles && 1000 * lot.bottles.size_L, 0, 'mL'),
    ...input('True strength, as told', lot.bottles?.strength_percent_vol, 2, '%vol'),
    ...input('Pure alcohol poured for them', lot.made.pure_alcohol_L_20C, 3, 'L pure'),
  ],
  model: 'As the entry tells it; the pure alcohol is what went out of the lot.',
  source: `the batch’s journal; ${SOURCES.density}`,
  ...(lot.why.band ? { band: lot.why.band } : {}),
});

export const whyPlannedBottles = (plan: Plan): Why => ({
  what: 'Bottles, their strength, and the water before, as planned',
  ...reasonOf(plan, 'bottles'),
  band: NO_BAND,
});

/** Of the plan's share for the filter, of what is bottled now. */
export function whyPlannedFilter(plan: Plan, taken_L: number): Why {
  const { filter_loss, in_bottles, remainder } = plan.bottle;
  const all = filter_loss.pure_alcohol_L + in_bottles.pure_alcohol_L + remainder.pure_alcohol_L;
  return {
    what: 'What the filter keeps, as the plan counts',
    inputs: [
      ...percent('Left in the filter, by the recipe', filter_loss.pure_alcohol_L / all),
      ...told('Of what is bottled now', `${printed(taken_L, 3)} L`),
    ],
    model: 'The plan’s share, laid on what is bottled now.',
    source: 'the recipe; a share for the filter: common practice, no source',
    band: NO_BAND,
  };
}
