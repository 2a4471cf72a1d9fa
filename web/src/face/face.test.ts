// The face's promises that can be reckoned: contrast of every ink on every paper, in both themes.
// Formula: WCAG 2.2, relative luminance and contrast ratio.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const css = readFileSync('src/face/tokens.css', 'utf8');

function theme(name: 'light' | 'dark'): Record<string, string> {
  const start = css.indexOf(`:root[data-theme='${name}'] {`);
  const block = css.slice(start, css.indexOf('}', start));
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!]),
  );
}

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

test('the formula gives 21 for black on white', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
});

// A name of 104 letters made the mash bill wider than a phone: `break-word` breaks it too, but a flex box or a
// grid still takes its whole length for the least that it needs.
test('a word breaks anywhere where it has no room, but in tables and buttons', () => {
  const base = readFileSync('src/face/base.css', 'utf8');
  const of = (selector: string) =>
    /overflow-wrap: ([\w-]+)/.exec(base.slice(base.indexOf(`\n${selector} {`)))?.[1];
  expect(of('body')).toBe('anywhere');
  expect(of('table,\nbutton')).toBe('break-word');
});

for (const name of ['light', 'dark'] as const) {
  const colours = theme(name);
  for (const paper of ['paper', 'paper-raised', 'paper-sunk']) {
    for (const ink of ['ink', 'ink-soft', 'accent', 'stop', 'danger', 'caution', 'well']) {
      test(`${name}: ${ink} on ${paper} can be read (4.5 or more)`, () => {
        expect(contrast(colours[ink]!, colours[paper]!)).toBeGreaterThanOrEqual(4.5);
      });
    }
    test(`${name}: a control's edge on ${paper} can be seen (3 or more)`, () => {
      expect(contrast(colours['edge']!, colours[paper]!)).toBeGreaterThanOrEqual(3);
    });
  }
  test(`${name}: ink on the accent and on its wash can be read`, () => {
    expect(contrast(colours['on-accent']!, colours['accent']!)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(colours['ink']!, colours['accent-wash']!)).toBeGreaterThanOrEqual(4.5);
  });
  test(`${name}: figures are read at arm's length (ink on paper 7 or more)`, () => {
    expect(contrast(colours['ink']!, colours['paper']!)).toBeGreaterThanOrEqual(7);
  });
}
