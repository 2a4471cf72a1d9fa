// When what a form tells was done: now, unless its maker opens the field and says that it was earlier. What
// was written up in the evening then stands in the journal at its own time. One such for a form; its field
// is WhenDone.svelte.
import { bench } from '../data/bench.svelte';
import { dayAndTime, MOMENT_ACCEPTED, momentText, momentTyped } from '../data/dates';
import type { EntryWish } from '../data/entry';
import { houseTime, type HouseTime } from '../data/house_time';
import { unread } from '../data/measured';

/** Days and times that have been never lie further ahead than what the clock cannot tell. */
const FAR_MS = Date.UTC(9999, 11, 31);

export class WhenDone {
  open = $state(false);
  /** As the field holds it: by the house's clock, in the device's time zone. */
  text = $state('');
  #tried = $state(false);
  /** How often keeping was held up by it: its field takes the focus then. */
  held_up = $state(0);
  #shown = false; // by its drawer
  readonly #clock: HouseTime;

  constructor(clock: HouseTime = houseTime) {
    this.#clock = clock;
  }

  /** Opens the field at the time that entries are told as of; shut again, now is told. */
  toggle = (): void => {
    this.open = !this.open;
    this.#tried = false;
    this.held_up = 0;
    const told_ms = bench.told_ms;
    this.text = momentText(
      told_ms === undefined ? this.#clock.now() : told_ms - this.#clock.ahead_ms,
    );
  };

  /** What a form remembers of it while it is not told yet; nothing where it is done now. */
  get typed(): string {
    return this.open ? this.text : '';
  }

  /** As a form was left that told of an earlier time; of one that told of now nothing is left. */
  leftAt(text: string | undefined): void {
    if (text === undefined || text === '') return;
    this.open = true;
    this.text = text;
  }

  /** The time that was given, by the house's clock and never ahead of it; undefined where there is none. */
  get at_ms(): number | undefined {
    if (!this.open) return undefined;
    const now = this.#clock.now();
    const typed = momentTyped(this.text, now);
    return typed === undefined ? undefined : Math.min(typed, now);
  }

  /** What is wrong with it, as a sentence: of a time to come at once, of none once keeping was tried. */
  get fault(): string | undefined {
    if (!this.open || this.at_ms !== undefined) return undefined;
    const ahead = momentTyped(this.text, FAR_MS);
    if (ahead !== undefined)
      return `${dayAndTime(ahead)} is still to come; accepted: ${MOMENT_ACCEPTED}.`;
    return this.#tried ? unread(this.text, MOMENT_ACCEPTED) : undefined;
  }

  /** Whether the form may be kept; where not, the field says why from then on. */
  settled(): boolean {
    this.#tried = true;
    const is = !this.open || this.at_ms !== undefined;
    if (!is) this.held_up += 1;
    return is;
  }

  /** To be spread into an entry: nothing where it is done now. */
  get told(): Pick<EntryWish, 'at' | 'clock_ahead_ms'> {
    const { at_ms } = this;
    if (at_ms === undefined) return {};
    // As a device's own clock would have shown it: whoever reads an entry takes off what that is ahead.
    const { ahead_ms } = this.#clock;
    return { at: new Date(at_ms + ahead_ms).toISOString(), clock_ahead_ms: ahead_ms };
  }

  /** Behind what was kept: " It stands at 20 November, 14:05."; nothing where it is done now. */
  get words(): string {
    const { at_ms } = this;
    return at_ms === undefined ? '' : ` It stands at ${dayAndTime(at_ms, this.#clock.now())}.`;
  }

  /** To be called from a drawer's $effect: whoever shuts it begins anew, and what it was left with stands. */
  inDrawer(open: boolean): void {
    if (this.#shown && !open) this.clear();
    this.#shown = open;
  }

  /** Kept: the next is done now. */
  clear(): void {
    this.open = this.#tried = false;
    this.held_up = 0;
  }
}
