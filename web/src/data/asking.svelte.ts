// A question whose answer stands beside what is being typed: asked when the typing pauses, only the
// newest answer is shown, and a refusal becomes faults at their fields. It is made by a component and
// leaves with it: what was typed just before is not asked once nobody waits for the answer.
import { onDestroy } from 'svelte';
import { NoAnswer, Problem, type Fault } from './problem';

export class Asking<Answer> {
  value = $state.raw<Answer | undefined>();
  faults = $state.raw<readonly Fault[]>([]);
  /** What the house said beside the faults, or that it does not answer; empty when all is well. */
  sentence = $state('');
  readonly #pause_ms: number;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #stop: AbortController | undefined;
  #left = false;

  constructor(pause_ms = 200) {
    this.#pause_ms = pause_ms;
    onDestroy(() => {
      this.#left = true;
      this.#drop();
    });
  }

  /** Asks after a pause; whatever was asked before is dropped. The answer of before stays till then. */
  ask(question: (stop: AbortSignal) => Promise<Answer>): void {
    this.#drop();
    if (this.#left) return;
    const mine = (this.#stop = new AbortController());
    this.#timer = setTimeout(() => {
      question(mine.signal).then(
        (value) => {
          if (mine.signal.aborted) return;
          this.value = value;
          this.faults = [];
          this.sentence = '';
        },
        (fault: unknown) => {
          if (mine.signal.aborted) return;
          this.value = undefined;
          this.faults = fault instanceof Problem ? fault.faults : [];
          this.sentence = told(fault);
        },
      );
    }, this.#pause_ms);
  }

  /** Nothing is asked: what was typed is not whole. */
  clear(): void {
    this.#drop();
    this.value = undefined;
    this.faults = [];
    this.sentence = '';
  }

  #drop(): void {
    clearTimeout(this.#timer);
    this.#stop?.abort();
  }
}

function told(fault: unknown): string {
  if (fault instanceof Problem) return fault.faults.length > 0 ? '' : fault.message;
  if (fault instanceof NoAnswer) return 'The house does not answer; it is needed to reckon this.';
  throw fault;
}
