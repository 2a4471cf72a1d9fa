// A plan that follows what is being typed: asked for after a short rest, and only the last answer
// counts. The last plan that could be made stays on the screen while the texts have a fault, and is
// marked as older than the texts. Bands take longer, so they are asked for after a longer rest.
import type { Plan } from '../data/answers';
import type { Api } from '../data/api';
import { NoAnswer, Problem, type Fault } from '../data/problem';

export interface Texts {
  recipe: string;
  kit: string;
}

const REST_MS = 150;
const BANDS_REST_MS = 700;
const AGAIN_MS = 3000; // while the house does not answer
export const MEMBERS = 200; // of the ensemble behind the bands

export class LivePlan {
  plan = $state.raw<Plan | undefined>();
  faults = $state.raw<readonly Fault[]>([]);
  sentence = $state(''); // when no fault says it
  /** The plan on the screen is of an earlier text. */
  older = $state(false);
  asking = $state(false);
  readonly #api: Pick<Api, 'post'>;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #bandsTimer: ReturnType<typeof setTimeout> | undefined;
  #stop: AbortController | undefined;

  constructor(api: Pick<Api, 'post'>) {
    this.#api = api;
  }

  /** To be called at each change of the texts. */
  follow(texts: Texts, bands: boolean): void {
    this.#drop();
    if (this.plan) this.older = true;
    this.#timer = setTimeout(() => void this.#ask(texts, 0), REST_MS);
    if (bands) {
      this.#bandsTimer = setTimeout(() => void this.#ask(texts, MEMBERS), BANDS_REST_MS);
    }
  }

  close(): void {
    this.#drop();
  }

  #drop(): void {
    clearTimeout(this.#timer);
    clearTimeout(this.#bandsTimer);
    this.#stop?.abort();
    this.#stop = undefined;
  }

  async #ask(texts: Texts, members: number): Promise<void> {
    this.#stop?.abort();
    const stop = (this.#stop = new AbortController());
    this.asking = true;
    try {
      const body = { ...texts, ...(members > 0 ? { members } : {}) };
      const plan = await this.#api.post<Plan>('/plan', body, stop.signal);
      if (stop !== this.#stop) return;
      this.plan = plan;
      this.older = false;
      this.faults = [];
      this.sentence = '';
    } catch (fault) {
      if (stop !== this.#stop) return;
      if (fault instanceof NoAnswer) {
        this.#timer = setTimeout(() => void this.#ask(texts, members), AGAIN_MS);
      }
      this.faults = fault instanceof Problem ? fault.faults : [];
      this.sentence =
        fault instanceof NoAnswer
          ? 'The house does not answer; it is needed to reckon a plan. What you type is kept.'
          : this.faults.length > 0
            ? ''
            : (fault as Error).message;
    } finally {
      if (stop === this.#stop) this.asking = false;
    }
  }
}
