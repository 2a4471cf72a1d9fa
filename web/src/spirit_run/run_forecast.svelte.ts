// The house's forecast of a run, asked anew when the run is corrected: with when it was asked for, and
// only as far as it is one of the run as it stands now.
import { untrack } from 'svelte';
import { SvelteMap } from 'svelte/reactivity';
import type { Run, RunForecast } from '../data/answers';
import type { Bench } from '../data/bench.svelte';
import { Held } from '../data/held.svelte';
import { Problem } from '../data/problem';
import { versionsOf, correctedSince } from './doubts';
import { sameStart } from './run_view';

export class HeldForecast {
  readonly held: Held<RunForecast>;
  /** By entry, when its correction was first seen here. */
  readonly corrected_ms = new SvelteMap<string, number>();
  // Each forecast with the moment it was asked for, and the start of the run as it was told then: it knows
  // no correction that came after.
  readonly #asked = new WeakMap<object, { at_ms: number; start: string }>();
  readonly #run: () => Run;
  readonly #firstStart: string;

  /** To be made while a component is: it asks for as long as that stands. */
  constructor(bench: Bench, run: () => Run) {
    this.#run = run;
    const first = untrack(run);
    this.#firstStart = first.at;
    this.held = new Held<RunForecast>(
      {
        api: {
          get: async <Answer>(path: string) => {
            const of = { at_ms: Date.now(), start: run().at };
            const answer = await bench.api.get<Answer>(path);
            this.#asked.set(answer as object, of);
            return answer;
          },
        },
        hear: (hearer) => bench.hear(hearer),
        onTurn: (turned) => bench.onTurn(turned),
      },
      `/runs/${first.entry}/forecast`,
    );
    $effect(() => this.held.open());
    let versions: Map<string, number> | undefined;
    $effect(() => {
      const now = versionsOf(run());
      const entries = correctedSince(versions, now);
      const opening = versions === undefined;
      versions = now;
      for (const entry of entries) this.corrected_ms.set(entry, Date.now());
      if (entries.length > 0 && !opening) void this.held.ask();
    });
    let started = first.at;
    $effect(() => {
      const { at } = run();
      if (!sameStart(started, at)) void this.held.ask();
      started = at;
    });
  }

  /** The run as it stands now cannot be forecast: what was told of it before is no forecast of it. */
  get refused(): boolean {
    return this.held.fault instanceof Problem && this.held.fault.status === 422;
  }

  /** Its minutes count from the run's start: of one that was corrected since it tells no time right. */
  get value(): RunForecast | undefined {
    const { value } = this.held;
    if (!value || this.refused) return undefined;
    const start = this.#asked.get(value)?.start ?? this.#firstStart;
    return sameStart(start, this.#run().at) ? value : undefined;
  }

  /** When the one that stands was asked for. */
  get asked_ms(): number {
    const { value } = this;
    return (value && this.#asked.get(value)?.at_ms) ?? -Infinity;
  }
}
