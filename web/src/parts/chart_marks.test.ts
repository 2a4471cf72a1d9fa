import { expect, test } from 'vitest';
import { laidOut, WORD_GAP, type Mark } from './chart_marks';

const mark = (at: number, word: number, doubt = 0): Mark => ({
  at,
  word,
  from: at - doubt,
  to: at + doubt,
});

/** What no chart may show: a word across a word or a span, or a line through a word. */
function clashes(marks: readonly Mark[], wide: number): string[] {
  const laid = laidOut(marks, wide);
  const word = marks.map(({ at, word: w }, i) =>
    laid[i]!.side === 'right'
      ? [at + WORD_GAP, at + WORD_GAP + w]
      : [at - WORD_GAP - w, at - WORD_GAP],
  );
  return marks.flatMap((a, i) =>
    marks.flatMap((b, j) => {
      if (i === j) return [];
      const across = laid[j]!.lane >= laid[i]!.lane && b.at > word[i]![0]! && b.at < word[i]![1]!;
      const meet =
        laid[i]!.lane === laid[j]!.lane &&
        Math.max(a.to, word[i]![1]!) > Math.min(b.from, word[j]![0]!) &&
        Math.max(b.to, word[j]![1]!) > Math.min(a.from, word[i]![0]!);
      return across || meet ? [`${i} and ${j}`] : [];
    }),
  );
}

test('marks far from each other share the lane at the picture', () => {
  expect(laidOut([mark(20, 30), mark(200, 40, 10)], 400)).toEqual([
    { lane: 0, side: 'right' },
    { lane: 0, side: 'right' },
  ]);
});

test('five decisions at the start of a run lie in lanes of their own, the first the highest', () => {
  const run = [mark(4, 20), mark(8, 70, 6), mark(14, 65, 9), mark(30, 70, 20), mark(60, 80, 30)];
  expect(laidOut(run, 270).map((one) => one.lane)).toEqual([4, 3, 2, 1, 0]);
  expect(clashes(run, 270)).toEqual([]);
});

test('at the end of the picture a word stands to the left of its line, above those it reaches over', () => {
  const run = [mark(120, 40), mark(200, 40), mark(240, 60, 8), mark(262, 50, 4)];
  // The second's word would lie across the third's line, and the third's across the second's.
  expect(laidOut(run, 270).map((one) => one.side)).toEqual(['right', 'left', 'left', 'left']);
  expect(clashes(run, 270)).toEqual([]);
});

test('no two marks clash wherever they lie', () => {
  // A row of places that is the same at each run: multiples of the golden section.
  const at = (k: number) => 270 * ((k * 0.618034) % 1);
  for (let n = 1; n < 60; ++n) {
    const run = [0, 1, 2, 3].map((k) => mark(at(5 * n + k), 20 + 12 * k, 4 * k));
    expect(clashes(run, 270), `run ${n}`).toEqual([]);
  }
});

test('a mark of now, a wide one and one beside it lie in three lanes', () => {
  // As at the end of a strip: the wide word lies across now, and the last one across its line.
  const strip = [mark(142, 23), mark(208, 88, 79), mark(217, 25, 70)];
  const laid = laidOut(strip, 247);
  expect(new Set(laid.map(({ lane }) => lane)).size).toBe(3);
  expect(clashes(strip, 247)).toEqual([]);
});
