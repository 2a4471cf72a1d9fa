// What a batch needs next, read from the short line that the house tells of it, and from its lots
// once there are jars allotted. An order of the trade, no forecast: the furthest thing that was
// recorded decides. It says since when the batch has stood there.
import type { BatchLine, Lot } from '../data/answers';

export interface NextStep {
  what: string;
  slug?: string; // the stage where it is done; absent: the batch's own page
  since: string; // when the batch came to stand there
  standing: 'now' | 'waits' | 'done'; // now: a still is on, or stopped half way
}

type Lots = readonly Pick<Lot, 'batch' | 'lot' | 'left' | 'wood' | 'bottles' | 'at'>[];

const WORTH_L = 0.02; // less of a lot than this is what clings to its vessel

/** Lots: those of the house, as far as they are known; of this batch are those that name it. */
export function nextStep(line: BatchLine, lots: Lots = []): NextStep {
  if (line.closed) return { what: 'Closed', since: line.closed.at, standing: 'done' };
  const runs = line.runs;
  const on = runs.find((run) => run.standing === 'running');
  if (on) {
    return on.run === 'strip'
      ? { what: 'A strip is on: read it', slug: 'strip', since: on.at, standing: 'now' }
      : {
          what: 'The spirit run is on: read it',
          slug: 'spirit-run',
          since: on.at,
          standing: 'now',
        };
  }
  const stopped = runs.find((run) => run.standing === 'stopped');
  if (stopped) {
    return stopped.run === 'strip'
      ? { what: 'A strip is stopped: resume it', slug: 'strip', since: line.last, standing: 'now' }
      : {
          what: 'A spirit run is stopped: resume it',
          slug: 'spirit-run',
          since: line.last,
          standing: 'now',
        };
  }
  const since = line.last;
  const spirit = runs.filter((run) => run.run === 'spirit run');
  const uncut = spirit.find((run) => !run.allotted);
  if (uncut) return { what: 'Gauge and cut the jars', slug: 'jars', since, standing: 'waits' };
  if (spirit.length > 0) return afterTheCut(line, lots);
  if (runs.length > 0) {
    return { what: 'Strip on, or begin the spirit run', slug: 'strip', since, standing: 'waits' };
  }
  if (line.racked) return { what: 'Strip', slug: 'strip', since, standing: 'waits' };
  if (line.pitched) return { what: 'Read the ferment', slug: 'ferment', since, standing: 'waits' };
  if (line.planned) return { what: 'Mash day', slug: 'mash', since, standing: 'waits' };
  return { what: 'Write the mash bill', slug: 'mash-bill', since, standing: 'waits' };
}

function afterTheCut(line: BatchLine, lots: Lots): NextStep {
  const own = lots.filter((lot) => lot.batch === line.batch);
  const held = (kind: string) =>
    own.filter((lot) => lot.lot.kind === kind && lot.left.volume_L_20C > WORTH_L);
  const since = line.last;
  const last = (some: Lots) =>
    some
      .map((lot) => lot.at)
      .sort()
      .at(-1) ?? since;
  const hearts = held('hearts');
  if (hearts.length > 0 || own.length === 0) {
    return { what: 'Reduce the hearts', slug: 'reduce', since: last(hearts), standing: 'waits' };
  }
  const spirit = held('spirit');
  const wooded = spirit.filter((lot) => lot.wood);
  if (wooded.length > 0) {
    const slug = 'wood';
    return { what: 'On wood: draw a sample', slug, since: last(wooded), standing: 'waits' };
  }
  if (spirit.length > 0) {
    const what = 'Lay on wood, or bottle';
    return { what, slug: 'wood', since: last(spirit), standing: 'waits' };
  }
  return { what: 'All is in bottles: close the batch', since, standing: 'done' };
}

/** Batches in the order of a morning: stills that are on or stopped, then what waits, then the rest. */
export function inOrder<Line extends { next: NextStep }>(lines: readonly Line[]): Line[] {
  const rank = { now: 0, waits: 1, done: 2 };
  return [...lines].sort(
    (a, b) =>
      rank[a.next.standing] - rank[b.next.standing] || b.next.since.localeCompare(a.next.since),
  );
}
