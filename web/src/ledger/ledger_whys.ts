// Why the ledger's measured figures say what they say: each step of the account by what was told of its
// run or lot, a wash by its gravities, hearts by their lots. Planned ones are in plan_whys.ts. Pure.
import type { AccountStep, Batch, Lot } from '../data/answers';
import { byLoss, byLot, byStep, byWash, joined } from '../batch/stream_whys';
import type { Why } from '../parts/Figure.svelte';

type Told = Pick<Batch, 'account' | 'lots' | 'ferment' | 'runs'>;
type Side = 'in' | 'out';

const WAY = { in: 'that went into', out: 'that came of' };

/** Of one step of the account: what it took in, or gave. */
export const whyStep = (step: AccountStep, side: Side, told: Told): Why =>
  joined(`Pure alcohol at 20 °C ${WAY[side]} it: ${step.what}`, [byStep(step, side, told.runs)]);

/** Of its losses that have a name. */
export const whyNamed = (step: AccountStep): Why =>
  joined(
    `Pure alcohol at 20 °C lost under a name: ${step.what}`,
    step.named.map((loss) => byLoss(step, loss)),
  );

/** Of what was measured of a stage, as it stands beside the plan. */
export function whyMeasured(told: Told, stage: string, side: Side): Why {
  const what = `Pure alcohol at 20 °C ${WAY[side]} this stage, as measured: ${stage.toLowerCase()}`;
  if (stage === 'Ferment') return joined(what, [byWash(told.ferment)]);
  if (stage === 'Spirit run' && side === 'out')
    return joined(what, told.lots.filter((lot) => lot.lot.kind === 'hearts').map(byLot));
  const steps = told.account.filter((step) => step.stage === stage.toLowerCase());
  return joined(
    what,
    steps.map((step) => byStep(step, side, told.runs)),
  );
}

/** Of a lot as it was made. */
export const whyMade = (lot: Lot): Why => joined(`${lot.label}, as it was made`, [byLot(lot)]);
