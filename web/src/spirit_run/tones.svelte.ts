// The tone at a decision of a run: it sounds once when the decision comes due by the page's clock, or
// when a reading shows that it has come; its sentence stands until it is heard. Kept in local storage,
// so that a reload, or a second page of this device, does not sound again.
//
// They follow the forecast that stands: what it tells no longer, or no more at a time, goes, and all go with
// a start of the run that was corrected, since they were reckoned from another.
//
// A jar must stand under the first drops, from "tails near" on each jar is smelled, and a pot that runs
// low must not stand dry: these are told when the band of the forecast begins, the others at its middle.
import type { Decision, RunKind } from '../data/answers';
import { lengthOfTime, timeOfDay } from '../data/figures';
import { sameStart, type Ahead } from './run_view';

/** A decision of the forecast, or a pot that stands dry already. */
export type Which = Decision['decision'] | 'heat_off';

/** What no later tone overtakes. */
export const GRAVE: ReadonlySet<Which> = new Set<Which>(['heat_off', 'pot_low']);

export interface Tone {
  at_ms: number; // when it sounded, by the device
  due_ms?: number; // when it was due, by the forecast: the middle of its band; none of what was read
  says: string;
  heard?: boolean;
}

/** In the order in which a run comes to them. */
const ORDER: readonly Which[] = [
  'heat_off',
  'first_drops',
  'foreshots_end',
  'heads_end',
  'tails_near',
  'hearts_end',
  'stop',
  'pot_low',
];
const EARLY = new Set<Which>(['first_drops', 'tails_near', 'pot_low']);
/** A decision that moved off by more than this, and than its doubt, is told again when it comes. */
const MOVED_MIN = 10;
const KEY = 'lynearm-run-tones';
const SOUND = 'lynearm-run-sound';
const RUNS_KEPT = 8;

/** When it is to be told, on the device's clock. */
export function dueAt(one: Ahead): number | undefined {
  if (one.at_ms === undefined) return undefined;
  return one.at_ms - (EARLY.has(one.decision) ? (one.doubt_min ?? 0) * 60_000 : 0);
}

/** What is said at a decision; `head` is what the head is expected to show, as "89.8 °C". */
export function saysAt(which: Which, kind: RunKind, read: boolean, head?: string): string {
  const by = read ? 'by the readings' : 'by the forecast';
  switch (which) {
    case 'first_drops':
      return `First drops, ${by}. The coolant runs, a jar stands under the open outlet, no flame near.`;
    case 'foreshots_end':
      return `Foreshots end, ${by}. Next jar: the foreshots are set apart and not used.`;
    case 'heads_end':
      return `Heads end, ${by}. Smell the jar: where the hearts begin is for the nose.`;
    case 'tails_near':
      return `${head ? `Head about ${head}. ` : ''}Tails near, ${by}. Smell each jar from here.`;
    case 'hearts_end':
      return `Hearts end, ${by}. Next jar; smell it, and read.`;
    case 'stop':
      return `Stop, ${by}. Read the spout; then heat off and end the ${kind === 'strip' ? 'strip' : 'run'}.`;
    case 'heat_off':
      return 'Heat off first.';
    case 'pot_low':
      return `The pot runs low, ${by}. Heat off before it stands dry.`;
  }
}

/**
 * When it was due, for its banner: "Due 21:48, 6 min ago", "Due about 21:57, in 9 min". A page that was
 * closed meanwhile notices late: when it noticed says nothing. What moved since is told as it is expected
 * now; what a reading showed, as "Seen 21:50".
 */
export function dueWords(tone: Tone, ahead: Ahead | undefined, now_ms: number): string {
  const due_ms = ahead?.at_ms ?? tone.due_ms;
  if (due_ms === undefined) return `Seen ${timeOfDay(tone.at_ms)}`;
  const late_min = (now_ms - due_ms) / 60_000;
  if (late_min >= 0.5) return `Due ${timeOfDay(due_ms)}, ${lengthOfTime(late_min)} ago`;
  if (late_min > -0.5) return `Due ${timeOfDay(due_ms)}, now`;
  return `Due about ${timeOfDay(due_ms)}${ahead ? `, in ${lengthOfTime(-late_min)}` : ''}`;
}

export class Tones {
  all = $state.raw<Partial<Record<Which, Tone>>>({});
  sound = $state(true);
  readonly #run: string;
  readonly #start: string;
  readonly #ahead = new Set<Which>(); // what this page saw to be still ahead

