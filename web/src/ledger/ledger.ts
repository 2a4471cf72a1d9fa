// The ledger as rows: the account of what was measured, the plan beside it, the lots with what is
// left of them, and all of it as CSV. Uncertainties are told as half an 80 % band.
import type { Batch, Lot, Plan } from '../data/answers';
import { BAND_80, sum } from '../batch/stream';
import type { Why } from '../parts/Figure.svelte';

type Account = Batch['account'];

export interface StepRow {
  stage: string;
  what: string;
  in: number;
  out: number;
  named: { what: string; litres: number }[];
  gap: number; // unaccounted for
  doubt: number; // half its 80 % band
  telling: boolean;
  why: Why;
}

export function stepRows(account: Account): StepRow[] {
  return account.map((step) => ({
    stage: step.stage,
    what: step.what,
    in: step.in.pure_alcohol_L_20C,
    out: step.out.pure_alcohol_L_20C,
    named: step.named.map((loss) => ({ what: loss.what, litres: loss.pure_alcohol_L_20C })),
    gap: step.unaccounted.pure_alcohol_L_20C,
    doubt: step.unaccounted.standard_L_20C * BAND_80,
    telling: step.telling,
    why: step.why,
  }));
}

export interface BesideRow {
  stage: string;
  planned_in?: number;
  planned_out?: number;
  in?: number;
  out?: number;
  out_doubt?: number;
}

const STAGES = ['Mash', 'Ferment', 'Strip', 'Spirit run', 'Reduce', 'Wood', 'Bottle'];

/** Planned beside measured, stage by stage. The plan's spirit run ends in hearts; so does ours. */
export function besidePlan(batch: Batch, plan: Plan | undefined): BesideRow[] {
  return STAGES.flatMap((stage) => {
    const planned = plan?.ledger.stages.find((s) => s.stage === stage);
    const steps = batch.account.filter((step) => step.stage === stage.toLowerCase());
    const row: BesideRow = { stage };
    if (planned) {
      row.planned_in = planned.in_pure_alcohol_L;
      row.planned_out = planned.out_pure_alcohol_L;
    }
    const { wash } = batch.ferment;
    if (stage === 'Ferment' && wash) row.out = wash.pure_alcohol_L_20C;
    if (steps.length > 0) {
      row.in = sum(steps.map((s) => s.in)).litres;
      const out = sum(steps.map((s) => s.out));
      row.out = out.litres;
      row.out_doubt = out.doubt;
    }
    if (stage === 'Spirit run' && steps.length > 0) {
      const hearts = batch.lots.filter((lot) => lot.lot.kind === 'hearts');
      delete row.out;
      delete row.out_doubt;
      if (hearts.length > 0) {
        row.out = hearts.reduce((all, lot) => all + lot.made.pure_alcohol_L_20C, 0);
      }
    }
    return planned || steps.length > 0 || row.out !== undefined ? [row] : [];
  });
}

export interface LotRow {
  label: string;
  kind: string;
  at: string;
  made_L: number;
  made_percent: number;
  left_L: number;
  left_percent: number;
  left_pure_L: number;
  measured: boolean;
  why: Why;
  generation?: number;
}

/** What there is of each lot, those with something left first. */
export function lotRows(lots: readonly Lot[]): LotRow[] {
  const rows = lots.map((lot) => ({
    label: lot.label,
    kind: lot.lot.kind,
    at: lot.at,
    made_L: lot.made.volume_L_20C,
    made_percent: lot.made.strength_percent_vol,
    left_L: lot.left.volume_L_20C,
    left_percent: lot.left.strength_percent_vol,
    left_pure_L: lot.left.pure_alcohol_L_20C,
    measured: lot.measured,
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
    ],
    rows.map((row) => [
      row.stage,
      row.what,
      row.in,
      row.out,
      row.named.reduce((all, loss) => all + loss.litres, 0),
      row.gap,
      row.doubt,
      row.telling ? 'yes' : 'no',
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
      'left_L_20C',
      'left_percent_vol',
      'left_pure_alcohol_L_20C',
      'measured',
      'generation',
    ],
    rows.map((row) => [
      row.label,
      row.kind,
      row.at,
      row.made_L,
      row.made_percent,
      row.left_L,
      row.left_percent,
      row.left_pure_L,
      row.measured ? 'yes' : 'no',
      row.generation,
    ]),
  );
}
