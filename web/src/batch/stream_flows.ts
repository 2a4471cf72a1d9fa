// What the alcohol stream is drawn from: places and the flows between them, and what the plan says
// leaves a stage, by its own yields.
import type { Plan } from '../data/answers';
import type { Flow, Place } from '../parts/stream_layout';
import { byPlan, type Trace, type TracedFlow } from './stream_whys';

export type Ledger = Plan['ledger'];

export interface Exit {
  kind: 'through' | 'lost' | 'held' | 'kept' | 'open' | 'in';
  name: string;
  litres: number;
  doubt?: number;
  traces?: Trace[]; // what the figure rests on
}

/** Of what stands before a stage, so much may be untold and the stage still counts as told whole. */
export const UNTOLD = 0.05;

const DRAWN_L = 0.0005;

export class Picture {
  readonly #places = new Map<string, Place>();
  readonly flows: TracedFlow[] = [];

  place(id: string, name = id, kind: Place['kind'] = 'through'): string {
    if (!this.#places.has(id)) this.#places.set(id, { id, name, kind });
    return id;
  }

  /** One flow for the same way, so that four strips are one band. */
  flow(flow: Flow & { traces?: Trace[] }): void {
    if (!(flow.litres > 0)) return;
    const same = this.flows.find(
      (f) => f.from === flow.from && f.to === flow.to && f.measured === flow.measured,
    );
    if (!same) {
      this.flows.push({ ...flow, traces: [...(flow.traces ?? [])] });
      return;
    }
    same.litres += flow.litres;
    same.traces.push(...(flow.traces ?? []));
    if (flow.doubt !== undefined) same.doubt = Math.hypot(same.doubt ?? 0, flow.doubt);
  }

  /** What leaves `from`: on to `to`, or to where losses and remainders stand together. */
  exit(from: string, to: string, lost: string, exit: Exit, measured: boolean): void {
    const way = {
      litres: exit.litres,
      measured,
      traces: exit.traces ?? [],
      ...(exit.doubt === undefined ? {} : { doubt: exit.doubt }),
    };
    if (exit.kind === 'in') this.flow({ from: this.place(exit.name), to: from, ...way });
    else if (exit.kind === 'through') this.flow({ from, to, ...way });
    else {
      const name = exit.kind === 'lost' ? lost : exit.name;
      this.flow({ from, to: this.place(name, name, exit.kind), ...way });
    }
  }

  /** An exit after the cut, where losses stand together and half a millilitre is not drawn. */
  late(from: string, exit: Exit, measured: boolean, to = ''): void {
    if (exit.litres > DRAWN_L) this.exit(from, to, 'Lost later', exit, measured);
  }

  /** The flows in the order of the places they come from; what comes in beside, before it is used. */
  get inOrder(): TracedFlow[] {
    const order = [...this.#places.keys()];
    const entering = new Set(this.flows.map((flow) => flow.to));
    const rank = (flow: Flow) =>
      entering.has(flow.from) || flow.from === order[0]
        ? order.indexOf(flow.from)
        : order.indexOf(flow.to) - 0.5;
    return this.flows.toSorted((a, b) => rank(a) - rank(b));
  }

  /** The places that something flows into or out of, in the order they were named. */
  get places(): Place[] {
    const used = new Set(this.flows.flatMap((flow) => [flow.from, flow.to]));
    return [...this.#places.values()].filter((p) => used.has(p.id));
  }
}

export const through = (exits: readonly Exit[]): number =>
  exits.reduce((sum, exit) => sum + (exit.kind === 'through' ? exit.litres : 0), 0);

/** By the plan's own yields, from as much as stands there: `have`, or what the plan foresaw. */
export function plannedAt(stage: string, ledger: Ledger, have: number | undefined): Exit[] {
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
  const trace = (what: string, planned_L: number) => [
    byPlan(stage, `${stage}, ${what}`, planned_L, whole.in_pure_alcohol_L, have),
  ];
  const exits: Exit[] = [
    {
      kind: 'through',
      name: '',
      litres: share * whole.out_pure_alcohol_L,
      traces: trace('what comes of it', whole.out_pure_alcohol_L),
    },
  ];
  for (const entry of entries) {
    const litres = share * entry.pure_alcohol_L;
    const traces = trace(entry.name, entry.pure_alcohol_L);
    const name = entry.name.charAt(0).toUpperCase() + entry.name.slice(1);
    if (entry.flow === 'lost') exits.push({ kind: 'lost', name: '', litres, traces });
    else if (entry.flow === 'kept') exits.push({ kind: 'held', name, litres, traces });
    else if (entry.flow === 'in')
      exits.push({ kind: 'in', name, litres: entry.pure_alcohol_L, traces });
    else if (entry.name !== 'in bottles')
      exits.push({ kind: 'kept', name: REMAINDER, litres, traces });
  }
  return exits;
}

export const REMAINDER = 'Samples, remainder';

/** Half an 80 % band, of a standard deviation. */
export const BAND_80 = 1.2815515655446004;
