// Dangers of a run at which the heat goes off at once, by what the house tells. Pure.
import type { RunForecast } from '../data/answers';

/** Its own sentence at the end of a caution about the pot; what always holds says it only of a coolant
 *  that fails. While the heat was off the house says to leave it off: on again, that is the same danger. */
const OF_THE_POT = /\b(burns|nearly) dry\. (Heat off first|Leave the heat off)\.$/;

/** The house's caution that the pot is nearly dry or its element bare, to be read with the heat on. */
export const potDanger = (forecast: Pick<RunForecast, 'cautions'> | undefined) =>
  forecast?.cautions
    .find((caution) => OF_THE_POT.test(caution))
    ?.replace(/Leave the heat off\.$/, 'Heat off first.');

/** Whether the pot runs low by the forecast's decisions: from the beginning of its band on. */
export const runsLow = (forecast: Pick<RunForecast, 'decisions' | 'now'> | undefined): boolean =>
  (forecast?.decisions ?? []).some(
    (d) =>
      d.decision === 'pot_low' &&
      (d.passed || (d.at_minutes !== undefined && d.at_minutes.low <= forecast!.now.minutes)),
  );

/** A few words of it, for a line. */
export const briefDanger = (danger: string): string =>
  danger.includes('element') ? 'Element bare: heat off first' : 'Pot nearly dry: heat off first';
