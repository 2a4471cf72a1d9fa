// Where the marks of a chart are written: in lanes above the picture, so that no curve goes through a
// word, and so that no mark's own line does either. A mark's line falls from its lane to the foot of the
// picture; a word stands to the right of its line, or to its left where the picture ends. The doubt of a
// moment is a span in the mark's lane, not a shade over the curve, which has a band of its own. Pure.

export interface Mark {
  at: number; // px from the picture's left edge
  word: number; // width of its word, px
  from: number; // ends of its doubt, px; both `at` without one
  to: number;
}

export interface LaidMark {
  lane: number; // 0 is the nearest to the picture
  side: 'right' | 'left'; // of the line, on which the word stands
}

/** Between a line and its word, and between a word and whatever is next to it. */
export const WORD_GAP = 5;

type Span = readonly [number, number];
const covers = ([from, to]: Span, x: number) => x > from && x < to;
const meet = (a: Span, b: Span) => a[0] < b[1] && b[0] < a[1];

/** Lanes and sides for marks in a picture so wide, in the order they are given. */
export function laidOut(marks: readonly Mark[], wide: number): LaidMark[] {
  const wordOf = (mark: Mark, side: LaidMark['side']): Span =>
    side === 'right'
      ? [mark.at, mark.at + mark.word + 2 * WORD_GAP]
      : [mark.at - mark.word - 2 * WORD_GAP, mark.at];
  const order = marks.map((_, i) => i).sort((a, b) => marks[a]!.at - marks[b]!.at);
  const sides = marks.map((mark): LaidMark['side'] =>
    mark.at + mark.word + 2 * WORD_GAP > wide && mark.at > wide / 2 ? 'left' : 'right',
  );
  // Of two whose words would each lie across the other's line, both stand to the left.
  for (const a of order)
    for (const b of order)
      if (sides[a] === 'right' && sides[b] === 'left') {
        const [mark, other] = [marks[a]!, marks[b]!];
        const each =
          covers(wordOf(mark, 'right'), other.at) && covers(wordOf(other, 'left'), mark.at);
        if (each && wordOf(mark, 'left')[0] >= 0) sides[a] = 'left';
      }
  const words = marks.map((mark, i) => wordOf(mark, sides[i]!));
  const spans = marks.map((mark, i): Span => [
    Math.min(words[i]![0], mark.from),
    Math.max(words[i]![1], mark.to),
  ]);
  // A word has to lie above the line that it would lie across.
  const above = (a: number, b: number): boolean =>
    a !== b && covers(words[a]!, marks[b]!.at) && !covers(words[b]!, marks[a]!.at);
  // From the picture upwards, the last in time first: each as low as it may lie, above those that it has to
  // be above, in no lane with one that it would meet. Those that lie across each other's lines, or only
  // meet, thus go by their order.
  const lanes = new Map<number, number>();
  const left = order.toReversed();
  while (left.length > 0) {
    const free = left.findIndex((a) => left.every((b) => !above(a, b)));
    const [a] = left.splice(Math.max(0, free), 1) as [number];
    const lying = [...lanes];
    let lane = Math.max(0, ...lying.filter(([b]) => above(a, b)).map(([, of]) => of + 1));
    while (lying.some(([b, of]) => of === lane && meet(spans[a]!, spans[b]!))) ++lane;
    lanes.set(a, lane);
  }
  return marks.map((_, i) => ({ lane: lanes.get(i)!, side: sides[i]! }));
}
