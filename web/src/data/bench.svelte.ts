// What the open page holds together: the house's voice (event stream), what is not yet saved at home
// (outbox), the clocks, and the one way to record an entry. Pages read its fields; they are live.
import { alarm } from './alarm';
import { Api, api } from './api';
import { Clocks } from './clocks.svelte';
import { newEntry, type Entry, type EntryWish } from './entry';
import { EventStream } from './event_stream';
import { Outbox, type OutboxState } from './outbox';
import { houseTime } from './house_time';
import { keepPages, pagesWereKept } from './page_keeper';
import { Problem } from './problem';
import { settings } from './settings.svelte';

const TOLD_AT = 'lynearm-told-at';

/** Of this tab, and over its reloads: a phone drops a page in a pocket, and what is written up of yesterday
 *  would count as now, unsaid. */
function toldAtLeft(): number | undefined {
  try {
    const left = sessionStorage.getItem(TOLD_AT);
    const ms = Number(left);
    return left !== null && left !== '' && Number.isFinite(ms) ? ms : undefined;
  } catch {
    return undefined; // nothing is remembered where the browser refuses
  }
}

export type Hearing = (kind: string, data: unknown) => void;

export class Bench {
  /** Whether the house's voice is heard; undefined until the first try has ended. */
  connected = $state<boolean | undefined>(undefined);
  /** True when the house answers, but does not know this device: it is to be paired. */
  stranger = $state(false);
  /** The house knew it while this page was open, and does so no longer. */
  shut_out = $state(false);
  #was_known = false;
  outbox = $state.raw<OutboxState>({
    waiting: 0,
    refused: [],
    sending: false,
    answered: undefined,
  });
  /** Whether the page can be opened again while the house is away; undefined until it is known. */
  pages_kept = $state<boolean | undefined>(undefined);
  /** Device time when the connection was lost; forecasts on the screen are that old. */
  lost_ms = $state<number | undefined>(undefined);
  #told_ms = $state(toldAtLeft());
  readonly clocks: Clocks;
  /** Device's clock less the house's in milliseconds, looked at again as the clocks tick; 0 unknown. */
  readonly ahead_ms = $derived.by(() => {
    void this.clocks.now;
    return houseTime.ahead_ms;
  });
  /** Whether the house has told its time to this page. */
  readonly time_known = $derived.by(() => {
    void this.clocks.now;
    return houseTime.known;
  });
  readonly api: Api;
  #box: Outbox | undefined;
  #stream: EventStream | undefined;
  readonly #hearers = new Set<Hearing>();
  readonly #turned = new Set<() => void>();

  /** Device time as of which entries are told, by who writes up what happened before; else now. */
  get told_ms(): number | undefined {
    return this.#told_ms;
  }

  set told_ms(value: number | undefined) {
    this.#told_ms = value;
    try {
      if (value === undefined) sessionStorage.removeItem(TOLD_AT);
      else sessionStorage.setItem(TOLD_AT, String(value));
    } catch {
      // Then it lasts as long as the page.
    }
  }

  constructor(own: Api = api) {
    this.api = own;
    this.clocks = new Clocks(alarm.ring);
  }

  /** Opens queue, stream and clocks; the returned function closes them. */
  open(): () => void {
    const box = (this.#box = new Outbox({
      keep: (entries) => this.api.keep(entries),
      keepFile: (file) => this.api.keepFile(file),
    }));
    const unsubscribe = box.subscribe((state) => {
      // What took an entry also speaks: the stream need not wait for its turn.
      if (state.answered === true && this.outbox.answered === false) this.#stream?.nudge();
      this.outbox = state;
    });
    const stream = (this.#stream = new EventStream({
      address: this.api.address('/events'),
      kinds: ['hello', 'kept'],
      heard: (kind, data) => {
        for (const hearer of this.#hearers) hearer(kind, data);
      },
      connected: (is) => {
        const was = this.connected;
        this.connected = is;
        if (!is && was !== false) this.lost_ms = Date.now();
        void this.greet();
        if (is) {
          this.lost_ms = undefined;
          void box.send();
        }
        if (was === undefined || was === is) return;
        for (const turned of this.#turned) turned();
      },
    }));
    const back = () => {
      stream.nudge();
      void box.send();
    };
    const seen = () => document.visibilityState === 'visible' && back();
    addEventListener('online', back);
    document.addEventListener('visibilitychange', seen);
    void pagesWereKept().then((were) => {
      if (were) this.pages_kept = true;
    });
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
      this.stranger = this.shut_out = false;
      this.#was_known = true;
    } catch (fault) {
      if (!(fault instanceof Problem)) return;
      this.stranger = fault.status === 401;
      this.shut_out = this.stranger && this.#was_known;
    }
  }

  /**
   * Readies this device for a house that goes away: has the browser keep the pages, or else loads
   * what is not loaded yet, so that at least the page that is open can go everywhere.
   */
  async prepare(loadAll: () => Promise<void>): Promise<void> {
    const kept = await keepPages();
    if (!kept) await loadAll();
    this.pages_kept = kept;
  }

  /**
   * Records: resolves with the entry once it is safe on this device, with the photographs that belong
   * to it; it is then sent home.
   */
  async record(
    wish: Omit<EntryWish, 'who'> & { who?: string },
    files: readonly File[] = [],
  ): Promise<Entry> {
    const before =
      this.told_ms === undefined
        ? {}
        : { at: new Date(this.told_ms).toISOString(), clock_ahead_ms: houseTime.ahead_ms };
    const entry = newEntry({ ...before, ...wish, who: wish.who ?? settings.who });
    if (!this.#box) throw new Error('The bench is not open.');
    await this.#box.put(entry, files);
    return entry;
  }

  /** Calls back at each event of the house; returns how to stop. */
  hear(hearer: Hearing): () => void {
    this.#hearers.add(hearer);
    return () => this.#hearers.delete(hearer);
  }

  /**
   * Calls back when the connection is lost, so that what is on the screen is found to be old, and when
   * it is back, since events may have been missed.
   */
  onTurn(turned: () => void): () => void {
    this.#turned.add(turned);
    return () => this.#turned.delete(turned);
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
