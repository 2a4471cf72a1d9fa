// Why the ferment says what it says: gravities and alcohol by its readings, dates by its forecast or by
// the plan, yeast and its food, what was racked; its gas has a file of its own. Pure; in metric.
import type { Batch, FermentForecast, Plan } from '../data/answers';
import { printed } from '../data/figures';
import {
  input,
  pace,
  percent,
  SOURCES,
  told,
  type Input,
  type Reason,
} from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

type Ferment = Batch['ferment'];
type Reading = Ferment['readings'][number];

const CUSTOM = 'common practice, no source';
const BY_GLASS = 'NBS Circular 440; hydrometers: OIML R 44 (1985)';
const BY_LIGHT =
  'refraction of sucrose: ICUMSA; of a mixture: Lorentz and Lorenz; alcohol: Balling';
const byLight = (reading: Reading | undefined) => reading?.by_refractometer === true;

const glass = {
  model:
    'The hydrometer’s reading, corrected for the density of water and its glass as warm as it was.',
  source: BY_GLASS,
  band: 'none is reckoned; a hydrometer misses by 0.0010, our estimate',
};
const light = {
  model:
    'The refractometer’s reading, corrected for its temperature and, from the gravity at the pitch, for the alcohol that bends the light as well.',
  source: BY_LIGHT,
  band: 'none is reckoned; a refractometer so corrected misses by 0.0025, our estimate',
};

const pitchedAt = (of: Ferment): Input[] =>
  input('Gravity at the pitch', of.pitch?.specific_gravity, 4, '');

/** Where the wash stands: by the last reading that is believed, before any by the wort. */
export function whyGravity(
  of: Ferment,
  last: Reading | undefined,
  name = 'The last that is believed',
): Why {
  return {
    what: 'Gravity of the wash, true at 20 °C',
    inputs: [
      ...pitchedAt(of),
      ...input('Readings', of.readings.length, 0, ''),
      ...told(
        name,
        last &&
          `${printed(last.specific_gravity, 4)}, by ${byLight(last) ? 'refractometer' : 'hydrometer'}`,
      ),
    ],
    ...(byLight(last) ? light : glass),
  };
}

/** Of one gravity that was read. */
export const whyReading = (of: Ferment, reading: Reading): Why => ({
  what: `Gravity as it was read by ${byLight(reading) ? 'refractometer' : 'hydrometer'}, true at 20 °C`,
  inputs: [...pitchedAt(of), ...input('Wash, in the fermenter', reading.temperature_C, 1, '°C')],
  ...(byLight(reading) ? light : glass),
});

/** Of all gravities that were read, as points of the curve; the list has each one's own. */
export function whyReadings(of: Ferment): Why {
  const read = of.readings.filter((reading) => reading.specific_gravity !== undefined);
  const lit = read.filter((reading) => byLight(reading)).length;
  const [by, other] = lit === 0 ? [glass] : lit === read.length ? [light] : [glass, light];
  return {
    what: 'Gravities as they were read, true at 20 °C; the first is that of the pitch',
    inputs: [
      ...pitchedAt(of),
      ...input('By hydrometer', read.length - lit || undefined, 0, 'readings'),
      ...input('By refractometer', lit || undefined, 0, 'readings'),
    ],
    model: other ? `${by!.model} ${other.model}` : by!.model,
    source: other ? `${by!.source}; ${other.source}` : by!.source,
    band: other ? `${by!.band}; a refractometer’s by 0.0025` : by!.band,
  };
}

/** Of the temperatures of the wash. */
export const whyWarmth: Why = {
  what: 'Temperature of the wash in the fermenter',
  inputs: [],
  model: 'As the thermometer showed it; nothing is corrected.',
  source: 'the journal',
  band: 'a thermometer is off by what its kit says',
};

/** Of the alcohol that the fall of the gravity implies. */
export function whyWash(of: Ferment): Why {
  const unread = of.wash?.unread_days;
  return {
    what: 'Alcohol in the wash, by volume at 20 °C',
    inputs: [...pitchedAt(of), ...input('Gravity now', of.wash?.specific_gravity, 4, '')],
    model:
      'So much of the wort’s extract has fermented as brings its gravity down to this; it gives 0.90 of the alcohol that the formula of sugar promises.',
    source: `stoichiometry, exact; 0.90 is our choice between Bringhurst et al. (1996) 0.888, Balling’s factors 0.899 and textbooks, from memory, 0.90 to 0.95; densities: ${SOURCES.density}, and NBS Circular 440`,
    band: `none is reckoned at each reading; gravities tell it to 0.2 %vol (one standard deviation) and the share reached, 0.88 to 0.93, to -2 to +3 % of it; our estimates. Balling’s factors for beer find 5 to 7 % less, as they count glycerol and acids as extract that did not ferment${unread === undefined ? '' : `. Racked ${printed(unread, 1)} days after that gravity: it may have fermented on, so this is the least`}`,
  };
}

const COURSE = 'Gravity from the pitch on, true at 20 °C';

/** Of the curve that the readings correct. */
export const whyCourse = ({ why }: FermentForecast): Why => ({
  ...why,
  what: `${COURSE}, as it is expected`,
});

/** Of the curve that was planned. */
export const whyPlannedCourse = (plan: Plan): Why => ({
  what: `${COURSE}, by the plan`,
  ...pace(plan),
  band: NO_BAND,
});

export type Day = 'dry' | 'rested';
const DAYS: Record<Day, string> = {
  dry: 'When it is dry: hardly any sugar is left',
  rested: 'When it has rested on its yeast and is clear enough to rack',
};

