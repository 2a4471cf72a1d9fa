// How a chart is drawn on its canvas: inks of the theme, marks in their lanes, points. Device pixels.
import type UPlot from 'uplot';
import type { Decision, Measured } from './chart_data';
import { laidOut, WORD_GAP, type LaidMark } from './chart_marks';

export function inks() {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string) => style.getPropertyValue(`--${name}`).trim() || '#000';
  return {
    ink: of('ink'),
    soft: of('ink-soft'),
    rule: of('rule'),
    accent: of('accent'),
    caution: of('caution'),
    band: of('band'),
    serif: of('serif'),
  };
}

export const LANE = 22; // px, of the words above the picture

export interface Mark extends LaidMark {
  label: string;
  decided: boolean;
  at: number;
  from: number;
  to: number;
}

/** Now and the decisions that lie within the picture, each with its lane. */
export function marksOn(u: UPlot, now: number | undefined, decisions: readonly Decision[]): Mark[] {
  const ratio = devicePixelRatio || 1;
  const { left, width } = u.bbox;
  const within = (x: number) => Math.min(Math.max(u.valToPos(x, 'x', true), left), left + width);
  const { min = 0, max = 0 } = u.scales['x'] ?? {};
  const here = [
    ...(now === undefined ? [] : [{ x: now, label: 'now', doubt: undefined, decided: false }]),
    ...decisions.map((d) => ({ x: d.x, label: d.label, doubt: d.doubt, decided: true })),
  ]
    .filter(({ x }) => x >= min! && x <= max!)
    .map(({ x, label, doubt, decided }) => ({
      label,
      decided,
      at: within(x),
      from: within(x - (doubt ?? 0)),
      to: within(x + (doubt ?? 0)),
    }));
  u.ctx.font = `italic ${14 * ratio}px ${inks().serif}`;
  const laid = laidOut(
    here.map(({ at, from, to, label }) => ({
      at: (at - left) / ratio,
      from: (from - left) / ratio,
      to: (to - left) / ratio,
      word: u.ctx.measureText(label).width / ratio,
    })),
    width / ratio,
  );
  return here.map((mark, i) => ({ ...mark, ...laid[i]! }));
}

/** Lines over the picture, with word and doubt above it. */
export function drawMarks(u: UPlot, marks: readonly Mark[]) {
  const { ctx } = u;
  const c = inks();
  const { top, height: deep } = u.bbox;
  const ratio = devicePixelRatio || 1;
  ctx.lineWidth = 1.5 * ratio;
  for (const mark of marks) {
    const foot = top - (3 + mark.lane * LANE) * ratio;
    ctx.strokeStyle = ctx.fillStyle = mark.decided ? c.caution : c.ink;
    ctx.setLineDash(mark.decided ? [5 * ratio, 4 * ratio] : []);
    ctx.beginPath();
    ctx.moveTo(mark.at, foot);
    ctx.lineTo(mark.at, top + deep);
    ctx.stroke();
    ctx.setLineDash([]);
    if (mark.to > mark.from) {
      ctx.beginPath();
      ctx.moveTo(mark.from, foot);
      ctx.lineTo(mark.to, foot);
      for (const end of [mark.from, mark.to]) {
        ctx.moveTo(end, foot - 3 * ratio);
        ctx.lineTo(end, foot + 3 * ratio);
      }
      ctx.stroke();
    }
    ctx.textAlign = mark.side === 'right' ? 'left' : 'right';
    const aside = (mark.side === 'right' ? WORD_GAP : -WORD_GAP) * ratio;
    ctx.fillText(mark.label, mark.at + aside, foot - 8 * ratio);
  }
}

/** What was measured: a dot where it is believed, else a cross; the shape tells it, not the colour alone. */
export function drawPoints(u: UPlot, measured: readonly Measured[]) {
  const { ctx } = u;
  const c = inks();
  const { left, top, width, height: deep } = u.bbox;
  const ratio = devicePixelRatio || 1;
  ctx.beginPath();
  ctx.rect(left, top, width, deep);
  ctx.clip();
  for (const m of measured) {
    const [x, y] = [u.valToPos(m.x, 'x', true), u.valToPos(m.y, 'y', true)];
    ctx.lineWidth = 1.8 * ratio;
    ctx.strokeStyle = m.believed ? c.ink : c.caution;
    ctx.fillStyle = c.ink;
    ctx.beginPath();
    if (m.believed) {
      ctx.arc(x, y, 3.5 * ratio, 0, 2 * Math.PI);
      ctx.fill();
    } else {
      const r = 4.5 * ratio;
      ctx.moveTo(x - r, y - r);
      ctx.lineTo(x + r, y + r);
      ctx.moveTo(x + r, y - r);
      ctx.lineTo(x - r, y + r);
      ctx.stroke();
    }
  }
}
