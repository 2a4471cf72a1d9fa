// What is not yet saved at home. An entry is written to IndexedDB before anything else is done
// with it, and leaves only when the house names its id as kept. Entries go in the order they were
// made, one batch of them at a time; the house ignores an id it already has, so sending again after
// a lost answer doubles nothing. An entry that the house refuses is set apart with the reason
// and shown, and does not hold up the others. Several open pages share the queue: a lock of the
// browser lets one send at a time where the browser has locks, and where not the ids do. Whoever changes
// the queue says so to the other pages, which then count anew: else two of them would offer one next jar.
// Photographs wait with the note they belong to. They go first, then the note with their names at home;
// a photograph's name is made of what it holds, so that sending one again doubles nothing either.
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Entry } from './entry';
import { NoAnswer, Problem } from './problem';

interface Held {
  order?: number; // given by the store: the order of making
  entry: Entry;
  refused?: string; // the house's reason
  pictures?: number; // photographs that go before it; kept apart, since the queue is read often
}

/** As bytes: some browsers lose what a Blob of their store points to. */
interface Picture {
  name: string;
  type: string;
  bytes: ArrayBuffer;
}

interface Shape extends DBSchema {
  held: { key: number; value: Held; indexes: { id: string } };
}

/** By the entry's id and the photograph's place in it. */
interface Album extends DBSchema {
  pictures: { key: [string, number]; value: Picture };
}
const allOf = (id: string) => IDBKeyRange.bound([id, 0], [id, Infinity]);

export interface OutboxState {
  waiting: number; // kept on this device, not yet at home
  uncounted?: boolean; // nobody has looked yet: what an earlier page left may wait
  refused: { entry: Entry; reason: string }[];
  sending: boolean;
  answered: boolean | undefined; // whether the house answered the last time; undefined: not asked
  trouble?: string | undefined; // why the house could not keep them when it answered the last time
  /** How many photographs wait with an entry, by its id. */
  pictures?: ReadonlyMap<string, number>;
}

export interface OutboxSettings {
  name: string;
  keep: (entries: readonly Entry[]) => Promise<string[]>;
  keepFile: (file: File) => Promise<string>; // its name at home
  later: (work: () => void, ms: number) => () => void; // returns how to call it off
  random: () => number;
  at_once: number; // entries in one request
}

/** Undefined where the browser has none, or refuses it: then a page counts when it sends itself. */
function channel(name: string): BroadcastChannel | undefined {
  try {
    return typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(name);
  } catch {
    return undefined;
  }
}

const fileOf = ({ name, type, bytes }: Picture) => new File([bytes], name, { type });

const LOST =
  'Its photographs are no longer on this device; the note can be told again without them.';

const withNames = (entry: Entry, names: readonly string[]): Entry => ({
  ...entry,
  body: { ...entry.body, attachments: [...names] },
});

const namesIn = (entry: Entry): string[] =>
  (entry.body['attachments'] as string[] | undefined) ?? [];

const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 30_000;

/** What the house will never accept, however often it is sent; 401, 408, 429 and 5xx may pass. */
const final = (status: number) =>
  status >= 400 && status < 500 && ![401, 403, 404, 408, 425, 429].includes(status);

