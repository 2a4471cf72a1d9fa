// Why a run says what it says: what is expected of it while it goes, what came over when it is over, and
// what the plan would have charged. Pure; in metric.
import type { Gauged, Plan, Run, RunForecast, RunKind } from '../data/answers';
import { lengthOfTime, printed } from '../data/figures';
import { input, told, SOURCES, type Input } from '../mash_bill/plan_reasons';
import { NO_BAND } from '../mash_bill/uses';
import type { Why } from '../parts/Figure.svelte';

const GAUGING = 'OIML R 22 (1973), general formula; OIML R 44 (1985) for the instrument';

/** Half of the 80 % band, in standard deviations of a normal. */
const HALF_80 = 1.2816;

/** Of a true strength: the house's own reason and band, or while they are not here what is known. */
export function trueStrength(
  gauged: Gauged,
  read: string,
): { why: Why; low?: number; high?: number } {
  const { strength_percent_vol: value, standard_percent_vol: sd, why } = gauged;
  return {
    why: why ?? {
      what: 'Strength of what runs at the spout, by volume at 20 °C',
      inputs: told('Read', read),
      model:
        'The density at which such an instrument floats so, as warm as the spirit is; the strength whose mixture is as dense.',
      source: GAUGING,
    },
    ...(sd > 0 ? { low: value - HALF_80 * sd, high: value + HALF_80 * sd } : {}),
  };
}

export type Live = 'spout' | 'head' | 'over' | 'flow' | 'left' | 'decision';
const LIVE: Record<Live, string> = {
  spout: 'True strength expected at the spout now',
  head: 'Temperature expected in the head now',
  over: 'What has come over by now, at 20 °C',
  flow: 'How long a measure of 100 mL takes to fill now',
  left: 'Pure alcohol that is still in the pot',
  decision: 'When the next decision is due',
};
type Band = RunForecast['now']['head_temperature_C'];

/** Of a figure of the forecast: its reason, with what it is and, for one without its own, its band. */
export function whyLive(
  forecast: RunForecast | undefined,
  of: Live,
  band?: string,
  more: Input[] = [],
): Why | undefined {
  if (!forecast) return undefined;
  const { why } = forecast;
  return {
    ...why,
    what: LIVE[of],
    inputs: [...why.inputs, ...more],
    band: band ? `80 %: ${band}; ${why.band ?? ''}` : why.band,
  };
}

/** Of the power that the forecast takes for granted from the boil on. */
export const whyTurnedDown = (forecast: RunForecast): Why => ({
  what: 'Power from the boil on, as the forecast takes it',
  inputs: input('It is turned down to', forecast.turns_down_to_W, 0, 'W'),
  model:
    'The kit’s share of the boiler’s power for a spirit run, or the power told at the start where that is less. A power that is read takes its place.',
  source: 'the kit; its share of 60 %, where none is stated: our estimate',
  band: 'none: the forecast knows one fire at a time',
});

/** Of the curve of a run; its band is drawn with it. */
export const whyCurve = (forecast: RunForecast | undefined): Why | undefined =>
  forecast && {
    ...forecast.why,
    what: 'True strength expected at the spout, from its beginning to its end',
  };

/** Of the strengths that were read; the list of readings has each one's own. */
export const whyPoints = (run: Run): Why => ({
  what: 'True strengths at the spout, by volume at 20 °C, as they were read',
  inputs: input(
    'Readings at the spout',
    run.readings.filter((reading) => reading.spout).length,
    0,
    '',
  ),
  model:
    'The density at which such an instrument floats so, as warm as the spirit was; the strength whose mixture is as dense.',
  source: GAUGING,
  band: 'an alcoholmeter to 0.3 %vol, one standard deviation, our estimate; each reading’s own with it',
});

/** Of what an instrument showed: it is told as it was read. */
export const whyRead = (what: string, value: string): Why => ({
  what: `${what}, as it was read last`,
  inputs: told('Read', value),
  model:
    'As the instrument showed it. A reading that does not fit is kept and does not stand here.',
  source: 'the journal',
  band: 'a reading is as right as its instrument; what the kit says of it goes into what is reckoned',
});

/** Of what the jars hold by their marks. */
export const whyFilled = (run: Run): Why => ({
  what: 'What each jar held when it was full',
  inputs: input('Jars', run.jars.length, 0, ''),
  model: 'As it was told when the jar was changed, by its mark, as warm as it ran.',
  source: 'the journal',
  band: 'a volume at a mark is read to 1 %, our estimate; a gauged jar says more',
});

