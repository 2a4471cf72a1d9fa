// What a reduction comes to, asked of the house: the lots poured together, the water for the whole way,
// and its steps; and, after mixing, what puts right what was read.
import type { LotFigures } from '../data/answers';
import type { Api } from '../data/api';
import type { StrengthRead, VolumeRead } from '../data/measured';
import { Problem } from '../data/problem';
import type { glassAsked } from '../data/settings.svelte';
import { truly, type Gauged, type Reduced } from '../gauge/calls';
import { pouredWith, type Part } from '../gauge/besides.svelte';
import { portions, strengthsBetween } from './steps';

type Calls = Pick<Api, 'post'>;

export interface Wanted {
  parts: readonly { volume_L_20C: number; strength_percent_vol: number | undefined }[];
  to_percent: number | undefined;
  water_at_C: number | undefined;
  steps: number;
  /** What goes in besides, as the request has it; undefined while it is not whole. */
  besides: Record<string, unknown> | undefined;
  part: Part | undefined; // the same as a volume of a strength
  /** Dissolved in what is poured, where its strength is what the alcoholmeter showed; else 0. */
  residue_g_L: number;
}

export interface Way {
  blend: LotFigures;
  /** Of what is poured, with what is dissolved in it. */
  percent: number;
  whole: Reduced | undefined;
  rows: { strength: number; water_kg: number; water_L: number; volume_L: number }[];
}

const reduction = (from: Pick<Way, 'blend' | 'percent'>, to: number, wanted: Wanted) => ({
  volume_L: from.blend.volume_L_20C,
  strength_percent_vol: from.percent,
  at_C: 20,
  to_percent_vol: to,
  ...(wanted.water_at_C === undefined ? {} : { water_at_C: wanted.water_at_C }),
  ...wanted.besides,
});

export async function wayDown(api: Calls, wanted: Wanted, stop: AbortSignal): Promise<Way> {
  const { parts, to_percent: strength, besides, part } = wanted;
  const blend = await api.post<LotFigures>('/blend', { parts }, stop);
  const percent = await truly(api, blend.strength_percent_vol, wanted.residue_g_L, stop);
  if (strength === undefined || besides === undefined || strength >= percent)
    return { blend, percent, whole: undefined, rows: [] };
  const reduced = (to: number) =>
    api.post<Reduced>('/reduce', reduction({ blend, percent }, to, wanted), stop);
  const whole = await reduced(strength);
  // All of what goes in besides goes in first; the steps begin where that leaves off.
  const from = part
    ? (await api.post<LotFigures>('/blend', pouredWith(blend, percent, part), stop))
        .strength_percent_vol
    : percent;
  const at = strengthsBetween(from, strength, wanted.steps);
  const told: Reduced[] = [];
  try {
    for (const one of at.slice(0, -1)) told.push(await reduced(one));
  } catch (fault) {
    if (!(fault instanceof Problem)) throw fault;
    at.splice(0, at.length - 1); // so near to it that there are no steps
    told.length = 0;
  }
  told.push(whole);
  const kg = portions(told.map((t) => t.water_kg));
  const litres = portions(told.map((t) => t.water_L));
  return {
    blend,
    percent,
    whole,
    rows: at.map((one, i) => ({
      strength: one,
      water_kg: kg[i]!,
      water_L: litres[i]!,
      volume_L: told[i]!.volume_L_20C,
    })),
  };
}

export interface Read {
  strength: StrengthRead;
  volume: VolumeRead | undefined; // read, it counts; else what the scale said
  poured_kg: number;
  glass: ReturnType<typeof glassAsked>;
}

/** A reduction with its check, and how well the glass told what was found. */
export interface Checked {
  reduced: Reduced;
  standard_percent_vol: number;
}

/** The reduction held against what was read after mixing. */
export async function mixed(
  api: Calls,
  from: Way & { whole: Reduced },
  to: number,
  wanted: Wanted,
  read: Read,
  stop: AbortSignal,
): Promise<Checked> {
  const { whole } = from;
  const gauged = await api.post<Gauged>(
    '/gauge',
    {
      ...read.strength,
      ...read.glass,
      ...(whole.residue_g_L === undefined ? {} : { residue_g_L: whole.residue_g_L }),
      ...(read.volume ? { volume_L: read.volume.volume_L } : {}),
    },
    stop,
  );
  const amount = gauged.lot
    ? { volume_L_20C: gauged.lot.volume_L_20C }
    : { mass_kg: whole.mass_kg + read.poured_kg - whole.water_kg };
  const found = { strength_percent_vol: gauged.strength_percent_vol, ...amount };
  const body = { ...reduction(from, to, wanted), found };
  const reduced = await api.post<Reduced>('/reduce', body, stop);
  return { reduced, standard_percent_vol: gauged.standard_percent_vol };
}
