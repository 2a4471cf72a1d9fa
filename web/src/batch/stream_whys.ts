// What a flow of the alcohol stream rests on. Whatever makes a figure of the stream hands on a trace
// of it: readings and entries with their days, the house's account, or a stage of the plan; a flow
// that is drawn as one of several keeps all of theirs. Pure.
import type { AccountStep, Batch, Lot, Plan, Run } from '../data/answers';
import { dayAndTime } from '../data/dates';
import { printed } from '../data/figures';
import type { Why } from '../parts/Figure.svelte';
import type { Flow, Place } from '../parts/stream_layout';
import { NO_BAND } from '../mash_bill/uses';
import { gauged, input, stageReason, type Reason } from './plan_whys';

/** With a stage: what the plan says of that stage stands behind it as well. */
export type Trace = Reason & { stage?: string };
export interface TracedFlow extends Flow {
  traces: Trace[];
}

const DENSITY = 'OIML R 22 (1973), general formula';
const pureText = (litres: number) => `${printed(litres, 3)} L of pure alcohol`;
const told = (at: string, who?: string) => `${dayAndTime(at)}${who ? `, ${who}` : ''}`;
const ofPlan: Omit<Reason, 'inputs'> = {
  model: 'As the plan has it, stage by stage.',
  source: 'the plan',
  band: NO_BAND,
};

/** So much of what goes into a stage of the plan, laid on what stands before it, where that is known. */
export function byPlan(
  stage: string,
  what: string,
  planned_L: number,
  into_L: number,
  have_L: number | undefined,
): Trace {
  const inputs = [
    input(
      `${what}, in the plan`,
      `${printed(planned_L, 3)} L pure, of ${printed(into_L, 3)} L pure before it`,
    ),
  ];
  if (have_L === undefined) return { ...ofPlan, inputs, stage };
  return {
    inputs: [...inputs, input(`Stands before it, ${stage.toLowerCase()}`, pureText(have_L))],
    model: 'The plan’s yield of this stage, laid on what stands before it.',
    source: 'the plan',
    band: NO_BAND,
    stage,
  };
}

/** One more figure that went into it. */
export const byFigure = (what: string, litres: number): Trace => ({
  inputs: [input(what, pureText(litres))],
  model: '',
  source: '',
});

/** What the plan moves on as a whole. */
export const byMove = (what: string, litres: number): Trace => ({
  ...ofPlan,
  inputs: [input(what, pureText(litres))],
});

export const byRest = (stood_L: number, taken_L: number): Trace => ({
  inputs: [
    input('Stood before the stage', pureText(stood_L)),
    input('Taken in by it, in all', pureText(taken_L)),
  ],
  model: 'What stood there, less what the stage took in.',
  source: 'the difference of the two',
  band: 'none is reckoned: each figure has its own',
});

export const byDifference = (planned_L: number, measured_L: number): Trace => ({
  inputs: [
    input('Wort, by the plan or what was measured before', pureText(planned_L)),
    input('Wash, measured', pureText(measured_L)),
  ],
  model:
    'What the wort could have given, less what the wash holds: the one planned, the other read.',
  source: 'the difference of the two',
  band: 'none is reckoned: a plan’s figure is in it',
});

export const WASH_BAND =
  'the yield, 0.88 to 0.93 of the formula’s: −2 to +3 %; a gravity read to 0.001 is worth 0.2 %vol; our estimates';

/** The wash by its two gravities and its volume. */
export function byWash({ pitch, readings, racked, wash }: Batch['ferment']): Trace {
  const last = readings.filter((one) => one.specific_gravity !== undefined).at(-1);
  const inputs: Why['inputs'] = [];
  if (pitch)
    inputs.push(
      input(
        'Pitched',
        `${printed(pitch.specific_gravity, 4)}, ${printed(pitch.volume_L_20C, 1)} L; ${told(pitch.at, pitch.who)}`,
      ),
    );
  if (last)
    inputs.push(
      input(
        'Last gravity',
        `${printed(last.specific_gravity, 4)} by ${last.by_refractometer ? 'refractometer' : 'hydrometer'}; ${told(last.at, last.who)}`,
      ),
    );
  if (racked)
    inputs.push(
      input('Racked clear', `${printed(racked.clear_L_20C, 1)} L; ${told(racked.at, racked.who)}`),
    );
  if (wash)
    inputs.push(input('Strength that follows', `${printed(wash.strength_percent_vol, 2)} %vol`));
  return {
    inputs,
    model:
      'The fall of gravity by the mass balance of the yeast’s sugar, 0.90 of the formula’s alcohol reached, times the volume.',
    source:
      'NBS Circular 440 for gravity, OIML R 44 (1985) for the hydrometer; the share reached is our choice between published figures of 0.864 to 0.95',
    band:
      wash?.unread_days === undefined
        ? WASH_BAND
        : `${WASH_BAND}; racked ${printed(wash.unread_days, 1)} days after that gravity, so at least this`,
  };
}

