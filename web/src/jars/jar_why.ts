// Why a jar on the shelf holds what it does: its gauging, or the mark it was filled to; what a trial in
// the glass comes to in the bulk; at what strength a sample clouds. In metric.
import type { Jar } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { printed } from '../data/figures';
import { OF_JARS_L } from '../data/units';
import type { Why } from '../parts/Figure.svelte';
import type { Jar as Shelved } from '../parts/shelf_allotment';

const when = (told: { at: string; who?: string }) =>
  told.who ? `${dayAndTime(told.at)}, ${told.who}` : dayAndTime(told.at);

export function whyJar(jar: Jar): Why {
  const filled = jar.filled && {
    name: 'Filled',
    value: `${jar.as_filled_mL === undefined ? '' : `${printed(jar.as_filled_mL)} mL by its mark; `}${when(jar.filled)}`,
  };
  const gauged = jar.gauged && { name: 'Gauged', value: when(jar.gauged) };
  const inputs = [filled, gauged].filter((input) => input !== undefined);
  if (!jar.lot)
    return {
      what: `What went into jar ${jar.jar}`,
      inputs,
      model: 'As it was told when the jar was filled, as warm as it ran. It is not gauged yet.',
      source: 'the journal',
    };
  return {
    what: `What jar ${jar.jar} holds, at 20 °C`,
    inputs: [
      ...inputs,
      { name: 'Pure alcohol', value: `${printed(jar.lot.pure_alcohol_L_20C, 3)} L pure` },
    ],
    model:
      'The density at which the instrument floats so, as warm as the spirit is; the strength whose mixture is as dense; the volume by the density at both temperatures.',
    source: 'OIML R 22 (1973), general formula; OIML R 44 (1985) for the instrument',
  };
}

/** Of how many times a trial in the glass goes into the jars, and of the hearts that makes. */
export function whyFromGlass(
  jars: readonly Shelved[],
  glass: Readonly<Record<string, number>>,
  scale: number,
  bulk_L: number,
): Why {
  const poured = jars.filter((jar) => (glass[jar.id] ?? 0) > 0);
  return {
    what: 'The same blend of the jars themselves, at 20 °C',
    inputs: [
      ...poured.map((jar) => ({
        name: `Jar ${jar.name}`,
        value: `${printed(glass[jar.id], 1)} mL in the glass, of ${printed(jar.volume_mL)} mL`,
      })),
      { name: 'Times', value: printed(scale, 2) },
      {
        name: 'Hearts',
        value: bulk_L < OF_JARS_L ? `${printed(bulk_L * 1000)} mL` : `${printed(bulk_L, 2)} L`,
      },
    ],
    model:
      'Each jar gives so many times what was poured of it, as many times as empties the first; the volumes are summed.',
    source:
      'arithmetic; that volumes add is true to the contraction of mixing, here next to nothing',
    band: 'a glass is read to a mark, so the share of each jar is as right as that mark',
  };
}

/** Of the strength at which a sample is looked at. */
export const whyCloud = (percent: number): Why => ({
  what: 'The strength at which oils that hide in the spirit show as a cloud',
  inputs: [{ name: 'Brought down to', value: `${printed(percent, 1)} %vol` }],
  model: 'Oils of the tails dissolve in strong spirit and come out of it when it is thinned.',
  source: 'common practice, no source',
});
