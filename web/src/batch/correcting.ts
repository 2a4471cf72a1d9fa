// What of an entry a plain form can set right: its figures, words and yes or no, typed in the units of
// this device and kept in the journal's own. A figure that was left untouched stays to the last digit.
import { printed, range, typed, typedDecimal } from '../data/figures';
import {
  ACCEPTED,
  NAME_BYTES,
  percentTyped,
  pitchFault,
  SPIRIT_AT,
  TEXT_BYTES,
  tooLong,
  unread,
  wattsTyped,
  WORT_AT,
} from '../data/measured';
import { inUs, typedAs, unitOfField, type Units } from '../data/units';
import { DOCUMENTS, ID, keyName, SCALES, UNITS, type Bounds } from './journal';

const SCALE_BOUNDS: Record<string, Bounds> = {
  specific_gravity: [0.7, 1.17],
  plato: [-7.7, 38.3],
  brix: [0, 40],
  percent_vol: [0, 100],
  percent_mass: [0, 100],
  proof: [0, 200],
};
const WHOLE: Record<string, Bounds> = {
  jar: [1, 999],
  staves: [1, 1000],
  used_times: [0, 9],
  bottles: [0, 100_000],
};
const NAMES = ['name', 'from', 'yeast', 'in', 'species', 'toast', 'what', 'with', 'class'];

/** Plain figures that an entry of a kind may hold or lack: they can be added to it and taken out. */
const MAY_LACK: Record<string, readonly string[]> = {
  'run begun': ['power_W'],
  'run read': [
    'spout_temperature_C',
    'head_temperature_C',
    'pot_temperature_C',
    'collected_mL',
    'power_W',
    'coolant_in_C',
    'coolant_out_C',
    'coolant_flow_L_per_min',
  ],
  'jar filled': ['volume_mL'],
  'wood filled': ['species', 'toast', 'staves', 'used_times'],
};

/** Of these it is chosen, as when it was told first. */
const CHOSEN = ['species', 'toast', 'used_times'];

export interface Editable {
  path: string[];
  label: string;
  unit: string; // metric
  decimals: number;
  kind: 'number' | 'text' | 'flag' | 'choice';
  mayLack?: boolean;
}

type Body = Record<string, unknown>;

const within = (above: readonly string[]) => above.map((k) => keyName(k).name).join(', ');

/** What a figure in its own table is called, in the words of the form that told it. */
function labelOf(key: string, name: string, above: readonly string[]): string {
  const of = within(above);
  if (above.length === 0) return name;
  if (key === 'at_C') return 'as warm as';
  if (key === 'volume_L') return of;
  if (key === 'reading') return /^(gravity|strength)$/.test(of) ? 'reading' : `${of} reading`;
  return `${of}, ${name}`;
}

/** Labels that would stand twice say what they are of. */
const apart = (fields: readonly Editable[]): Editable[] =>
  fields.map((field) => {
    const twice = fields.filter(({ label }) => label === field.label).length > 1;
    const of = within(field.path.slice(0, -1));
    return twice && of ? { ...field, label: `${of}, ${field.label}` } : field;
  });

function withinBody(body: Body, above: string[]): Editable[] {
  return Object.entries(body).flatMap(([key, value]): Editable[] => {
    const path = [...above, key];
    const { name, unit, decimals } = keyName(key);
    const label = labelOf(key, name, above);
    if (typeof value === 'number') {
      const scale = key === 'reading' ? SCALES[String(body['scale'])] : undefined;
      return [{ path, label, unit: scale ?? unit, decimals, kind: 'number' }];
    }
    if (typeof value === 'boolean') return [{ path, label, unit: '', decimals: 0, kind: 'flag' }];
    if (typeof value === 'string') {
      const fixed =
        ID.test(value) ||
        DOCUMENTS.includes(key) ||
        ['scale', 'run', 'kind', 'rule', 'asked'].includes(key);
      return fixed ? [] : [{ path, label, unit: '', decimals: 0, kind: 'text' }];
    }
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      return withinBody(value as Body, path);
    }
    return [];
  });
}

/** What a form of an entry of that kind shows, at any depth; at its end what the entry lacks. */
export function editables(body: Body, kind = ''): Editable[] {
  // Staves are counted in glass; a cask is one.
  const may = (MAY_LACK[kind] ?? []).filter((key) => key !== 'staves' || body['in'] === 'staves');
  const there = apart(withinBody(body, [])).map((field): Editable => {
    const key = field.path[0]!;
    if (field.path.length > 1 || !may.includes(key)) return field;
    return { ...field, mayLack: true, ...(CHOSEN.includes(key) ? { kind: 'choice' } : {}) };
  });
  const lacking = may
    .filter((key) => !(key in body))
    .map((key): Editable => {
      const { name, unit, decimals } = keyName(key);
      const how = CHOSEN.includes(key) ? 'choice' : 'number';
      return { path: [key], label: name, unit, decimals, kind: how, mayLack: true };
    });
  return [...there, ...lacking];
}

export function valueAt(body: Body, path: readonly string[]): unknown {
  return path.reduce<unknown>((here, key) => (here as Body)[key], body);
}

/** The body with one value changed, or left out; what it was made from stays as it is. */
export function changed(body: Body, path: readonly string[], value: unknown): Body {
  const [key, ...rest] = path;
  if (key === undefined) return body;
  if (rest.length === 0 && value === undefined) {
    return Object.fromEntries(Object.entries(body).filter(([other]) => other !== key));
  }
  const inner = rest.length === 0 ? value : changed((body[key] ?? {}) as Body, rest, value);
  return { ...body, [key]: inner };
}

