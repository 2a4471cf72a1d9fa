// The main fields of a kit, in the words of docs/recipe-and-kit.md. Constants that the house has
// learned, a cooling test and other rare keys stay in the text below the form.
import type { FormField, FormSection } from '../parts/text_form';

const words = (...list: string[]) => list.map((value) => ({ value, label: value }));
const WALLS = words('stainless steel', 'copper', 'aluminium', 'glass', 'plastic', 'wood');

const wall = (usual: string): FormField => ({
  path: 'wall',
  label: 'Made of',
  options: WALLS,
  usual,
});
const under = (table: string, fields: readonly FormField[]): FormField[] =>
  fields.map((field) => ({ ...field, path: `${table}.${field.path}` }));

export const KIT_SECTIONS: readonly FormSection[] = [
  {
    title: 'The place',
    fields: [
      { path: 'name', label: 'Name of the house', kind: 'words' },
      { path: 'place.altitude', label: 'Above the sea', unit: 'm' },
      { path: 'place.pressure', label: 'Or its air pressure', unit: 'hPa' },
      { path: 'place.ambient', label: 'Room is at', unit: '°C' },
      { path: 'place.ferment_room', label: 'Ferment room', unit: 'm³' },
      {
        path: 'place.air_changes_per_hour',
        label: 'Air changes an hour',
        kind: 'number',
        usual: '0.5',
      },
      { path: 'liquor.cold', label: 'Cold water', unit: '°C' },
      { path: 'liquor.hot', label: 'Hottest water at hand', unit: '°C' },
    ],
  },
  {
    title: 'Vessels',
    list: {
      path: 'vessel',
      one: 'vessel',
      fresh: { name: 'another vessel', total: '30 L', wall_mass: '3 kg' },
    },
    fields: [
      { path: 'name', label: 'Name', kind: 'words' },
      { path: 'total', label: 'Holds to the brim', unit: 'L' },
      { path: 'working', label: 'Safe fill', unit: 'L', usual: '90 % of it' },
      wall('stainless steel'),
      { path: 'wall_mass', label: 'Mass when empty', unit: 'kg' },
      { path: 'dead_volume', label: 'Cannot be drained', unit: 'L', usual: 'nothing' },
      { path: 'heat', label: 'Power of its heat', unit: 'kW', usual: 'none' },
      { path: 'heated_from_below', label: 'Flame or plate below', kind: 'flag', usual: 'no' },
      { path: 'loss_lid_on', label: 'Heat lost, lid on', unit: 'W/K', usual: 'estimated' },
      { path: 'cooling_coil', label: 'Its coil takes', unit: 'W/K', usual: 'no coil' },
    ],
  },
  {
    title: 'The still',
    fields: [
      ...under('boiler', [
        { path: 'total', label: 'Boiler, to the brim', unit: 'L' },
        wall('copper'),
        { path: 'wall_mass', label: 'Boiler and head, empty', unit: 'kg' },
        { path: 'power', label: 'Power', unit: 'kW' },
        {
          path: 'heat',
          label: 'Heated by',
          options: words('element', 'plate', 'flame', 'steam jacket', 'water bath'),
          usual: 'element',
        },
        { path: 'power_adjustable', label: 'Can be turned down', kind: 'flag', usual: 'no' },
        {
          path: 'element_covered_above',
          label: 'Element covered above',
          unit: 'L',
          usual: 'any fill',
        },
      ]),
      ...under('head', [
        { path: 'loss', label: 'Head gives to the room', usual: 'estimated' },
        { path: 'spirit_power', label: 'Power on a spirit run', usual: '60 %' },
        { path: 'plates', label: 'Plates', kind: 'number', usual: 'none' },
      ]),
      ...under('condenser', [
        { path: 'coolant_inlet', label: 'Coolant comes in at', unit: '°C', usual: 'cold water’s' },
        { path: 'greatest_flow', label: 'Most coolant', unit: 'L/min' },
        { path: 'holds', label: 'Coil and pipe hold', unit: 'mL', usual: 'nothing' },
        { path: 'parrot', label: 'Parrot holds', unit: 'mL', usual: 'nothing' },
      ]),
    ],
  },
  {
    title: 'Casks',
    list: {
      path: 'cask',
      one: 'cask',
      fresh: { name: 'another cask', volume: '10 L' },
    },
    fields: [
      { path: 'name', label: 'Name', kind: 'words' },
      { path: 'volume', label: 'Holds', unit: 'L' },
      { path: 'stave_thickness', label: 'Staves are thick', unit: 'mm', usual: '25 mm' },
      { path: 'used', label: 'Filled before', kind: 'flag', usual: 'no' },
    ],
  },
  {
    title: 'Instruments',
    fields: under('instruments', [
      { path: 'thermometer', label: 'Thermometer within', usual: '0.5 K' },
      { path: 'alcoholmeter', label: 'Alcoholmeter within', unit: '%vol', usual: '0.5 %vol' },
      {
        path: 'alcoholmeter_class',
        label: 'Its class, where certified',
        options: words('I', 'II', 'III', 'uncertified'),
        usual: 'uncertified',
      },
      { path: 'certificate', label: 'Its certificate', kind: 'words', usual: 'none' },
    ]),
  },
];