/** "88.1 to 88.9 °C"; undefined where the ends are alike. */
export const spread = (band: Band, decimals: number, unit: string): string | undefined =>
  band.low < band.high
    ? `${printed(band.low, decimals)} to ${printed(band.high, decimals)} ${unit}`
    : undefined;

export interface Ended {
  volume_L: number | undefined;
  strength_percent_vol: number | undefined;
  by: 'collected' | 'jars' | 'as filled';
  minutes: number | undefined;
  jars: number;
  gauged: number;
  allotted: boolean;
}

/** What a run that is over came to: as it was measured in one, else by its jars. */
export function endedOf(run: Run): Ended {
  const lots = run.jars.flatMap((jar) => (jar.lot ? [jar.lot] : []));
  const filled = run.jars.flatMap((jar) =>
    jar.as_filled_mL === undefined ? [] : [jar.as_filled_mL],
  );
  const sum = (all: readonly number[]) => all.reduce((a, b) => a + b, 0);
  const volume = sum(lots.map((lot) => lot.volume_L_20C));
  const all = lots.length > 0 && lots.length === run.jars.length;
  const measured = run.collected
    ? {
        by: 'collected' as const,
        volume_L: run.collected.volume_L_20C,
        strength_percent_vol: run.collected.strength_percent_vol,
      }
    : all && volume > 0
      ? {
          by: 'jars' as const,
          volume_L: volume,
          strength_percent_vol: (100 * sum(lots.map((lot) => lot.pure_alcohol_L_20C))) / volume,
        }
      : {
          by: 'as filled' as const,
          volume_L: filled.length > 0 ? sum(filled) / 1000 : undefined,
          strength_percent_vol: undefined,
        };
  return {
    ...measured,
    minutes: run.ended ? (Date.parse(run.ended.at) - Date.parse(run.at)) / 60_000 : undefined,
    jars: run.jars.length,
    gauged: lots.length,
    allotted: run.allotted !== undefined,
  };
}

/** Whether its jars wait for something: "6 of 9 jars wait to be gauged." */
export function jarsWait({ jars, gauged, allotted }: Ended): string {
  if (jars === 0) return '';
  const all = jars === 1 ? 'Its jar' : `Its ${jars} jars`;
  if (allotted) return `${all} ${jars === 1 ? 'is' : 'are'} allotted.`;
  if (gauged < jars)
    return gauged === 0
      ? `${all} ${jars === 1 ? 'waits' : 'wait'} to be gauged, after airing.`
      : `${jars - gauged} of ${jars} jars wait to be gauged.`;
  return `${all} ${jars === 1 ? 'is gauged and waits' : 'are gauged and wait'} to be allotted.`;
}

const MEASURED = `a volume read at a mark to 1 %, one standard deviation, our estimate; a strength as the glass and thermometer of the kit read it, to 0.3 %vol where no kit says`;

/** Of what came over in a run that is over. */
export function whyEnded(run: Run, ended: Ended, which: 'volume' | 'strength'): Why {
  const read = run.collected_read;
  return {
    what: which === 'volume' ? 'What came over, at 20 °C' : 'Its strength, by volume at 20 °C',
    inputs: [
      ...(ended.by === 'collected'
        ? told(
            'Measured at the end',
            read?.volume_L === undefined
              ? 'all that came over, in one'
              : `${printed(read.volume_L, 2)} L${read.at_C === undefined ? '' : ` at ${printed(read.at_C, 1)} °C`}`,
          )
        : run.jars.flatMap((jar) =>
            told(
              `Jar ${jar.jar}`,
              ended.by === 'jars' && jar.lot
                ? `${printed(jar.lot.volume_L_20C, 3)} L at ${printed(jar.lot.strength_percent_vol, 1)} %vol`
                : jar.as_filled_mL === undefined
                  ? 'its volume was not told'
                  : `${printed(jar.as_filled_mL, 0)} mL as filled`,
            ),
          )),
      ...input('Charge', run.charge_L_20C, 1, 'L'),
      ...input('Its strength', run.charge?.strength_percent_vol, 1, '%vol'),
    ],
    model: {
      collected:
        'Volume and strength as they were read at the end, brought to 20 °C by the density of the mixture.',
      jars: 'The jars as gauged, poured together: masses of ethanol and water add exactly, their volumes nearly.',
      'as filled':
        'The jars as they were filled, summed, as warm as they were: not all are gauged yet.',
    }[ended.by],
    source: ended.by === 'as filled' ? 'the marks of the jars' : GAUGING,
    band: ended.by === 'as filled' ? 'none is reckoned before the jars are gauged' : MEASURED,
  };
}

