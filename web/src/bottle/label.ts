// What stands on a label, from the lot in the bottles. Pure. A class's name is not among it: whether it
// may be used is the officer's to say.
import type { Lot } from '../data/answers';
import { printed } from '../data/figures';

export interface Label {
  name: string;
  strength: string;
  volume: string;
  lot: string;
  filled: string;
}

/** The lot as it is written: the last eight letters of its entry's id, which no other lot has. */
export const lotMark = (lot: Lot): string => lot.entry.replaceAll('-', '').slice(-8).toUpperCase();

export function labelOf(lot: Lot, name: string): Label | undefined {
  const { bottles } = lot;
  if (!bottles) return undefined;
  return {
    name,
    strength: `${printed(bottles.strength_percent_vol, 1)} % vol`,
    volume:
      bottles.size_L < 1
        ? `${printed(bottles.size_L * 1000)} mL`
        : `${printed(bottles.size_L, bottles.size_L % 1 ? 2 : 0)} L`,
    lot: lotMark(lot),
    filled: lot.at.slice(0, 10),
  };
}

/** Under this, a rest is what clings to vessel and hose. */
const CLINGS_L = 0.005;

/** What goes out of the lot into the bottles, and the rest of what was meant for them, in litres. */
export function drawn<Part extends { volume_L_20C: number }>(
  part: Part,
  bottles: number,
  size_L: number,
): { from: Part; over_L: number } {
  const over_L = part.volume_L_20C - bottles * size_L;
  if (over_L <= CLINGS_L) return { from: part, over_L: 0 };
  return { from: { ...part, volume_L_20C: bottles * size_L }, over_L };
}

/** Whole bottles that a volume fills, and what is left over, in litres. */
export function bottlesOf(volume_L: number, size_L: number): { bottles: number; over_L: number } {
  const bottles = size_L > 0 ? Math.floor(volume_L / size_L + 1e-9) : 0;
  return { bottles, over_L: Math.max(0, volume_L - bottles * size_L) };
}
