// The house's live events (server-sent events), with a reconnection of our own: the browser's gives
// up for good on an error status, and on a phone that slept it may not notice a dead connection.
// The house sends a "beat" after 15 s in which nothing happens: silence for 40 s means gone.

export interface EventSourceLike {
  close(): void;
  addEventListener(kind: string, heard: (event: MessageEvent<string>) => void): void;
  onopen: ((event: Event) => void) | null;
  onerror: ((event: Event) => void) | null;
}

export interface StreamSettings {
  address: string;
  kinds: readonly string[]; // names of the events to hear
  heard: (kind: string, data: unknown, id: string) => void;
  connected: (is: boolean) => void;
  open: (address: string) => EventSourceLike;
  later: (work: () => void, ms: number) => () => void;
  random: () => number;
}

const SILENCE_MS = 40_000;
const LONGEST_WAIT_MS = 20_000;

export class EventStream {
  readonly #settings: StreamSettings;
  #source: EventSourceLike | undefined;
  #callOff: (() => void) | undefined;
  #failures = 0;
  #last = '';
  #stopped = false;

  constructor(
    settings: Pick<StreamSettings, 'address' | 'kinds' | 'heard'> & Partial<StreamSettings>,
  ) {
    this.#settings = {
      connected: () => undefined,
      open: (address) => new EventSource(address, { withCredentials: true }),
      later: (work, ms) => {
        const timer = setTimeout(work, ms);
        return () => clearTimeout(timer);
      },
      random: Math.random,
      ...settings,
    };
    this.#connect();
  }

  /** Tries at once, when the browser says it is online again or the page is looked at. */
  nudge(): void {
    if (this.#stopped || this.#source) return;
    this.#connect();
  }

  stop(): void {
    this.#stopped = true;
    this.#callOff?.();
    this.#source?.close();
    this.#source = undefined;
  }

  #connect(): void {
    this.#callOff?.();
    const { address } = this.#settings;
    const join = address.includes('?') ? '&' : '?';
    const source = this.#settings.open(
      this.#last === '' ? address : `${address}${join}after=${encodeURIComponent(this.#last)}`,
    );
    this.#source = source;
    this.#watch();
    source.onopen = () => {
      if (this.#source !== source) return;
      this.#failures = 0;
      this.#settings.connected(true);
      this.#watch();
    };
    source.onerror = () => this.#lost(source);
    source.addEventListener('beat', () => {
      if (this.#source === source) this.#watch();
    });
    for (const kind of this.#settings.kinds) {
      source.addEventListener(kind, (event) => {
        if (this.#source !== source) return;
        this.#watch();
        if (event.lastEventId) this.#last = event.lastEventId;
        let data: unknown;
        try {
          data = JSON.parse(event.data);
        } catch {
          return; // not ours; the state is asked for again at the next reconnection
        }
        this.#settings.heard(kind, data, event.lastEventId);
      });
    }
  }

  #watch(): void {
    this.#callOff?.();
    const source = this.#source;
    this.#callOff = this.#settings.later(() => source && this.#lost(source), SILENCE_MS);
  }

  #lost(source: EventSourceLike): void {
    if (this.#source !== source || this.#stopped) return;
    source.close();
    this.#source = undefined;
    this.#settings.connected(false);
    const longest = Math.min(500 * 2 ** this.#failures, LONGEST_WAIT_MS);
    this.#failures += 1;
    this.#callOff?.();
    this.#callOff = this.#settings.later(
      () => this.#connect(),
      longest * (0.5 + 0.5 * this.#settings.random()),
    );
  }
}
