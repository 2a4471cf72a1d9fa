// A question of the gauge, asked when its button is pressed: the answer, or what was wrong with it.
// A change of the input takes the answer away, and one that comes late is dropped.
import type { Api } from '../data/api';
import { unread } from '../data/measured';
import { nothingTold, toldOf, type Told } from './calls';

export class Reckoned<Answer> {
  answer = $state.raw<Answer | undefined>();
  told = $state.raw<Told>(nothingTold);
  /** Whether it was asked: before that an empty field is no fault. */
  tried = $state(false);
  readonly #api: () => Api;
  readonly #path: string;
  #asked = 0;

  constructor(api: () => Api, path: string) {
    this.#api = api;
    this.#path = path;
  }

  readonly changed = (): void => {
    this.answer = undefined;
    this.told = nothingTold;
    this.#asked += 1;
  };

  /** Asks, unless something is still missing; `paths` are those of the fields that show faults. */
  async ask(body: unknown, whole: boolean, paths: readonly string[]): Promise<void> {
    await this.answered(() => this.#api().post<Answer>(this.#path, body), whole, paths);
  }

  /** The same where the answer takes more than one call. */
  async answered(
    question: () => Promise<Answer>,
    whole: boolean,
    paths: readonly string[],
  ): Promise<void> {
    this.tried = true;
    this.changed();
    if (!whole) return;
    const mine = this.#asked;
    try {
      const answer = await question();
      if (mine === this.#asked) this.answer = answer;
    } catch (fault) {
      if (mine === this.#asked) this.told = toldOf(fault, paths);
    }
  }

  /** The sentence at a field whose text could not be read. */
  wrong(value: number | undefined, text: string, accepted: string): string | undefined {
    return this.tried && value === undefined ? unread(text, accepted) : undefined;
  }
}
