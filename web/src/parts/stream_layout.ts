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
