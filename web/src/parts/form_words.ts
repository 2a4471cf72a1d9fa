// The house's faults of a recipe or kit speak of its text: of keys, quotes, `true` and `false`. At a field of
// a form nobody sees any of these: there they are said by the field's label, and in its unit. What is at
// fault in the text alone keeps the text's words. Pure.
import type { Fault } from '../data/problem';
import type { FormField, FormSection } from './text_form';

/** Units in which the house names limits that a field of this unit tells otherwise. */
const TOLD_IN: Record<string, { unit: string; factor: number; such: string }> = {
  'm³': { unit: 'L', factor: 1 / 1000, such: '"40 m³" or "1400 ft³"' },
};

const figure = (value: number): string => String(Number(value.toPrecision(6)));

/** "such as …, from 1000 L to 100000000 L" at a field in m³. */
function inUnitOf(accepted: string, unit: string | undefined): string {
  const told = TOLD_IN[unit ?? ''];
  if (!told) return accepted;
  return accepted
    .replace(/\bsuch as "[^"]*"(?: or "[^"]*")?/, `such as ${told.such}`)
    .replace(
      /\bfrom (\S+) (\S+) to (\S+) (\S+)$/,
      (found, low: string, of: string, high: string, also: string) =>
        of === told.unit && also === told.unit
          ? `from ${figure(Number(low) * told.factor)} to ${figure(Number(high) * told.factor)} ${unit}`
          : found,
    );
}

/** Labels by the path from the text's root, and of a table's fields by the key alone. */
function labelsOf(sections: readonly FormSection[], field: string): Map<string, string> {
  const table = field.replace(/[^.]*$/, '');
  const labels = new Map<string, string>();
  for (const section of sections)
    for (const { path, label } of section.fields) {
      const here = section.list ? `${section.list.path}.${path}` : path;
      labels.set(here, label);
      if (here.startsWith(table) && table !== '') labels.set(here.slice(table.length), label);
    }
  return labels;
}

/** A word that only a text has: with a point or a low line between letters. */
const KEY = /(?<![\p{L}\d"._-])[a-z]+(?:[._][a-z]+)+(?![\p{L}\d"._-])/gu;

/** The fault as it is said at its field; prefix: of the paths of faults, "kit." or none. */
export function faultInForm(
  fault: Fault,
  field: FormField,
  sections: readonly FormSection[],
  prefix = '',
): Fault {
  const { accepted } = fault;
  if (accepted === undefined) return fault;
  // "kit.vessel[1].working" is vessel.working, of any item.
  const place = fault.field.slice(prefix.length).replace(/\[\d+\]/g, '');
  const labels = labelsOf(sections, place);
  const said = inUnitOf(
    accepted
      .replace(/^true or false\b/, 'yes or no')
      .replace(/, written without quotes/g, '')
      .replace(/,? in quotes\b/g, '')
      .replace('one line of text', 'one line of words')
      .replace(/\b([a-z_]+) = "([^"]*)"/g, (found, key: string, value: string) =>
        labels.has(key) ? `“${labels.get(key)}”: ${value}` : found,
      ),
    field.unit,
  ).replace(KEY, (key) => {
    const label = labels.get(key);
    return label ? `“${label}”` : key.replace(/^.*\./, '').replaceAll('_', ' ');
  });
  return { ...fault, accepted: said };
}
