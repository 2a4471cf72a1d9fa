// What lies on wood, for its page: the sampling calendar with what was drawn, the names of wood and
// toast, and the forecast's curve. Pure.
import type { Lot, Note, Tables, WoodForecast } from '../data/answers';
import { typed } from '../data/figures';
import { NAME_BYTES, tooLong, unread } from '../data/measured';
import { restated, type Units } from '../data/units';
import type { BandCurve } from '../parts/chart_data';

const DAY = 86_400_000;
/** A sample half a day early is that day's, as the house takes it. */
const EARLY = 0.5;

export interface Drawn {
  entry: string;
  day: number; // since it was laid
  volume_L_20C: number;
}

export interface SampleRow {
  day: number | undefined; // of the calendar; undefined: drawn besides
  standing: 'drawn' | 'not drawn' | 'due' | 'ahead';
  drawn: readonly Drawn[];
}

export interface Sampling {
  days: number; // on wood
  next_day: number | undefined; // of the calendar, counted from the filling
  due: boolean;
  in_ms: number; // until it is due; below nought when it was
  rows: readonly SampleRow[];
}

export const samplesOf = (lot: Lot): Drawn[] =>
  lot.uses
    .filter((use) => use.where === 'sample')
    .map((use) => ({
      entry: use.entry,
      day: Math.max(0, (Date.parse(use.at) - Date.parse(lot.at)) / DAY),
      volume_L_20C: use.volume_L_20C ?? 0,
    }));

export function samplingOf(
  filled_ms: number,
  now_ms: number,
  calendar: readonly number[],
  drawn: readonly Drawn[],
): Sampling {
  const on_wood_ms = Math.max(0, now_ms - filled_ms);
  const last = drawn.reduce((most, one) => Math.max(most, one.day), -Infinity);
  const next_day = calendar.find((day) => day > last + EARLY);
  const in_ms = (next_day ?? 0) * DAY - on_wood_ms;
  const due = next_day !== undefined && in_ms <= 0;
  // Each sample belongs to the last day of the calendar that had come.
  const belongs = (one: Drawn) => calendar.findLast((day) => day <= one.day + EARLY);
  const besides = drawn.filter((one) => belongs(one) === undefined);
  const rows: SampleRow[] = [
    ...besides.map((one) => ({ day: undefined, standing: 'drawn' as const, drawn: [one] })),
    ...calendar.map((day) => {
      const of = drawn.filter((one) => belongs(one) === day);
      const standing =
        of.length > 0
          ? ('drawn' as const)
          : next_day === undefined || day < next_day
            ? ('not drawn' as const)
            : day * DAY <= on_wood_ms
              ? ('due' as const)
              : ('ahead' as const);
      return { day, standing, drawn: of };
    }),
  ];
  return { days: Math.floor(on_wood_ms / DAY), next_day, due, in_ms, rows };
}

export interface InVessel {
  there_L: number;
  words: string;
  why: WoodForecast['why_air'];
}

/**
 * What the forecast has in the vessel today, where it is not what the journal says is left, and where
 * the rest went; undefined where both say the same to the digit that is shown.
 */
export function inVessel(
  forecast: WoodForecast,
  lot: Lot,
  small: (mL: number) => string,
): InVessel | undefined {
  const there_L = forecast.now.volume_L_20C.median;
  if (there_L.toFixed(2) === lot.left.volume_L_20C.toFixed(2)) return undefined;
  const gauged = lot.uses.some((use) => use.where === 'gauging');
  const gone_mL = 1000 * forecast.now.evaporated_L_20C.median;
  const soaked_mL = 1000 * forecast.soaked_L_20C;
  const went = [
    soaked_mL >= 0.5 ? `the wood drinks ${small(soaked_mL)} at once` : '',
    gone_mL >= 0.5 ? `the air has taken about ${small(gone_mL)}` : '',
  ].filter(Boolean);
  const words = gauged
    ? 'by the forecast, gone on with from its last gauging.'
    : `${went.join(', and ')}${went.length > 0 ? '' : 'by the forecast'}; the journal takes that off when it is gauged.`;
  return { there_L, words, why: forecast.why_air };
}

type Names = Pick<Tables, 'species' | 'toasts'>;
const nameIn = (list: readonly { id: string; name: string }[] | undefined, id: string) =>
  list?.find((one) => one.id === id)?.name ?? id;

interface Kind {
  species?: string;
  toast?: string;
  staves?: number;
  used_times?: number;
}
const TIMES = ['new', 'used once before', 'used twice before'];
const usedText = (times: number): string => TIMES[times] ?? `used ${times} times before`;

function kindText(kind: Kind, tables: Names | undefined, units: Units) {
  const toast = kind.toast && restated(nameIn(tables?.toasts, kind.toast), units);
  return [
    kind.species && nameIn(tables?.species, kind.species).replace(/,.*$/, ''),
    toast && toast[0]!.toLowerCase() + toast.slice(1),
    kind.staves ? `${kind.staves} ${kind.staves === 1 ? 'stave' : 'staves'}` : undefined,
    kind.used_times ? usedText(kind.used_times) : undefined,
  ];
}
const joined = (parts: readonly (string | undefined)[]) => parts.filter(Boolean).join(', ');

/** "American white oak, medium toast, 4 staves": by the names of the tables, without the Latin; other
    staves in the same vessel after it. */
