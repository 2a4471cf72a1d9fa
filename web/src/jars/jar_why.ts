// Why a jar on the shelf holds what it does: its gauging, or the mark it was filled to. In metric.
import type { Jar } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';

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
      { name: 'Pure alcohol', value: `${printed(jar.lot.pure_alcohol_L_20C * 1000)} mL` },
    ],
    model:
      'The density at which the instrument floats so, as warm as the spirit is; the strength whose mixture is as dense; the volume by the density at both temperatures.',
    source: 'OIML R 22 (1973), general formula; OIML R 44 (1985) for the instrument',
  };
}
