// Where the pure alcohol is and where it went: places, and what flowed between them, laid out by
// d3-sankey. The layout is pure; the part draws it. Flows of nothing are left out of the picture and
// stay in the table.
import { sankey, sankeyJustify, sankeyLinkHorizontal } from 'd3-sankey';
import type { Why } from './Figure.svelte';

export interface Place {
  id: string;
  name: string; // "Low wines"
  /** through: goes on; kept: the aim; held: for next time; lost: gone; open: unaccounted for */
  kind: 'through' | 'kept' | 'held' | 'lost' | 'open';
}

export interface Flow {
  from: string;
  to: string;
  litres: number; // of pure alcohol
  doubt?: number | undefined; // ±
  measured: boolean; // else planned
  why?: Why | undefined;
}

export interface DrawnPlace extends Place {
  x: number;
  y: number;
  width: number;
  height: number;
  litres: number;
  last: boolean; // nothing goes on from here: its name stands to the left of it
}

/** Where the name of a place stands: its base line, and the end that x is. */
export interface Label {
  x: number;
  y: number;
  end: boolean;
}

/** Of the picture's small print, measured in Chromium: the least from line to line, and how wide a letter
 *  is on average at most (5.2 to 7.1). */
const LINE = 13;
const LETTER = 7.2;
/** Between names on one line. */
const APART = 6;

/** About how long a name is, rather too long; what the browser draws is measured there. */
export const lengthAbout = (text: string): number => LETTER * text.length;

/**
 * The names, above their places, or else as near to that as no other name stands. Lengths are those of what
 * is written at each place, in their order. No two stand on each other as long as there is room for all.
 */
export function labelled(
  places: readonly DrawnPlace[],
  lengths: readonly number[],
  height: number,
): Label[] {
  const taken: { from: number; to: number; y: number }[] = [];
  const right = Math.max(0, ...places.map((p) => p.x + p.width));
  return places.map((place, i) => {
    const long = lengths[i] ?? 0;
    // From its place on, where that ends within the picture; else back from it.
    const back = place.last || place.x + long > right;
    const x = !back ? place.x : Math.min(right, Math.max(place.x + place.width, long));
    const [from, to] = back ? [x - long, x] : [x, x + long];
    const free = (y: number) =>
      !taken.some((t) => Math.abs(t.y - y) < LINE && t.from < to + APART && from < t.to + APART);
    const above = place.y - 4;
    const tries = Array.from({ length: Math.ceil(height) }, (_, d) => [above + d, above - d]);
    const y = tries.flat().find((at) => at >= 10 && at <= height - 3 && free(at)) ?? above;
    taken.push({ from, to, y });
    return { x, y, end: back };
  });
}

export interface DrawnFlow extends Flow {
  path: string;
  width: number;
}

export interface Drawn {
  places: DrawnPlace[];
  flows: DrawnFlow[];
}

export function layout(
  places: readonly Place[],
  flows: readonly Flow[],
  width: number,
  height: number,
): Drawn {
  const known = new Set(places.map((p) => p.id));
  const running = flows.filter((f) => f.litres > 0 && known.has(f.from) && known.has(f.to));
  const used = new Set(running.flatMap((f) => [f.from, f.to]));
  if (running.length === 0) return { places: [], flows: [] };
  const graph = sankey<Place, Flow>()
    .nodeId((p) => p.id)
    .nodeAlign(sankeyJustify)
    .nodeSort(null)
    .nodeWidth(10)
    .nodePadding(26)
    .extent([
      [1, 14],
      [width - 1, height - 6],
    ])({
    nodes: places.filter((p) => used.has(p.id)).map((p) => ({ ...p })),
    links: running.map((f) => ({ ...f, source: f.from, target: f.to, value: f.litres })),
  });
  const draw = sankeyLinkHorizontal<Place, Flow>();
  return {
    places: graph.nodes.map((n) => ({
      id: n.id,
      name: n.name,
      kind: n.kind,
      x: n.x0!,
      y: n.y0!,
      width: n.x1! - n.x0!,
      height: Math.max(1, n.y1! - n.y0!),
      litres: n.value ?? 0,
      last: (n.sourceLinks ?? []).length === 0 && n.x1! > width * 0.6,
    })),
    flows: graph.links.map((l) => ({
      from: l.from,
      to: l.to,
      litres: l.litres,
      doubt: l.doubt,
      measured: l.measured,
      path: draw(l) ?? '',
      width: Math.max(1, l.width ?? 1),
    })),
  };
}
