// The plan's timeline laid on the calendar, with today on it. The plan counts its days from one; the
// first day is the one on which the mash was first told of. What was told stands beside what was
// planned, stage by stage: the plan is not moved by it.
import type { Batch, Plan } from '../data/answers';
import { midnightBefore, minutesAfter } from '../data/dates';

type Step = Plan['timeline']['steps'][number];
type Telling = Pick<Batch, 'mash' | 'ferment' | 'runs' | 'lots' | 'steps'>;

export interface StageSpan {
  stage: string;
  slug: string;
  plan_from_ms?: number;
  plan_to_ms?: number;
  told_from_ms?: number;
  told_to_ms?: number;
  /** whether now lies in the span of the plan, or before or after it */
  today: 'before' | 'in' | 'after';
}

export interface StepAt extends Step {
  from_ms?: number;
  to_ms?: number;
  done: boolean; // marked as done in the journal
}

const ms = (at: string) => Date.parse(at);

/** Midnight before day one, or undefined when nothing of the mash was told yet. */
export function dayOne(batch: Telling | undefined): number | undefined {
  if (!batch) return undefined;
  const told = [
    ...batch.steps.filter((step) => step.stage === 'mash').map((step) => step.at),
    ...batch.mash.temperatures.map((one) => one.at),
    ...batch.mash.waters.map((one) => one.at),
    ...batch.mash.worts.map((one) => one.at),
    ...(batch.ferment.pitch ? [batch.ferment.pitch.at] : []),
  ].map(ms);
  return told.length > 0 ? midnightBefore(Math.min(...told)) : undefined;
}

export function stepsAt(plan: Plan, batch: Telling | undefined, one = dayOne(batch)): StepAt[] {
  const done = new Set(batch?.steps.filter((s) => s.done).map((s) => s.step));
  return plan.timeline.steps.map((step) => ({
    ...step,
    done: done.has(step.what),
    ...(one === undefined
      ? {}
      : {
          from_ms: minutesAfter(one, step.start_min),
          to_ms: minutesAfter(one, step.start_min + step.length_min),
        }),
  }));
}

/** The steps by the plan's days, in their order. */
export function byDay(steps: readonly StepAt[]): { day: number; steps: StepAt[] }[] {
  const days = new Map<number, StepAt[]>();
  for (const step of steps) {
    const day = Math.floor(step.start_min / 1440) + 1;
    days.set(day, [...(days.get(day) ?? []), step]);
  }
  return [...days].sort(([a], [b]) => a - b).map(([day, of]) => ({ day, steps: of }));
}

/** The stages as spans: planned, told, and where today lies against the plan. */
export function spans(plan: Plan, batch: Telling | undefined, now_ms: number): StageSpan[] {
  const one = dayOne(batch);
  const names = [...new Set(plan.timeline.steps.map((step) => step.stage))];
  return names.map((stage) => {
    const steps = plan.timeline.steps.filter((step) => step.stage === stage);
    const span: StageSpan = { stage, slug: stage.toLowerCase().replace(' ', '-'), today: 'before' };
    if (one !== undefined) {
      span.plan_from_ms = minutesAfter(one, Math.min(...steps.map((s) => s.start_min)));
      span.plan_to_ms = minutesAfter(
        one,
        Math.max(...steps.map((s) => s.start_min + s.length_min)),
      );
      span.today =
        now_ms < span.plan_from_ms ? 'before' : now_ms > span.plan_to_ms ? 'after' : 'in';
    }
    const told = batch ? toldOf(stage, batch) : [];
    if (told.length > 0) {
      span.told_from_ms = Math.min(...told);
      span.told_to_ms = Math.max(...told);
    }
    return span;
  });
}

function toldOf(stage: string, batch: Telling): number[] {
  const runs = (kind: string) =>
    batch.runs
      .filter((run) => run.run === kind)
      .flatMap((run) => [run.at, ...run.readings.map((r) => r.at), run.ended?.at ?? run.at]);
  const lots = (fits: (lot: Batch['lots'][number]) => boolean) =>
    batch.lots.filter(fits).map((lot) => lot.at);
  switch (stage) {
    case 'Mash':
      return [
        ...batch.steps.filter((step) => step.stage === 'mash').map((step) => step.at),
        ...batch.mash.temperatures.map((t) => t.at),
        ...batch.mash.worts.map((w) => w.at),
      ].map(ms);
    case 'Ferment': {
      const { pitch, readings, racked } = batch.ferment;
      const all = [pitch, ...readings, racked].filter((told) => told !== undefined);
      return all.map((told) => ms(told.at));
    }
    case 'Strip':
      return runs('strip').map(ms);
    case 'Spirit run':
      return runs('spirit run').map(ms);
    case 'Jars':
      return batch.runs
        .flatMap((run) => [
          ...run.jars.flatMap((jar) => (jar.gauged ? [jar.gauged.at] : [])),
          ...(run.allotted ? [run.allotted.at] : []),
        ])
        .map(ms);
    case 'Reduce':
      return lots((l) => l.lot.kind === 'spirit' && !l.wood && l.parents.length > 0).map(ms);
    case 'Wood':
      return lots((l) => l.wood !== undefined).map(ms);
    case 'Bottle':
      return lots((l) => l.bottles !== undefined).map(ms);
    default:
      return [];
  }
}

/** Before which of the spans today's line is drawn: as many as its place from the first. */
export function placeOfToday(rows: readonly StageSpan[]): number | undefined {
  if (rows.every((row) => row.plan_from_ms === undefined)) return undefined;
  const next = rows.findIndex((row) => row.today !== 'after');
  return next < 0 ? rows.length : next;
}
