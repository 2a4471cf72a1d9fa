// Telling, correcting and striking out, with the sentence that says what became of it. What was struck
// by mistake is let stand again from there: entries of the house have no journal page of their own.
import type { Bench } from '../data/bench.svelte';
import type { Entry, Stage } from '../data/entry';
import type { Before } from './told';

export interface Wish {
  batch?: string | undefined;
  stage: Stage;
  kind: string;
  body: Record<string, unknown>;
  /** Where it is told as of earlier (WhenDone). */
  at?: string;
  clock_ahead_ms?: number;
}

export class Telling {
  said = $state('');
  /** The last strike, while it can be taken back. */
  struck = $state.raw<Entry | undefined>();
  readonly #bench: Pick<Bench, 'record'>;

  constructor(bench: Pick<Bench, 'record'>) {
    this.#bench = bench;
  }

  /** Records it, in the place of what it corrects where there is such; true once it is safe. */
  async tell(wish: Wish, said: string, before?: Before): Promise<boolean> {
    const { batch: own, ...rest } = wish;
    const batch = before ? before.batch : own;
    const kept = await this.#kept({
      ...rest,
      ...(batch === undefined ? {} : { batch }),
      ...(before
        ? {
            stage: before.stage,
            corrects: before.entry,
            at: before.at,
            clock_ahead_ms: before.clock_ahead_ms ?? 0,
          }
        : {}),
    });
    if (!kept) return false;
    this.struck = undefined;
    this.said = before ? 'Corrected; the first telling stays in the journal.' : said;
    return true;
  }

  /** It never happened. */
  async strike({ entry, batch, stage }: Pick<Before, 'entry' | 'batch' | 'stage'>) {
    const kept = await this.#strikes(entry, batch, stage, 'told by mistake');
    if (!kept) return false;
    this.struck = kept;
    this.said = 'Struck out; the first telling stays in the journal.';
    return true;
  }

  /** It did happen after all. */
  async restore() {
    const { struck } = this;
    if (!struck) return;
    if (!(await this.#strikes(struck.id, struck.batch, struck.stage, 'it did happen'))) return;
    this.struck = undefined;
    this.said = 'It stands again.';
  }

  #strikes(corrects: string, batch: string | undefined, stage: Stage, reason: string) {
    return this.#kept({
      ...(batch === undefined ? {} : { batch }),
      stage,
      kind: 'struck',
      corrects,
      body: { reason },
    });
  }

  async #kept(wish: Parameters<Bench['record']>[0]): Promise<Entry | undefined> {
    try {
      return await this.#bench.record(wish);
    } catch {
      this.said = 'It could not be kept on this device. Try again.';
      return undefined;
    }
  }
}
