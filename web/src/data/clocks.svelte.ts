// Clocks that run down, several at once. What is kept is the moment each one ends, so a reload, a
// sleeping tablet or a closed page does not stop them; one that ran out meanwhile rings when the
// page is back, and says since when. Kept in local storage, shared by all pages of the device.
import { newId } from './uuid7';

export interface RunningClock {
  id: string;
  name: string; // "Cook maize"
  length_ms: number;
  ends_ms: number; // device time
  left_ms?: number; // set while held: then ends_ms does not count
  heard?: boolean; // the alarm was acknowledged
  of?: ClockOf; // none: set by hand
  by?: string; // the entry that began it
  from_ms?: number; // when that happened, by this device's clock
  aim_ms?: number; // the moment that it was set to ring at: a forecast's, which may move
}

/** What an entry of the journal set going. */
export interface Begun {
  by: string; // that entry
  from_ms: number; // when it happened, by this device's clock
}

export interface ClockOf {
  batch: string;
  name: string; // of the batch, for people
}

const KEY = 'lynearm-clocks';
const PAST_KEY = 'lynearm-clocks-past';
const PAST_KEPT = 100; // entries whose clock was removed by hand: more than a mash day has
const UNMOVED_MS = 15_000; // what a forecast moves by with each look, and no clock need follow
const SOON_MS = 12_000; // rings at the earliest, that it is seen to be set
const SETTLED_MS = 500; // what an offset learnt better moves an end by, and nobody sees

function isClock(value: unknown): value is RunningClock {
  if (typeof value !== 'object' || value === null) return false;
  const c = value as Record<string, unknown>;
  return (
    typeof c['id'] === 'string' &&
    typeof c['name'] === 'string' &&
    Number.isFinite(c['length_ms']) &&
    Number.isFinite(c['ends_ms']) &&
    (c['of'] === undefined || isOf(c['of'])) &&
    (c['by'] === undefined || typeof c['by'] === 'string') &&
    (c['from_ms'] === undefined || Number.isFinite(c['from_ms'])) &&
    (c['aim_ms'] === undefined || Number.isFinite(c['aim_ms']))
  );
}

function isOf(value: unknown): value is ClockOf {
  if (typeof value !== 'object' || value === null) return false;
  const of = value as Record<string, unknown>;
  return typeof of['batch'] === 'string' && typeof of['name'] === 'string';
}

export class Clocks {
  all = $state<RunningClock[]>([]);
  now = $state(0);
  readonly #time: () => number;
  readonly #alarm: (on: boolean) => void;
  #timer: ReturnType<typeof setInterval> | undefined;
  #gone: string[] = []; // entries whose clock was removed, where nothing can be stored

  constructor(alarm: (on: boolean) => void = () => undefined, time: () => number = Date.now) {
    this.#alarm = alarm;
    this.#time = time;
    this.now = time();
    this.reread();
  }

  start(name: string, minutes: number, of?: ClockOf): string {
    const now = this.#time();
    const length_ms = minutes * 60_000;
    const clock: RunningClock = { id: newId(), name, length_ms, ends_ms: now + length_ms };
    if (of) clock.of = of;
    this.all.push(clock);
    this.#keep();
    return clock.id;
  }

