// The lots of the house as they stand with what is only on this device as yet: low wines of a strip
// that was ended here, and less of what was charged or taken here. The true figures are the house's; until it
// has told them a lot that was gauged here stands as it was read. Pure.
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

function lowWines(entry: Entry, lot: LotName, read: Read): Lot {
  const figures = figuresOf(read);
  return {
    entry: entry.id,
    at: new Date(Date.parse(entry.at) - entry.clock_ahead_ms).toISOString(),
    ...(entry.batch === undefined ? {} : { batch: entry.batch }),
    lot,
    label: `low wines of ${timeOfDay(Date.parse(entry.at))}, ${AS_READ}`,
    made: figures,
    left: figures,
    measured: true,
    parents: [],
    uses: [],
    why: {
      what: `Low wines, ${AS_READ}`,
      inputs: [],
      model: 'Volume and alcoholmeter as they were read; the house makes them true.',
      source: 'the entry that waits on this device',
    },
  };
}

/** What waits, laid upon what the house tells; an entry the house has told of already is passed over. */
export function lotsAsTold(lots: readonly Lot[], waiting: readonly Entry[]): Lot[] {
  const all = [...lots];
  const known = new Set(lots.flatMap((lot) => [lot.entry, ...lot.uses.map((use) => use.entry)]));
  const find = (name: LotName) => all.findIndex((lot) => lotKey(lot.lot) === lotKey(name));
  const take = (parts: readonly LotPart[]) => {
    for (const { lot: name, volume_L_20C } of parts) {
      const i = find(name);
      if (i < 0) continue;
      const { left } = all[i]!;
      const share = left.volume_L_20C > 0 ? Math.max(0, 1 - volume_L_20C / left.volume_L_20C) : 0;
      all[i] = {
        ...all[i]!,
        left: {
          ...left,
          volume_L_20C: left.volume_L_20C * share,
          pure_alcohol_L_20C: left.pure_alcohol_L_20C * share,
          mass_kg: left.mass_kg * share,
          proof_gallons: left.proof_gallons * share,
        },
      };
    }
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
      take((body['lots'] as LotPart[] | undefined) ?? []);
    } else if (entry.kind === 'lot taken') {
      take([{ lot: body['lot'] as LotName, volume_L_20C: Number(body['volume_L_20C']) }]);
    }
  }
  return all;
}
