// Talks to the house's server. Every call ends in a value, a Problem (the house said no) or a
// NoAnswer (nobody heard); an answer that tells the house's time also teaches its clock. The types of requests and
// answers are made from api/openapi.yaml into api_types.ts (npm run types).
import type { Entry } from './entry';
import { houseTime, type HouseTime } from './house_time';
import { NoAnswer, Problem, problemOf } from './problem';

export interface ApiSettings {
  base: string;
  fetch: typeof fetch;
  clock: HouseTime;
  now: () => number;
  patience_ms: number;
}

/** What only bears a picture's name would stand as a broken picture in the journal for good. */
export async function looked(file: Blob): Promise<void> {
  if (typeof createImageBitmap !== 'function') return;
  try {
    (await createImageBitmap(file)).close();
  } catch {
    throw new Problem({
      title: 'no picture',
      detail: `${file instanceof File ? file.name : 'The file'} holds no picture that can be shown here; accepted: photographs, such as JPEG or PNG.`,
      status: 415,
    });
  }
}

export class Api {
  readonly #settings: ApiSettings;

  constructor(settings: Partial<ApiSettings> = {}) {
    this.#settings = {
      base: '/api/v1',
      fetch: (...call) => fetch(...call),
      clock: houseTime,
      now: Date.now,
      patience_ms: 15_000,
      ...settings,
    };
  }

  /** The address of a path, for what is not fetched: the event stream, a download. */
  address(path: string): string {
    return this.#settings.base + path;
  }

  async get<Answer>(path: string, stop?: AbortSignal): Promise<Answer> {
    return this.#call<Answer>('GET', path, undefined, stop);
  }

  async post<Answer>(path: string, body: unknown, stop?: AbortSignal): Promise<Answer> {
    return this.#call<Answer>('POST', path, body, stop);
  }

  /** Keeps a photograph at home; its name there, for a note to hold. */
  async keepFile(file: Blob, stop?: AbortSignal): Promise<string> {
    const answer = await this.#call<{ attachment?: unknown } | undefined>(
      'POST',
      '/attachments',
      file,
      stop,
    );
    if (typeof answer?.attachment !== 'string') throw new NoAnswer('The answer names no file.');
    return answer.attachment;
  }

  async delete<Answer>(path: string, stop?: AbortSignal): Promise<Answer> {
    return this.#call<Answer>('DELETE', path, undefined, stop);
  }

  /** Sends entries in their order; the ids that the house has made durable. */
  async keep(entries: readonly Entry[], stop?: AbortSignal): Promise<string[]> {
    const answer = await this.post<{ kept?: unknown } | undefined>('/entries', { entries }, stop);
    if (!Array.isArray(answer?.kept)) throw new NoAnswer('The answer names no kept entries.');
    return answer.kept
      .map((one: unknown) => (one as { id?: unknown } | null)?.id)
      .filter((id): id is string => typeof id === 'string');
  }

  async #call<Answer>(
    method: string,
    path: string,
    body: unknown,
    stop?: AbortSignal,
  ): Promise<Answer> {
    const { clock, now, patience_ms } = this.#settings;
    const asked = now();
    // By hand, since old tablets know neither AbortSignal.timeout nor AbortSignal.any.
    const limit = new AbortController();
    const end = () => limit.abort();
    const file = body instanceof Blob ? body : undefined;
    // A photograph over a poor Wi-Fi: a second more for each 20 kB.
    const timer = setTimeout(end, patience_ms + (file ? file.size / 20 : 0));
    stop?.addEventListener('abort', end);
    if (stop?.aborted) end();
    let answer: Response;
    let text: string;
    let answered: number;
    try {
      answer = await this.#settings.fetch(this.address(path), {
        method,
        headers: {
          Accept: 'application/json, application/problem+json',
          ...(body === undefined
            ? {}
            : { 'Content-Type': file ? 'application/octet-stream' : 'application/json' }),
        },
        ...(body === undefined ? {} : { body: file ?? JSON.stringify(body) }),
        credentials: 'same-origin',
        cache: 'no-store',
        signal: limit.signal,
      });
      answered = now();
      if (!answer.ok) throw await problemOf(answer);
      text = await answer.text();
    } catch (fault) {
      if (fault instanceof Problem) throw fault;
      if (stop?.aborted) throw fault; // the caller's own wish
      throw new NoAnswer('The house does not answer.');
    } finally {
      clearTimeout(timer);
      stop?.removeEventListener('abort', end);
    }
    if (text === '') return undefined as Answer;
    try {
      const value = JSON.parse(text) as Answer;
      const told = (value as { now?: unknown } | null)?.now;
      if (typeof told === 'string') clock.learn(asked, Date.parse(told), answered);
      return value;
    } catch {
      throw new NoAnswer('The answer is not from the house.'); // a gate of some public network
    }
  }

  /** Asks for the house's time; answers of other calls that carry it teach it as well. */
  async askTime(): Promise<void> {
    await this.get('/time');
  }
}

export const api = new Api();
