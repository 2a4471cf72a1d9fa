// The forecast of a lot on wood follows what is done with the lot.
import { render, screen } from '@testing-library/svelte';
import { afterEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import Wood from './Wood.svelte';

vi.mock('uplot', () => ({
  default: class {
    setData() {}
    setSize() {}
    redraw() {}
    destroy() {}
  },
}));

const band = (median: number) => ({ low: median, median, high: median });
const why = { what: '', inputs: [], model: '', source: '' };
const wood = { in: 'staves', staves: 2, species: 'oak', toast: 'medium' };
const name = { entry: 'w', kind: 'spirit' };
const lotWith = (volume_L_20C: number, uses: unknown[]) => ({
  entry: 'w',
  batch: 'b',
  lot: name,
  label: 'Tern 9, in staves',
  at: new Date(Date.now() - 86_400_000).toISOString(),
  left: { volume_L_20C, strength_percent_vol: 55, pure_alcohol_L_20C: 3, mass_kg: 5 },
  measured: true,
  why,
  parents: [],
  uses,
  wood,
});

afterEach(() => vi.useRealTimers());

test('topped up, the lot is forecast anew, and once more when the clocks agree', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  let hearers: (() => void)[] = [];
  vi.spyOn(bench, 'hear').mockImplementation((hearer) => {
    hearers.push(hearer as () => void);
    return () => (hearers = hearers.filter((one) => one !== hearer));
  });
  let lots = [lotWith(6.4, [])];
  let there_L = 6.36;
  let asked = 0;
  vi.spyOn(bench.api, 'get').mockImplementation(async (path: string) => {
    if (path === '/lots') return { lots } as never;
    if (path === '/tables') return { species: [], toasts: [] } as never;
    if (path === '/batches/b') return { batch: 'b', name: 'Tern 9', plan: {}, notes: [] } as never;
    if (path === '/batches/b/plan') return {} as never;
    asked += 1;
    const now = { days: 1, volume_L_20C: band(there_L), evaporated_L_20C: band(0.001) };
    return { lots: [{ lot: name, untold: undefined, forecast: forecastOf(now) }] } as never;
  });
  render(Wood, { props: { batch: 'b' } });
  await vi.advanceTimersByTimeAsync(5000);
  const shown = () =>
    document.querySelector('article')!.textContent!.replace(/[\u00a0\u202f]/g, ' ');
  expect(shown()).toMatch(/In the vessel today 6\.36 L/);
  const before = asked;
  // The house tells of the topping; by its own clock that is still to come.
  const use = { entry: 't', at: new Date().toISOString(), where: 'topped up', mass_kg: -0.3 };
  lots = [lotWith(6.7, [use])];
  for (const hearer of [...hearers]) hearer();
  await vi.advanceTimersByTimeAsync(1000);
  expect(asked).toBeGreaterThan(before);
  expect(shown()).toMatch(/6\.70 L/);
  there_L = 6.66;
  await vi.advanceTimersByTimeAsync(3000);
  expect(shown()).toMatch(/In the vessel today 6\.66 L/);
  expect(screen.queryByText(/6\.36/)).toBeNull();
});

function forecastOf(now: object) {
  const extract_fraction = band(0.1);
  const strength_percent_vol = band(55);
  const point = { ...now, extract_fraction, strength_percent_vol, like_cask_years: 0.1 };
  return {
    in: 'staves',
    staves: 2,
    soaked_L_20C: 0.04,
    surface_cm2_per_L: 60,
    times_a_200L_cask: 2,
    resting_C: 18,
    woods: [],
    findings: [],
    before: [],
    carried_extract_fraction: band(0),
    now: point,
    course: [
      { ...point, days: 0 },
      { ...point, days: 2 },
    ],
    why_air: why,
    why_wood: why,
    why,
  };
}
