// The stock of the house by whose it is, what became of a lot, and which of that is corrected here.
// Pure.
import { lotKey, type Lot } from '../data/answers';
import type { Units } from '../data/units';
import { pureWords } from '../ledger/pure';
import { dayAndTime, dayOf } from '../data/dates';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';
import type { ToldRow } from './told';

export interface LotGroup {
  name: string;
  lots: Lot[];
}

const OF_HOUSE = 'Of the house';

/** Lots by the batch that made them, in the order of their making; those of the house come first. */
export function stockOf(
  lots: readonly Lot[],
  batches: readonly { batch: string; name: string }[],
): LotGroup[] {
  const names = new Map(batches.map(({ batch, name }) => [batch, name]));
  const groups = new Map<string, Lot[]>();
  for (const lot of lots) {
    const name =
      lot.batch === undefined ? OF_HOUSE : names.get(lot.batch) || 'A batch without a name';
    groups.set(name, [...(groups.get(name) ?? []), lot]);
  }
  return [...groups]
    .map(([name, own]) => ({ name, lots: own }))
    .sort((a, b) => Number(b.name === OF_HOUSE) - Number(a.name === OF_HOUSE));
}

const OF_RUNS = ['low wines', 'foreshots', 'hearts', 'feints', 'apart'];

/**
 * What each lot is called, by its key: its label, and where several of one batch bear the same one, which
 * of them it is and its day. Those of runs are counted in the order they were run, used up or not.
 */
export function calledOf(lots: readonly Lot[], ahead_ms = 0, now_ms?: number): Map<string, string> {
  const alike = new Map<string, Lot[]>();
  for (const lot of lots) {
    const key = `${lot.batch ?? ''} ${lot.label}`;
    alike.set(key, [...(alike.get(key) ?? []), lot]);
  }
  const called = new Map<string, string>();
  for (const same of alike.values()) {
    const inTime = [...same].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
    inTime.forEach((lot, i) => {
      const at_ms = Date.parse(lot.at) + ahead_ms;
      const which = OF_RUNS.includes(lot.lot.kind)
        ? `, run ${i + 1}, ${dayOf(at_ms, now_ms)}`
        : `, ${dayAndTime(at_ms, now_ms)}`;
      called.set(lotKey(lot.lot), same.length > 1 ? lot.label + which : lot.label);
    });
  }
  return called;
}

/** The lot of a name, wherever it is. */
export const lotOf = (lots: readonly Lot[], key: string): Lot | undefined =>
  lots.find((lot) => lotKey(lot.lot) === key);

export const GONE = [
  { value: 'sample', label: 'a sample' },
  { value: 'tasted', label: 'tasted' },
  { value: 'spilt', label: 'spilt' },
  { value: 'destroyed', label: 'destroyed' },
  { value: 'given', label: 'given away' },
  { value: 'other', label: 'another reason' },
] as const;
export type Gone = (typeof GONE)[number]['value'];

/**
 * What can be told of a part that was taken out of a lot. Foreshots are not tasted: that is not offered,
 * and stands only where it was told before, so that a correction of the volume does not hide it.
 */
export const goneOf = (lot: Lot, told?: unknown): (typeof GONE)[number][] =>
  GONE.filter(
    ({ value }) => value !== 'tasted' || lot.lot.kind !== 'foreshots' || told === 'tasted',
  );

export const KINDS = [
  { value: 'feints', label: 'feints' },
  { value: 'low wines', label: 'low wines' },
  { value: 'spirit', label: 'spirit' },
  { value: 'hearts', label: 'hearts' },
  { value: 'foreshots', label: 'foreshots' },
  { value: 'apart', label: 'set apart' },
  { value: 'bottles', label: 'bottles' },
] as const;

/** Kinds of entry that a form of the stock corrects. */
export const STOCK_KINDS = ['lot brought', 'lot gauged', 'lot taken'] as const;

/** What became of a lot, the newest first; a first row tells how a lot that was brought came. */
export function usesOf(lot: Lot, ahead_ms = 0): ToldRow[] {
  const row = (told: { entry: string; at: string; who?: string }, body: ToldRow['body']) => ({
    entry: told.entry,
    at: told.at,
    at_ms: Date.parse(told.at) + ahead_ms,
    who: told.who ?? '',
    batch: lot.batch,
    stage: 'ledger' as const,
    kind: String(body['where']),
    body,
  });
  return [
    ...lot.uses
      .map((use) =>
        row(use, {
          where: use.where,
          mass_kg: use.mass_kg,
          pure_alcohol_L: use.pure_alcohol_L_20C,
          proof_gallons: use.proof_gallons,
        }),
      )
      .reverse(),
    row(lot, {
      where: 'came',
      mass_kg: lot.made.mass_kg,
      pure_alcohol_L: lot.made.pure_alcohol_L_20C,
      proof_gallons: lot.made.proof_gallons,
    }),
  ];
}

