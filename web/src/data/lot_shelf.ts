// Which lots of the house a stage may take from, and what became of them. Pure.
import { lotKey, type Lot } from './answers';
import { dayAndTime } from './dates';
import type { LotPart } from './lot_parts';
import { lotFault } from './lot_parts';
import { briefStrength, quantity, typedAs, type Units } from './units';

/** Under a few millilitres is what clings to the vessel. */
const LEFT_L = 0.005;

const left = (lot: Lot) => lot.left.volume_L_20C > LEFT_L;

/** Those of this batch first. */
const ownFirst = (lots: readonly Lot[], batch: string): Lot[] => [
  ...lots.filter((lot) => lot.batch === batch),
  ...lots.filter((lot) => lot.batch !== batch),
];

const apart = (lot: Lot) => lot.lot.kind === 'apart';

/** Lots that can be reduced, laid on wood or bottled: spirit that is not on wood. What was set apart
 *  comes last, since the first is the one that is offered. */
export const spiritLots = (lots: readonly Lot[], batch: string): Lot[] =>
  ownFirst(
    lots
      .filter(
        (lot) => ['hearts', 'spirit', 'apart'].includes(lot.lot.kind) && !lot.wood && left(lot),
      )
      .sort((a, b) => Number(apart(a)) - Number(apart(b))),
    batch,
  );

/** Lots that may go into another in place of water: also what was kept for a next run. */
export const weakerLots = (lots: readonly Lot[], batch: string): Lot[] =>
  ownFirst(
    lots
      .filter(
        (lot) =>
          ['low wines', 'feints', 'hearts', 'spirit', 'apart'].includes(lot.lot.kind) &&
          !lot.wood &&
          left(lot),
      )
      .sort((a, b) => a.left.strength_percent_vol - b.left.strength_percent_vol),
    batch,
  );

const foreshots = (lot: Lot) => lot.lot.kind === 'foreshots';

/** Lots of these kinds that may go into a charge: own ones first, and of another batch what is kept
 *  for a next run. Foreshots come last, and go into no other batch. */
export const chargeable = (lots: readonly Lot[], batch: string, kinds: readonly string[]): Lot[] =>
  ownFirst(
    lots.filter(
      (lot) =>
        kinds.includes(lot.lot.kind) && left(lot) && (lot.batch === batch || !foreshots(lot)),
    ),
    batch,
  ).sort((a, b) => Number(foreshots(a)) - Number(foreshots(b)));

/** What is said at a lot that is rather not charged again; common practice, no source. */
export const chargeCaution = (lot: Lot): string | undefined =>
  foreshots(lot)
    ? 'Foreshots are set apart and not charged again: methanol and all else that comes early would gather from run to run.'
    : undefined;

export const onWood = (lots: readonly Lot[], batch: string): Lot[] =>
  lots.filter((lot) => lot.wood !== undefined && lot.batch === batch && left(lot));

/** The same as one text, which is another once one of them was drawn from, topped up or gauged; empty
 *  where nothing is on wood. */
export const onWoodAsTold = (lots: readonly Lot[], batch: string): string =>
  onWood(lots, batch)
    .map((lot) =>
      [lotKey(lot.lot), lot.left.volume_L_20C, ...lot.uses.map((u) => u.entry)].join(' '),
    )
    .join('\n');

export const bottled = (lots: readonly Lot[], batch: string): Lot[] =>
  lots.filter((lot) => lot.bottles !== undefined && lot.batch === batch);

/**
 * The lots of a list to choose from, which is as narrow as the page: each figure in one unit. Where two of
 * one batch bear the same name, it stands with them when they were made.
 */
export function lotsBrief(
  lots: readonly Lot[],
  batch: string,
  units: Units,
  now?: number,
): { value: string; label: string }[] {
  const alike = (lot: Lot) =>
    lots.filter(({ batch: of, label }) => of === lot.batch && label === lot.label).length > 1;
  return lots.map((lot) => ({
    value: lotKey(lot.lot),
    label:
      `${lot.batch === batch ? '' : 'another batch: '}${lot.label}, ` +
      (alike(lot) ? `${dayAndTime(lot.at, now)}, ` : '') +
      `${quantity(lot.left.volume_L_20C, 'L', 2, units === 'us' ? 'us' : 'metric')} at ` +
      briefStrength(lot.left.strength_percent_vol, units),
  }));
}

/** The lot that was chosen; before that the first of the batch's own. Another batch's is only ever
 *  chosen knowingly. */
export const chosenLot = (lots: readonly Lot[], chosen: string, batch: string): Lot | undefined =>
  lots.find((l) => lotKey(l.lot) === chosen) ?? lots.find((l) => l.batch === batch);

const SPIRIT = ['hearts', 'spirit'];

/**
 * That a batch has nothing of its own for a stage, "to reduce": not yet, or no more. Undefined while it
 * has some; the second sentence stands where other batches have.
 */
export function lackOf(
  all: readonly Lot[],
  batch: string,
  name: string | undefined,
  purpose: string,
): string | undefined {
  const lots = spiritLots(all, batch);
  if (lots.some((lot) => lot.batch === batch)) return undefined;
  const had = all.some((lot) => lot.batch === batch && SPIRIT.includes(lot.lot.kind));
  const of = name ?? 'this batch';
  const lack = had ? `Nothing of ${of} is left ${purpose}.` : `Nothing of ${of} ${purpose} yet.`;
  return lots.length === 0
    ? lack
    : `${lack} Lots of other batches stand in the list; none is chosen.`;
}

/** The one lot and volume that were picked; undefined while something is at fault. */
export function pickedPart(
  lot: Lot | undefined,
  volume: string,
  units: Units,
): LotPart | undefined {
  const litres = typedAs(volume, 'L', units);
  if (!lot || !litres || litres <= 0 || lotFault(lot, volume, units) !== undefined)
    return undefined;
  return { lot: lot.lot, volume_L_20C: Math.min(litres, lot.left.volume_L_20C) };
}
