// The recipe's fields by stage. The bill itself has a form of its own (Bill.svelte); what is rarely
// used stays in the text below the form.
import type { Tables } from '../data/answers';
import { restated, type Units } from '../data/units';
import type { FormField, FormSection } from '../parts/text_form';

type Choice = { value: string; label: string };
const words = (...list: string[]): Choice[] => list.map((value) => ({ value, label: value }));
type Named = readonly { id: string; name: string }[] | undefined;
const under = (table: string, fields: readonly FormField[]): FormField[] =>
  fields.map((field) => ({ ...field, path: `${table}.${field.path}` }));

/** The sections of a recipe; vessels and casks by the names the kit has for them. */
export function recipeSections(
  tables: Tables | undefined,
  vessels: readonly string[],
  casks: readonly string[],
  units: Units = 'metric',
): FormSection[] {
  const named = (list: Named, ...else_: string[]) =>
    list
      ? list.map(({ id, name }) => ({ value: id, label: restated(name, units) }))
      : words(...else_);
  const vessel: FormField = { path: 'vessel', label: 'Vessel', options: words(...vessels) };
  const fresh = vessels[0] ?? 'pot';
  return [
    {
      title: 'Cook',
      table: {
        path: 'mash.cook',
        name: 'a cook of raw grain',
        fresh: { vessel: fresh, water: '20 L', time: '60 min' },
      },
      fields: under('mash.cook', [
        vessel,
        { path: 'water', label: 'Cold water', unit: 'L' },
        { path: 'time', label: 'At the boil', unit: 'min' },
      ]),
    },
    {
      title: 'Mash',
      stage: 'Mash',
      fields: under('mash', [
        vessel,
        { path: 'water', label: 'Water into it', unit: 'L', usual: 'none' },
        { path: 'rest_temperature', label: 'Rest at', unit: '°C' },
        { path: 'rest_time', label: 'Rest for', unit: 'min' },
        {
          path: 'cool_by',
          label: 'A cook cools with',
          options: words('lid on', 'lid off', 'coil'),
          usual: 'lid on',
        },
        { path: 'squeeze', label: 'Grain is squeezed', kind: 'flag', usual: 'yes' },
        { path: 'on_the_grain', label: 'Ferment on the grain', kind: 'flag', usual: 'no' },
      ]),
    },
    {
      title: 'Sparges',
      list: { path: 'mash.sparge', one: 'sparge', fresh: { water: '6 L', temperature: '75 °C' } },
      fields: [
        { path: 'water', label: 'Water', unit: 'L' },
        { path: 'temperature', label: 'At', unit: '°C' },
      ],
    },
    {
      title: 'Sugar boiled apart',
      table: {
        path: 'sugar_boil',
        name: 'a boil for sugar',
        fresh: { vessel: fresh, water: '5 L', time: '20 min' },
      },
      fields: under('sugar_boil', [
        vessel,
        { path: 'water', label: 'Water', unit: 'L' },
        { path: 'time', label: 'At the boil', unit: 'min' },
      ]),
    },
    {
      title: 'Ferment',
      stage: 'Ferment',
      fields: under('ferment', [
        { ...vessel, label: 'Fermenter' },
        { path: 'fill_to', label: 'Topped up to', unit: 'L', usual: 'not at all' },
        { path: 'pitch_temperature', label: 'Pitched at', unit: '°C' },
        {
          path: 'yeast',
          label: 'Yeast',
          options: named(tables?.yeasts, 'distillers-dry', 'bread', 'ale', 'wine'),
        },
        { path: 'pitch', label: 'Dry yeast pitched', usual: '0.5 g/L' },
        { path: 'held', label: 'Held there', kind: 'flag', usual: 'no' },
        { path: 'nutrient_nitrogen', label: 'Nitrogen added', usual: 'none' },
        { path: 'rest_after_dry', label: 'Rest when dry', usual: '3 days' },
      ]),
    },
    {
      title: 'Strip',
      stage: 'Strip',
      fields: under('strip', [
        { path: 'stop', label: 'Stop at', unit: '%vol' },
        { path: 'charges', label: 'Strips', kind: 'number', usual: 'as the wash needs' },
        { path: 'charge', label: 'Or wash in each', unit: 'L', usual: 'as the boiler takes' },
      ]),
    },
    {
      title: 'Spirit run',
      stage: 'Spirit run',
      table: {
        path: 'spirit_run',
        name: 'settings of the spirit run',
        fresh: { hearts_end: '56 %vol' },
      },
      fields: under('spirit_run', [
        { path: 'feints', label: 'Feints put in', usual: 'none; such as 1.5 L @ 32 %vol' },
        { path: 'charge_at_most', label: 'Charge at most', unit: '%vol', usual: '30 %vol' },
        {
          path: 'surplus',
          label: 'Low wines beyond a charge',
          options: [
            { value: 'keep', label: 'are kept' },
            { value: 'second run', label: 'have a second run' },
          ],
          usual: 'are kept',
        },
        { path: 'foreshots_end', label: 'Foreshots end', unit: 'mL', usual: '0.5 % of the charge' },
        { path: 'heads_end', label: 'Heads end', unit: 'mL', usual: '2.5 % of the charge' },
        { path: 'hearts_end', label: 'Hearts end', unit: '%vol', usual: '56 %vol' },
        { path: 'tails_end', label: 'The run ends', unit: '%vol', usual: '10 %vol' },
        {
          path: 'heads',
          label: 'Heads go',
          options: [
            { value: 'keep', label: 'to the feints' },
            { value: 'away', label: 'away' },
          ],
          usual: 'to the feints',
        },
      ]),
    },
    {
      title: 'Reduce',
      stage: 'Reduce',
      fields: [{ path: 'reduce.maturing_strength', label: 'Maturing strength', unit: '%vol' }],
    },
    {
      title: 'Wood',
      stage: 'Wood',
      table: {
        path: 'wood',
        name: 'wood',
        fresh: { staves: 'for the time', time: '6 months' },
      },
      fields: under('wood', [
        { path: 'staves', label: 'Staves', kind: 'number', usual: 'none; or “for the time”' },
        { path: 'cask', label: 'Or a cask', options: words(...casks) },
        {
          path: 'species',
          label: 'Species',
          options: named(tables?.species, 'american-oak', 'european-oak'),
          usual: 'American oak',
        },
        {
          path: 'toast',
          label: 'Toast',
          options: named(tables?.toasts, 'light', 'medium', 'heavy'),
          usual: 'medium',
        },
        { path: 'time', label: 'Time in wood' },
        { path: 'temperature', label: 'Mean of the cellar', unit: '°C', usual: '15 °C' },
      ]),
    },
    {
      title: 'Bottle',
      stage: 'Bottle',
      fields: under('bottle', [
        { path: 'strength', label: 'Strength', unit: '%vol' },
        { path: 'size', label: 'A bottle holds', unit: 'mL', usual: '700 mL' },
        { path: 'filter_loss', label: 'Lost in the filter', usual: 'nothing' },
      ]),
    },
  ];
}

/** The names a kit has for its vessels and casks. */
export function namesIn(kit: unknown, list: 'vessel' | 'cask'): string[] {
  const items = (kit as Record<string, unknown> | undefined)?.[list];
  if (!Array.isArray(items)) return [];
  return items
    .map((item: unknown) => (item as { name?: unknown } | null)?.name)
    .filter((name): name is string => typeof name === 'string');
}
