// The lots of the house as they stand with what is only on this device as yet: low wines of a strip
// that was ended here, what was laid on wood here or came off it, bottles that were filled and labelled
// here, and less of what was charged, poured, bottled or taken here. The true figures are the house's; until it has told them a lot that was gauged
// here stands as it was read, and one that was poured together by its volumes. Pure.
import { lotKey, type Lot, type LotName } from './answers';
import type { Entry } from './entry';
import { timeOfDay } from './figures';
import type { LotPart } from './lot_parts';

interface Read {
  volume_L: number;
  reading: number;
  scale: string;
}

/** Volume and strength as an entry tells them; undefined where it does not tell both. */
function readOf(volume: unknown, strength: unknown): Read | undefined {
  const v = volume as { volume_L: number } | undefined;
  const s = strength as { reading: number; scale: string } | undefined;
  return v && s ? { volume_L: v.volume_L, reading: s.reading, scale: s.scale } : undefined;
}

/** Not yet true: of the volume and the strength as they were read. */
function figuresOf({ volume_L, reading, scale }: Read): Lot['left'] {
  const strength_percent_vol = scale === 'proof' ? reading / 2 : reading;
  const pure = (volume_L * strength_percent_vol) / 100;
  return {
    volume_L_20C: volume_L,
    strength_percent_vol,
    pure_alcohol_L_20C: pure,
    mass_kg: 0,
    proof_gallons: 0,
  };
}

const AS_READ = 'as read, not yet at home';

const atHome = (entry: Entry): string =>
  new Date(Date.parse(entry.at) - entry.clock_ahead_ms).toISOString();

function madeHere(
  entry: Entry,
  lot: LotName,
  made: Pick<Lot, 'label' | 'left' | 'measured' | 'parents'> & {
    model: string;
    wood?: Lot['wood'];
  },
): Lot {
  const { label, left, measured, parents, model, wood } = made;
  return {
    entry: entry.id,
    at: atHome(entry),
    ...(entry.batch === undefined ? {} : { batch: entry.batch }),
    lot,
    label,
    made: left,
    left,
    measured,
    parents,
    uses: [],
    ...(wood ? { wood } : {}),
    why: {
      what: `What is left of ${label}`,
      inputs: [],
      model,
      source: 'the entry that waits on this device',
    },
  };
}

const READ_HERE = 'Volume and alcoholmeter as they were read; the house makes them true.';
const LAID_HERE = 'So much of the lot that it was taken from, at that lot’s strength.';

const lowWines = (entry: Entry, lot: LotName, read: Read): Lot =>
  madeHere(entry, lot, {
    label: `low wines of ${timeOfDay(Date.parse(entry.at))}, ${AS_READ}`,
    left: figuresOf(read),
    measured: true,
    parents: [],
    model: READ_HERE,
  });

const part = ({ left }: Lot, share: number): Lot['left'] => ({
  ...left,
  volume_L_20C: left.volume_L_20C * share,
  pure_alcohol_L_20C: left.pure_alcohol_L_20C * share,
  mass_kg: left.mass_kg * share,
  proof_gallons: left.proof_gallons * share,
});

/** By their volumes: what mixing shrinks is left to the house. */
function together(a: Lot['left'], b: Lot['left']): Lot['left'] {
  const volume_L_20C = a.volume_L_20C + b.volume_L_20C;
  const pure = a.pure_alcohol_L_20C + b.pure_alcohol_L_20C;
  return {
    ...a,
    volume_L_20C,
    strength_percent_vol: volume_L_20C > 0 ? (100 * pure) / volume_L_20C : a.strength_percent_vol,
    pure_alcohol_L_20C: pure,
    mass_kg: a.mass_kg + b.mass_kg,
    proof_gallons: a.proof_gallons + b.proof_gallons,
  };
}