type Runs = readonly Run[];

/** The run that a step of the account is about: "strip 2 of 4" is the second. */
function runOf(step: AccountStep, runs: Runs): Run | undefined {
  const number = Number(/ (\d+) of \d+$/.exec(step.what)?.[1] ?? 1);
  return runs.filter((run) => run.run === step.stage)[number - 1];
}

/** What a step of the account took in or gave. */
export function byStep(step: AccountStep, side: 'in' | 'out', runs: Runs): Trace {
  const run = runOf(step, runs);
  const litres = pureText(step[side].pure_alcohol_L_20C);
  const known = { source: `${DENSITY}, for each gauging`, band: step.why.band };
  if (run && side === 'in') {
    const wash = run.wash_L_20C !== undefined && run.lots.length === 0;
    const of = run.charge ? `${gauged(run.charge)}, ` : '';
    return {
      ...known,
      inputs: [input(`${step.what}, charged`, `${of}${litres}; ${told(run.at, run.who)}`)],
      model: wash
        ? 'Wash put in, by its volume and the strength of its two gravities.'
        : 'Lots put in, each by its volume and strength as gauged.',
    };
  }
  if (run) {
    const jars = run.jars.filter((jar) => jar.lot);
    const all = jars.length > 0 && jars.length === run.jars.length;
    const when = run.ended ? `; ${told(run.ended.at, run.ended.who)}` : '';
    const of = all
      ? `${jars.length} jars gauged, `
      : run.collected
        ? `${gauged(run.collected)}, `
        : '';
    return {
      ...known,
      inputs: [input(`${step.what}, came over`, `${of}${litres}${when}`)],
      model: all
        ? 'Each jar’s volume times its strength, summed.'
        : 'What came over, by its volume and its strength as read.',
    };
  }
  return {
    ...known,
    inputs: [input(`${step.what}, ${side === 'in' ? 'went in' : 'came out'}`, litres)],
    model:
      'Each lot’s volume times its strength: as gauged where it was, else reckoned from the lots it was poured of.',
  };
}

const NAMED: Record<string, Pick<Reason, 'model' | 'source'>> = {
  'left in the pot, by the spout’s last strength': {
    model:
      'The pot is taken to hold the liquid whose vapour has the spout’s last strength, an eighth weaker for what the head sends back.',
    source: 'boiling of ethanol and water at one atmosphere; the eighth is our estimate',
  },
  'soaked and evaporated': {
    model:
      'What was laid on wood and topped up, less the samples drawn and what came off it, each by its volume and strength.',
    source: DENSITY,
  },
};

/** A loss that the account has a name for. */
export function byLoss(step: AccountStep, loss: AccountStep['named'][number]): Trace {
  const known = NAMED[loss.what.replace("'", '’')];
  return {
    inputs: [input(`${step.what}, ${loss.what}`, pureText(loss.pure_alcohol_L_20C))],
    model: known?.model ?? 'Volume times strength, as gauged.',
    source: known?.source ?? DENSITY,
    band: step.why.band,
  };
}

/** What a step leaves unaccounted for: the house says why. */
export const byGap = (step: AccountStep): Trace => ({
  inputs: step.why.inputs.map(({ name, value }) => input(`${step.what}: ${name}`, value)),
  model: step.why.model,
  source: step.why.source,
  band: step.why.band,
});

