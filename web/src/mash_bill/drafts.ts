// What is being written of a batch's plan and is not yet kept: it lives on this device, so that a
// reload or a closed page loses nothing. Keeping the plan forgets it.
import type { Texts } from './live_plan.svelte';

export interface Draft {
  first: Texts;
  second?: Texts; // the variant beside it
}

const key = (batch: string) => `lynearm-draft-${batch}`;
const isTexts = (value: unknown): value is Texts => {
  const given = value as Record<string, unknown> | null;
  return (
    typeof given === 'object' &&
    typeof given?.['recipe'] === 'string' &&
    typeof given['kit'] === 'string'
  );
};

export function recall(batch: string): Draft | undefined {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(key(batch)) ?? 'null');
    const { first, second } = (found ?? {}) as Record<string, unknown>;
    if (!isTexts(first)) return undefined;
    return { first, ...(isTexts(second) ? { second } : {}) };
  } catch {
    return undefined;
  }
}

export function remember(batch: string, draft: Draft): void {
  try {
    localStorage.setItem(key(batch), JSON.stringify(draft));
  } catch {
    // A private window keeps it as long as the page.
  }
}

export function forget(batch: string): void {
  try {
    localStorage.removeItem(key(batch));
  } catch {
    // Nothing was remembered there.
  }
}

export const sameTexts = (a: Texts, b: Texts) => a.recipe === b.recipe && a.kit === b.kit;
