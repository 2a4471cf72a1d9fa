// The alcohol stream of a batch, from sugar to bottle: measured where the journal has it, and from
// there on by the yields of the plan. A picture, so losses stand together; the ledger names each.
//
// Measured: the wash by its gravities once it is racked or charged, strips and spirit run by the
// account, the cut by its lots, and after the cut what became of those lots (stream_later.ts). Of a
// stage that is only half told (two strips of four) the rest is planned.
import type { AccountStep, Batch } from '../data/answers';
import type { Place } from '../parts/stream_layout';
import {
  BAND_80,
  Picture,
  plannedAt,
  through,
  UNTOLD,
  type Exit,
  type Ledger,
} from './stream_flows';
import { later } from './stream_later';
import {
  byDifference,
  byGap,
  byLoss,
  byLot,
  byFigure,
  byPlan,
  byRest,
  byStep,
  byWash,
  type Trace,
  type TracedFlow,
} from './stream_whys';

export { BAND_80 } from './stream_flows';
export type Told = Pick<Batch, 'account' | 'lots' | 'ferment' | 'runs'>;

/** Each stage as far as the cut, with where it takes from and what stands at its end. */
const CHAIN = [
  { stage: 'Mash', from: 'sugar', to: 'wort', lost: 'Lost before the still' },
  { stage: 'Ferment', from: 'wort', to: 'wash', lost: 'Lost before the still' },
  { stage: 'Strip', from: 'wash', to: 'low wines', lost: 'Lost at the still' },
  { stage: 'Spirit run', from: 'low wines', to: 'hearts', lost: 'Lost at the still' },
] as const;

const PLACES = [
  ['sugar', 'Grain and sugar'],
  ['wort', 'Wort'],
  ['wash', 'Wash'],
  ['low wines', 'Low wines'],
  ['jars', 'In jars'],
  ['hearts', 'Hearts'],
  ['reduced', 'Reduced'],
  ['wood', 'Wood'],
] as const;

export interface AlcoholStream {
  places: Place[];
  flows: TracedFlow[];
}

export function streamOf(ledger: Ledger | undefined, told: Told | undefined): AlcoholStream {
  const picture = new Picture();
  for (const [id, name] of PLACES) picture.place(id, name);
  picture.place('bottles', 'Bottles', 'kept');
  let have: number | undefined; // litres that stand before the stage, once known
  const told_at = CHAIN.map(({ stage }) => (told ? measuredAt(stage, told) : undefined));
  for (const [i, { stage, from, to, lost }] of CHAIN.entries()) {
    const measured = told_at[i];
    const rest = (have ?? 0) - (measured?.taken ?? 0);
    // Once the next stage has begun, what was not taken is no longer to come.
    const over = told_at.slice(i + 1).some((later) => later !== undefined);
    const more = measured === undefined || (!over && have !== undefined && rest > UNTOLD * have);
    if (!more && have !== undefined && Number.isFinite(rest)) {
      const traces = [byRest(have, measured.taken)];
      picture.exit(from, to, lost, gap(rest, traces), true);
    }
    const planned = more && ledger ? plannedAt(stage, ledger, measured ? rest : have) : [];
    for (const exit of measured?.exits ?? []) picture.exit(from, to, lost, exit, true);
    for (const exit of planned) picture.exit(from, to, lost, exit, false);
    const on = through([...(measured?.exits ?? []), ...planned]);
    if (stage === 'Ferment' && measured && have !== undefined) {
      // The wash is measured, the wort is not: what it became besides is the plan's word.
      const traces = [byDifference(have, on)];
      picture.exit(from, to, lost, { kind: 'lost', name: '', litres: have - on, traces }, false);
    }
    if (measured?.inJars) {
      const { litres } = measured.inJars;
      picture.flow({ from, to: 'jars', ...measured.inJars, measured: true });
      const cut = ledger ? plannedCut(ledger, litres) : [];
      for (const exit of cut) picture.exit('jars', to, lost, exit, false);
      have = through(cut);
    } else if (on > 0) have = on;
  }
  later(picture, ledger, told?.lots ?? [], told?.account ?? [], have);
  return { places: picture.places, flows: picture.inOrder };
}

/** What is missing leaves; what was found more comes in from beside, so that the picture closes. */
const gap = (litres: number, traces: Trace[], doubt?: number): Exit => ({
  kind: litres < 0 ? 'in' : 'open',
  name: litres < 0 ? 'Found more' : 'Unaccounted for',
  litres: Math.abs(litres),
  ...(doubt === undefined ? {} : { doubt }),
  traces,
});

const STAGES_OF: Record<string, string> = { Strip: 'strip', 'Spirit run': 'spirit run' };

interface Measured {
  taken: number; // litres of what stood before the stage
  exits: Exit[];
  inJars?: { litres: number; doubt: number; traces: Trace[] }; // not cut yet
}

