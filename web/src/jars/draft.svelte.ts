// The allotment as it is being made, before it is an entry: kept on this device, so that a reload or a
// closed page loses none of the thinking.
import type { Allotment } from './shelf_view';

const LOTS = ['foreshots', 'hearts', 'feints', 'apart'];

function isAllotment(value: unknown): value is Allotment {
  if (typeof value !== 'object' || value === null) return false;
  return Object.values(value).every(
    (parts: unknown) =>
      typeof parts === 'object' &&
      parts !== null &&
      LOTS.every((lot) => Number.isFinite((parts as Record<string, unknown>)[lot])),
  );
}

export class Draft {
  value = $state.raw<Allotment | undefined>();
  readonly #key: string;

  constructor(run: string) {
    this.#key = `lynearm-shelf-${run}`;
    try {
      const found: unknown = JSON.parse(localStorage.getItem(this.#key) ?? 'null');
      if (isAllotment(found)) this.value = found;
    } catch {
      // Nothing is remembered where the browser refuses.
    }
  }

  set(value: Allotment | undefined): void {
    this.value = value;
    try {
      if (value) localStorage.setItem(this.#key, JSON.stringify(value));
      else localStorage.removeItem(this.#key);
    } catch {
      // Then it lasts as long as the page.
    }
  }
}
