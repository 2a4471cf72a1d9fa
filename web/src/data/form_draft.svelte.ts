// The fields of a form as they are typed and not told yet: remembered on this device as one text (Typing), so
// that a reload or another page loses none of them. Told, or as blank as at first, they are forgotten.
import { settings } from './settings.svelte';
import { Typing } from './typing.svelte';
import { unitOfField, type Units } from './units';

export type Fields = Readonly<Record<string, string>>;

/** A plain number keeps the unit it was typed in, should other units be shown by now. */
export function meant(text: string, unit: string, were: Units): string {
  const as = unitOfField(unit, were);
  const plain = /^\s*[-+\u2212\d.,]+\s*$/.test(text);
  return plain && as !== unitOfField(unit, settings.units) ? `${text.trim()} ${as}` : text;
}

function read(text: string): Record<string, unknown> {
  try {
    const told: unknown = JSON.parse(text);
    return typeof told === 'object' && told !== null ? (told as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}

export class FormDraft {
  /** Whether something stands here as it was left at another time. */
  readonly found: boolean;
  readonly #typing: Typing;
  readonly #left: Record<string, unknown>;
  #blank: string;

  /** `place` tells one form from all others; `blank` are its fields before anything is typed. */
  constructor(place: string, blank: Fields) {
    this.#typing = new Typing(place);
    this.#left = this.#typing.text === '' ? {} : read(this.#typing.text);
    this.found = Object.keys(this.#left).length > 0;
    this.#blank = JSON.stringify(blank);
  }

  /** A field as it was left; undefined where it was not. `unit`: of a field with a figure. */
  left(key: string, unit?: string): string | undefined {
    const text = this.#left[key];
    if (typeof text !== 'string') return undefined;
    return unit === undefined ? text : meant(text, unit, this.#left['units'] as Units);
  }

  /** To be called from a component's $effect, with the fields in the order of `blank`. */
  remember(fields: Fields): void {
    this.#typing.text =
      JSON.stringify(fields) === this.#blank
        ? ''
        : JSON.stringify({ ...fields, units: settings.units });
  }

  /** Told: what is left standing in the form is where the next one begins. */
  forget(fields: Fields): void {
    this.#blank = JSON.stringify(fields);
    this.#typing.text = '';
  }
}
