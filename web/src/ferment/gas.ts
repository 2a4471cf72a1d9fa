// The gas of a ferment as the page tells it: of what was pitched as soon as the house has that, before
// it by the plan; and in words where no rate is to be told. Pure.
import type { Batch, FermentForecast, Plan } from '../data/answers';

export type Pitched = NonNullable<Batch['ferment']['carbon_dioxide']>;

export interface GasTold {
  mass_kg: number;
  volume_L: number;
  peak_L_per_h?: number | undefined;
  peak_at_h?: number | undefined;
  fresh_air_m3_per_h?: number | undefined;
  room_at_peak_fraction?: number | undefined;
}

export const STANDS =
  'Racked, and by its readings the wash had come to stand: hardly any gas comes of it unless it goes on. What came lies over the wash, and in the emptied fermenter, still.';
export const MAY_GO_ON =
  'It was racked, and no reading that is believed tells that it had come to stand: it may give off gas yet.';
export const PLAN_ONLY =
  'What was pitched is not yet at home: till then these figures are the plan’s. More wort gives more gas.';

export interface Told {
  gas: GasTold | undefined; // what is told in figures
  pitched: Pitched | undefined; // where they are of that
  stands: boolean; // nothing to tell in figures any more
  mayGoOn: boolean; // racked, and not known to stand
}

/**
 * Of what was pitched; else, while nothing is, of the plan. A gravity that the forecast does not believe is
 * none to say by that a wash has come to stand.
 */
export function gasTold(
  batch: Pick<Batch, 'ferment'> | undefined,
  plan: Plan | undefined,
  doubts: FermentForecast['doubts'] = [],
): Told {
  const ferment = batch?.ferment;
  const pitched = ferment?.carbon_dioxide;
  if (!pitched) {
    // A pitch that the house cannot reckon by is not told with figures that are not its own.
    const gas = ferment?.pitch ? undefined : plan?.ferment?.carbon_dioxide;
    return { gas, pitched, stands: false, mayGoOn: false };
  }
  const doubted = doubts.some((doubt) => doubt.entry === ferment?.wash?.entry);
  const stands = pitched.standing === 'stands' && !doubted;
  return {
    gas: stands ? undefined : pitched,
    pitched,
    stands,
    mayGoOn: pitched.standing !== 'gives' && !stands,
  };
}

/** The limit for a working day, as a share of the air: OSHA, ACGIH and EH40. */
export const DAY_LIMIT = 0.005;