const PLACES: Record<string, string> = {
  came: 'came in',
  charge: 'into a run',
  blend: 'poured into another lot',
  wood: 'onto wood',
  bottles: 'into bottles',
  'topping up': 'to top up a lot on wood',
  'topped up': 'came in, topped up',
  sample: 'a sample',
  given: 'given away',
  other: 'gone for another reason',
};

/** "0.011 L pure", "0.006 proof gal" or "0.011 L pure (0.006 proof gal)", of a row. */
export const pureOf = ({ body }: ToldRow, units: Units): string =>
  pureWords(
    {
      litres: Math.abs(Number(body['pure_alcohol_L'])),
      proof_gallons: Math.abs(Number(body['proof_gallons'])),
    },
    units,
  );

/** "a sample: 0.011 L pure"; "gauged: 0.004 L pure more than reckoned". */
export function useWords(row: ToldRow, units: Units): string {
  const { body } = row;
  const pure_L = Number(body['pure_alcohol_L']);
  const where = String(body['where']);
  const pure = pureOf(row, units);
  if (where !== 'gauging') return `${PLACES[where] ?? where}: ${pure}`;
  return `gauged: ${pure} ${pure_L < 0 ? 'more' : 'less'} than reckoned`;
}

const ADDS = 'masses of ethanol and water add exactly';
const READ =
  'a volume at a mark to 1 %, one standard deviation, our estimate; a strength as the glass and thermometer of the kit read it, to 0.3 %vol where no kit says';
const GAUGED = 'OIML R 22 (1973), general formula; OIML R 44 (1985) for the instrument';

/** Of the pure alcohol that a row of a lot's history tells. */
export function whyUse(lot: Lot, row: ToldRow): Why {
  const where = String(row.body['where']);
  const mass_kg = Math.abs(Number(row.body['mass_kg']));
  const inputs = [
    {
      name: 'Told',
      value: row.who ? `${dayAndTime(row.at_ms)}, ${row.who}` : dayAndTime(row.at_ms),
    },
  ];
  const mass = { name: 'Its mass', value: `${printed(mass_kg, 3)} kg` };
  const before = {
    name: 'Strength of the lot as it was made',
    value: `${printed(lot.made.strength_percent_vol, 1)} %vol`,
  };
  if (where === 'gauging')
    return {
      what: `Pure alcohol at 20 °C by which the gauging of ${lot.label} is off what was reckoned`,
      inputs: [...inputs, { name: 'And by mass', value: `${printed(mass_kg, 3)} kg` }],
      model:
        'What the lot should have held, by what was made of it and taken out, less what volume and strength then told; from there on the lot is what was gauged.',
      source: GAUGED,
      band: READ,
    };
  if (where === 'came')
    return {
      what: `Pure alcohol at 20 °C in ${lot.label} as it was made`,
      inputs: [
        ...inputs,
        { name: 'Volume at 20 °C', value: `${printed(lot.made.volume_L_20C, 3)} L` },
        { name: 'Strength', value: before.value },
        mass,
        ...(lot.parents.length > 0
          ? [{ name: 'Of lots', value: printed(lot.parents.length) }]
          : []),
      ],
      model:
        'As it was told when the lot was made: by volume and strength where they were measured, else by what went together.',
      source: `the journal; ${GAUGED}; ${ADDS}`,
      band: READ,
    };
  const came = where === 'topped up';
  return {
    what: `Pure alcohol at 20 °C that ${came ? 'came into' : 'went out of'} ${lot.label}: ${PLACES[where] ?? where}`,
    inputs: [...inputs, mass, ...(came ? [] : [before])],
    model: came
      ? 'What was poured in, of the lot that it came from.'
      : 'The volume that was told, as a share of what the lot then held; so much of its ethanol and water went with it.',
    source: `the journal; ${ADDS}`,
    band: 'the volume to 1 %, one standard deviation, our estimate; the strength as uncertain as the lot’s',
  };
}

/** Whether such a row may be of a kind that is corrected here: its journal will say. */
export function mayCorrect(lot: Lot, row: ToldRow): boolean {
  const where = String(row.body['where']);
  if (where === 'came') return lot.parents.length === 0 && lot.measured;
  if (row.entry === lot.entry) return false; // as it was made
  return where === 'gauging' || GONE.some((gone) => gone.value === where);
}
