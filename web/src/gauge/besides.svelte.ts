// What goes into a reduction besides water, and what is dissolved in the spirit, as they are typed
// and as POST /reduce has them. The gauge types its strengths; the page Reduce takes lots.
import { lotKey, type Lot, type LotFigures } from '../data/answers';
import { lotFault } from '../data/lot_parts';
import { percentTyped, volumeTyped } from '../data/measured';
import { settings } from '../data/settings.svelte';
import { residueTyped } from './residue';

export type Besides = 'nothing' | 'weaker' | 'tea';
export interface Part {
  volume_L_20C: number;
  strength_percent_vol: number;
}

export class BesidesTyped {
  kind = $state<Besides>('nothing');
  volume = $state('');
  strength = $state('');
  /** What drying leaves of the tea, and of the spirit; see residue.ts. */
  teaResidue = $state('');
  residue = $state('0');
  /** Which of the lots; empty for tea that was steeped in water. */
  chosen = $state('');
  readonly #lots: (() => readonly Lot[]) | undefined;

  /** With lots, what goes in is one of them, or water that wood was steeped in. */
  constructor(lots?: () => readonly Lot[]) {
    this.#lots = lots;
  }

  /** What may go in, where it must be a lot. */
  get lots(): readonly Lot[] {
    return this.#lots?.() ?? [];
  }

  readonly lot = $derived.by((): Lot | undefined => {
    if (!this.#lots || this.kind === 'nothing') return undefined;
    const found = this.#lots().find((l) => lotKey(l.lot) === this.chosen);
    return found ?? (this.kind === 'weaker' && this.chosen === '' ? this.#lots()[0] : undefined);
  });
  readonly volume_L = $derived.by(() => {
    const litres = volumeTyped(this.volume, settings.units);
    if (litres === undefined || this.lotSays) return undefined;
    return this.lot ? Math.min(litres, this.lot.left.volume_L_20C) : litres;
  });
  /** More than the lot has. */
  readonly lotSays = $derived.by(() => {
    if (this.lot) return lotFault(this.lot, this.volume, settings.units);
    return this.#lots && this.kind !== 'nothing' && this.chosen !== ''
      ? 'That lot is no longer there; choose another.'
      : undefined;
  });
  readonly percent = $derived.by(() => {
    if (!this.#lots) return percentTyped(this.strength);
    if (this.lot) return this.lot.left.strength_percent_vol;
    return this.kind === 'tea' && this.chosen === '' ? 0 : undefined;
  });
  readonly teaResidue_g_L = $derived.by(() => residueTyped(this.teaResidue, settings.units));
  readonly residue_g_L = $derived.by(() => residueTyped(this.residue, settings.units));

  readonly part = $derived.by((): Part | undefined => {
    if (this.kind === 'nothing' || this.volume_L === undefined || this.percent === undefined)
      return undefined;
    return { volume_L_20C: this.volume_L, strength_percent_vol: this.percent };
  });
  /** What the request holds of it; undefined while something is missing or at fault. */
  readonly asked = $derived.by((): Record<string, unknown> | undefined => {
    if (this.residue_g_L === undefined) return undefined;
    const dissolved = this.residue_g_L > 0 ? { residue_g_L: this.residue_g_L } : {};
    if (this.kind === 'nothing') return dissolved;
    if (!this.part) return undefined;
    if (this.kind === 'weaker') return { ...dissolved, weaker: this.part };
    if (this.teaResidue_g_L === undefined) return undefined;
    return { ...dissolved, tea: { ...this.part, residue_g_L: this.teaResidue_g_L } };
  });
  /** Where the house finds fault. */
  readonly paths = $derived.by(() => [
    'residue_g_L',
    ...['volume_L_20C', 'strength_percent_vol', 'residue_g_L'].map((p) => `${this.kind}.${p}`),
  ]);

  readonly clear = (): void => {
    this.kind = 'nothing';
    this.volume = this.strength = this.teaResidue = this.chosen = '';
    this.residue = '0';
  };
}

/** Both poured together, for POST /blend. */
export const pouredWith = (lot: LotFigures, strength_percent_vol: number, part: Part) => ({
  parts: [{ volume_L_20C: lot.volume_L_20C, strength_percent_vol }, part],
});
