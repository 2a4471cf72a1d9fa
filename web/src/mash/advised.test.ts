import { expect, test } from 'vitest';
import type { MashCorrection } from '../data/answers';
import { advised, goesIn, timedBy } from './advised';

const said = (advice: MashCorrection, read_C: number) =>
  advised(advice, read_C, 'metric').join(' ').replaceAll('\u00a0', ' ');
const cold = {
  with: 'cold water',
  water_at_C: 12,
  wanted_L: 0.75,
  first_half_L: 0.4,
  after_first_C: 66.2,
  at_most_L: 0.75,
  reached_C: 65.5,
  room_is_short: false,
  wait_minutes: 3,
} as const;

test('in the rest advice is read out in two halves, with the wait between', () => {
  const rest: MashCorrection = { at: 'rest', target_C: 65.5, ...cold };
  expect(said({ ...rest, beta_halves_min: 2.6, alpha_halves_min: 53 }, 66.7)).toBe(
    'Too hot by 1.2 K. Stir in 0.40 L of cold water of 12 °C now, wait 3 min, read again: expect 66.2 °C. 0.35 L more may follow.',
  );
  expect(said({ at: 'rest', with: 'nothing', target_C: 65.5 }, 65.6)).toMatch(/^Good/);
});

test('a mash far too hot is told what its enzymes suffer', () => {
  const hot: MashCorrection = {
    at: 'rest',
    target_C: 64,
    ...cold,
    beta_halves_min: 0.063,
    alpha_halves_min: 7.1,
  };
  expect(said(hot, 75)).toContain(
    'Too hot by 11.0 K. Heat kills the malts’ enzymes: at 75.0 °C half of the beta-amylase is gone in 4 s, half of the alpha-amylase in 7 min, and they do not come back.',
  );
});

test('before the malts it tells each way to cool, with its band, and the water instead', () => {
  const hot: MashCorrection = {
    at: 'dough-in',
    step: 'Cool to 68.8 °C',
    target_C: 68.8,
    lid_on: { middle_min: 70, least_min: 55, most_min: 90 },
    with_coil: { middle_min: 24, least_min: 23, most_min: 25 },
    clock_min: 24,
    by: 'coil',
    target_then_C: 68.5,
    ...cold,
  };
  expect(said(hot, 87)).toMatch(
    /^Too hot by 18\.2 K\. The malts go in at 68\.8 °C; hotter kills their enzymes\. About 24 min \(23 min to 25 min\) with the coil, 1 h 10 min \(55 min to 1 h 30 min\) with the lid on\. Or stir in 0\.40 L of cold water/,
  );
  expect(goesIn(hot)).toBe(true);
  const steps = ['Move to the mash tub', 'Cool to 68.8 °C', 'Stir in the malts'].map((what) => ({
    what,
  }));
  expect(timedBy(hot, steps)).toBe('Cool to 68.8 °C');
  expect(timedBy({ ...hot, step: 'Move to the mash tub' }, steps)).toBe('Cool to 68.8 °C');
  expect(timedBy({ ...hot, step: 'Move to the mash tub', lands_C: 92 }, steps)).toBeUndefined();
});

// It was judged against the rest: "stir in 10.74 L of hot water" for a wort that cools.
test('after the rest nothing is stirred in: the water, the wort and what is over have their own words', () => {
  const sparge: MashCorrection = {
    at: 'sparging',
    with: 'nothing',
    target_C: 75,
    of_L: 12,
    heating: { middle_min: 3, least_min: 3, most_min: 3 },
  };
  expect(said(sparge, 66)).toBe(
    'The rest is over: nothing is stirred in to mend the mash. If it is the water that was read: the sparge water is wanted at 75 °C. Too cold by 9.0 K. About 3 min in the still’s boiler for all 12.0 L of it.',
  );
  const wort: MashCorrection = {
    at: 'wort',
    with: 'nothing',
    target_C: 30.5,
    pitch_C: 25,
    with_coil: { middle_min: 40, least_min: 38, most_min: 42 },
    top_up_cold_L: 31.9,
    top_up_hot_L: 0,
    topped_up_C: 32,
  };
  expect(said(wort, 45)).toBe(
    'It cools to 30.5 °C. About 40 min (38 min to 42 min) with the coil. Nothing goes in yet; 31.9 L of cold water then top it up, for the yeast at 25.0 °C.',
  );
  const { with_coil: _, ...cool } = wort;
  expect(said({ ...cool, topped_up_C: 24.9 }, 30)).toMatch(/^Cool enough: topped up with 31\.9 L/);
  for (const at of ['draining', 'sparging', 'wort', 'pitching', 'over', 'milling'] as const)
    expect(said({ at, with: 'nothing' }, 30)).not.toMatch(/[Ss]tir in/);
});
