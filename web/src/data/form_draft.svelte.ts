// The fields of a form as they are typed and not told yet: remembered on this device as one text (Typing), so
// that a reload or another page loses none of them. Told, or as blank as at first, they are forgotten. Only
// fields that differ from what the form offers by itself are remembered: the rest follow the plan and the
// units as they are by then.
import { settings } from './settings.svelte';
import { Typing } from './typing.svelte';
import { unitOfField, type Units } from './units';

/** Which fields hold a figure, and of what unit; one word is for all beneath. */
type UnitsOf = string | undefined | { readonly [field: string]: UnitsOf };
type Told = Readonly<Record<string, unknown>>;

/** When what is told was done (WhenDone), which is left with the fields. */
interface When {
  readonly typed: string;
  leftAt: (text: string | undefined) => void;
}

/** A plain number keeps the unit it was typed in, should other units be shown by now. */
export function meant(text: string, unit: string, were: Units): string {
  const as = unitOfField(unit, were);
  const plain = /^\s*[-+\u2212\d.,]+\s*$/.test(text);
  return plain && as !== unitOfField(unit, settings.units) ? `${text.trim()} ${as}` : text;
}

const isTold = (value: unknown): value is Told => typeof value === 'object' && value !== null;

function read(text: string): Told {
  try {
    const told: unknown = JSON.parse(text);
    return isTold(told) ? told : {};
  } catch {
    return {};
  }
}

/** The fields as they were left, over those that were not. */
function laid(blank: unknown, left: unknown, units: UnitsOf, were: Units): unknown {
  if (!isTold(blank)) {
    if (typeof left !== 'string') return blank;
    return typeof units === 'string' ? meant(left, units, were) : left;
  }
  const over = isTold(left) ? left : {};
  return Object.fromEntries(
    Object.keys({ ...blank, ...over }).map((key) => [
      key,
      laid(blank[key], over[key], typeof units === 'object' ? units[key] : units, were),
    ]),
  );
}

/** The fields that are not as in `first`; undefined where all are. */
function changed(first: unknown, now: unknown): unknown {
  if (!isTold(now)) return now === first ? undefined : now;
  const before = isTold(first) ? first : {};
  const ones = Object.entries(now)
    .map(([key, value]) => [key, changed(before[key], value)] as const)
    .filter(([, value]) => value !== undefined);
  return ones.length > 0 ? Object.fromEntries(ones) : undefined;
}

/** Fields are texts, or undefined where the form's own offer stands; a group of fields is an object of them. */
export class FormDraft<Fields extends object> {
  /** Whether something stands here as it was left at another time. */
  readonly found: boolean;
  /** The fields to begin with: as they were left, or as at first. */
  readonly start: Fields;
  readonly #typing: Typing;
  readonly #first: Told;
  readonly #left: Told;
  #told: string; // as the form stands when nothing is typed in it
  #fields: () => Told = () => this.#first;

  /**
   * place   tells one form from all others
   * blank   its fields before anything is typed
   * units   of those that hold a figure
   */
  constructor(place: string, blank: Fields, units: { readonly [key in keyof Fields]?: UnitsOf }) {
    this.#typing = new Typing(place);
    const { units: were, ...left } = this.#typing.text === '' ? {} : read(this.#typing.text);
    this.#left = left;
    this.found = Object.keys(left).length > 0;
    this.#first = { ...blank, when: '' };
    this.#told = JSON.stringify(this.#first);
    const { when: _when, ...fields } = left;
    this.start = laid(blank, fields, units, were as Units) as Fields;
  }

  /** To be called once, as the component is made: from here on its fields are remembered as they change. */
  follow(fields: () => Fields, when: When): void {
    when.leftAt(this.#left['when'] as string | undefined);
    this.#fields = () => ({ ...fields(), when: when.typed });
    $effect(() => {
      const now = this.#fields();
      const typed = JSON.stringify(now) === this.#told ? undefined : changed(this.#first, now);
      this.#typing.text = isTold(typed) ? JSON.stringify({ ...typed, units: settings.units }) : '';
    });
  }

  /** Told: what is left standing in the form is where the next one begins. */
  forget(): void {
    this.#told = JSON.stringify(this.#fields());
    this.#typing.text = '';
  }
}
