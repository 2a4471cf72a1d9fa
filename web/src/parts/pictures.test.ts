// Chart, stream and shelf: what stands behind the pictures, and the hands on the shelf.
import { fireEvent, render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { set } from '../data/settings.svelte';
import BandChart from './BandChart.svelte';
import Shelf from './Shelf.svelte';
import { lotOf, wholly, type Jar } from './shelf_allotment';
import Stream from './Stream.svelte';

vi.mock('uplot', () => ({
  default: class {
    setData() {}
    setSize() {}
    redraw() {}
    destroy() {}
  },
}));

test('a chart has a sentence for whoever does not see it, and a table behind', async () => {
  render(BandChart, {
    title: 'Spirit run',
    curve: { x: [0, 60, 120], middle: [78, 70, 54], low: [77, 69, 50], high: [79, 71, 58] },
    measured: [
      { x: 30, y: 74.1, believed: true },
      { x: 31, y: 37.2, believed: false },
    ],
    now: 60,
    decisions: [{ x: 110, label: 'tails near', doubt: 9 }],
    xName: 'since the first drop',
    xUnit: 'min',
    yName: 'strength',
    yUnit: '%vol',
  });
  const picture = screen.getByRole('img');
  expect(picture.getAttribute('aria-label')).toBe(
    'Spirit run: strength over since the first drop; curve from 78.0 to 54.0 %vol; ' +
      'now 70.0 %vol; last measured 74.1 %vol at 30; tails near at 110',
  );
  const rows = within(screen.getByRole('table', { hidden: true })).getAllByRole('row', {
    hidden: true,
  });
  const text = rows.map((r) => r.textContent!.replace(/\s+/g, ' '));
  expect(rows).toHaveLength(1 + 3 + 2 + 1);
  expect(text.some((t) => t.includes('37.2') && t.includes('kept, not believed'))).toBe(true);
  expect(text.some((t) => t.includes('110') && t.includes('tails near'))).toBe(true);
});

test('figures over time have their day where they are of several days', () => {
  const chart = (...hours: number[]) => ({
    title: 'Mash temperature',
    curve: { x: [], middle: [] },
    measured: hours.map((h) => ({ x: Date.UTC(2026, 10, 17, h, 5), y: 65, believed: true })),
    xName: 'time',
    xIsTime: true,
    yName: 'temperature',
  });
  const heads = () =>
    screen.getAllByRole('rowheader', { hidden: true }).map((head) => head.textContent!.trim());
  const one = render(BandChart, chart(11, 12));
  for (const head of heads()) expect(head).toMatch(/^\d\d:\d\d$/);
  one.unmount();
  render(BandChart, chart(11, 35));
  expect(heads()).toEqual([
    expect.stringMatching(/^17\u00a0November, \d\d:05$/),
    expect.stringMatching(/^18\u00a0November, \d\d:05$/),
  ]);
});

test('the stream’s table holds every flow, also those of nothing', () => {
  render(Stream, {
    places: [
      { id: 'a', name: 'Low wines', kind: 'through' },
      { id: 'b', name: 'Hearts', kind: 'kept' },
      { id: 'c', name: 'Unaccounted for', kind: 'open' },
    ],
    flows: [
      { from: 'a', to: 'b', litres: 2.66, measured: true },
      { from: 'a', to: 'c', litres: -0.06, doubt: 0.11, measured: true },
    ],
  });
  const rows = within(screen.getByRole('table', { hidden: true })).getAllByRole('row', {
    hidden: true,
  });
  expect(rows).toHaveLength(3);
  expect(rows[2]!.textContent).toContain('\u22120.06');
  expect(rows[2]!.textContent).toContain('0.11');
});

test('in US units the stream counts proof gallons', () => {
  set({ units: 'us' });
  render(Stream, {
    places: [
      { id: 'a', name: 'Low wines', kind: 'through' },
      { id: 'b', name: 'Hearts', kind: 'kept' },
    ],
    flows: [{ from: 'a', to: 'b', litres: 2.66, measured: true }],
  });
  expect(screen.getByText('US proof gallons of pure alcohol')).toBeTruthy();
  const table = screen.getByRole('table', { hidden: true }).textContent!.replace(/\s+/g, ' ');
  expect(table).toContain('1.40'); // 2.66 × 0.525817 (27 CFR 30.11)
  expect(table).toContain('proof gal');
  set({ units: 'metric' });
});

const shelfOf = (count: number): Jar[] =>
  Array.from({ length: count }, (_, i) => ({
    id: `j${i + 1}`,
    name: String(i + 1),
    volume_mL: 400,
    capacity_mL: 500,
    strength: 75 - i,
    parts: wholly('feints', 400),
  }));

function shelf(count = 8) {
  let jars = shelfOf(count);
  const props = {
    get jars() {
      return jars;
    },
    onallot: (next: Jar[]) => {
      jars = next;
      void view.rerender({ jars });
    },
  };
  const view = render(Shelf, props);
  return () => jars.map((j) => lotOf(j) ?? 'split');
}

const jar = (n: number) => document.querySelector<HTMLElement>(`[data-jar="j${n}"]`)!;

test('a jar’s name tells number, strength, volume and lot', () => {
  shelf(2);
  expect(jar(2).textContent!.replace(/\s+/g, ' ')).toContain('74.0 %vol, 400 mL, all feints');
});

test('a tap allots a jar to the chosen lot', async () => {
  const lots = shelf(3);
  await userEvent.click(screen.getByRole('radio', { name: /Set apart/ }));
  await fireEvent.pointerDown(jar(2), { button: 0 });
  await fireEvent.pointerUp(window);
  expect(lots()).toEqual(['feints', 'apart', 'feints']);
});

test('a sweep by pointer sets a run of jars', async () => {
  const lots = shelf(5);
  document.elementFromPoint = () => jar(4);
  await fireEvent.pointerDown(jar(2), { button: 0 });
  await fireEvent.pointerMove(window, { clientX: 1, clientY: 1 });
  await fireEvent.pointerUp(window);
  expect(lots()).toEqual(['feints', 'hearts', 'hearts', 'hearts', 'feints']);
});

test('a pointer that the browser takes for scrolling allots nothing', async () => {
  const lots = shelf(3);
  await fireEvent.pointerDown(jar(2), { button: 0 });
  await fireEvent.pointerCancel(window);
  await fireEvent.pointerUp(window);
  expect(lots()).toEqual(['feints', 'feints', 'feints']);
});

test('by keys: letters allot, arrows go, shift and arrows sweep', async () => {
  const lots = shelf(5);
  jar(1).focus();
  await userEvent.keyboard('f{ArrowRight}');
  expect(document.activeElement).toBe(jar(2));
  await userEvent.keyboard('h{Shift>}{ArrowRight}{ArrowRight}{/Shift}');
  expect(lots()).toEqual(['foreshots', 'hearts', 'hearts', 'hearts', 'feints']);
  await userEvent.keyboard('{ArrowLeft}a{End}{Enter}');
  expect(lots()).toEqual(['foreshots', 'hearts', 'apart', 'hearts', 'apart']);
});

test('a jar is split between two lots; too much has its sentence', async () => {
  const lots = shelf(2);
  jar(2).focus();
  await userEvent.keyboard('s');
  const drawer = within(screen.getByRole('dialog', { name: 'Split jar 2' }));
  const amount = drawer.getByLabelText<HTMLInputElement>('To the hearts');
  await userEvent.clear(amount);
  await userEvent.type(amount, '900');
  await userEvent.click(drawer.getByRole('button', { name: 'Split' }));
  expect(drawer.getByText(/“900” does not fit; accepted: 0 to 400 mL/)).toBeTruthy();
  expect(lots()).toEqual(['feints', 'feints']);
  await userEvent.clear(amount);
  await userEvent.type(amount, '150');
  expect(drawer.getByText(/^The rest stays feints: 250.mL\.$/)).toBeTruthy();
  await userEvent.click(drawer.getByRole('button', { name: 'Split' }));
  expect(lots()).toEqual(['feints', 'split']);
});
