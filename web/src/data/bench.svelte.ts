// What the open page holds together: the house's voice (event stream), what is not yet saved at home
// (outbox), the clocks, and the one way to record an entry. Pages read its fields; they are live.
import { alarm } from './alarm';
import { Api, api } from './api';
import { Clocks } from './clocks.svelte';
import { newEntry, type Entry, type EntryWish } from './entry';
import { EventStream } from './event_stream';
import { Outbox, type OutboxState } from './outbox';
import { Problem } from './problem';
import { settings } from './settings.svelte';

export type Hearing = (kind: string, data: unknown) => void;

export class Bench {
  /** Whether the house's voice is heard; undefined until the first try has ended. */
  connected = $state<boolean | undefined>(undefined);
  /** True when the house answers, but does not know this device: it is to be paired. */
  stranger = $state(false);
  outbox = $state.raw<OutboxState>({
    waiting: 0,
    refused: [],
    sending: false,
    answered: undefined,
  });
  /** Device time when the connection was lost; forecasts on the screen are that old. */
  lost_ms = $state<number | undefined>(undefined);
  readonly clocks: Clocks;
  readonly api: Api;
  #box: Outbox | undefined;
  #stream: EventStream | undefined;
  readonly #hearers = new Set<Hearing>();
  readonly #resumers = new Set<() => void>();

  constructor(own: Api = api) {
    this.api = own;
    this.clocks = new Clocks(alarm.ring);
  }

  /** Opens queue, stream and clocks; the returned function closes them. */
  open(): () => void {
    const box = (this.#box = new Outbox({ keep: (entries) => this.api.keep(entries) }));
    const unsubscribe = box.subscribe((state) => (this.outbox = state));
    const stream = (this.#stream = new EventStream({
      address: this.api.address('/events'),
      kinds: ['hello', 'kept'],
      heard: (kind, data) => {
        for (const hearer of this.#hearers) hearer(kind, data);
      },
      connected: (is) => {
        if (!is && this.connected !== false) this.lost_ms = Date.now();
        void this.greet();
        if (is) {
          this.lost_ms = undefined;
          void box.send();
        }
        this.connected = is;
      },
      resumed: () => {
        for (const resumer of this.#resumers) resumer();
      },
    }));
    const back = () => {
      stream.nudge();
      void box.send();
    };
    const seen = () => document.visibilityState === 'visible' && back();
    addEventListener('online', back);
    document.addEventListener('visibilitychange', seen);
    const stopClocks = this.clocks.run();
    void box.send();
    return () => {
      removeEventListener('online', back);
      document.removeEventListener('visibilitychange', seen);
      stopClocks();
      stream.stop();
      unsubscribe();
      void box.close();
    };
  }

  /** Asks the house's time, which it tells to those it knows. */
  async greet(): Promise<void> {
    try {
      await this.api.askTime();
      this.stranger = false;
    } catch (fault) {
      if (fault instanceof Problem) this.stranger = fault.status === 401;
    }
  }

  /** Records: resolves with the entry once it is safe on this device; it is then sent home. */
  async record(wish: Omit<EntryWish, 'who'> & { who?: string }): Promise<Entry> {
    const entry = newEntry({ ...wish, who: wish.who ?? settings.who });
    if (!this.#box) throw new Error('The bench is not open.');
    await this.#box.put(entry);
    return entry;
  }

  /** Calls back at each event of the house; returns how to stop. */
  hear(hearer: Hearing): () => void {
    this.#hearers.add(hearer);
    return () => this.#hearers.delete(hearer);
  }

  /** Calls back when the connection is back and events may have been missed. */
  onResume(resumer: () => void): () => void {
    this.#resumers.add(resumer);
    return () => this.#resumers.delete(resumer);
  }

  sendNow(): void {
    this.#stream?.nudge();
    void this.#box?.send();
  }

  retry(id: string): void {
    void this.#box?.retry(id);
  }

  letGo(id: string): void {
    void this.#box?.letGo(id);
  }

  async waiting(): Promise<Entry[]> {
    return (await this.#box?.waiting()) ?? [];
  }
}

export const bench = new Bench();