  /** Of a run, and of the start that its times are reckoned from. */
  constructor(run: string, start = '') {
    this.#run = run;
    this.#start = start;
    this.sound = read(SOUND) !== false;
    this.#reread();
  }

  /**
   * What stands until it is heard: the latest, which overtakes those before, and beside it a pot that runs
   * low; of one that stands dry that alone is told.
   */
  get standing(): [Which, Tone][] {
    const told = ORDER.flatMap((which): [Which, Tone][] => {
      const tone = this.all[which];
      return tone ? [[which, tone]] : [];
    });
    const low = told.filter(([which]) => GRAVE.has(which)).slice(0, 1);
    const rest = told.filter(([which]) => !GRAVE.has(which));
    const latest = rest.toSorted(([, a], [, b]) => a.at_ms - b.at_ms).slice(-1);
    return [...low, ...latest].filter(([, tone]) => !tone.heard);
  }

  /**
   * Takes note of what came due, and gives it: a tone is to sound for it, now and not again.
   *
   * `dry`: the pot stands dry by the forecast. `whole`: a forecast stands, and tells its times.
   */
  check(
    ahead: readonly Ahead[],
    passed: ReadonlySet<Which>,
    now_ms: number,
    says: (which: Which, read: boolean) => string,
    { dry = false, whole = true } = {},
  ): Which[] {
    if (whole) this.#dropUntold(ahead, passed, dry);
    const due: [Which, boolean, number | undefined][] = [];
    for (const one of ahead) {
      const at_ms = dueAt(one);
      const told = this.all[one.decision];
      this.#ahead.add(one.decision);
      if (at_ms === undefined) continue;
      const moved_ms = Math.max(MOVED_MIN, one.doubt_min ?? 0) * 60_000;
      if (told && at_ms > Math.max(told.at_ms, now_ms) + moved_ms) this.#change(one.decision);
      else if (!told && at_ms <= now_ms) due.push([one.decision, false, one.at_ms]);
    }
    for (const which of passed) {
      if (this.#ahead.delete(which) && !this.all[which]) due.push([which, true, undefined]);
    }
    if (dry && !this.all.heat_off) due.push(['heat_off', true, undefined]);
    if (due.length === 0) return [];
    this.#reread(); // another page of this device may have told it meanwhile
    const fresh = due.filter(([which]) => !this.all[which]);
    for (const [which, read, due_ms] of fresh)
      this.#change(which, {
        at_ms: now_ms,
        ...(due_ms === undefined ? {} : { due_ms }),
        says: says(which, read),
      });
    return fresh.map(([which]) => which);
  }

  #dropUntold(ahead: readonly Ahead[], passed: ReadonlySet<Which>, dry: boolean): void {
    const stands = new Set<Which>([
      ...passed,
      ...ahead.filter((one) => one.at_ms !== undefined).map((one) => one.decision),
      ...(dry ? (['heat_off'] as const) : []),
    ]);
    for (const which of ORDER) if (this.all[which] && !stands.has(which)) this.#change(which);
  }

  hear(which: Which): void {
    const tone = this.all[which];
    if (tone) this.#change(which, { ...tone, heard: true });
  }

  setSound(on: boolean): void {
    this.sound = on;
    write(SOUND, on);
  }

  #reread(): void {
    const kept = runs().find(([run]) => run === this.#run);
    if (kept && sameStart(kept[2] ?? '', this.#start)) this.all = kept[1];
  }

  #change(which: Which, tone?: Tone): void {
    const { [which]: _was, ...others } = this.all;
    this.all = tone ? { ...others, [which]: tone } : others;
    const rest = runs().filter(([run]) => run !== this.#run);
    write(KEY, [...rest, [this.#run, this.all, this.#start]].slice(-RUNS_KEPT));
  }
}

type Kept = [run: string, tones: Tones['all'], start?: string];

function runs(): Kept[] {
  const found = read(KEY);
  if (!Array.isArray(found)) return [];
  return found.filter(
    (one): one is Kept => Array.isArray(one) && typeof one[1] === 'object' && one[1] !== null,
  );
}

function read(key: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(key) ?? 'null');
  } catch {
    return null;
  }
}

function write(key: string, value: unknown): void {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // Then it lasts as long as the page.
  }
}
