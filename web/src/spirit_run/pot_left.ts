// What of a charge is left in the pot when its run ends, held against what the kit says its element needs
// over it: an element that shows in the vapour burns dry. The plan reckons one charge; another gives as
// much more or less as it is larger, and more where it is stronger. An estimate before the heat, the
// plan's own figure at the planned charge, and no forecast of the run. Pure.
import type { Plan } from '../data/answers';
import { at, read } from '../data/toml_text';
import { quantities, quantity, typedAs } from '../data/units';
import type { Doubt } from './charge';

type PlannedRun = Plan['strip']['run'];

/** What an element needs over it, in litres, by the text of a kit; 'untold' where it has an element and
 *  does not say, undefined where nothing stands in the pot or the text cannot be read. */
export function elementNeeds(kit: string | undefined): number | 'untold' | undefined {
  if (kit === undefined) return undefined;
  let boiler: unknown;
  try {
    boiler = at(read(kit), 'boiler');
  } catch {
    return undefined; // the house has refused it, and says so where the kit is written
  }
  if (boiler === undefined || (at(boiler, 'heat') ?? 'element') !== 'element') return undefined;
  const stated = at(boiler, 'element_covered_above');
  if (stated === undefined) return 'untold';
  const litres = typedAs(String(stated), 'L', 'metric');
  return litres === 0 ? 'untold' : litres;
}

/** A charge at 20 °C; its pure alcohol where that is known. */
export interface Charged {
  volume_L: number;
  pure_L: number | undefined;
}

/** To one planned end, what comes over of a litre grows as this power of its strength. Fitted to the
 *  engine's runs to 10 %vol at the spout, of 20 to 35 %vol and of 6 to 14 %vol: within 2 % of them. */
const STRONGER = 0.6;

/** Litres at 20 °C that come over of it until the planned end. */
function comesOver(run: PlannedRun, { volume_L, pure_L }: Charged): number {
  const { charge, distillate } = run;
  if (run.ending === 'collected') return Math.min(volume_L, distillate.volume_L_20C);
  const larger = volume_L / charge.volume_L_20C;
  const stronger =
    pure_L === undefined || charge.pure_alcohol_L <= 0
      ? 1
      : pure_L / charge.pure_alcohol_L / larger;
  return distillate.volume_L_20C * larger * stronger ** STRONGER;
}

/** How much larger what is left is in the hot pot, grain and all, than at 20 °C; by the planned charge. */
function swelling({ charge, distillate, left_in_pot_L }: PlannedRun): number {
  const cold_L = charge.volume_L_20C - distillate.volume_L_20C;
  return cold_L > 0 && left_in_pot_L > 0 ? left_in_pot_L / cold_L : 1; // run until it was dry
}

/** Litres in the hot pot at the end. */
export const leftInPot = (run: PlannedRun, charged: Charged): number =>
  Math.max(0, charged.volume_L - comesOver(run, charged)) * swelling(run);

/** The house warns from here on that an element will soon show (src/plan/run_plan.cpp). */
const NEARLY = 1.2;

export interface Bare extends Doubt {
  weight: 'danger' | 'caution';
}

/**
 * What to say before the heat is on of a charge that leaves the element bare, or nearly; undefined where
 * it stays well covered. Without a plan only that the charge itself does not cover it.
 *
 * `spirit`: a spirit run may be thinned with water so that enough is left; a strip gets none.
 */
export function bareElement(
  run: PlannedRun | undefined,
  charged: Charged,
  needs_L: number,
  spirit: boolean,
): Bare | undefined {
  const more = spirit ? 'Charge more, with water if need be' : 'Charge more';
  const figures = (litres: number) => quantities([litres, needs_L], 'L', 1, 'metric');
  if (charged.volume_L < needs_L) {
    const [here, needs] = figures(charged.volume_L);
    return {
      weight: 'danger',
      says: `The charge is ${here}; the element needs ${needs} over it and burns dry as soon as the heat is on.`,
      remedy: `Leave the heat off. ${more}.`,
    };
  }
  if (!run) return undefined;
  const left_L = leftInPot(run, charged);
  if (left_L >= NEARLY * needs_L) return undefined;
  const [left, needs] = figures(left_L);
  if (left_L >= needs_L)
    return {
      weight: 'caution',
      says: `Of this charge about ${left} is left over an element that needs ${needs}.`,
      remedy: 'Watch the level; stop before it shows.',
    };
  // Rounded down, so that it is still covered there.
  const until_L = Math.floor(10 * (charged.volume_L - needs_L / swelling(run))) / 10;
  const earlier =
    until_L > 0
      ? `stop earlier, before ${quantity(until_L, 'L', 1, 'metric')} has come over`
      : 'do not heat it';
  return {
    weight: 'danger',
    says: `Of this charge about ${left} is left in the boiler at the end; the element needs ${needs} over it and burns dry.`,
    remedy: `${more}, or ${earlier}.`,
  };
}
