// The alcohol stream after the cut: where the hearts went, by the lots that were made of them. Each
// lot tells what was taken out of it and by which entry; the lot which that entry made tells where
// to. What still stands goes on by the plan (stream_ahead.ts).
//
// Wood is one place, for what lies on it and what came off: what it kept, what evaporated and what
// was drawn leave from there.
import { lotKey, type AccountStep, type Lot } from '../data/answers';
import { ahead } from './stream_ahead';
import { BAND_80, REMAINDER, UNTOLD, type Exit, type Ledger, type Picture } from './stream_flows';
import { byGap, byLeft, byLot, byUse, type Trace } from './stream_whys';

/** Places in the order that spirit goes through them; lots of the first three are drawn before. */
const RANK = ['low wines', 'Feints kept', 'Set apart', 'hearts', 'reduced', 'wood', 'bottles'];
const OF_KIND: Record<string, string> = {
  'low wines': 'low wines',
  feints: 'Feints kept',
  apart: 'Set apart',
  hearts: 'hearts',
  bottles: 'bottles',
};
const rank = (place: string) => RANK.indexOf(place);
const HEARTS = rank('hearts');

const OPEN = 'Unaccounted for';
const MAKES = new Set(['blend', 'wood', 'off the wood', 'bottles', 'topping up']);
const TOPPED = 'topped up'; // of the lot on wood: below nothing, what came in
/** What was taken out and made into nothing else; drawn as samples where it is not named here. */
const GONE: Record<string, Pick<Exit, 'kind' | 'name'>> = {
  spilt: { kind: 'lost', name: '' },
  destroyed: { kind: 'lost', name: '' },
  'soaked and evaporated': { kind: 'lost', name: '' },
  charge: { kind: 'held', name: 'Back to the still' },
};
const pure = (one: { pure_alcohol_L_20C: number }) => one.pure_alcohol_L_20C;
const total = <T>(all: readonly T[], litres: (one: T) => number) =>
  all.reduce((sum, one) => sum + litres(one), 0);

/** What it was topped up with. */
const topped = (lot: Lot) => -total(lot.uses, (use) => (use.where === TOPPED ? pure(use) : 0));

/** What gauging found missing in a lot; negative where it found more. */
const missing = (lot: Lot) => total(lot.uses, (use) => (use.where === 'gauging' ? pure(use) : 0));
/** Why: the account's word, where it has a step for the lot. */
function missed(lot: Lot, account: readonly AccountStep[]): Trace[] {
  const gaugings = lot.uses.filter((use) => use.where === 'gauging');
  if (gaugings.length === 0) return [];
  const steps = account.filter((step) => step.what === lot.label);
  return steps.length > 0 ? steps.map(byGap) : gaugings.map((use) => byUse(lot, use));
}

/** Draws it; `hearts_L` is what the plan expects of hearts where no cut was made yet. */
export function later(
  picture: Picture,
  ledger: Ledger | undefined,
  lots: readonly Lot[],
  account: readonly AccountStep[],
  hearts_L: number | undefined,
): void {
  const places = placesOf(lots);
  const at = (place: string) => lots.filter((lot) => places.get(lotKey(lot.lot)) === place);
  for (const place of RANK.slice(0, -1)) {
    for (const lot of at(place)) uses(picture, lots, places, lot, place);
    if (rank(place) < HEARTS) continue;
    const litres = total(at(place), missing);
    const doubt = doubtOf(at(place), account);
    const traces = at(place).flatMap((lot) => missed(lot, account));
    picture.late(place, { kind: 'open', name: OPEN, litres, ...doubt, traces }, true);
  }
  for (const lot of lots.filter((one) => one.lot.kind === 'spirit')) {
    const own = lots.flatMap((one) => one.uses).filter((use) => use.entry === lot.lot.entry);
    const litres = pure(lot.made) - total(own, (use) => (MAKES.has(use.where) ? pure(use) : 0));
    const traces = [
      byLot(lot),
      ...lots.flatMap((one) =>
        one.uses.filter((use) => own.includes(use)).map((use) => byUse(one, use)),
      ),
    ];
    const other = { kind: 'in', name: 'Other lots', litres, traces } as const;
    picture.late(places.get(lotKey(lot.lot))!, other, true);
  }

  // Once bottles were filled, what is left and fills no other is a remainder.
  const bottle_L = Math.max(
    0,
    ...lots.map(({ bottles }) =>
      bottles ? (bottles.size_L * bottles.strength_percent_vol) / 100 : 0,
    ),
  );
  /** What stands there; a small rest of a stage that was told is a remainder. */
  const standing = (place: string, of: readonly Lot[]): number => {
    const litres = total(of, (lot) => pure(lot.left));
    const into = total(picture.flows, (flow) => (flow.to === place ? flow.litres : 0));
    if (litres > UNTOLD * into && litres >= bottle_L) return litres;
    const traces = of.filter((lot) => pure(lot.left) > 0).map(byLeft);
    picture.late(place, { kind: 'kept', name: REMAINDER, litres, traces }, true);
    return 0;
  };
  const lying = at('wood').filter((lot) => lot.wood && pure(lot.left) > 0);
  const off = at('wood').filter((lot) => !lot.wood);
  const stands = {
    hearts: at('hearts').length > 0 ? standing('hearts', at('hearts')) : (hearts_L ?? 0),
    reduced: standing('reduced', at('reduced')),
    off_wood: standing('wood', off),
    on_wood: total(lying, (lot) => pure(lot.left)),
    laid_on_wood: total(lying, (lot) => pure(lot.made) + topped(lot)),
  };
  if (ledger) ahead(picture, ledger, stands);
}

