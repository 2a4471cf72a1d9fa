import { expect, test } from 'vitest';
import { labelled, layout, type DrawnPlace, type Flow, type Place } from './stream_layout';

const place = (id: string): Place => ({ id, name: id, kind: 'through' });
const flow = (from: string, to: string, litres: number): Flow => ({
  from,
  to,
  litres,
  measured: true,
});

test('widths are in the proportion of the litres', () => {
  const drawn = layout(
    ['wash', 'low wines', 'pots'].map(place),
    [flow('wash', 'low wines', 3), flow('wash', 'pots', 1)],
    600,
    200,
  );
  const [wines, pots] = drawn.flows;
  expect(wines!.width / pots!.width).toBeCloseTo(3, 6);
  expect(drawn.places.find((p) => p.id === 'wash')!.litres).toBe(4);
});

test('nothing is drawn outside the picture', () => {
  const drawn = layout(
    ['a', 'b', 'c', 'd', 'e'].map(place),
    [flow('a', 'b', 4), flow('b', 'c', 2.7), flow('b', 'd', 0.9), flow('b', 'e', 0.05)],
    600,
    220,
  );
  for (const p of drawn.places) {
    expect(p.x).toBeGreaterThanOrEqual(0);
    expect(p.x + p.width).toBeLessThanOrEqual(600);
    expect(p.y).toBeGreaterThanOrEqual(0);
    expect(p.y + p.height).toBeLessThanOrEqual(220.001);
  }
});

test('flows of nothing, and to places that are not there, are left out', () => {
  const drawn = layout([place('a'), place('b')], [flow('a', 'b', 0), flow('a', 'x', 1)], 600, 200);
  expect(drawn).toEqual({ places: [], flows: [] });
});

test('no name stands on another, nor outside the picture', () => {
  const at = (x: number, y: number, last = false): DrawnPlace => ({
    ...place('p'),
    x,
    y,
    width: 10,
    height: 20,
    litres: 1,
    last,
  });
  // A lost place at the right, whose name reaches back over the one before it.
  const places = [at(0, 20), at(430, 60), at(590, 60, true), at(590, 72, true), at(430, 8)];
  const texts = [
    'Wort 2.35',
    'Low wines 1.94',
    'Lost before the still 0.83',
    'Bottles 1.18',
    'Wood 1.01',
  ];
  const labels = labelled(places, texts, 200);
  expect(labels[0]).toEqual({ x: 0, y: 16, end: false });
  expect(labels[2]!.x).toBe(600);
  for (const { y } of labels) {
    expect(y).toBeGreaterThanOrEqual(10);
    expect(y).toBeLessThanOrEqual(197);
  }
  const lines = labels.slice(1).map((l) => l.y);
  for (const [i, a] of lines.entries())
    for (const b of lines.slice(i + 1)) expect(Math.abs(a - b)).toBeGreaterThanOrEqual(13);
});
