// What the house says when it cannot do what was asked: problem details (RFC 9457). Faults of
// input (`errors`) carry the field's path ("mash.grain[2].mass"), the value, and what would be accepted.
import { quoted } from './measured';
import { settings } from './settings.svelte';
import { inTenths, restated } from './units';

export interface Fault {
  field: string;
  value?: string; // absent when nothing stood there
  accepted?: string;
  sentence?: string; // where the house has a better one than value and accepted make
  file?: string; // of a text: where in it, counted from 1
  line?: number;
  column?: number;
}

export interface ProblemDetails {
  type?: string;
  title: string;
  status: number;
  detail?: string;
  errors?: Fault[];
}

/** Told by the house: it heard, and says no. */
export class Problem extends Error {
  readonly status: number;
  readonly details: ProblemDetails;

  constructor(details: ProblemDetails) {
    super(details.detail ?? details.title);
    this.name = 'Problem';
    this.status = details.status;
    this.details = details;
  }

  get faults(): Fault[] {
    return this.details.errors ?? [];
  }
}

/** The house did not answer: no network, a stopped server, a time-out. */
export class NoAnswer extends Error {
  constructor(why: string) {
    super(why);
    this.name = 'NoAnswer';
  }
}

/** Limits of the house, which it says in metric, as this device shows figures; examples in quotes stay. */
const inOwnUnits = (accepted: string): string =>
  settings.units === 'metric'
    ? accepted
    : accepted
        .split(/("[^"]*")/)
        .map((part, i) => (i % 2 === 1 ? part : restated(part, settings.units, false)))
        .join('');

/** One fault as a sentence that names the value and what would be accepted. */
export function sentenceOf(fault: Fault): string {
  if (fault.sentence) return fault.sentence;
  const missing = fault.value === undefined || fault.value === '';
  const said = quoted(inTenths(fault.value ?? ''));
  if (fault.accepted) return `${said} was given; accepted: ${inOwnUnits(fault.accepted)}.`;
  return missing ? 'This is missing.' : `${said} is not accepted here.`;
}

/** The sentences for one field: faults at its path, or below it ("mash.grain" for "mash.grain[2]"). */
export function faultsAt(faults: readonly Fault[], path: string, below = false): string[] {
  return faults
    .filter(
      (f) =>
        f.field === path ||
        (below && (f.field.startsWith(`${path}.`) || f.field.startsWith(`${path}[`))),
    )
    .map(sentenceOf);
}

/** Faults that belong to none of the fields on the screen: they are told above the form. */
export function faultsElsewhere(faults: readonly Fault[], paths: readonly string[]): Fault[] {
  return faults.filter((f) => !paths.includes(f.field));
}

const text = (value: unknown) => (typeof value === 'string' ? value : undefined);

function faultOf(value: unknown): Fault | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const given = value as Record<string, unknown>;
  const field = text(given['field']);
  if (field === undefined) return undefined;
  const fault: Fault = { field };
  const said = given['value'];
  if (said !== undefined && said !== null) fault.value = String(said);
  const accepted = text(given['accepted']);
  if (accepted !== undefined) fault.accepted = accepted;
  const sentence = text(given['sentence']);
  if (sentence !== undefined) fault.sentence = sentence;
  const file = text(given['file']);
  if (file !== undefined) fault.file = file;
  if (typeof given['line'] === 'number') fault.line = given['line'];
  if (typeof given['column'] === 'number') fault.column = given['column'];
  return fault;
}

/** Reads an answer that is not well; whatever its body holds, there is a Problem to show. */
export async function problemOf(answer: Response): Promise<Problem> {
  const fallback: ProblemDetails = {
    title: answer.statusText || `The house answered with ${answer.status}`,
    status: answer.status,
  };
  let body: unknown;
  try {
    body = await answer.json();
  } catch {
    return new Problem(fallback);
  }
  if (typeof body !== 'object' || body === null) return new Problem(fallback);
  const given = body as Record<string, unknown>;
  const details: ProblemDetails = { ...fallback, title: text(given['title']) ?? fallback.title };
  const detail = text(given['detail']);
  if (detail !== undefined) details.detail = detail;
  const type = text(given['type']);
  if (type !== undefined) details.type = type;
  if (Array.isArray(given['errors'])) {
    details.errors = given['errors'].map(faultOf).filter((f) => f !== undefined);
  }
  return new Problem(details);
}