/** What waits, laid upon what the house tells; an entry the house has told of already is passed over. */
export function lotsAsTold(lots: readonly Lot[], waiting: readonly Entry[]): Lot[] {
  const all = [...lots];
  const known = new Set(lots.flatMap((lot) => [lot.entry, ...lot.uses.map((use) => use.entry)]));
  const find = (name: LotName) => all.findIndex((lot) => lotKey(lot.lot) === lotKey(name));
  /** Takes it out and tells what it is; undefined where the lot is not known. */
  const takeOut = (entry: Entry, where: string, from: LotPart): Lot['left'] | undefined => {
    const i = find(from.lot);
    if (i < 0) return undefined;
    const of = all[i]!;
    const there = of.left.volume_L_20C;
    const share = there > 0 ? Math.min(1, from.volume_L_20C / there) : 0;
    const out = part(of, share);
    const use = { entry: entry.id, at: atHome(entry), who: entry.who, where, ...out };
    all[i] = { ...of, left: part(of, 1 - share), uses: [...of.uses, use] };
    return out;
  };
  const take = (entry: Entry, where: string, parts: unknown) => {
    for (const one of (parts as LotPart[] | undefined) ?? []) takeOut(entry, where, one);
  };
  const fillWood = (entry: Entry) => {
    const { from, ...wood } = entry.body as unknown as { from: LotPart } & NonNullable<Lot['wood']>;
    const label = all[find(from.lot)]?.label;
    const left = takeOut(entry, 'wood', from);
    if (!left || label === undefined) return;
    all.push(
      madeHere(
        entry,
        { entry: entry.id, kind: 'spirit' },
        {
          label: `${label}, in ${wood.in}`,
          left,
          measured: false,
          parents: [from.lot],
          model: LAID_HERE,
          wood,
        },
      ),
    );
  };
  const emptyWood = (entry: Entry) => {
    const name = entry.body['lot'] as LotName;
    const read = readOf(entry.body['volume'], entry.body['strength']);
    const of = all[find(name)];
    if (!of || !read) return;
    takeOut(entry, 'off the wood', { lot: name, volume_L_20C: of.left.volume_L_20C });
    all.push(
      madeHere(
        entry,
        { entry: entry.id, kind: 'spirit' },
        {
          label: `${of.label}, off the wood, ${AS_READ}`,
          left: figuresOf(read),
          measured: true,
          parents: [name],
          model: READ_HERE,
        },
      ),
    );
  };
  const fillBottles = (entry: Entry) => {
    const { from, ...told } = entry.body as unknown as { from: LotPart } & NonNullable<
      Lot['bottles']
    > & { residue_g_L?: number };
    const label = all[find(from.lot)]?.label;
    takeOut(entry, 'bottles', from);
    if (label === undefined) return;
    const { bottles, size_L, strength_percent_vol, residue_g_L } = told;
    const reading = { volume_L: bottles * size_L, reading: strength_percent_vol, scale: '' };
    const made = madeHere(
      entry,
      { entry: entry.id, kind: 'bottles' },
      {
        label: `${label}, bottled`,
        left: figuresOf(reading),
        measured: true,
        parents: [from.lot],
        model: 'So many bottles of that size, at the strength that was told.',
      },
    );
    all.push({
      ...made,
      bottles: { bottles, size_L, strength_percent_vol },
      ...(residue_g_L === undefined ? {} : { residue_g_L }),
    });
  };
  const stateOnLabel = (entry: Entry) => {
    const { lot, ...label } = entry.body as unknown as { lot: LotName } & Omit<
      NonNullable<NonNullable<Lot['bottles']>['label']>,
      'at'
    >;
    const i = find(lot);
    const of = all[i];
    if (!of?.bottles) return;
    all[i] = { ...of, bottles: { ...of.bottles, label: { at: atHome(entry), ...label } } };
  };
  /** The new lot is told where it was read after mixing; else only the house knows it. */
  const pourTogether = (entry: Entry) => {
    const { body } = entry;
    take(entry, 'blend', body['parts']);
    const read = readOf(body['volume'], body['strength']);
    if (!read) return;
    all.push(
      madeHere(
        entry,
        { entry: entry.id, kind: 'spirit' },
        {
          label: `${String(body['name'])}, ${AS_READ}`,
          left: figuresOf(read),
          measured: true,
          parents: ((body['parts'] ?? []) as LotPart[]).map((one) => one.lot),
          model: READ_HERE,
        },
      ),
    );
  };
  const topUp = (entry: Entry) => {
    const name = entry.body['lot'] as LotName;
    const from = entry.body['from'] as LotPart;
    if (find(name) < 0) return;
    const poured = takeOut(entry, 'topping up', from);
    if (!poured) return;
    const of = all[find(name)]!;
    all[find(name)] = { ...of, left: together(of.left, poured) };
  };
  for (const entry of waiting) {
    if (entry.corrects !== undefined || known.has(entry.id)) continue;
    const { body } = entry;
    if (entry.kind === 'run ended' && entry.stage === 'strip') {
      const read = readOf(body['collected'], body['strength']);
      const name: LotName = { entry: entry.id, kind: 'low wines' };
      if (read && find(name) < 0) all.push(lowWines(entry, name, read));
    } else if (entry.kind === 'lot gauged') {
      const read = readOf(body['volume'], body['strength']);
      const name = body['lot'] as LotName;
      const i = find(name);
      if (!read) continue;
      if (i >= 0) all[i] = { ...all[i]!, left: figuresOf(read) };
      else if (name.kind === 'low wines') all.push(lowWines(entry, name, read));
    } else if (entry.kind === 'run begun') {
      take(entry, 'charge', body['lots']);
    } else if (entry.kind === 'lot taken') {
      take(entry, String(body['gone']), [body]);
    } else if (entry.kind === 'wood sampled') {
      take(entry, 'sample', [body]);
    } else if (entry.kind === 'lot made') {
      pourTogether(entry);
    } else if (entry.kind === 'bottled') {
      fillBottles(entry);
    } else if (entry.kind === 'labelled') {
      stateOnLabel(entry);
    } else if (entry.kind === 'wood filled') {
      fillWood(entry);
    } else if (entry.kind === 'wood topped') {
      topUp(entry);
    } else if (entry.kind === 'wood emptied') {
      emptyWood(entry);
    }
  }
  return all;
}
