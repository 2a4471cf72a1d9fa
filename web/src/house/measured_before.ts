// What was gauged, as the texts of the form that corrects it, and back.
import type { VolumeRead } from '../data/measured';
import { asTyped, quantity, type Units } from '../data/units';
import { nothingMeasured, type MeasuredTexts } from '../parts/Measured.svelte';
import { plainly } from './told';

export interface Was {
  texts: MeasuredTexts;
  /** What a person has to know before they change it. */
  remark?: string;
}

/**
 * The texts of a body's volume and strength. The form has one temperature for both, that of the
 * strength; a reading of a scale that it cannot take is to be read again.
 */
export function textsOf(body: Record<string, unknown> | undefined, units: Units): Was {
  if (!body) return { texts: nothingMeasured() };
  const volume = (body['volume'] ?? {}) as Record<string, unknown>;
  const strength = (body['strength'] ?? {}) as Record<string, unknown>;
  const scale = String(strength['scale']);
  const reading = plainly(strength['reading']);
  const taken = scale === 'percent_vol' || scale === 'proof';
  const [warm, cool] = [plainly(volume['at_C']), plainly(strength['at_C'])];
  const degrees = (read: Record<string, unknown>) => quantity(Number(read['at_C']), '°C', 1, units);
  const remarks = [
    taken
      ? ''
      : `It was told as ${reading} ${scale.replaceAll('_', ' ')}, which has no place here: read it again in %vol or proof.`,
    warm === cool
      ? ''
      : `The volume was read at ${degrees(volume)}, the strength at ${degrees(strength)}. Change the volume, and it is taken to be as warm as the strength.`,
  ].filter(Boolean);
  return {
    texts: {
      volume: asTyped(Number(volume['volume_L']), 'L', units),
      reading: !taken ? '' : scale === 'proof' ? `${reading} proof` : reading,
      at: asTyped(Number(strength['at_C'] ?? volume['at_C']), '°C', units),
    },
    ...(remarks.length === 0 ? {} : { remark: remarks.join(' ') }),
  };
}

/** The volume to be told: as it was where neither it nor the temperature is another than before. */
export function volumeOf(
  now: VolumeRead,
  texts: MeasuredTexts,
  was: Was,
  body: Record<string, unknown> | undefined,
): VolumeRead {
  const same = texts.volume === was.texts.volume && texts.at === was.texts.at;
  return body && same ? (body['volume'] as VolumeRead) : now;
}
