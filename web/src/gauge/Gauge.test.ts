import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Bench } from '../data/bench.svelte';
import { NoAnswer, Problem } from '../data/problem';
import Gauge from './Gauge.svelte';

const open = (post: (path: string, body: unknown) => Promise<unknown>) => {
  const called = vi.fn(post);
  render(Gauge, { bench: { api: { post: called } } as unknown as Bench });
  return called;
};

async function tap(...names: string[]) {
  for (const name of names) await userEvent.click(screen.getByRole('button', { name }));
}

test('a reading is sent and its true strength shown with an 80 % band', async () => {
  const post = open(async () => ({
    strength_percent_vol: 70.2,
    standard_percent_vol: 0.25,
    why: { what: 'True strength', inputs: [], model: 'Density.', source: 'OIML R 22' },
  }));
  await tap('7', '3', 'Point', '1', 'Keep');
  expect(post).toHaveBeenCalledWith('/gauge', {
    reading: 73.1,
    scale: 'percent_vol',
    at_C: 20,
  });
  const figure = await screen.findByRole('button', { name: /True strength:\s*70\.2/ });
  expect(figure.textContent).toContain('±\u202f0.3'); // 1.2816 × 0.25 = 0.32
});

test('the strength goes over into the reduction', async () => {
  const post = open(async (path) =>
    path === '/gauge'
      ? { strength_percent_vol: 68.23, standard_percent_vol: 0.1 }
      : {
          water_kg: 0.941,
          water_L: 0.943,
          volume_L_20C: 4.84,
          contraction_L_20C: 0.003,
          pure_alcohol_L_20C: 2.66,
        },
  );
  await tap('7', '1', 'Keep');
  await userEvent.click(await screen.findByRole('button', { name: 'Reduce it' }));
  expect(screen.getByLabelText<HTMLInputElement>('Strength, true').value).toBe('68.2');
  await userEvent.type(screen.getByLabelText('Volume'), '3900 mL');
  await userEvent.type(screen.getByLabelText('Down to'), '55');
  await tap('Water');
  expect(post).toHaveBeenLastCalledWith('/reduce', {
    volume_L: 3.9,
    strength_percent_vol: 68.2,
    at_C: 20,
    to_percent_vol: 55,
  });
  expect(await screen.findByText('0.943')).toBeTruthy();
});

test('an empty field has its sentence, and nothing is asked', async () => {
  const post = open(async () => ({}));
  await tap('Reduce', 'Water');
  expect(screen.getByText(/Nothing was given; accepted: a volume such as/)).toBeTruthy();
  expect(post.mock.calls.filter(([path]) => path === '/reduce')).toEqual([]);
});

test('a fault of the house stands at its field', async () => {
  open(async () => {
    throw new Problem({
      title: 'The input is not accepted',
      status: 422,
      errors: [{ field: 'to_percent_vol', value: '80 %vol', accepted: 'less than 68.2 %vol' }],
    });
  });
  await tap('Reduce');
  await userEvent.type(screen.getByLabelText('Volume'), '4');
  await userEvent.type(screen.getByLabelText('Strength, true'), '68.2');
  await userEvent.type(screen.getByLabelText('Down to'), '80');
  await tap('Water');
  expect(
    await screen.findByText('“80 %vol” was given; accepted: less than 68.2 %vol.'),
  ).toBeTruthy();
  expect(screen.getByLabelText('Down to').getAttribute('aria-invalid')).toBe('true');
});

test('a silent house is said to be silent, and the numbers stay', async () => {
  open(async () => {
    throw new NoAnswer('cut');
  });
  await tap('Blend');
  const volumes = screen.getAllByLabelText<HTMLInputElement>(/volume$/);
  const strengths = screen.getAllByLabelText('Strength, true');
  for (const [i, field] of [...volumes, ...strengths].entries())
    await userEvent.type(field, String(i + 1));
  await tap('Pour together');
  expect(await screen.findByText(/The house does not answer/)).toBeTruthy();
  expect(volumes[0]!.value).toBe('1');
});

test('a change of the input takes the answer of before away', async () => {
  open(async () => ({
    volume_L_20C: 2.5,
    strength_percent_vol: 41.2,
    pure_alcohol_L_20C: 1.03,
    mass_kg: 2.3,
  }));
  await tap('Blend');
  for (const field of screen.getAllByLabelText(/volume$/)) await userEvent.type(field, '1');
  for (const field of screen.getAllByLabelText('Strength, true')) await userEvent.type(field, '40');
  await tap('Pour together');
  expect(await screen.findByText('2.500')).toBeTruthy();
  await userEvent.type(screen.getAllByLabelText(/volume$/)[0]!, '5');
  expect(screen.queryByText('2.500')).toBeNull();
});

