// What a temperature asks for, in sentences: the house says what and how much, by the step in hand;
// here are its words and units. Pure.
import type { MashCorrection } from '../data/answers';
import { lengthOfTime } from '../data/figures';
import { quantity, type Units } from '../data/units';

type Wait = NonNullable<MashCorrection['lid_on']>;

/** "22 min (17–29 min)"; without the band where it is the same in words. */
function lasts({ middle_min, least_min, most_min }: Wait): string {
  const middle = lengthOfTime(middle_min);
  const [least, most] = [lengthOfTime(least_min), lengthOfTime(most_min)];
  return least === middle && most === middle ? middle : `${middle} (${least} to ${most})`;
}

/** "About 7 h 30 min (…) with the lid on, 22 min with the coil." */
function cools(advice: MashCorrection): string[] {
  const ways: [Wait | undefined, string][] = [
    [advice.with_coil, 'with the coil'],
    [advice.lid_off, 'with the lid off'],
    [advice.lid_on, 'with the lid on'],
  ];
  const said = ways.flatMap(([wait, how]) => (wait ? [`${lasts(wait)} ${how}`] : []));
  return said.length > 0 ? [`About ${said.join(', ')}.`] : [];
}

const heats = (advice: MashCorrection): string[] =>
  advice.heating ? [`About ${lasts(advice.heating)} of heat.`] : [];

/** Hot or cold water in two halves; `or` where there is another way. */
function stirIn(advice: MashCorrection, or: boolean, units: Units): string[] {
  const half = advice.first_half_L;
  const said: string[] = [];
  if (advice.with !== 'nothing' && half !== undefined && half > 0) {
    const at =
      advice.water_at_C === undefined ? '' : ` of ${quantity(advice.water_at_C, '°C', 0, units)}`;
    said.push(
      `${or ? 'Or stir' : 'Stir'} in ${quantity(half, 'L', 2, units)} of ${advice.with}${at} now` +
        (advice.wait_minutes === undefined
          ? ', then read again'
          : `, wait ${lengthOfTime(advice.wait_minutes)}, read again`) +
        (advice.after_first_C === undefined
          ? '.'
          : `: expect ${quantity(advice.after_first_C, '°C', 1, units)}.`),
    );
    const more = (advice.wanted_L ?? half) - half;
    if (more > 0.005 && !advice.room_is_short)
      said.push(`${quantity(more, 'L', 2, units)} more may follow.`);
  }
  if (advice.room_is_short)
    said.push(
      `There is room for ${quantity(advice.at_most_L ?? 0, 'L', 1, units)} only` +
        (advice.reached_C === undefined
          ? '.'
          : `: that reaches ${quantity(advice.reached_C, '°C', 1, units)}.`),
    );
  return said;
}

/** Nearer than this nothing is asked; the house's own. */
const NEAR_K = 0.2;
/** Below this an enzyme's death is that of any rest, and nothing to be said. */
const KILLS_K = 1.5;

function off(read_C: number, target_C: number, units: Units): string | undefined {
  const by = read_C - target_C;
  if (Math.abs(by) <= NEAR_K + 1e-9) return undefined;
  return `Too ${by > 0 ? 'hot' : 'cold'} by ${quantity(Math.abs(by), 'K', 1, units)}.`;
}

const quickly = (minutes: number) =>
  minutes < 1 ? `${Math.max(1, Math.round(60 * minutes))} s` : lengthOfTime(minutes);

function atRest(advice: MashCorrection, read_C: number, units: Units): string[] {
  const target_C = advice.target_C ?? read_C;
  const wrong = off(read_C, target_C, units);
  if (!wrong) return [`Good: wanted is ${quantity(target_C, '°C', 1, units)}.`];
  const dies =
    read_C - target_C >= KILLS_K &&
    advice.beta_halves_min !== undefined &&
    advice.alpha_halves_min !== undefined
      ? [
          `Heat kills the malts’ enzymes: at ${quantity(read_C, '°C', 1, units)} half of the beta-amylase is gone in ${quickly(advice.beta_halves_min)}, half of the alpha-amylase in ${quickly(advice.alpha_halves_min)}, and they do not come back.`,
        ]
      : [];
  if (advice.with !== 'nothing') {
    const or = advice.heating
      ? [`Or warm it: about ${lasts(advice.heating)} of heat, stirring.`]
      : [];
    return [wrong, ...dies, ...stirIn(advice, false, units), ...or];
  }
  return [
    wrong,
    ...dies,
    `No water at hand is ${read_C > target_C ? 'cold' : 'hot'} enough to mend it.`,
    ...heats(advice),
  ];
}

