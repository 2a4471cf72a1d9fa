// The alcohol stream of a batch, from sugar to bottle: measured where the journal has it, and from
// there on by the yields of the plan. A picture, so losses stand together; the ledger names each.
//
// Measured: the wash by its gravities, strips and spirit run by the account, the cut by its lots.
// Of a stage that is only half told (two strips of four) the rest is planned.
import type { AccountStep, Batch, Plan } from '../data/answers';
import type { Flow, Place } from '../parts/stream_layout';

type Told = Pick<Batch, 'account' | 'lots' | 'ferment'>;
type Ledger = Plan['ledger'];

/** Each stage with where it takes from and what stands at its end. */
const CHAIN = [
  { stage: 'Mash', from: 'sugar', to: 'wort', name: 'Wort' },
  { stage: 'Ferment', from: 'wort', to: 'wash', name: 'Wash' },
  { stage: 'Strip', from: 'wash', to: 'low wines', name: 'Low wines' },
  { stage: 'Spirit run', from: 'low wines', to: 'hearts', name: 'Hearts' },
  { stage: 'Reduce', from: 'hearts', to: 'reduced', name: 'Reduced' },
  { stage: 'Wood', from: 'reduced', to: 'matured', name: 'Wood' },
  { stage: 'Bottle', from: 'matured', to: 'bottles', name: 'Bottles' },
] as const;

export interface AlcoholStream {
  places: Place[];
  flows: Flow[];
}

export function streamOf(ledger: Ledger | undefined, told: Told | undefined): AlcoholStream {
  const flows: Flow[] = [];
  const places = new Map<string, Place>();
  const place = (name: string, kind: Place['kind']) => {
    if (!places.has(name)) places.set(name, { id: name, name, kind });
    return name;
  };
  places.set('sugar', { id: 'sugar', name: 'Grain and sugar', kind: 'through' });
  for (const { to, name } of CHAIN) {
    places.set(to, { id: to, name, kind: to === 'bottles' ? 'kept' : 'through' });
  }
  let have: number | undefined; // litres that stand before the stage, once known
  for (const link of CHAIN) {
    const measured = told ? measuredAt(link.stage, told) : undefined;
    const rest = (have ?? 0) - (measured?.taken ?? 0);
    const more = measured === undefined || (have !== undefined && rest > UNTOLD * have);
    const planned = more && ledger ? plannedAt(link.stage, ledger, measured ? rest : have) : [];
    const exits = [
      ...(measured?.exits ?? []).map((exit) => ({ ...exit, measured: true })),
      ...planned.map((exit) => ({ ...exit, measured: false })),
    ];
    const through = exits.filter((exit) => exit.kind === 'through');
    if (link.stage === 'Ferment' && measured && have !== undefined) {
      // The wash is measured, the wort is not: what it became besides is the plan's word.
      const lost = have - through.reduce((sum, exit) => sum + exit.litres, 0);
      exits.push({ kind: 'lost', name: '', litres: lost, measured: false });
    }
    for (const exit of exits) {
      const way = { litres: exit.litres, measured: exit.measured };
      const doubt = exit.doubt === undefined ? {} : { doubt: exit.doubt };
      if (exit.kind === 'in')
        add(flows, { from: place(exit.name, 'through'), to: link.from, ...way });
      else if (exit.kind === 'through')
        add(flows, { from: link.from, to: link.to, ...way, ...doubt });
      else {
        const name = exit.kind === 'lost' ? LOST[link.stage] : exit.name;
        add(flows, { from: link.from, to: place(name, exit.kind), ...way, ...doubt });
      }
    }
    if (through.length > 0) have = through.reduce((sum, exit) => sum + exit.litres, 0);
  }
  const used = new Set(flows.flatMap((flow) => [flow.from, flow.to]));
  return { places: [...places.values()].filter((p) => used.has(p.id)), flows };
}

/** Of what stands before a stage, so much may be untold and the stage still counts as told whole. */
const UNTOLD = 0.05;

const LOST: Record<(typeof CHAIN)[number]['stage'], string> = {
  Mash: 'Lost before the still',
  Ferment: 'Lost before the still',
  Strip: 'Lost at the still',
  'Spirit run': 'Lost at the still',
  Reduce: 'Lost later',
  Wood: 'Lost later',
  Bottle: 'Lost later',
};

interface Exit {
  kind: 'through' | 'lost' | 'held' | 'kept' | 'open' | 'in';
  name: string;
  litres: number;
  doubt?: number;
}

