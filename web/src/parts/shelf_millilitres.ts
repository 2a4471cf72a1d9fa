// Volumes on the shelf, in the units that are set; figure and unit stay in one line.
import { settings } from '../data/settings.svelte';
import { quantity } from '../data/units';

export const millilitres = (volume: number): string =>
  quantity(volume, 'mL', 0, settings.units).replace('fl oz', 'fl\u00a0oz');