/** Where each lot of the batch stands in the picture, by what it is and what it was made of. */
function placesOf(lots: readonly Lot[]): Map<string, string> {
  const places = new Map<string, string>();
  for (const lot of lots) {
    const wooded = lot.wood || lot.parents.some((one) => places.get(lotKey(one)) === 'wood');
    const place = lot.lot.kind === 'spirit' ? (wooded ? 'wood' : 'reduced') : OF_KIND[lot.lot.kind];
    if (place) places.set(lotKey(lot.lot), place);
  }
  return places;
}

/** What was taken out of a lot: into another that stands further on, or gone. */
function uses(
  picture: Picture,
  lots: readonly Lot[],
  places: ReadonlyMap<string, string>,
  lot: Lot,
  from: string,
): void {
  const aside = rank(from) < HEARTS;
  for (const use of lot.uses) {
    if (MAKES.has(use.where)) {
      const made = lots.find((one) =>
        use.where === 'topping up'
          ? one.uses.some((other) => other.entry === use.entry && other.where === TOPPED)
          : one.lot.entry === use.entry && ['spirit', 'bottles'].includes(one.lot.kind),
      );
      const to = made && places.get(lotKey(made.lot));
      if (!made || !to) {
        const away = {
          kind: 'held',
          name: 'In another batch',
          litres: pure(use),
          traces: [byUse(lot, use)],
        } satisfies Exit;
        if (!aside) picture.late(from, away, true);
      } else if (rank(to) > rank(from)) {
        if (aside) picture.place(from, from, 'held');
        // What filter and vessels kept never came into a bottle.
        const kept = to === 'bottles' ? missing(made) : 0;
        const lacking = missed(made, []);
        const on = { kind: 'through', name: '', litres: pure(use) - kept } as const;
        const traces = [byUse(lot, use), ...(to === 'bottles' ? lacking : [])];
        picture.late(from, { ...on, traces }, true, to);
        picture.late(from, { kind: 'open', name: OPEN, litres: kept, traces: lacking }, true);
      }
    } else if (use.where === TOPPED) {
      const told = lots.some((one) =>
        one.uses.some((other) => other.entry === use.entry && other.where === 'topping up'),
      );
      const traces = [byUse(lot, use)];
      if (!told)
        picture.late(from, { kind: 'in', name: 'Other lots', litres: -pure(use), traces }, true);
    } else if (use.where !== 'gauging' && !aside) {
      const gone = GONE[use.where] ?? { kind: 'kept', name: REMAINDER };
      picture.late(from, { ...gone, litres: pure(use), traces: [byUse(lot, use)] }, true);
    }
  }
}

/** How well the account knows what it could not find in these lots. */
function doubtOf(lots: readonly Lot[], account: readonly AccountStep[]): { doubt?: number } {
  const labels = new Set(lots.map((lot) => lot.label));
  const steps = account.filter((step) => labels.has(step.what));
  if (steps.length === 0) return {};
  return { doubt: Math.hypot(...steps.map((s) => s.unaccounted.standard_L_20C)) * BAND_80 };
}