test('backward, and what puts it right after mixing, are asked with the request’s own keys', async () => {
  const lot = { pure_alcohol_L_20C: 2.7, proof_gallons: 1.4, mass_kg: 4.6 };
  const post = open(async (_, body) => ({
    spirit_L: 3.92,
    water_kg: 1.13,
    water_L: 1.131,
    volume_L_20C: 5,
    contraction_L_20C: 0.05,
    pure_alcohol_L_20C: 2.75,
    ...('found' in (body as object)
      ? {
          check: {
            add: 'water',
            found: { volume_L_20C: 4.9, strength_percent_vol: 56, ...lot },
            water_kg: 0.083,
            water_L: 0.0831,
            then: { volume_L_20C: 4.98, strength_percent_vol: 55, ...lot },
            less_planned_kg: 0,
            less_planned_percent_vol: 1,
            water_more_by_kg: -0.083,
          },
        }
      : {}),
  }));
  await tap('Reduce');
  await userEvent.selectOptions(screen.getByLabelText('Asked of'), 'make');
  await userEvent.type(screen.getByLabelText('To be made, at 20 °C'), '5');
  await userEvent.type(screen.getByLabelText('Strength, true'), '70');
  await userEvent.type(screen.getByLabelText('Down to'), '55');
  await tap('Water');
  const asked = { make_L: 5, strength_percent_vol: 70, at_C: 20, to_percent_vol: 55 };
  expect(post).toHaveBeenLastCalledWith('/reduce', asked);
  expect(await screen.findByText('3.920')).toBeTruthy();
  await userEvent.type(screen.getByLabelText('Found after mixing, true'), '56');
  await tap('What puts it right');
  expect(post).toHaveBeenLastCalledWith('/reduce', {
    ...asked,
    found: { strength_percent_vol: 56 },
  });
  expect(await screen.findByText(/83\sg of water .* go in still/)).toBeTruthy();
  expect(screen.getByText(/83\sg less water than planned/)).toBeTruthy();
});

test('weaker spirit and what is dissolved are asked backward too, and the alcoholmeter’s figure made true', async () => {
  const post = open(async (path) =>
    path === '/gauge'
      ? { strength_percent_vol: 46.9, standard_percent_vol: 0.1 }
      : {
          spirit_L: 2.9,
          water_kg: 1.5,
          water_L: 1.502,
          volume_L_20C: 5,
          contraction_L_20C: 0.05,
          pure_alcohol_L_20C: 2.3,
          apparent_percent_vol: 45.1,
          residue_g_L: 4.1,
        },
  );
  await tap('Reduce');
  await userEvent.selectOptions(screen.getByLabelText('Asked of'), 'make');
  await userEvent.type(screen.getByLabelText('To be made, at 20 °C'), '5');
  await userEvent.type(screen.getByLabelText('Strength, true'), '68');
  await userEvent.type(screen.getByLabelText('Down to'), '46');
  await userEvent.selectOptions(screen.getByLabelText('Besides water'), 'weaker');
  await tap('Water');
  expect(post.mock.calls.filter(([path]) => path === '/reduce')).toEqual([]);
  await userEvent.type(screen.getByLabelText('Of it, at 20 °C'), '0.4');
  await userEvent.type(screen.getByLabelText('Its strength'), '22');
  const dried = screen.getByLabelText('Spirit leaves on drying');
  await userEvent.clear(dried);
  await userEvent.type(dried, '7');
  await tap('Water');
  const asked = {
    make_L: 5,
    strength_percent_vol: 68,
    at_C: 20,
    to_percent_vol: 46,
    residue_g_L: 7,
    weaker: { volume_L_20C: 0.4, strength_percent_vol: 22 },
  };
  expect(post).toHaveBeenLastCalledWith('/reduce', asked);
  expect(await screen.findByText('45.1')).toBeTruthy();
  await userEvent.type(screen.getByLabelText('Alcoholmeter shows, at 20 °C'), '46');
  await tap('What puts it right');
  expect(post).toHaveBeenCalledWith('/gauge', {
    reading: 46,
    scale: 'percent_vol',
    at_C: 20,
    residue_g_L: 4.1,
  });
  expect(post).toHaveBeenLastCalledWith('/reduce', {
    ...asked,
    found: { strength_percent_vol: 46.9 },
  });
});

test('the glass that the band rests on is told where the reading is entered', async () => {
  open(async () => ({
    strength_percent_vol: 50,
    standard_percent_vol: 0.6,
    glass: { id: 'class-2', name: 'class II', by_kit: true, certificate: 'no. 7' },
  }));
  expect(
    await screen.findByText(/Taken as read on class II, certificate no\. 7, the kit’s.*±\s0\.8/),
  ).toBeTruthy();
});

test('of a glass without a class it is told that the kit’s own accuracy does not make the band', async () => {
  open(async () => ({
    strength_percent_vol: 50,
    standard_percent_vol: 0.6,
    glass: { id: 'house', name: 'a glass of division 1 %, uncertified', by_kit: true },
  }));
  const told = await screen.findByText(/^Taken as read on a glass of division 1 %, uncertified\./);
  expect(told.textContent!.trim()).toMatch(
    /The band comes of it.*: the kit names no class, and how far it says that its alcoholmeter may be off counts in plans, runs and lots only\.$/,
  );
  expect(told.textContent).not.toMatch(/names no other/);
});