export class Outbox {
  readonly #settings: OutboxSettings;
  readonly #base: Promise<IDBPDatabase<Shape>>;
  #album: Promise<IDBPDatabase<Album>> | undefined; // opened when there is a photograph
  readonly #listeners = new Set<(state: OutboxState) => void>();
  #state: OutboxState = {
    waiting: 0,
    uncounted: true,
    refused: [],
    sending: false,
    answered: undefined,
  };
  #running: Promise<void> | undefined;
  #again = false;
  #callOff: (() => void) | undefined;
  #failures = 0;
  #closed = false;
  readonly #others: BroadcastChannel | undefined; // pages of this device over the same queue

  constructor(settings: Pick<OutboxSettings, 'keep'> & Partial<OutboxSettings>) {
    this.#settings = {
      name: 'lynearm-outbox',
      later: (work, ms) => {
        const timer = setTimeout(work, ms);
        return () => clearTimeout(timer);
      },
      keepFile: () => Promise.reject(new Error('This queue sends no photographs.')),
      random: Math.random,
      at_once: 100,
      ...settings,
    };
    this.#base = openDB<Shape>(this.#settings.name, 1, {
      upgrade(base) {
        const held = base.createObjectStore('held', { keyPath: 'order', autoIncrement: true });
        held.createIndex('id', 'entry.id', { unique: true });
      },
    });
    this.#others = channel(this.#settings.name);
    // Heard is counted and not told on: what one page says makes no other speak.
    this.#others?.addEventListener('message', () => void this.#heard());
    // A device without a store of its own has nothing waiting; put() then says what is wrong.
    this.#base.then(() => this.#count()).catch(() => this.#tell({ uncounted: false }));
  }

  /** Calls back now and at each change; returns how to stop. */
  subscribe(listener: (state: OutboxState) => void): () => void {
    this.#listeners.add(listener);
    listener(this.#state);
    return () => this.#listeners.delete(listener);
  }

  /**
   * Keeps an entry on this device, with the photographs that belong to it; resolves when the browser has
   * all of it on disk. Then it is sent.
   * throws what IndexedDB says when the device has no room: the form must then keep its fields
   */
  async put(entry: Entry, files: readonly File[] = []): Promise<void> {
    await this.#lay(entry.id, files);
    const base = await this.#base;
    const work = base.transaction('held', 'readwrite', { durability: 'strict' });
    if ((await work.store.index('id').getKey(entry.id)) === undefined) {
      await work.store.add(files.length > 0 ? { entry, pictures: files.length } : { entry });
    }
    await work.done;
    await this.#changed();
    void this.send();
  }

  /** Sends what waits, now; one run at a time, and one more if asked meanwhile. */
  send(): Promise<void> {
    this.#callOff?.();
    this.#callOff = undefined;
    if (this.#running) {
      this.#again = true;
      return this.#running;
    }
    this.#running = this.#run().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  /** Entries waiting, in the order they will be sent: the page shows them as not yet saved. */
  async waiting(): Promise<Entry[]> {
    const held = await (await this.#base).getAll('held');
    return held.filter((h) => h.refused === undefined).map((h) => h.entry);
  }

  /** Sends a refused entry again, or lets it go once a person has seen why. */
  async retry(id: string): Promise<void> {
    await this.#change(id, ({ refused: _refused, ...held }) => held);
    void this.send();
  }

  async letGo(id: string): Promise<void> {
    const base = await this.#base;
    const work = base.transaction('held', 'readwrite', { durability: 'strict' });
    const held = await work.store.index('id').get(id);
    if (held?.refused !== undefined) await work.store.delete(held.order!);
    await work.done;
    if (held?.refused !== undefined && held.pictures) await this.#forget(id);
    await this.#changed();
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#callOff?.();
    this.#others?.close();
    await this.#running;
    (await this.#base).close();
    if (this.#album) (await this.#album).close();
  }

  #pictures(): Promise<IDBPDatabase<Album>> {
    return (this.#album ??= openDB<Album>(`${this.#settings.name}-pictures`, 1, {
      upgrade(base) {
        base.createObjectStore('pictures');
      },
    }));
  }

  /** Photographs first: an entry that is in the queue has all of its own. */
  async #lay(id: string, files: readonly File[]): Promise<void> {
    try {
      for (const [i, file] of files.entries()) {
        const picture = { name: file.name, type: file.type, bytes: await file.arrayBuffer() };
        await (await this.#pictures()).put('pictures', picture, [id, i]);
      }
    } catch (fault) {
      await this.#forget(id).catch(() => undefined);
      throw fault;
    }
  }

  async #forget(id: string): Promise<void> {
    await (await this.#pictures()).delete('pictures', allOf(id));
  }

  async #run(): Promise<void> {
    do {
      this.#again = false;
      try {
        await this.#locked(() => this.#sendAll());
        this.#failures = 0;
      } catch (fault) {
        if (this.#closed) return;
        const answered = !(fault instanceof NoAnswer);
        const trouble = fault instanceof Problem ? fault.message : undefined;
        this.#tell({ sending: false, answered, trouble });
        this.#wait();
        return;
      }
    } while (this.#again && !this.#closed);
    this.#tell({ sending: false });
  }

  async #sendAll(): Promise<void> {
    let lone = false; // after a refusal, entries go one by one until the culprit is found
    for (;;) {
      if (this.#closed) return;
      const { batch, pictures } = await this.#next(lone ? 1 : this.#settings.at_once);
      if (batch.length === 0) break;
      this.#tell({ sending: true });
      if (pictures) {
        await this.#sendPictures(batch[0]!.id);
        continue; // it bears their names now, or it is refused
      }
      let kept: string[];
      try {
        kept = await this.#settings.keep(batch);
      } catch (fault) {
        if (!(fault instanceof Problem) || !final(fault.status)) throw fault;
        if (batch.length > 1) {
          lone = true;
          continue;
        }
        await this.#change(batch[0]!.id, (held) => ({ ...held, refused: fault.message }));
        this.#tell({ answered: true });
        lone = false;
        continue;
      }
      const gone = await this.#remove(kept, batch);
      this.#tell({ answered: true, trouble: undefined });
      if (gone === 0) throw new Error('The house kept none of what was sent.');
    }
    // Another open page may have sent them: then nothing is known of the last time any more.
    if (this.#state.answered === false) this.#tell({ answered: undefined });
    await this.#count();
  }

  /**
   * Those that may go together. Photographs are slow, and nothing but what corrects their note waits for
   * them: such a note goes by itself when all else is home.
   */
  async #next(most: number): Promise<{ batch: Entry[]; pictures: boolean }> {
    const base = await this.#base;
    const batch: Entry[] = [];
    const behind = new Set<string>(); // notes with photographs, and what corrects them
    let first: Entry | undefined;
    let cursor = await base.transaction('held').store.openCursor();
    while (cursor && batch.length < most) {
      const { entry, refused, pictures } = cursor.value;
      if (refused === undefined) {
        if (pictures) first ??= entry;
        if (pictures || behind.has(entry.corrects ?? '')) behind.add(entry.id);
        else batch.push(entry);
      }
      cursor = await cursor.continue();
    }
    return batch.length === 0 && first
      ? { batch: [first], pictures: true }
      : { batch, pictures: false };
  }

  /** One after the other; each one's name is written into its note here before the next goes. */
  async #sendPictures(id: string): Promise<void> {
    for (;;) {
      if (this.#closed) return;
      const held = await (await this.#base).getFromIndex('held', 'id', id);
      if (!held?.pictures) return; // another open page was quicker
      const names = namesIn(held.entry);
      if (names.length >= held.pictures) break;
      const picture = await (await this.#pictures()).get('pictures', [id, names.length]);
      if (!picture) return this.#change(id, (one) => ({ ...one, refused: LOST }));
      let name: string;
      try {
        name = await this.#settings.keepFile(fileOf(picture));
      } catch (fault) {
        if (!(fault instanceof Problem) || !final(fault.status)) throw fault;
        return this.#change(id, (one) => ({ ...one, refused: fault.message }));
      }
      this.#tell({ answered: true, trouble: undefined });
      // Another open page may have been quicker with this one.
      await this.#change(id, (one) =>
        one.pictures && namesIn(one.entry).length === names.length
          ? { ...one, entry: withNames(one.entry, [...names, name]) }
          : one,
      );
    }
    await this.#change(id, ({ pictures: _sent, ...held }) => held);
    await this.#nameInCorrections(id);
    await this.#forget(id);
  }

  /** What corrects the note was told before its photographs had their names. */
  async #nameInCorrections(id: string): Promise<void> {
    const base = await this.#base;
    const work = base.transaction('held', 'readwrite', { durability: 'strict' });
    const note = await work.store.index('id').get(id);
    if (note) {
      const names = namesIn(note.entry);
      for (const held of await work.store.getAll()) {
        if (held.entry.corrects !== id || held.entry.kind !== note.entry.kind) continue;
        await work.store.put({ ...held, entry: withNames(held.entry, names) });
      }
    }
    await work.done;
  }

  async #remove(kept: readonly string[], sent: readonly Entry[]): Promise<number> {
    const mine = new Set(sent.map((e) => e.id));
    const base = await this.#base;
    const work = base.transaction('held', 'readwrite', { durability: 'strict' });
    let gone = 0;
    for (const id of kept) {
      if (!mine.has(id)) continue;
      gone += 1;
      const key = await work.store.index('id').getKey(id);
      if (key !== undefined) await work.store.delete(key);
    }
    await work.done;
    await this.#changed();
    return gone;
  }

  async #change(id: string, how: (held: Held) => Held): Promise<void> {
    const base = await this.#base;
    const work = base.transaction('held', 'readwrite', { durability: 'strict' });
    const held = await work.store.index('id').get(id);
    if (held) await work.store.put(how(held));
    await work.done;
    await this.#changed();
  }

  async #changed(): Promise<void> {
    if (!this.#closed) this.#others?.postMessage('changed');
    await this.#count();
  }

  /** Another page has put, sent or let go. */
  async #heard(): Promise<void> {
    const { waiting } = this.#state;
    try {
      await this.#count();
    } catch {
      return; // closed meanwhile
    }
    // It sent the last of them, so the house answers it: then nothing is known of this page's last time.
    if (waiting > 0 && this.#state.waiting === 0 && this.#state.answered === false)
      this.#tell({ answered: undefined, trouble: undefined });
  }

  async #count(): Promise<void> {
    const held = await (await this.#base).getAll('held');
    this.#tell({
      uncounted: false,
      waiting: held.filter((h) => h.refused === undefined).length,
      refused: held
        .filter((h) => h.refused !== undefined)
        .map((h) => ({ entry: h.entry, reason: h.refused! })),
      pictures: new Map(
        held.flatMap((h) => (h.pictures ? [[h.entry.id, h.pictures] as const] : [])),
      ),
    });
  }

  #wait(): void {
    // Doubled each time, and spread so that many devices do not come back in the same second.
    const longest = Math.min(FIRST_WAIT_MS * 2 ** this.#failures, LONGEST_WAIT_MS);
    this.#failures += 1;
    this.#callOff = this.#settings.later(
      () => void this.send(),
      longest * (0.5 + 0.5 * this.#settings.random()),
    );
  }

  async #locked(work: () => Promise<void>): Promise<void> {
    const locks = (globalThis.navigator as Navigator | undefined)?.locks as LockManager | undefined;
    if (!locks) return work();
    await locks.request(this.#settings.name, work);
  }

  #tell(change: Partial<OutboxState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener(this.#state);
  }
}
