// What the charge leaves over the boiler's element, asked of the house as the charge is typed: it runs the
// batch's plan on it (POST /batches/{batch}/charge). An element that shows in the vapour burns dry. While
// the house does not answer, what it said of this very charge stands, and that a charge does not cover
// the element is plain without it.
import type { ChargeLeft, PlanFinding, Run, RunForecast, RunKind } from '../data/answers';
import type { Api } from '../data/api';
import { Asking } from '../data/asking.svelte';
import { NoAnswer } from '../data/problem';
import { quantities } from '../data/units';

/** A charge at 20 °C; its pure alcohol where that is known. */
export interface Charged {
  volume_L: number;
  pure_L: number | undefined;
}

/** The body of the call, as a text: two charges are one where it is the same. */
export const chargeAsked = (kind: RunKind, { volume_L, pure_L }: Charged): string =>
  JSON.stringify({
    run: kind,
    volume_L_20C: volume_L,
    ...(pure_L ? { strength_percent_vol: (100 * pure_L) / volume_L } : {}),
  });

export class LeftOfCharge {
  readonly #asking: Asking<ChargeLeft>;
  #asked = $state('');
  #last = $state.raw<{ of: string; left: ChargeLeft } | undefined>();

  constructor(pause_ms?: number) {
    this.#asking = new Asking<ChargeLeft>(pause_ms);
  }

  /** The newest answer, which may be of the charge before while this one is asked for. */
  readonly told = $derived.by(
    () => this.#asking.value ?? (this.#last?.of === this.#asked ? this.#last.left : undefined),
  );

  /** The house answers that its run of this charge does not come to the planned end. */
  readonly refused = $derived.by(() => this.#asking.faults.length > 0);

  ask(api: Pick<Api, 'post'>, batch: string, asked: string): void {
    this.#asked = asked;
    this.#asking.ask(async (stop) => {
      try {
        const path = `/batches/${encodeURIComponent(batch)}/charge`;
        const left = await api.post<ChargeLeft>(path, JSON.parse(asked), stop);
        this.#last = { of: asked, left };
        return left;
      } catch (fault) {
        if (!(fault instanceof NoAnswer)) this.#last = undefined;
        throw fault;
      }
    });
  }

  /** No charge is typed. */
  clear(): void {
    this.#asked = '';
    this.#asking.clear();
  }
}

/** That a charge does not cover the element, in the words of the house; undefined where it does. */
export function uncovered(
  volume_L: number,
  needs_L: number | undefined,
  spirit: boolean,
): Omit<PlanFinding, 'code' | 'stage'> | undefined {
  if (needs_L === undefined || volume_L >= needs_L) return undefined;
  const [here, needs] = quantities([volume_L, needs_L], 'L', 1, 'metric');
  return {
    weight: 'danger',
    says: `The charge is ${here}; the element needs ${needs} over it and burns dry as soon as the heat is on.`,
    remedy: `Leave the heat off. ${spirit ? 'Charge more, with water if need be' : 'Charge more'}.`,
  };
}

/** The same of a run that has begun, as its forecast tells of what is left: of a charge that small there is
 *  none, and the danger stands all the same. */
export function bareFromTheStart(
  run: Pick<Run, 'charge_L_20C' | 'run'>,
  needs_L: number | undefined,
): RunForecast['heat_off'] {
  const bare = uncovered(run.charge_L_20C, needs_L, run.run === 'spirit run');
  return bare && { says: `${bare.says} Heat off first.`, brief: 'Element bare: heat off first' };
}
