// Why a label says what it says: the strength that is stated beside the true one, the size, the lot's
// mark, the day, how many there are; and how far a rule lets the stated strength be off. Pure.
import type { LabelRule, Lot } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { printed } from '../data/figures';
import type { Units } from '../data/units';
import { residueText } from '../gauge/residue';
import { input, told } from '../mash_bill/plan_reasons';
import type { Why } from '../parts/Figure.svelte';

const TOLD = 'as it was told when the bottles were filled';

/** Of the true strength of what is in the bottles; `band`: what its band is made of, where that is known. */
export const whyTruth = (lot: Lot, units: Units, band?: string): Why => ({
  what: `True strength of ${lot.label}, by volume at 20 °C`,
  inputs: [
    ...input('True strength', lot.bottles?.strength_percent_vol, 2, '%vol'),
    ...told(
      'Left on drying',
      lot.residue_g_L === undefined ? undefined : residueText(lot.residue_g_L, units),
    ),
    ...lot.why.inputs,
  ],
  model: `The true strength ${TOLD}. ${lot.why.model}`,
  source: `the journal; ${lot.why.source}`,
  ...(band || lot.why.band ? { band: band ?? lot.why.band } : {}),
});

/** Of the strength that the label states. */
export const whyStated = (lot: Lot, stated: number): Why => ({
  what: 'Strength that the label states',
  inputs: [
    ...input('Stated', stated, 1, '%vol'),
    ...input('True', lot.bottles?.strength_percent_vol, 2, '%vol'),
    ...input('In the journal', lot.bottles?.label?.strength_percent_vol, 1, '%vol'),
  ],
  model:
    'What is typed as “Strength on the label”; where nothing is typed, what the journal has of it, and else the true strength, to a tenth.',
  source: 'the maker’s own statement; how far it may be off the true strength is the law’s',
  band: 'none: it is a statement. That of the true strength stands with it',
});

export const whySize = (lot: Lot): Why => ({
  what: 'What a bottle holds, at 20 °C',
  inputs: input('Size', lot.bottles && 1000 * lot.bottles.size_L, 0, 'mL'),
  model: `The size ${TOLD}.`,
  source: 'the journal',
  band: 'none is reckoned: a bottle holds its size when it is filled to its mark at 20 °C',
});

export const whyMark = (lot: Lot): Why => ({
  what: 'The mark by which the lot is found again in the journal',
  inputs: told('Entry', lot.entry),
  model: 'The last eight letters of the id of the entry that told of the bottles.',
  source: 'the journal',
  band: 'none: it is a name',
});

export const whyFilledOn = (lot: Lot): Why => ({
  what: 'The day on which the bottles were filled',
  inputs: told('Entry told', dayAndTime(lot.at)),
  model: 'The day of that entry, in the time of this device.',
  source: 'the journal',
  band: 'a time is as right as the clock of the device that told it',
});

export const whyMany = (lot: Lot, many: number): Why => ({
  what: 'How many labels the sheet has',
  inputs: [
    ...input('Bottles filled', lot.bottles?.bottles, 0, ''),
    ...input('Labels', many, 0, ''),
  ],
  model: 'One for each bottle, as many as sixty on a sheet.',
  source: 'the journal',
  band: 'none: they are counted',
});

/** Of what a rule allows. */
export const whyRule = (rule: LabelRule): Why => ({
  what: `How far the stated strength may be off the true one: ${rule.jurisdiction}`,
  inputs: told('Either way', `${printed(rule.within_percent_vol, 1)} %vol`),
  model:
    'The stated strength less the true one. Where the true strength’s whole 80 % band lies within this, it keeps the rule; where all of it lies outside, it does not (of what lay on wood, whose residue nobody told, also not by 3 %vol more); else the reading cannot tell. Whether the rule is yours, local law says.',
  source: `${rule.document}, ${rule.place}; ${rule.standing}, check it against the text`,
  band: 'none: it is a limit',
});
