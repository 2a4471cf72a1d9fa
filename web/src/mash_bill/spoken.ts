// Faults of the house in the words of the page: it names the keys of the texts ("mash_bill",
// "ferment.gravity_by"), which nobody sees who works with the form. Pure.
import { sentenceOf, type Fault } from '../data/problem';

/** "mash.sparge[2].water" as "Mash, sparge 2, water"; the bill as a whole is "The bill". */
export function placeInWords(path: string): string {
  const bare = path === 'mash_bill' ? 'the bill' : path.replace(/^mash_bill(?=\[)/, 'line');
  const said = bare
    .replace(/\[(\d+)\]/g, ' $1')
    .replaceAll('.', ', ')
    .replaceAll('_', ' ');
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}`;
}

const capital = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
const ended = (text: string) => (/[.!?]$/.test(text) ? text : `${text}.`);

const CONVERTS = /^a bill that converts; (.+)$/s;

/** A fault of a plan: one of the bill as a whole tells what does not convert, and the remedy. */
export function planSentence(fault: Fault): string {
  const why = fault.field === 'mash_bill' && CONVERTS.exec(fault.accepted ?? '')?.[1];
  return why ? ended(capital(why)) : sentenceOf(fault);
}

// What stops a search is told of the wish, with the fault that the recipe would then have.
const WITH_IT = /with this one (\S+) would have to be (.+)$/s;

/** A fault of a wish; `taken`: the name of the ingredient that was to be taken. */
export function wishFault(fault: Fault, taken: string): Fault {
  const said = (sentence: string): Fault => ({ ...fault, sentence });
  const accepted = fault.accepted ?? '';
  if (fault.field === 'gravity' && /^a recipe with a sugar to change/.test(accepted))
    return said('The bill has no sugar to change. Put a sugar into it, or reach it by water.');
  const found = WITH_IT.exec(accepted);
  if (!found) return fault;
  const [, path, wanted] = found as unknown as [string, string, string];
  const why = path === 'mash_bill' && CONVERTS.exec(wanted)?.[1];
  const stops = why
    ? `the bill would not convert: ${why}`
    : `the recipe would not hold. ${placeInWords(path)} would have to be ${wanted}`;
  return said(
    ended(fault.field === 'ingredient' ? `With ${taken} ${stops}` : `At this gravity ${stops}`),
  );
}