/** A lot as it was made. */
export const byLot = (lot: Lot): Trace => ({
  inputs: [
    input(
      `${lot.label}, ${lot.reckoned ? 'by its parts' : 'gauged'}`,
      `${gauged(lot.made)}, ${pureText(lot.made.pure_alcohol_L_20C)}; ${told(lot.at, lot.who)}`,
    ),
  ],
  model: lot.reckoned
    ? 'Reckoned from what was poured together: masses of ethanol and water add exactly.'
    : 'Its volume times its strength, as gauged.',
  source: DENSITY,
  band: lot.why?.band,
});

const WENT: Record<string, string> = {
  blend: 'poured into another lot',
  bottles: 'into bottles',
  wood: 'laid on wood',
  charge: 'into a run',
  'topping up': 'to top up another lot on wood',
  gauging: 'less when gauged anew',
};

/** What was told to go out of a lot. */
export const byUse = (lot: Lot, use: Lot['uses'][number]): Trace => ({
  inputs: [
    input(
      use.pure_alcohol_L_20C < 0
        ? `Into ${lot.label}: ${use.where}`
        : `Out of ${lot.label}: ${WENT[use.where] ?? use.where}`,
      `${pureText(Math.abs(use.pure_alcohol_L_20C))}; ${told(use.at, use.who)}`,
    ),
  ],
  model: 'What was told to go out of a lot, at the strength of the lot it came from.',
  source: DENSITY,
  band: lot.why?.band,
});

/** What still stands in a lot. */
export const byLeft = (lot: Lot): Trace => ({
  inputs: [input(`Left of ${lot.label}`, pureText(lot.left.pure_alcohol_L_20C))],
  model: 'A lot as it was made, less all that was told to go out of it.',
  source: DENSITY,
  band: lot.why?.band,
});

const once = (texts: readonly (string | undefined)[]): string[] =>
  [...new Set(texts.filter((text) => text !== undefined && text !== ''))] as string[];

/** Inputs of one name stand apart by a number: each is one of several. */
export function numbered(inputs: Why['inputs']): Why['inputs'] {
  const seen = new Map<string, number>();
  return inputs
    .filter((one, i) => inputs.findIndex((o) => o.name === one.name && o.value === one.value) === i)
    .map(({ name, value }) => {
      const count = (seen.get(name) ?? 0) + 1;
      seen.set(name, count);
      return { name: count > 1 ? `${name} (${count})` : name, value };
    });
}

/** All the traces of a figure as one reason. */
export function joined(what: string, traces: readonly Trace[], plan?: Plan): Why {
  const stages = once(traces.map((trace) => trace.stage));
  const behind = plan ? stages.map((stage) => stageReason(plan, stage)) : [];
  const sources = once([
    ...traces.map((one) => (behind.length > 0 && one.source === 'the plan' ? '' : one.source)),
    ...behind.map((one) => one.source),
  ]);
  const told = once(traces.map((one) => one.band));
  // One that is told within another, and that there is none where there is one, add nothing.
  const bands = told.filter(
    (band) => !told.some((other) => other !== band && (other.includes(band) || band === NO_BAND)),
  );
  return {
    what,
    inputs: numbered([...traces, ...behind].flatMap((one) => one.inputs)),
    model: once([...traces, ...behind].map((one) => one.model)).join(' '),
    source: sources.join('; ') || 'the plan',
    ...(bands.length > 0 ? { band: bands.join('; ') } : {}),
  };
}

const named = (places: readonly Place[], id: string) =>
  (places.find((place) => place.id === id)?.name ?? id).toLowerCase();

/** Why one flow is as much as it is. */
export function whyOfFlow(flow: TracedFlow, places: readonly Place[], plan?: Plan): Why {
  const way = `from ${named(places, flow.from)} to ${named(places, flow.to)}`;
  return joined(
    `Pure alcohol at 20 °C, ${way}: ${flow.measured ? 'measured' : 'planned'}`,
    flow.traces,
    plan,
  );
}

/** The stream with a reason at each flow. */
export function withWhys(
  { places, flows }: { places: readonly Place[]; flows: readonly TracedFlow[] },
  plan?: Plan,
): { places: readonly Place[]; flows: Flow[] } {
  return {
    places,
    flows: flows.map((flow) => ({ ...flow, why: whyOfFlow(flow, places, plan) })),
  };
}
