// True strengths of the readings on the screen, asked of the house once each and remembered: the page
// knows no physics. A reading that the house refuses or that is still on the way has none.
import type { Api } from '../data/api';
import type { Gauged, RunReading } from '../data/answers';
import { Problem } from '../data/problem';

export class TrueStrengths {
  #known = $state.raw<ReadonlyMap<string, Gauged>>(new Map());
  readonly #asked = new Set<string>();
  readonly #api: Pick<Api, 'post'>;

  constructor(api: Pick<Api, 'post'>) {
    this.#api = api;
  }

  static key(reading: Pick<RunReading, 'spout' | 'spout_temperature_C'>): string | undefined {
    const { spout, spout_temperature_C: at_C } = reading;
    if (!spout || at_C === undefined) return undefined;
    return `${spout.reading} ${spout.scale} ${at_C}`;
  }

  of(reading: Pick<RunReading, 'spout' | 'spout_temperature_C'>): number | undefined {
    return this.told(reading)?.strength_percent_vol;
  }

  /** All that the house answered: its uncertainty and its reason as well. */
  told(reading: Pick<RunReading, 'spout' | 'spout_temperature_C'>): Gauged | undefined {
    const key = TrueStrengths.key(reading);
    return key === undefined ? undefined : this.#known.get(key);
  }

  /** Asks for those not asked before, one after the other. */
  async ask(readings: readonly Pick<RunReading, 'spout' | 'spout_temperature_C'>[]): Promise<void> {
    for (const reading of readings) {
      const key = TrueStrengths.key(reading);
      if (key === undefined || this.#asked.has(key)) continue;
      this.#asked.add(key);
      try {
        const answer = await this.#api.post<Gauged>('/gauge', {
          reading: reading.spout!.reading,
          scale: reading.spout!.scale,
          at_C: reading.spout_temperature_C,
        });
        this.#known = new Map(this.#known).set(key, answer);
      } catch (fault) {
        if (fault instanceof Problem) continue; // the instrument cannot show this
        this.#asked.delete(key); // asked again with the next reading
        return;
      }
    }
  }
}
