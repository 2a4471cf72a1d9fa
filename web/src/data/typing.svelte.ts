// What is being written and is not told yet: kept on this device, so that a reload, another page or a
// phone that drops the page in its pocket loses no word. Told, or emptied, it is forgotten.

export class Typing {
  #text = $state('');
  readonly #key: string;

  /** `place` tells one field from all others: "note of" a batch, "words of" a jar. */
  constructor(place: string) {
    this.#key = `lynearm-typing-${place}`;
    try {
      this.#text = localStorage.getItem(this.#key) ?? '';
    } catch {
      // Nothing is remembered where the browser refuses.
    }
  }

  get text(): string {
    return this.#text;
  }

  set text(value: string) {
    this.#text = value;
    try {
      if (value === '') localStorage.removeItem(this.#key);
      else localStorage.setItem(this.#key, value);
    } catch {
      // Then it lasts as long as the page.
    }
  }
}