export function woodText(
  wood: NonNullable<Lot['wood']>,
  tables: Names | undefined,
  units: Units = 'metric',
): string {
  return [
    joined([...kindText(wood, tables, units), wood.in === 'staves' ? undefined : wood.in]),
    ...(wood.besides ?? []).map((one) => joined(kindText(one, tables, units))),
  ]
    .filter(Boolean)
    .join('; with ');
}

/** One of the woods a forecast tells of, whose names are those of the tables already. */
export const setText = (set: WoodForecast['woods'][number], units: Units): string =>
  joined([...kindText(set, undefined, units), set.cask]);

/** Extract in per cent over days. */
/** Whether its course has a line to draw: on the first day it is one point, at nothing. */
export const hasCourse = ({ course }: Pick<WoodForecast, 'course'>): boolean =>
  course.length > 1 &&
  course.at(-1)!.days > course[0]!.days &&
  course.some((point) => 100 * point.extract_fraction.high >= 0.05);

export const curveOf = (forecast: WoodForecast): BandCurve => ({
  x: forecast.course.map((point) => point.days),
  middle: forecast.course.map((point) => 100 * point.extract_fraction.median),
  low: forecast.course.map((point) => 100 * point.extract_fraction.low),
  high: forecast.course.map((point) => 100 * point.extract_fraction.high),
});

/** The cask that others are held against, as makers of these units name its size. */
export const caskName = (units: Units): string =>
  `${{ metric: '200\u00a0L', us: '53\u00a0gal', both: '200\u00a0L (53\u00a0gal)' }[units]} cask`;

/** How long a 200 L cask takes, in the unit that a person would say it in. */
export function caskTime(years: number | undefined): { median: number | undefined; unit: string } {
  if (years === undefined) return { median: undefined, unit: 'years' };
  if (years < 0.25) return { median: years * 365.25, unit: 'days' };
  return years < 3 ? { median: years * 12, unit: 'months' } : { median: years, unit: 'years' };
}

/** Staves as they are typed. */
export interface StavesTexts {
  staves: string;
  species: string;
  toast: string;
  used: string; // how often they lay in spirit before; empty: not told
}
/** What a lot is laid into, as it is typed. */
export interface WoodTexts extends StavesTexts {
  in: string;
  besides: StavesTexts[];
}

export const MOST_BESIDES = 8;
export const noStaves = (): StavesTexts => ({ staves: '', species: '', toast: '', used: '' });
export const noWood = (): WoodTexts => ({ in: '', ...noStaves(), besides: [] });
/** Whether it is laid into glass: else a cask is named. */
export const inGlass = (texts: WoodTexts): boolean => ['', 'staves'].includes(texts.in.trim());

export const USED = [
  { value: '', label: 'not told' },
  { value: '0', label: 'no, it is new' },
  { value: '1', label: 'once' },
  { value: '2', label: 'twice' },
  { value: '3', label: 'three times or more' },
];

const STAVES = 'a whole number of staves, from 1 to 1000';
const someStaves = (text: string): boolean => {
  const count = typed(text);
  return count !== undefined && Number.isInteger(count) && count >= 1 && count <= 1000;
};

export function woodFaults(texts: WoodTexts): {
  in?: string;
  staves?: string;
  besides: (string | undefined)[];
} {
  const within =
    texts.in.trim() === ''
      ? 'Nothing was given; accepted: a cask’s name, or staves.'
      : tooLong(texts.in, NAME_BYTES);
  return {
    ...(within === undefined ? {} : { in: within }),
    ...(!inGlass(texts) || texts.staves.trim() === '' || someStaves(texts.staves)
      ? {}
      : { staves: unread(texts.staves, STAVES) }),
    besides: texts.besides.map((one) =>
      someStaves(one.staves) ? undefined : unread(one.staves, STAVES),
    ),
  };
}

const kindTyped = (texts: StavesTexts) => ({
  ...(texts.species ? { species: texts.species } : {}),
  ...(texts.toast ? { toast: texts.toast } : {}),
  ...(texts.used ? { used_times: Number(texts.used) } : {}),
});

/** The same as an entry tells it; undefined while something is at fault. */
export function woodTyped(texts: WoodTexts) {
  const faults = woodFaults(texts);
  if (faults.in || faults.staves || faults.besides.some(Boolean)) return undefined;
  const staves = inGlass(texts) ? typed(texts.staves) : undefined;
  return {
    in: texts.in.trim(),
    ...kindTyped(texts),
    ...(staves === undefined ? {} : { staves }),
    ...(texts.besides.length === 0
      ? {}
      : {
          besides: texts.besides.map((one) => ({ staves: typed(one.staves)!, ...kindTyped(one) })),
        }),
  };
}

const HOLDS = 'holds';
export const LEAK_RESULTS = [HOLDS, 'wept, and closed', 'leaks'] as const;
const LEAK = 'Leak test of ';

/** A leak test in words, which are kept as a note. */
export const leakNote = (cask: string, hours: number, result: string, remark: string): string =>
  `${LEAK}${cask}: water stood in it for ${hours} h; it ${result}.${remark ? ` ${remark}` : ''}`;

export const leakTests = (notes: readonly Note[]): Note[] =>
  notes.filter((note) => note.text?.startsWith(LEAK));

/** What was last seen of a cask; undefined when it was never tested. */
export const lastLeakTest = (notes: readonly Note[], cask: string): Note | undefined =>
  leakTests(notes)
    .filter((note) => note.text?.startsWith(`${LEAK}${cask.trim()}: `))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1);

export const leaks = (test: Note): boolean => test.text?.includes('; it leaks.') ?? false;