/** Of a date of the forecast; its band as the page writes it: "Tue 24 Nov to Thu 26 Nov". */
export function whyDay(forecast: FermentForecast, day: Day, band: string | undefined): Why {
  const { why, rest_hours } = forecast;
  return {
    ...why,
    what: DAYS[day],
    inputs: [
      ...why.inputs,
      ...(day === 'rested'
        ? input('Rest after it is dry, by the recipe', rest_hours / 24, 1, 'days')
        : []),
    ],
    band: band ? `80 %: ${band}; ${why.band ?? ''}` : why.band,
  };
}

/** Of a date of the plan, counted from the pitch. */
export function whyPlannedDay(plan: Plan, day: Day): Why {
  const reason = pace(plan);
  const { pace: of, ready_after_days: ready } = plan.ferment;
  return {
    what: `${DAYS[day]}; by the plan, counted from the pitch`,
    ...reason,
    inputs: [
      ...reason.inputs,
      ...input('Dry after', of.dry_after_days, 1, 'days'),
      ...(day === 'rested' && of.dry_after_days !== undefined
        ? input('Rest after it, by the recipe', ready - of.dry_after_days, 1, 'days')
        : []),
    ],
    band: 'none is reckoned here; read it as ± 40 %, and read the wash: the forecast then has a band',
  };
}

export type Pitch = 'temperature' | 'yeast' | 'food';

/** Of what is pitched. */
export function whyPitch(plan: Plan, which: Pitch): Why {
  const { ferment: of, wort } = plan;
  const volume = input('Wort at 20 °C', wort.volume_L_20C, 1, 'L');
  const whys: Record<Pitch, Reason & { what: string }> = {
    temperature: {
      what: 'How warm the wort is when the yeast goes in',
      inputs: [
        ...told('Yeast', of.yeast),
        ...input('Comes to, topped up', wort.top_up.temperature_C, 1, '°C'),
        ...input('Cold water on top', wort.top_up.cold_L || undefined, 1, 'L'),
      ],
      model: 'The recipe’s own wish; the topping-up water is so chosen that the wort comes to it.',
      source: 'the recipe; heat balance, exact',
    },
    yeast: {
      what: 'Dry yeast for this wort, by the plan',
      inputs: [
        ...volume,
        ...input('To a litre, by the recipe', of.yeast_g / wort.volume_L_20C, 2, 'g/L'),
      ],
      model: 'The wort’s volume times the dose.',
      source: `the recipe; usual are 0.3 to 1 g/L, 0.5 where it says nothing: ${CUSTOM}`,
    },
    food: {
      what: 'Di-ammonium phosphate that makes up what the wort lacks of nitrogen',
      inputs: [
        ...volume,
        ...input('Needed', of.nitrogen.need_mg_per_L, 0, 'mg/L'),
        ...input(
          'In the wort, by where its extract is from',
          of.nitrogen.supply_mg_per_L,
          0,
          'mg/L',
        ),
        ...input('Short of', of.nitrogen.shortfall_mg_per_L, 0, 'mg/L'),
        ...input('The recipe adds', of.nitrogen.added_mg_per_L, 0, 'mg/L'),
      ],
      model:
        'A milligram of nitrogen to each gram of sugar that ferments; malt brings plenty, raw grain some, sugar none.',
      source: SOURCES.nitrogen,
    },
  };
  return { ...whys[which], band: NO_BAND };
}

/** Of the clear wash that is planned to come off the lees. */
export function whyPlannedRacking({ ferment: of }: Plan): Why {
  return {
    what: 'Clear wash that comes off the lees, by the plan',
    inputs: [
      ...input('Wash', of.volume_L_20C, 1, 'L'),
      ...percent(
        'Stays with the lees',
        of.wash.pure_alcohol_L > 0 ? of.lees.pure_alcohol_L / of.wash.pure_alcohol_L : undefined,
      ),
      ...input('Solids in it', of.solids_kg || undefined, 2, 'kg'),
    ],
    model: 'Lees keep their share of the wash.',
    source: SOURCES.custom,
    band: NO_BAND,
  };
}

/** Of what was racked, and of the alcohol in it. */
export function whyRacked(of: Ferment, which: 'volume' | 'alcohol' | 'lees'): Why {
  if (which === 'volume')
    return {
      what: 'Clear wash at 20 °C, as it was measured',
      inputs: told('Measured', 'at the racking, as warm as it was'),
      model: 'The volume as it was read, brought to 20 °C.',
      source: 'density of water: Kell (1975), coefficients from memory',
      band: 'none is reckoned; a volume at a mark is read to 1 %, our estimate',
    };
  if (which === 'lees')
    return {
      what: 'Lees that were left, as they were told',
      inputs: told('Told', 'at the racking'),
      model: 'The volume as it was read; nothing is corrected.',
      source: 'the journal',
      band: 'none is reckoned; a volume at a mark is read to 1 %, our estimate',
    };
  const strength = whyWash(of);
  return {
    what: 'Pure alcohol in the clear wash, at 20 °C',
    inputs: [
      ...input('Clear wash', of.racked?.clear_L_20C, 1, 'L'),
      ...input('Its strength', of.wash?.strength_percent_vol, 1, '%vol'),
      ...strength.inputs,
    ],
    model: `Volume times strength. ${strength.model}`,
    source: strength.source,
    band: `${strength.band}; the volume to 1 %`,
  };
}
