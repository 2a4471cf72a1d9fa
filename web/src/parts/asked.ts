// Figures that are asked for their reasons together: those of a sentence, of a row, of a column.
import { getContext, setContext, type Snippet } from 'svelte';
import type { Why } from './Figure.svelte';

/** Figures that have one reason. */
export interface Asked {
  figures: readonly (string | Snippet)[]; // as they are printed: "28.0 L", "69.8 °C"
  why: Why;
  ends?: Snippet | undefined; // of its own 80 % band, where it is one figure
}

/** Printed figures with their reasons; those without are left out, of one reason stand together. */
export function asked(...all: readonly (readonly [string, Why | undefined])[]): Asked[] {
  return together(
    all.flatMap(([figure, why]) => (why && figure !== '' ? [{ figures: [figure], why }] : [])),
  );
}

/** Those of one reason stand together, but for one with a band of its own. */
export function together(all: readonly Asked[]): Asked[] {
  const told: Asked[] = [];
  for (const one of all) {
    const at = told.findIndex((before) => before.why === one.why && !before.ends && !one.ends);
    const before = told[at];
    if (before) told[at] = { ...before, figures: [...before.figures, ...one.figures] };
    else told.push(one);
  }
  return told;
}

/** A sentence gathers the reasons of the figures in it, which are then plain text. */
export interface Gathers {
  /** Gives how to take it out again. */
  add: (figure: { readonly asked: Asked | undefined }) => () => void;
}

const KEY = Symbol('sentence');
export const gather = (here: Gathers): Gathers => setContext(KEY, here);
export const gathering = (): Gathers | undefined => getContext<Gathers | undefined>(KEY);