function measuredAt(stage: string, told: Told): Measured | undefined {
  // Until it is racked or charged the wash ferments on: its alcohol so far is no end.
  const fermented = told.ferment.racked !== undefined || told.runs.length > 0;
  if (stage === 'Ferment' && told.ferment.wash && (fermented || told.account.length > 0)) {
    const litres = told.ferment.wash.pure_alcohol_L_20C;
    const traces = [byWash(told.ferment)];
    return { taken: Infinity, exits: [{ kind: 'through', name: '', litres, traces }] };
  }
  const own = STAGES_OF[stage];
  const steps = own ? told.account.filter((step) => step.stage === own) : [];
  const cut = stage === 'Spirit run' ? cutOf(told) : [];
  if (steps.length === 0 && cut.length === 0) return undefined;
  const ran = {
    ...sum(steps.map((step) => step.out)),
    traces: steps.map((step) => byStep(step, 'out', told.runs)),
  };
  const exits: Exit[] =
    stage === 'Strip'
      ? [{ kind: 'through', name: '', ...ran }]
      : [...feintsPutIn(told, steps), ...cut];
  for (const step of steps) {
    for (const loss of step.named)
      exits.push({ kind: 'lost', name: '', ...litresOf(loss), traces: [byLoss(step, loss)] });
  }
  const open = sum(steps.map((step) => step.unaccounted));
  exits.push(gap(open.litres, steps.map(byGap), open.doubt));
  if (stage === 'Strip') return { taken: sum(steps.map((step) => step.in)).litres, exits };
  // A spirit run takes feints as well; what is left of the low wines stands in its own lot.
  return { taken: Infinity, exits, ...(cut.length > 0 ? {} : { inJars: ran }) };
}

/** What went into the charge beside the low wines of the batch. */
function feintsPutIn(told: Told, steps: readonly AccountStep[]): Exit[] {
  const runs = new Set(told.runs.map((run) => run.entry));
  const lowWines = told.lots
    .filter((lot) => lot.lot.kind === 'low wines')
    .flatMap((lot) => lot.uses)
    .filter((use) => use.where === 'charge' && runs.has(use.entry))
    .reduce((all, use) => all + use.pure_alcohol_L_20C, 0);
  const charged = sum(steps.map((step) => step.in));
  const litres = charged.litres - lowWines;
  if (lowWines === 0 || litres < charged.doubt) return [];
  const traces = [
    ...steps.map((step) => byStep(step, 'in', told.runs)),
    byFigure('Of that, low wines of this batch', lowWines),
  ];
  return [{ kind: 'in', name: 'Feints put in', litres, doubt: charged.doubt, traces }];
}

/** What ran over in a spirit run, by the lots that were made of its jars; nothing before the cut. */
function cutOf(told: Told): Exit[] {
  const cuts = new Set(told.runs.flatMap((run) => (run.allotted ? [run.allotted.entry] : [])));
  const made = (kind: string) => {
    const lots = told.lots.filter((lot) => lot.lot.kind === kind && cuts.has(lot.lot.entry));
    return {
      litres: lots.reduce((all, lot) => all + lot.made.pure_alcohol_L_20C, 0),
      traces: lots.map(byLot),
    };
  };
  const hearts = made('hearts');
  if (hearts.litres === 0) return [];
  return [
    { kind: 'through', name: '', ...hearts },
    { kind: 'held', name: 'Feints kept', ...made('feints') },
    { kind: 'held', name: 'Set apart', ...made('apart') },
    { kind: 'lost', name: '', ...made('foreshots') },
  ];
}

const CUT: Partial<Record<Exit['kind'], string>> = { through: 'Hearts', lost: 'Set away' };

/** How the plan would cut what stands in jars: its shares, without what never came over. */
function plannedCut(ledger: Ledger, litres: number): Exit[] {
  const cut = plannedAt('Spirit run', ledger, undefined).filter(
    (exit) => exit.kind === 'through' || exit.kind === 'held',
  );
  const away = ledger.entries
    .filter((e) => e.stage === 'Spirit run' && e.name.endsWith('set away'))
    .reduce((all, e) => all + e.pure_alcohol_L, 0);
  const exits: Exit[] = [...cut, { kind: 'lost', name: '', litres: away }];
  const whole = exits.reduce((all, exit) => all + exit.litres, 0);
  return exits.map((exit) => ({
    ...exit,
    litres: (litres * exit.litres) / whole,
    traces: [byPlan('Spirit run', exit.name || (CUT[exit.kind] ?? ''), exit.litres, whole, litres)],
  }));
}

type Pure = AccountStep['in'];
const litresOf = (pure: Pure) => ({
  litres: pure.pure_alcohol_L_20C,
  doubt: pure.standard_L_20C * BAND_80,
});

export function sum(pures: readonly Pure[]): { litres: number; doubt: number } {
  return {
    litres: pures.reduce((all, p) => all + p.pure_alcohol_L_20C, 0),
    doubt: Math.hypot(...pures.map((p) => p.standard_L_20C)) * BAND_80,
  };
}