/** Of how long a run took. */
export function whyLength(run: Run): Why {
  const clock = (at: string) => at.slice(0, 16).replace('T', ', ') + ' UTC';
  const stops = run.readings.filter((reading) => reading.event === 'stopped').length;
  return {
    what: 'From the heat on to the end that was told',
    inputs: [
      ...told('Heat on', clock(run.at)),
      ...told('Ended', run.ended && clock(run.ended.at)),
      ...input('Stopped between', stops || undefined, 0, stops === 1 ? 'time' : 'times'),
      ...input('Readings', run.readings.length, 0, ''),
    ],
    model: 'The time between the two entries; what it stood between counts as well.',
    source: 'the journal, by the house’s clock',
    band: 'none: it is as right as the moments the entries tell',
  };
}

export type Charged = 'volume' | 'strength' | 'limit' | 'power';

/** Of what the plan would charge and how it would heat. */
export function whyCharge(plan: Plan, kind: RunKind, which: Charged): Why {
  const of = kind === 'strip' ? plan.strip : plan.spirit_run;
  const lot = (volume: number, strength: number) =>
    `${printed(volume, 1)} L at ${printed(strength, 1)} %vol`;
  const made = plan.spirit_run.made_of;
  const parts: Input[] =
    kind === 'strip'
      ? [
          ...input('Wash racked', plan.ferment.racked_volume_L_20C, 1, 'L'),
          ...input('Its strength', plan.ferment.strength_percent_vol, 1, '%vol'),
        ]
      : [
          ...told(
            'Low wines',
            lot(made.low_wines.volume_L_20C, made.low_wines.strength_percent_vol),
          ),
          ...(made.feints.volume_L_20C > 0
            ? told('Feints', lot(made.feints.volume_L_20C, made.feints.strength_percent_vol))
            : []),
          ...input('Water', made.water_kg || undefined, 2, 'kg'),
        ];
  const boiler = input('Boiler', plan.kit.boiler_L, 1, 'L');
  const charge: Omit<Why, 'what' | 'band'> = {
    inputs: [
      ...parts,
      ...input('Charges', of.runs, 0, ''),
      ...boiler,
      ...input('At the boil it swells to', of.run.charge.at_the_boil_L, 1, 'L'),
    ],
    model:
      kind === 'strip'
        ? 'The racked wash, divided evenly over as few charges as the boiler takes, unless the recipe says otherwise.'
        : 'Low wines and feints, watered down to what the recipe lets a charge have, divided evenly over its charges.',
    source: `masses add exactly; densities: ${SOURCES.density}`,
  };
  const whys: Record<Charged, Omit<Why, 'band'>> = {
    volume: { what: 'Charge by the plan, at 20 °C', ...charge },
    strength: { what: 'Strength of the charge by the plan', ...charge },
    limit: {
      what: 'The most that may be filled into this boiler',
      inputs: [
        ...boiler,
        ...input('So much of it', (100 * of.fill_limit_L) / plan.kit.boiler_L, 1, '%'),
      ],
      model:
        'A share of the boiler that leaves room to swell and to foam; less for a wash, and less again for one of rye, oats or wheat.',
      source: 'the kit, where it has its own; else common practice, no source',
    },
    power: {
      what: 'Power once spirit runs, by the plan',
      inputs: [
        ...input('Boiler at full power', plan.kit.boiler_power_kW, 2, 'kW'),
        ...input('Heats up in', of.run.heat_up.length_min, 0, 'min'),
        ...input('Runs for', of.run.running_min, 0, 'min'),
      ],
      model: 'Full power to the boil; then the share of it that the kit states for such a run.',
      source: 'the kit',
    },
  };
  return { ...whys[which], band: NO_BAND };
}

/** "1 h 47 min": how long the run took. */
export const took = (ended: Ended): string | undefined =>
  ended.minutes === undefined ? undefined : lengthOfTime(ended.minutes);
