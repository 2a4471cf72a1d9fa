import { expect, test } from 'vitest';
import {
  labelled,
  layout,
  lengthAbout,
  type DrawnPlace,
  type Flow,
  type Place,
} from './stream_layout';

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
  const labels = labelled(places, texts.map(lengthAbout), 200);
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

/** The streams of the demonstration house, as the page of a batch made them; litres of pure alcohol. */
const DEMO: Record<string, readonly (readonly [string, string, number])[]> = {
  'Tern 7 told': [
    ['sugar', 'wort', 4.46],
    ['sugar', 'Lost before the still', 0.644],
    ['wort', 'wash', 3.525],
    ['wort', 'Lost before the still', 0.935],
    ['wash', 'Unaccounted for', 0.077],
    ['wash', 'low wines', 3.225],
    ['wash', 'Lost at the still', 0.223],
    ['Feints put in', 'low wines', 0.456],
    ['Found more', 'low wines', 0.013],
    ['low wines', 'hearts', 2.429],
    ['low wines', 'Feints kept', 0.946],
    ['low wines', 'Set apart', 0.208],
    ['low wines', 'Lost at the still', 0.111],
    ['hearts', 'Samples, remainder', 0.014],
    ['hearts', 'reduced', 2.415],
    ['reduced', 'wood', 1.915],
    ['reduced', 'bottles', 0.48],
    ['reduced', 'Samples, remainder', 0.029],
    ['wood', 'Samples, remainder', 0.033],
    ['wood', 'Lost later', 0.038],
    ['wood', 'Samples, remainder', 0.073],
    ['wood', 'bottles', 1.771],
  ],
  'Tern 8 told': [
    ['sugar', 'wort', 11.36],
    ['sugar', 'Lost before the still', 0.74],
    ['wort', 'wash', 9.309],
    ['wort', 'Lost before the still', 2.052],
    ['wash', 'Unaccounted for', 0.101],
    ['wash', 'low wines', 8.593],
    ['wash', 'Lost at the still', 0.614],
    ['Feints put in', 'low wines', 0.48],
    ['low wines', 'hearts', 6.541],
    ['low wines', 'Lost at the still', 0.327],
    ['low wines', 'Feints kept', 2.205],
    ['hearts', 'reduced', 6.522],
    ['hearts', 'Lost later', 0.02],
    ['reduced', 'wood', 6.522],
    ['wood', 'Lost later', 0.138],
    ['wood', 'Samples, remainder', 0.389],
    ['wood', 'bottles', 5.995],
  ],
  'Tern 8 planned': [
    ['sugar', 'wort', 11.36],
    ['sugar', 'Lost before the still', 0.74],
    ['wort', 'wash', 9.543],
    ['wort', 'Lost before the still', 1.817],
    ['wash', 'low wines', 8.779],
    ['wash', 'Lost at the still', 0.763],
    ['Feints put in', 'low wines', 0.48],
    ['low wines', 'hearts', 6.676],
    ['low wines', 'Lost at the still', 0.333],
    ['low wines', 'Feints kept', 2.25],
    ['hearts', 'reduced', 6.656],
    ['hearts', 'Lost later', 0.02],
    ['reduced', 'wood', 6.656],
    ['wood', 'Lost later', 0.141],
    ['wood', 'Samples, remainder', 0.397],
    ['wood', 'bottles', 6.118],
  ],
};
const NAMES: Record<string, string> = {
  sugar: 'Grain and sugar',
  wort: 'Wort',
  wash: 'Wash',
  'low wines': 'Low wines',
  hearts: 'Hearts',
  reduced: 'Reduced',
  wood: 'Wood',
  bottles: 'Bottles',
};
const ORDER = [
  ...Object.keys(NAMES),
  'Lost before the still',
  'Unaccounted for',
  'Lost at the still',
  'Feints put in',
  'Feints kept',
  'Set apart',
  'Found more',
  'Samples, remainder',
  'Lost later',
];

/** What stands on each other, of the names of a stream drawn so wide; letters of so many pixels. */
function onEachOther(stream: { places: Place[]; flows: Flow[] }, width: number, letter: number) {
  const height = Math.max(190, Math.min(340, width * 0.3)); // as Stream draws it
  const { places } = layout(stream.places, stream.flows, width, height);
  const texts = places.map((p) => `${p.name} ${p.litres.toFixed(2)}`);
  const lengths = texts.map((text) => letter * text.length);
  const boxes = labelled(places, lengths, height).map(({ x, y, end }, i) => ({
    text: texts[i]!,
    from: end ? x - lengths[i]! : x,
    to: end ? x : x + lengths[i]!,
    top: y - 10, // the small print's capitals and figures; tails hang 3 below
    foot: y + 3,
  }));
  for (const box of boxes) {
    expect(box.from, `${box.text} at ${width}`).toBeGreaterThanOrEqual(0);
    expect(box.to, `${box.text} at ${width}`).toBeLessThanOrEqual(width);
    expect(box.top).toBeGreaterThanOrEqual(0);
    expect(box.foot).toBeLessThanOrEqual(height);
  }
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.from < b.to && b.from < a.to && a.top < b.foot && b.top < a.foot)
      .map((b) => `${a.text} on ${b.text} at ${width}`),
  );
}

// At 680 px "Lost before the still" stood on the name before it: names were taken to be shorter than drawn.
test('no name stands on another at any width', () => {
  for (const flows of Object.values(DEMO)) {
    const places = ORDER.map((id) => ({ ...place(id), name: NAMES[id] ?? id }));
    const stream = { places, flows: flows.map(([from, to, litres]) => flow(from, to, litres)) };
    for (let width = 320; width <= 1600; width += 20)
      for (const letter of [5.2, 6.6, 7.2]) expect(onEachOther(stream, width, letter)).toEqual([]);
  }
});