/** What stands in a field at first. */
export function textOf(body: Body, field: Editable, units: Units): string {
  const value = valueAt(body, field.path);
  if (value === undefined) return '';
  const us =
    units === 'us' && typeof value === 'number'
      ? inUs(value, field.unit, field.decimals)
      : undefined;
  return us ? String(Number(us.value.toFixed(us.decimals))) : String(value);
}

/** The figure that was typed, in the journal's unit. */
function figureTyped(text: string, field: Editable, units: Units): number | undefined {
  const key = field.path.at(-1)!;
  if (key.endsWith('_percent_vol')) return percentTyped(text);
  if (key.endsWith('_W')) return wattsTyped(text);
  if (key === 'reading') {
    // A figure of another scale is another reading.
    const own = field.unit === 'proof' ? /\s*°?\s*proof\s*$/i : /\s*%\s*(vol)?\s*$/i;
    const figure = text.replace(own, '');
    return field.unit === '' ? typedDecimal(figure) : typed(figure); // of a gravity
  }
  return field.unit ? typedAs(text, field.unit, units) : typed(text);
}

/** The value that was typed: undefined leaves it out. */
export function typedIn(text: string, field: Editable, units: Units): unknown {
  if (field.kind === 'flag') return text === 'true';
  if (field.kind === 'text') return text;
  if (field.kind === 'choice') {
    if (text === '') return undefined;
    return field.path.at(-1) === 'used_times' ? Number(text) : text;
  }
  return figureTyped(text, field, units);
}

/** As warm as a reading may have been, which is less than a thermometer shows: outside it the house cannot
 *  reckon with it. Of a volume, where the body tells a strength too, since both were read together. */
function warmthOf(body: Body, beside: Body, key: string): Bounds | undefined {
  if (key === 'spout_temperature_C') return SPIRIT_AT;
  if (key !== 'at_C') return undefined;
  if (typeof beside['scale'] === 'string')
    return /^(percent|proof)/.test(beside['scale']) ? SPIRIT_AT : WORT_AT;
  return 'strength' in body ? SPIRIT_AT : undefined;
}

/** Whether nothing of a volume cannot be, as where it was told first: of a charge, of what was racked clear,
 *  of a wort and its pitch, of a jar that was full and of a bottle. */
function mustBe(body: Body, { path }: Editable): boolean {
  const [first, key] = path;
  if (key === 'volume_L')
    return first === 'charge' || first === 'clear' || (first === 'volume' && 'gravity' in body);
  return first === 'volume_mL' ? 'jar' in body : first === 'size_L';
}

/** What is wrong with the text typed for one value of a body, as a sentence. */
export function wrongIn(
  body: Body,
  field: Editable,
  text: string,
  units: Units = 'metric',
): string | undefined {
  const key = field.path.at(-1)!;
  if (field.kind === 'text') return tooLong(text, NAMES.includes(key) ? NAME_BYTES : TEXT_BYTES);
  if (field.kind === 'flag' || field.kind === 'choice') return undefined;
  if (field.mayLack && text.trim() === '') return undefined;
  const beside = valueAt(body, field.path.slice(0, -1)) as Body;
  const wort_L = valueAt({ volume: {}, ...beside }, ['volume', 'volume_L']);
  if (key === 'mass_g' && 'yeast' in beside && typeof wort_L === 'number')
    return pitchFault(text, figureTyped(text, field, units), wort_L, units);
  const bounds =
    key === 'reading'
      ? SCALE_BOUNDS[String(beside['scale'])]
      : key === 'fault'
        ? ([0, 10] as const)
        : (warmthOf(body, beside, key) ??
          WHOLE[key] ??
          UNITS.find(([ending]) => key.endsWith(ending))?.[3]);
  const value = figureTyped(text, field, units);
  if (key.endsWith('_W')) return value === undefined ? unread(text, ACCEPTED.power) : undefined;
  if (key in WHOLE && value !== undefined && !Number.isInteger(value))
    return unread(text, 'a whole number');
  if (value === 0 && mustBe(body, field)) return unread(text, 'a volume over nought');
  if (value !== undefined && (!bounds || (value >= bounds[0] && value <= bounds[1])))
    return undefined;
  return unread(text, bounds ? accepted(bounds, field, units) : 'a number');
}

function accepted(bounds: Bounds, field: Editable, units: Units): string {
  const whole = Number.isInteger(bounds[0]) && Number.isInteger(bounds[1]);
  const decimals = whole ? 0 : 2;
  // Ends in another unit are rounded inwards: what the sentence names is accepted.
  const HAIR = 1e-9;
  const inward = [Math.ceil, Math.floor] as const;
  const [low, high] = bounds.map((bound, end) => {
    const us = units === 'us' ? inUs(bound, field.unit, 0) : undefined;
    return us ? inward[end]!(us.value + (end === 0 ? -HAIR : HAIR)) : bound;
  }) as [number, number];
  const unit = unitOfField(field.unit, units);
  const span =
    units === 'us' && unit !== field.unit
      ? [low, high].map((x) => printed(x, 0)).join(' to ')
      : range(low, high, decimals);
  return `${span} ${unit}`.trim();
}
