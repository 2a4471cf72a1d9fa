// The ledger as rows: the account of what was measured, the plan beside it, the lots with what is
// left of them, and all of it as CSV. Uncertainties are told as half an 80 % band.
import { lotKey, type Batch, type Lot, type Plan } from '../data/answers';
import { BAND_80 } from '../gauge/calls';
import type { Why } from '../parts/Figure.svelte';
import { all, type Pure } from './pure';

type Account = Batch['account'];

export interface StepRow {
  step: Account[number]; // as the house told it
  stage: string;
  what: string;
  in: Pure;
  out: Pure;
  named: ({ what: string } & Pure)[];
  gap: Pure; // unaccounted for
  doubt: Pure; // half its 80 % band
  telling: boolean;
  why: Why;
}

const pureOf = (told: { pure_alcohol_L_20C: number; proof_gallons: number }): Pure => ({
  litres: told.pure_alcohol_L_20C,
  proof_gallons: told.proof_gallons,
});

export function stepRows(account: Account): StepRow[] {
  return account.map((step) => ({
    step,
    stage: step.stage,
    what: step.what,
    in: pureOf(step.in),
    out: pureOf(step.out),
    named: step.named.map((loss) => ({ what: loss.what, ...pureOf(loss) })),
    gap: pureOf(step.unaccounted),
    doubt: {
      litres: step.unaccounted.standard_L_20C * BAND_80,
      proof_gallons: step.unaccounted.standard_proof_gallons * BAND_80,
    },
    telling: step.telling,
    why: step.why,
  }));
}

export interface Whole {
  named: Pure;
  gap: Pure; // unaccounted for
  doubt: Pure; // half its 80 % band, at most
}

/**
 * Of all steps together. A gauging that ends one step and begins the next errs in both, once each way,
 * and so cancels; taken as one of its own in each, the doubt is rather too wide than too narrow.
 */
export function wholeOf(rows: readonly StepRow[]): Whole {
  const root = (key: keyof Pure) => Math.hypot(...rows.map((row) => row.doubt[key]));
  return {
    named: all(rows.flatMap((row) => row.named)),
    gap: all(rows.map((row) => row.gap)),
    doubt: { litres: root('litres'), proof_gallons: root('proof_gallons') },
  };
}

/** Strips that ended before their low wines were gauged: the account lacks them. "strip 2 of 3". */
export function notGauged(batch: Pick<Batch, 'runs'>): string[] {
  const strips = batch.runs.filter((run) => run.run === 'strip');
  return strips.flatMap((run, i) =>
    run.standing === 'ended' && !run.collected
      ? [strips.length > 1 ? `strip ${i + 1} of ${strips.length}` : 'the strip']
      : [],
  );
}

/** Wash that no step of the account has taken in yet. */
export type Held = 'waiting' | 'in_stills';

export interface BesideRow {
  stage: string;
  held?: Held; // what stands there is no stage of its own
  planned_in?: Pure;
  planned_out?: Pure;
  in?: Pure;
  out?: Pure;
  out_doubt?: Pure;
}

const STAGES = ['Mash', 'Ferment', 'Strip', 'Spirit run', 'Reduce', 'Wood', 'Bottle'];

const less = (whole: Pure, part: Pure): Pure => ({
  litres: whole.litres - part.litres,
  proof_gallons: whole.proof_gallons - part.proof_gallons,
});

/** From one lot of a stage into the next of it (reduced again, on to other wood): goes through once. */
function movedWithin(batch: Batch, steps: Account): Pure {
  const lots = batch.lots.filter((lot) => steps.some((step) => step.what === lot.label));
  const made = new Set(lots.map((lot) => lot.lot.entry));
  return all(
    lots.flatMap((lot) =>
      lot.uses
        .filter((use) => use.entry !== lot.lot.entry && made.has(use.entry))
        .map((use) => pureOf(use)),
    ),
  );
}

/** Labels of what was made of spirit off the wood: brought to bottling it counts there, not as reduced. */
function madeOfWooded(lots: Batch['lots']): Set<string> {
  const wooded = new Set<string>();
  const labels = new Set<string>();
  for (const lot of lots) {
    const of = lot.parents.some((parent) => wooded.has(lotKey(parent)));
    if (of || lot.wood) wooded.add(lotKey(lot.lot));
    if (of) labels.add(lot.label);
  }
  return labels;
}

/** The rest of the wash, so that what the ferment gave is found again: it waits, or is in a still. */
function heldRows(batch: Batch): BesideRow[] {
  const { wash } = batch.ferment;
  const row = (held: Held, stage: string): BesideRow[] =>
    wash?.[held] ? [{ stage, held, in: pureOf(wash[held]) }] : [];
  return [
    ...row('waiting', batch.closed ? 'Wash not charged' : 'Wash waiting in its vessel'),
    ...row(
      'in_stills',
      batch.closed ? 'Wash in runs never measured' : 'Wash in runs not measured yet',
    ),
  ];
}

