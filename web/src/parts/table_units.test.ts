// A table in the units that are set: in another, or beside it in both.
import { render, screen } from '@testing-library/svelte';
import { afterEach, expect, test } from 'vitest';
import { set } from '../data/settings.svelte';
import Table from './Table.svelte';

afterEach(() => set({ units: 'metric' }));

const wort = {
  caption: 'Drawn',
  columns: [
    { key: 'name', head: 'from', rowHead: true },
    { key: 'volume', head: 'drawn', unit: 'L', decimals: 1 },
    { key: 'strength', head: 'strength', unit: '%vol', decimals: 1 },
  ],
  rows: [{ name: 'first runnings', volume: 26, strength: 8.1 }],
};
const cells = () => screen.getAllByRole('cell').map((c) => c.textContent.trim());
const heads = () => screen.getAllByRole('columnheader').map((c) => c.textContent.trim());

test('in US units a volume is told in gallons and a strength stays', () => {
  set({ units: 'us' });
  render(Table, wort);
  expect(heads()).toEqual(['from', 'drawngal', 'strength%vol']);
  expect(cells()).toEqual(['6.87', '8.1']);
});

test('in both the gallons stand beside the litres', () => {
  set({ units: 'both' });
  render(Table, wort);
  expect(heads()).toEqual(['from', 'drawnL', 'gal', 'strength%vol']);
  expect(cells()).toEqual(['26.0', '6.87', '8.1']);
});

test('a column of spirits is told in proof, weak ones with the strong', () => {
  const jars = {
    caption: 'Jars',
    columns: [{ key: 'strength', head: 'strength', unit: '%vol', decimals: 1 }],
    rows: [{ strength: 55 }, { strength: 14.4 }],
  };
  set({ units: 'us' });
  const { unmount } = render(Table, jars);
  expect(heads()).toEqual(['strengthproof']);
  expect(cells()).toEqual(['109.9', '28.7']);
  unmount();
  set({ units: 'both' });
  render(Table, jars);
  expect(cells()).toEqual(['55.0', '109.9', '14.4', '28.7']);
});

test('figures that are already in the units to be shown are left as they are', () => {
  set({ units: 'us' });
  render(Table, { ...wort, asGiven: true });
  expect(cells()).toEqual(['26.0', '8.1']);
});
