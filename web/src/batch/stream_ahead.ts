// The alcohol stream that is still ahead after the cut: what stands in each place goes on by the
// yields of the plan. A stage that the plan does not have is passed by.
import { byFigure, byMove } from './stream_whys';
import { plannedAt, through, type Exit, type Ledger, type Picture } from './stream_flows';

/** Litres of pure alcohol that stand there now, or are expected to. */
export interface Stands {
  hearts: number;
  reduced: number;
  off_wood: number;
  on_wood: number;
  laid_on_wood: number; // what lies there now was so much when it was laid, with what topped it up
}

export function ahead(picture: Picture, ledger: Ledger, stands: Stands): void {
  const plans = (stage: string) => ledger.stages.some((one) => one.stage === stage);
  const draw = (from: string, to: string, exits: readonly Exit[]): number => {
    for (const one of exits) picture.late(from, one, false, to);
    return through(exits);
  };
  const { hearts, reduced } = stands;
  let sources: [string, number][];
  if (plans('Reduce')) {
    const more = draw('hearts', 'reduced', plannedAt('Reduce', ledger, hearts));
    sources = [['reduced', reduced + more]];
  } else
    sources = [
      ['hearts', hearts],
      ['reduced', reduced],
    ];
  let wood = stands.off_wood;
  if (plans('Wood')) {
    let laid = 0;
    for (const [from, litres] of sources) {
      const traces = [byMove('Stands there, to be laid on wood whole', litres)];
      picture.late(from, { kind: 'through', name: '', litres, traces }, false, 'wood');
      laid += litres;
    }
    sources = [];
    // The plan is of what was laid on wood; of its samples those that were drawn are not ahead.
    const drawn = stands.laid_on_wood - stands.on_wood;
    const exits = plannedAt('Wood', ledger, laid + stands.laid_on_wood)
      .filter((one) => one.kind !== 'through')
      .map((one) =>
        one.kind === 'kept'
          ? {
              ...one,
              litres: Math.max(0, one.litres - drawn),
              traces: [...(one.traces ?? []), byFigure('Of the samples, drawn already', drawn)],
            }
          : one,
      );
    draw('wood', '', exits);
    wood += laid + stands.on_wood - exits.reduce((all, one) => all + one.litres, 0);
  } else wood += stands.on_wood;
  sources.push(['wood', wood]);
  for (const [from, litres] of sources)
    if (litres > 0) draw(from, 'bottles', plannedAt('Bottle', ledger, litres));
}
