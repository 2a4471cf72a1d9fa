// House time: the clock of the house's server, which all devices share. A device's own clock may
// be wrong; each exchange with the server bounds by how much (as in RFC 5905, 8: the offset from
// one exchange is known to half its round trip). The exchange with the shortest round trip of the
// last hour is believed; one that no later exchange can agree with is from before the device's clock
// was set, and is dropped.

import { lengthOfTime } from './figures';

interface Exchange {
  ahead_ms: number; // device less house
  doubt_ms: number; // half the round trip
  taken_ms: number; // device's time
}

const MEMORY_MS = 3_600_000;
const DRIFT_MS = 1000; // within that hour: clocks of phones run true to some 100 ppm, from memory

export class HouseTime {
  #exchanges: Exchange[] = [];
  readonly #now: () => number;

  constructor(now: () => number = Date.now) {
    this.#now = now;
  }

  /** Notes one exchange: device time when asked and when answered, and the house's time told. */
  learn(asked_ms: number, house_ms: number, answered_ms: number): void {
    if (answered_ms < asked_ms || !Number.isFinite(house_ms)) return; // the clock was set meanwhile
    const middle = (asked_ms + answered_ms) / 2;
    const told: Exchange = {
      ahead_ms: middle - house_ms,
      doubt_ms: (answered_ms - asked_ms) / 2,
      taken_ms: answered_ms,
    };
    const stands = (e: Exchange) =>
      Math.abs(answered_ms - e.taken_ms) < MEMORY_MS &&
      Math.abs(told.ahead_ms - e.ahead_ms) <= told.doubt_ms + e.doubt_ms + DRIFT_MS;
    this.#exchanges = [...this.#exchanges.filter(stands), told].slice(-32);
  }

  get #best(): Exchange | undefined {
    return this.#exchanges.reduce<Exchange | undefined>(
      (best, e) => (best === undefined || e.doubt_ms <= best.doubt_ms ? e : best),
      undefined,
    );
  }

  /** Whether the house has told its time. */
  get known(): boolean {
    return this.#exchanges.length > 0;
  }

  /** Device's clock less the house's, in whole milliseconds; 0 while it is not known. */
  get ahead_ms(): number {
    return Math.round(this.#best?.ahead_ms ?? 0);
  }

  /** How far ahead_ms may be wrong. */
  get doubt_ms(): number {
    return this.#best?.doubt_ms ?? Number.POSITIVE_INFINITY;
  }

  /** The time in the house now, in milliseconds since 1970. */
  now(): number {
    return this.#now() - this.ahead_ms;
  }
}

export const houseTime = new HouseTime();

const SEEN_MS = 60_000; // a minute is the least that times of day show

/** What a page that tells the house's times says of this device's clock; empty when they agree. */
export function clockWords(clock: Pick<HouseTime, 'known' | 'ahead_ms'>): string {
  if (!clock.known) return 'The house has not told its time yet: now is by this device’s clock.';
  const off_ms = Math.abs(clock.ahead_ms);
  if (off_ms < SEEN_MS) return '';
  const way = clock.ahead_ms > 0 ? 'ahead of' : 'behind';
  return `This device’s clock is ${lengthOfTime(off_ms / 60_000)} ${way} the house’s; the times here are the house’s.`;
}