  /**
   * A clock that an entry began, from the moment of the entry: called again it starts nothing twice, and
   * sets the end right where that moment is known better by now. Of two of one name the later beginning
   * counts. What is over already, or was removed by hand, is not started. Whether it runs.
   */
  follow(name: string, minutes: number, of: ClockOf, { by, from_ms }: Begun): boolean {
    const running = this.named(name, of.batch);
    if (running?.by === by) {
      this.#settle(running, from_ms);
      return true;
    }
    const length_ms = minutes * 60_000;
    const ends_ms = from_ms + length_ms;
    if (ends_ms <= this.#time() || this.#past().includes(by)) return false;
    const since = running && (running.from_ms ?? running.ends_ms - running.length_ms);
    if (since !== undefined && since >= from_ms) return true;
    this.all = this.all.filter((c) => c !== running);
    this.all.push({ id: newId(), name, length_ms, ends_ms, of, by, from_ms });
    this.#keep();
    return true;
  }

  /**
   * To ring at a moment that is forecast, and may yet move: aimed again, it moves with it, by so much as
   * the moment did, so that time given by hand stays given. One that is held, rings or was heard stays.
   */
  aim(name: string, aim_ms: number, of: ClockOf): void {
    const id = this.start(name, Math.max(SOON_MS, aim_ms - this.#time()) / 60_000, of);
    this.#change(id, (c) => (c.aim_ms = aim_ms));
  }

  aimAgain(name: string, aim_ms: number, of: ClockOf): void {
    const clock = this.named(name, of.batch);
    if (clock?.aim_ms === undefined || Math.abs(aim_ms - clock.aim_ms) < UNMOVED_MS) return;
    if (clock.left_ms !== undefined || clock.heard || clock.ends_ms <= this.#time()) return;
    const moved_ms = aim_ms - clock.aim_ms;
    this.#change(clock.id, (c) => {
      c.ends_ms += moved_ms;
      c.length_ms = Math.max(0, c.length_ms + moved_ms);
      c.aim_ms = aim_ms;
    });
  }

  /** Whether the clock of that entry runs here, ran out, or was removed by hand. */
  knows(by: string): boolean {
    return this.all.some((c) => c.by === by) || this.#past().includes(by);
  }

  #settle(clock: RunningClock, from_ms: number): void {
    const { from_ms: before, ends_ms, length_ms } = clock;
    if (before === undefined || Math.abs(from_ms - before) <= SETTLED_MS) return;
    // Held, or given time after it rang, it no longer counts from there.
    if (clock.left_ms !== undefined || Math.abs(before + length_ms - ends_ms) > 1) return;
    clock.ends_ms = from_ms + length_ms;
    clock.from_ms = from_ms;
    this.#keep();
  }

  /** The clock of that name, of that batch or set before clocks knew theirs. */
  named(name: string, batch: string): RunningClock | undefined {
    return this.all.find((c) => c.name === name && (c.of?.batch ?? batch) === batch);
  }

  /** So long from now on, whether it ran or not. */
  set(name: string, minutes: number, of: ClockOf): void {
    const running = this.named(name, of.batch);
    if (running) this.all = this.all.filter((c) => c !== running);
    this.start(name, minutes, of);
  }

  /** Those of a batch and these names go: what they counted is over. */
  drop(names: readonly string[], batch: string): void {
    const left = this.all.filter(
      (c) => !(names.includes(c.name) && (c.of?.batch ?? batch) === batch),
    );
    if (left.length === this.all.length) return;
    this.all = left;
    this.#keep();
  }

  /** Milliseconds left; below 0 it has run out, and that long ago. */
  left(clock: RunningClock): number {
    return clock.left_ms ?? clock.ends_ms - this.now;
  }

  rings(clock: RunningClock): boolean {
    return !clock.heard && this.left(clock) <= 0;
  }

  hold(id: string): void {
    this.#change(id, (c) => {
      if (c.left_ms === undefined) c.left_ms = Math.max(0, c.ends_ms - this.#time());
    });
  }

  goOn(id: string): void {
    this.#change(id, (c) => {
      if (c.left_ms === undefined) return;
      c.ends_ms = this.#time() + c.left_ms;
      delete c.left_ms;
    });
  }

  /** More time, also after it rang. */
  add(id: string, minutes: number): void {
    this.#change(id, (c) => {
      const more = minutes * 60_000;
      if (c.left_ms !== undefined) c.left_ms += more;
      else c.ends_ms = Math.max(c.ends_ms, this.#time()) + more;
      c.length_ms += more;
      delete c.heard;
    });
  }

  hear(id: string): void {
    this.#change(id, (c) => (c.heard = true));
  }

  remove(id: string): void {
    const by = this.all.find((c) => c.id === id)?.by;
    if (by !== undefined) this.#leave(by);
    this.all = this.all.filter((c) => c.id !== id);
    this.#keep();
  }

  reread(): void {
    try {
      const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
      this.all = Array.isArray(found) ? found.filter(isClock) : [];
    } catch {
      this.all = [];
    }
    this.tick();
  }

  /** Looks at the time; the alarm sounds while any clock rings. */
  tick(): void {
    this.now = this.#time();
    this.#alarm(this.all.some((c) => this.rings(c)));
  }

  /** Ticks until the returned function is called. */
  run(): () => void {
    const other = (event: StorageEvent) => {
      if (event.key === KEY) this.reread();
    };
    addEventListener('storage', other);
    this.#timer ??= setInterval(() => this.tick(), 250);
    this.tick();
    return () => {
      removeEventListener('storage', other);
      clearInterval(this.#timer);
      this.#timer = undefined;
      this.#alarm(false);
    };
  }

  #past(): string[] {
    try {
      const found: unknown = JSON.parse(localStorage.getItem(PAST_KEY) ?? '[]');
      const kept = Array.isArray(found) ? found.filter((one) => typeof one === 'string') : [];
      return [...new Set([...kept, ...this.#gone])];
    } catch {
      return this.#gone;
    }
  }

  #leave(by: string): void {
    this.#gone = [...this.#past(), by].slice(-PAST_KEPT);
    try {
      localStorage.setItem(PAST_KEY, JSON.stringify(this.#gone));
    } catch {
      // Then it is known as long as the page.
    }
  }

  #change(id: string, how: (clock: RunningClock) => void): void {
    const clock = this.all.find((c) => c.id === id);
    if (clock) how(clock);
    this.#keep();
  }

  #keep(): void {
    try {
      localStorage.setItem(KEY, JSON.stringify(this.all));
    } catch {
      // Then they last as long as the page.
    }
    this.tick();
  }
}