/** Planned beside measured, stage by stage. The plan's spirit run ends in hearts; so does ours. */
export function besidePlan(batch: Batch, plan: Plan | undefined): BesideRow[] {
  const wooded = madeOfWooded(batch.lots);
  return STAGES.flatMap((stage) => {
    const planned = plan?.ledger.stages.find((s) => s.stage === stage);
    const steps = batch.account.filter(
      (step) =>
        step.stage === stage.toLowerCase() && !(stage === 'Reduce' && wooded.has(step.what)),
    );
    const row: BesideRow = { stage };
    if (planned) {
      row.planned_in = {
        litres: planned.in_pure_alcohol_L,
        proof_gallons: planned.in_proof_gallons,
      };
      row.planned_out = {
        litres: planned.out_pure_alcohol_L,
        proof_gallons: planned.out_proof_gallons,
      };
    }
    const { wash } = batch.ferment;
    if (stage === 'Ferment' && wash) row.out = pureOf(wash);
    if (steps.length > 0) {
      const within = movedWithin(batch, steps);
      row.in = less(all(steps.map((s) => pureOf(s.in))), within);
      row.out = less(all(steps.map((s) => pureOf(s.out))), within);
      const half = (sds: number[]) => BAND_80 * Math.hypot(...sds);
      row.out_doubt = {
        litres: half(steps.map((s) => s.out.standard_L_20C)),
        proof_gallons: half(steps.map((s) => s.out.standard_proof_gallons)),
      };
    }
    if (stage === 'Spirit run' && steps.length > 0) {
      const hearts = batch.lots.filter((lot) => lot.lot.kind === 'hearts');
      delete row.out;
      delete row.out_doubt;
      if (hearts.length > 0) row.out = all(hearts.map((lot) => pureOf(lot.made)));
    }
    const rows = planned || steps.length > 0 || row.out !== undefined ? [row] : [];
    return stage === 'Strip' ? [...rows, ...heldRows(batch)] : rows;
  });
}

export interface LotRow {
  lot: Lot; // as the house told it
  label: string;
  kind: string;
  at: string;
  /** As it was gauged when it was made; else as it was reckoned from its parts. */
  made_L: number;
  made_percent: number;
  made_pure: Pure;
  left_L: number;
  left_percent: number;
  left_pure: Pure;
  measured: boolean;
  by_parts: boolean; // what is told as made was not gauged
  why: Why;
  generation?: number;
}

/** What there is of each lot, those with something left first. */
export function lotRows(lots: readonly Lot[]): LotRow[] {
  const madeOf = (lot: Lot) => lot.gauged ?? lot.made;
  const rows = lots.map((lot) => ({
    lot,
    label: lot.label,
    kind: lot.lot.kind,
    at: lot.at,
    made_L: madeOf(lot).volume_L_20C,
    made_percent: madeOf(lot).strength_percent_vol,
    made_pure: pureOf(madeOf(lot)),
    left_L: lot.left.volume_L_20C,
    left_percent: lot.left.strength_percent_vol,
    left_pure: pureOf(lot.left),
    measured: lot.measured,
    by_parts: lot.reckoned === true && !lot.gauged,
    why: lot.why,
    ...(lot.generation === undefined ? {} : { generation: lot.generation }),
  }));
  return rows.sort((a, b) => Number(b.left_L > 0) - Number(a.left_L > 0));
}

type Cell = string | number | undefined;

/** Comma-separated, RFC 4180: a decimal point, quotes where they are needed, CRLF at line ends. */
export function csv(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const cell = (value: Cell) => {
    if (value === undefined) return '';
    if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
    // A table program would run a text that begins like a formula.
    const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

/** Proof gallons are those of 27 CFR 30.11: US gallons at 60 °F of half alcohol by volume. */
export function accountCsv(rows: readonly StepRow[]): string {
  return csv(
    [
      'stage',
      'step',
      'in_pure_alcohol_L_20C',
      'out_pure_alcohol_L_20C',
      'named_losses_L_20C',
      'unaccounted_L_20C',
      'unaccounted_half_80_percent_band_L_20C',
      'telling',
      'in_US_proof_gallons',
      'out_US_proof_gallons',
      'named_losses_US_proof_gallons',
      'unaccounted_US_proof_gallons',
      'unaccounted_half_80_percent_band_US_proof_gallons',
    ],
    rows.map((row) => [
      row.stage,
      row.what,
      row.in.litres,
      row.out.litres,
      all(row.named).litres,
      row.gap.litres,
      row.doubt.litres,
      row.telling ? 'yes' : 'no',
      row.in.proof_gallons,
      row.out.proof_gallons,
      all(row.named).proof_gallons,
      row.gap.proof_gallons,
      row.doubt.proof_gallons,
    ]),
  );
}

export function lotsCsv(rows: readonly LotRow[]): string {
  return csv(
    [
      'lot',
      'kind',
      'made_at',
      'made_L_20C',
      'made_percent_vol',
      'made_by',
      'left_L_20C',
      'left_percent_vol',
      'left_pure_alcohol_L_20C',
      'measured',
      'generation',
      'made_US_proof_gallons',
      'left_US_proof_gallons',
    ],
    rows.map((row) => [
      row.label,
      row.kind,
      row.at,
      row.made_L,
      row.made_percent,
      row.by_parts ? 'parts' : 'gauging',
      row.left_L,
      row.left_percent,
      row.left_pure.litres,
      row.measured ? 'yes' : 'no',
      row.generation,
      row.made_pure.proof_gallons,
      row.left_pure.proof_gallons,
    ]),
  );
}
