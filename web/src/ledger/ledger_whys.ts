// Why the ledger's measured figures say what they say: each step of the account by what was told of its
// run or lot, a wash by its gravities, hearts by their lots. Planned ones are in plan_whys.ts. Pure.
import type { AccountStep, Batch, Lot } from '../data/answers';
import { byLoss, byLot, byStep, byWash, joined } from '../batch/stream_whys';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';
import type { Held } from './ledger';

type Told = Pick<Batch, 'account' | 'lots' | 'ferment' | 'runs'>;
type Side = 'in' | 'out';

const WAY = { in: 'that went into', out: 'that came of' };

/** Of one step of the account: what it took in, or gave. */
export const whyStep = (step: AccountStep, side: Side, told: Told): Why =>
  joined(`Pure alcohol at 20 °C ${WAY[side]} it: ${step.what}`, [byStep(step, side, told.runs)]);

/** What all steps together do not account for: `texts` are their gaps as the page tells them. */
export const whyWhole = (steps: readonly AccountStep[], texts: readonly string[]): Why => ({
  what: 'Pure alcohol at 20 °C unaccounted for in the batch, in all steps measured',
  inputs: steps.map((step, i) => ({ name: `Unaccounted for in ${step.what}`, value: texts[i]! })),
  model: 'The sum of the steps. What one gave and the next took in is in it once each way.',
  source: 'The entries that gauged them',
  band: 'The steps’ bands by the root of their squares. A gauging between two steps cancels in the sum and is counted in both, so this is rather too wide than too narrow.',
});

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

/** Of wash that no step of the account has taken in yet. */
export function whyHeld(told: Told, held: Held): Why {
  const { wash } = told.ferment;
  const what =
    held === 'waiting'
      ? 'Pure alcohol at 20 °C in the wash that no run has taken'
      : 'Pure alcohol at 20 °C in the wash of runs of which nothing that came over is measured';
  const litres = (volume_L: number) => `${printed(volume_L, 1)} L`;
  const of = joined(what, [byWash(told.ferment)]);
  if (!wash?.[held]) return of;
  return {
    ...of,
    inputs: [
      ...of.inputs,
      { name: 'Wash in all', value: litres(wash.volume_L_20C) },
      {
        name: held === 'waiting' ? 'Of it taken by no run' : 'Of it in these runs',
        value: litres(wash[held].volume_L_20C),
      },
    ],
    model: `${of.model} What is held is as strong as the rest.`,
    band: `${of.band ?? ''}${of.band ? '; ' : ''}a volume at a mark is read to 1 %, and less than that is not told as waiting`,
  };
}

/** Of a lot as it was made: as gauged, where it was gauged when it was poured together. */
export function whyMade(lot: Lot): Why {
  const by = byLot(lot);
  const { gauged } = lot;
  if (!gauged) return joined(`${lot.label}, as it was made`, [by]);
  const as = lot.bottles ? 'as the bottles were told' : 'gauged when it was made';
  const figures = `${printed(gauged.volume_L_20C, 3)} L at ${printed(gauged.strength_percent_vol, 1)} %vol, ${printed(gauged.pure_alcohol_L_20C, 3)} L of pure alcohol`;
  return joined(`${lot.label}, as it was made`, [
    {
      ...by,
      inputs: [...by.inputs, { name: `${lot.label}, ${as}`, value: figures }],
      model: `The figure is the one that was told. By its parts: ${by.model.charAt(0).toLowerCase()}${by.model.slice(1)}`,
    },
  ]);
}