/** One flow for the same way, so that four strips are one band. */
function add(flows: Flow[], flow: Flow): void {
  if (!(flow.litres > 0)) return;
  const same = flows.find(
    (f) => f.from === flow.from && f.to === flow.to && f.measured === flow.measured,
  );
  if (!same) {
    flows.push(flow);
    return;
  }
  same.litres += flow.litres;
  if (flow.doubt !== undefined) same.doubt = Math.hypot(same.doubt ?? 0, flow.doubt);
}

/** By the plan's own yields, from as much as stands there: `have`, or what the plan foresaw. */
function plannedAt(stage: string, ledger: Ledger, have: number | undefined): Exit[] {
  const whole = ledger.stages.find((s) => s.stage === stage);
  if (!whole) return [];
  const entries = ledger.entries.filter((e) => e.stage === stage && e.pure_alcohol_L > 0);
  // What the mash bill brings in is the start, not something that comes in beside it.
  const beside = entries
    .filter((e) => e.flow === 'in')
    .reduce((sum, e) => sum + e.pure_alcohol_L, 0);
  const share =
    have === undefined || whole.in_pure_alcohol_L <= 0
      ? 1
      : (have + beside) / whole.in_pure_alcohol_L;
  const exits: Exit[] = [{ kind: 'through', name: '', litres: share * whole.out_pure_alcohol_L }];
  for (const entry of entries) {
    const litres = share * entry.pure_alcohol_L;
    const name = entry.name.charAt(0).toUpperCase() + entry.name.slice(1);
    if (entry.flow === 'lost') exits.push({ kind: 'lost', name: '', litres });
    else if (entry.flow === 'kept') exits.push({ kind: 'held', name, litres });
    else if (entry.flow === 'in') exits.push({ kind: 'in', name, litres: entry.pure_alcohol_L });
    else if (entry.name !== 'in bottles')
      exits.push({ kind: 'kept', name: 'Samples, remainder', litres });
  }
  return exits;
}

const STAGES_OF: Record<string, string> = { Strip: 'strip', 'Spirit run': 'spirit run' };

interface Measured {
  taken: number; // litres of what stood before the stage
  exits: Exit[];
}

function measuredAt(stage: string, told: Told): Measured | undefined {
  if (stage === 'Ferment' && told.ferment.wash) {
    const litres = told.ferment.wash.pure_alcohol_L_20C;
    return { taken: Infinity, exits: [{ kind: 'through', name: '', litres }] };
  }
  const own = STAGES_OF[stage];
  const steps = own ? told.account.filter((step) => step.stage === own) : [];
  if (steps.length === 0) return undefined;
  const exits = stage === 'Strip' ? outOf(steps) : cutOf(told, steps);
  for (const step of steps) {
    for (const loss of step.named) exits.push({ kind: 'lost', name: '', ...litresOf(loss) });
  }
  const gap = sum(steps.map((step) => step.unaccounted));
  if (gap.litres > 0) exits.push({ kind: 'open', name: 'Unaccounted for', ...gap });
  // A spirit run takes feints as well; what is left of the low wines stands in its own lot.
  const taken = stage === 'Strip' ? sum(steps.map((step) => step.in)).litres : Infinity;
  return { taken, exits };
}

const outOf = (steps: readonly AccountStep[]): Exit[] => [
  { kind: 'through', name: '', ...sum(steps.map((step) => step.out)) },
];

/** What ran over in a spirit run, by the lots that were made of its jars. */
function cutOf(told: Told, steps: readonly AccountStep[]): Exit[] {
  const made = (kind: string) =>
    told.lots
      .filter((lot) => lot.lot.kind === kind)
      .reduce((all, lot) => all + lot.made.pure_alcohol_L_20C, 0);
  const hearts = made('hearts');
  if (hearts === 0) return [{ kind: 'held', name: 'In jars', ...sum(steps.map((s) => s.out)) }];
  return [
    { kind: 'through', name: '', litres: hearts },
    { kind: 'held', name: 'Feints kept', litres: made('feints') },
    { kind: 'held', name: 'Set apart', litres: made('apart') },
    { kind: 'lost', name: '', litres: made('foreshots') },
  ];
}

type Pure = AccountStep['in'];
const litresOf = (pure: Pure) => ({
  litres: pure.pure_alcohol_L_20C,
  doubt: pure.standard_L_20C * BAND_80,
});

/** Half an 80 % band, of a standard deviation. */
export const BAND_80 = 1.2815515655446004;

export function sum(pures: readonly Pure[]): { litres: number; doubt: number } {
  return {
    litres: pures.reduce((all, p) => all + p.pure_alcohol_L_20C, 0),
    doubt: Math.hypot(...pures.map((p) => p.standard_L_20C)) * BAND_80,
  };
}