/** Liquor or cooked grain on its way to where the malts go in. */
function beforeMalts(advice: MashCorrection, read_C: number, units: Units): string[] {
  const target_C = advice.target_C ?? read_C;
  const wanted = `The malts go in at ${quantity(target_C, '°C', 1, units)}`;
  if (advice.lands_C !== undefined)
    return [
      `Read in the pot, it lands at ${quantity(advice.lands_C, '°C', 1, units)}: read it again there.`,
      `${wanted}.`,
      ...cools(advice),
    ];
  const wrong = off(read_C, target_C, units);
  if (!wrong) return ['Good.', `${wanted}.`];
  const first = read_C > target_C ? cools(advice) : heats(advice);
  const then =
    advice.with !== 'nothing' && advice.target_then_C !== undefined && !advice.room_is_short
      ? [`With all of it in, the malts go in at ${quantity(advice.target_then_C, '°C', 1, units)}.`]
      : [];
  return [
    wrong,
    read_C > target_C ? `${wanted}; hotter kills their enzymes.` : `${wanted}.`,
    ...first,
    // Where its own heat does it, water that does not fit is no way.
    ...(advice.heating && advice.room_is_short ? [] : stirIn(advice, first.length > 0, units)),
    ...then,
  ];
}

function wort(advice: MashCorrection, read_C: number, units: Units): string[] {
  const pitch = quantity(advice.pitch_C ?? read_C, '°C', 1, units);
  const ways = cools(advice);
  const cold = advice.top_up_cold_L ?? 0;
  const hot = advice.top_up_hot_L ?? 0;
  const waters = [
    ...(cold > 0.05 ? [`${quantity(cold, 'L', 1, units)} of cold`] : []),
    ...(hot > 0.05 ? [`${quantity(hot, 'L', 1, units)} of hot`] : []),
  ].join(' and ');
  if (advice.target_C !== undefined && read_C > advice.target_C + NEAR_K && ways.length > 0)
    return [
      `It cools to ${quantity(advice.target_C, '°C', 1, units)}.`,
      ...ways,
      waters
        ? `Nothing goes in yet; ${waters} water then top it up, for the yeast at ${pitch}.`
        : `Nothing goes in; the yeast is pitched at ${pitch}.`,
    ];
  if (waters)
    return [
      `Cool enough: topped up with ${waters} water it comes to ${quantity(advice.topped_up_C ?? read_C, '°C', 1, units)}; the yeast is pitched at ${pitch}.`,
    ];
  return read_C > (advice.pitch_C ?? read_C) + NEAR_K
    ? [`The yeast is pitched at ${pitch}; nothing at hand cools it so far.`]
    : [`Cool enough: the yeast is pitched at ${pitch}.`];
}

function sparging(advice: MashCorrection, read_C: number, units: Units): string[] {
  const over = 'The rest is over: nothing is stirred in to mend the mash.';
  const { target_C, of_L } = advice;
  if (target_C === undefined) return [over];
  const wrong = off(read_C, target_C, units);
  const wanted = `the sparge water is wanted at ${quantity(target_C, '°C', 0, units)}`;
  if (!wrong) return [over, `Good, if it is the water that was read: ${wanted}.`];
  const water = of_L === undefined ? '' : ` for all ${quantity(of_L, 'L', 1, units)} of it`;
  const mend = advice.heating
    ? [`About ${lasts(advice.heating)} in the still’s boiler${water}.`]
    : advice.with === 'cold water' && advice.wanted_L !== undefined
      ? [
          `${quantity(advice.wanted_L, 'L', 2, units)} of cold water bring down all ${quantity(of_L ?? 0, 'L', 1, units)} of it.`,
        ]
      : [];
  return [over, `If it is the water that was read: ${wanted}.`, wrong, ...mend];
}

/** The advice as it is read out: "Too hot by 1.4 K. Stir in 0.40 L of cold water now, …". */
export function advised(advice: MashCorrection, read_C: number, units: Units): string[] {
  switch (advice.at) {
    case 'milling':
      return [
        'Mark the steps that are done: what a temperature asks for is told of the step in hand.',
      ];
    case 'cooking':
      return advice.heating
        ? [`It boils at ${quantity(advice.target_C ?? read_C, '°C', 1, units)}.`, ...heats(advice)]
        : ['It is at the boil.'];
    case 'strike':
    case 'moving':
    case 'dough-in':
      return beforeMalts(advice, read_C, units);
    case 'rest':
      return atRest(advice, read_C, units);
    case 'draining':
      return ['The rest is over: nothing is stirred in to mend the mash.'];
    case 'sparging':
      return sparging(advice, read_C, units);
    case 'wort':
    case 'pitching':
      return wort(advice, read_C, units);
    case 'over':
      return ['The mash is over: nothing is to be mended.'];
  }
}

/** Whether the water of the advice goes into what stands in the vessel, and is told as such. */
export const goesIn = (advice: MashCorrection | undefined): boolean =>
  advice !== undefined &&
  advice.with !== 'nothing' &&
  (advice.first_half_L ?? 0) > 0 &&
  advice.at !== 'sparging' &&
  !(advice.at !== 'rest' && advice.heating && advice.room_is_short);

/** The step whose clock shows how long it takes now; by its words. */
export function timedBy(
  advice: MashCorrection,
  steps: readonly { what: string }[],
): string | undefined {
  if (advice.clock_min === undefined || advice.lands_C !== undefined) return undefined;
  const at = steps.findIndex((s) => s.what === advice.step);
  if (at < 0) return undefined;
  const waits = /^(Cool|Warm|Heat|Fill|Stir)/;
  if (waits.test(steps[at]!.what)) return steps[at]!.what;
  const next = steps[at + 1]?.what ?? '';
  return /^Move/.test(steps[at]!.what) && /^(Cool|Warm)/.test(next) ? next : undefined;
}
