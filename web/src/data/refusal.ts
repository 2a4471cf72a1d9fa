// A refusal of the house where no form asked: as a sentence in the words of the page. The house names the
// field of its own call ("run", "batch"), which nobody typed into.
import { Problem, type Fault } from './problem';

const SAID: readonly [field: string, value: RegExp, sentence: string][] = [
  [
    'run',
    /unknown strength/,
    'How strong the charge of this run was is not known: neither was it gauged, nor is it of lots or wash whose strength is known.',
  ],
];

/** Borders of a run, by the recipe: of a weak or small charge one may come before another. */
const BORDERS: Record<string, string> = {
  'rules.heads_end': 'The end of the heads',
  'rules.hearts_end': 'The end of the hearts',
  'rules.stop': 'The stop',
};

/** Begins as a sentence does; one that begins with a key of a text keeps the key as the text has it. */
export function asSentence(text: string): string {
  if (/^[\w-]*[._[]/.test(text)) return `The house says: ${text}`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function sentenceOf({ field, value, accepted }: Fault): string | undefined {
  const border = BORDERS[field];
  if (border && value && accepted)
    return `${border} by the recipe, ${value}, does not fit this charge; accepted: ${accepted}.`;
  if (field === 'charge' && value && accepted)
    return `A charge of ${value} cannot be reckoned; accepted: ${accepted}.`;
  const said = SAID.find(([of, like]) => of === field && like.test(value ?? ''));
  if (said) return said[2];
  if (field !== 'batch' && field !== 'run') return undefined;
  return accepted && `This is not to be had yet: it wants ${accepted}.`;
}

/** What a person reads of it. */
export function refusalOf(fault: Error): string {
  if (!(fault instanceof Problem)) return asSentence(fault.message);
  const [first, ...more] = fault.faults;
  return (more.length === 0 && first && sentenceOf(first)) || asSentence(fault.message);
}
