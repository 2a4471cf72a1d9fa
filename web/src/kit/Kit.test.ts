// What the house says of a kit stands at the form's fields in the form's words.
import { render, screen } from '@testing-library/svelte';
import { expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { Problem } from '../data/problem';
import { set } from '../data/settings.svelte';
import { valueOf } from '../parts/text_form';
import Kit from './Kit.svelte';
import { KIT_SECTIONS } from './kit_form';

const text = `name = "Shed"
[place]
ambient = "15 degC"
ferment_room = "0.5 m³"
[liquor]
cold = "12 degC"
hot = "5 degC"
`;

test('a water that is not the warmer, and a room too small, are told by label and in m³', async () => {
  localStorage.clear();
  set({ units: 'metric' });
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) =>
    path === '/house'
      ? ({ kit: { text, at: '2026-11-20T08:00:00.000Z' }, batches: [] } as never)
      : ({} as never),
  );
  vi.spyOn(bench.api, 'post').mockRejectedValue(
    new Problem({
      title: 'Not accepted',
      status: 422,
      errors: [
        { field: 'kit.liquor.hot', value: '5 degC', accepted: 'warmer than liquor.cold, 12 °C' },
        {
          field: 'kit.place.ferment_room',
          value: '0.5 m³',
          accepted: 'a volume such as "20 L" or "5 gal", from 1000 L to 100000000 L',
        },
      ],
    }),
  );
  render(Kit, {});
  expect(await screen.findByText(/accepted: warmer than “Cold water”, 12 °C\./)).toBeTruthy();
  expect(screen.getByText(/“0\.5 m³” was given; .*from 1 to 100000 m³\./)).toBeTruthy();
  expect(screen.queryByText(/liquor\.cold/)).toBeNull();
});

test('how far an alcoholmeter may be off is typed with its unit told', () => {
  const within = KIT_SECTIONS.flatMap(({ fields }) => fields).find(
    ({ path }) => path === 'instruments.alcoholmeter',
  )!;
  for (const units of ['metric', 'us', 'both'] as const)
    expect(valueOf('1', within, units)).toBe('1 %vol');
});
