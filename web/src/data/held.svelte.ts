// An answer of the house that stays on the screen: asked for when first shown, again whenever
// something was recorded or the connection is lost or back, and kept in IndexedDB, so that a page opened
// while the house does not answer shows what it last heard, with its age. Asking is never doubled:
// a wish made while a question is out is answered by one more question after it. A question that was
// not answered (a phone that slept in the midst of it) is asked again after a while.
import { openDB, type IDBPDatabase } from 'idb';
import { untrack } from 'svelte';
import type { Api } from './api';
import { NoAnswer } from './problem';

interface Kept {
  value: unknown;
  at_ms: number;
}

/** What of the bench is needed: to ask, and to hear that there is something to ask for. */
export interface Voice {
  readonly api: Pick<Api, 'get'>;
  hear(hearer: () => void): () => void;
  onTurn(turned: () => void): () => void;
}

let base: Promise<IDBPDatabase> | undefined;
const opened = () =>
  (base ??= openDB('lynearm-held', 1, {
    upgrade(made) {
      made.createObjectStore('answers');
    },
  }));

/** Answers that this device remembers from before, and did not hear since the page was opened. */
const remembered = new WeakSet<object>();
export const isRemembered = (answer: object): boolean => remembered.has(answer);

const FIRST_WAIT_MS = 2000;
const LAST_WAIT_MS = 30_000;

export class Held<Answer> {
  value = $state.raw<Answer | undefined>();
  /** Device time when the value was heard from the house. */
  at_ms = $state<number | undefined>();
  /** True when the house did not answer the last question: the value is as old as at_ms says. */
  old = $state(false);
  /** What the house said when it refused; the value of before stays. */
  fault = $state.raw<Error | undefined>();
  readonly #bench: Voice;
  readonly #path: string;
  #asking: Promise<void> | undefined;
  #out = false; // a question
  #again = false;
  #closed = false;
  #wait_ms = FIRST_WAIT_MS;
  #later: ReturnType<typeof setTimeout> | undefined;

  constructor(bench: Voice, path: string) {
    this.#bench = bench;
    this.#path = path;
  }

  /**
   * Starts asking; the returned function stops. It may be opened again, as an effect that runs again
   * does. For $effect: it tracks nothing.
   */
  open(): () => void {
    return untrack(() => {
      this.#closed = false;
      void this.#recall();
      void this.ask();
      const stops = [
        this.#bench.hear(() => void this.ask()),
        this.#bench.onTurn(() => void this.ask()),
      ];
      return () => {
        this.#closed = true;
        clearTimeout(this.#later);
        for (const stop of stops) stop();
      };
    });
  }

  /** Asks the house now. */
  ask(): Promise<void> {
    if (this.#asking) {
      this.#again = true;
      return this.#asking;
    }
    const asking = this.#ask();
    // It is over already where asking failed at once.
    if (this.#out) this.#asking = asking;
    return asking;
  }

  async #ask(): Promise<void> {
    this.#out = true;
    do {
      this.#again = false;
      clearTimeout(this.#later);
      try {
        const value = await this.#bench.api.get<Answer>(this.#path);
        if (this.#closed) break;
        this.value = value;
        this.at_ms = Date.now();
        this.old = false;
        this.fault = undefined;
        this.#wait_ms = FIRST_WAIT_MS;
        void this.#keep({ value, at_ms: this.at_ms });
      } catch (fault) {
        if (this.#closed) break;
        if (fault instanceof NoAnswer) {
          this.old = true;
          this.#later = setTimeout(() => void this.ask(), this.#wait_ms);
          this.#wait_ms = Math.min(2 * this.#wait_ms, LAST_WAIT_MS);
        } else {
          this.old = false; // it answers, if only to refuse
          this.fault = fault as Error;
        }
      }
    } while (this.#again && !this.#closed);
    // At once, not when the promise is settled: a wish made in between would be lost.
    this.#out = false;
    this.#asking = undefined;
  }

  async #recall(): Promise<void> {
    try {
      const kept = (await (await opened()).get('answers', this.#path)) as Kept | undefined;
      if (!kept || this.value !== undefined || this.#closed) return;
      if (typeof kept.value === 'object' && kept.value !== null) remembered.add(kept.value);
      this.value = kept.value as Answer;
      this.at_ms = kept.at_ms;
    } catch {
      // Nothing is remembered where the browser refuses; the house is asked anyway.
    }
  }

  async #keep(kept: Kept): Promise<void> {
    try {
      await (await opened()).put('answers', kept, this.#path);
    } catch {
      // A full device forgets answers; entries are kept apart, in the outbox.
    }
  }
}
