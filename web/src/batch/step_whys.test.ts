import { expect, test } from 'vitest';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import { askedOfStep, figuresOf } from './step_whys';
import { stepsAt, type StepAt } from './timeline';

// The steps after the ferment, which the plan for tests leaves out, in the words of a plan.
const later: [string, string][] = [
  ['Strip', 'Strip 1 of 4: charge 9.7 L, check the outlet is open'],
  ['Strip', 'Strip 1 of 4: heat to 93.0 °C'],
  ['Strip', 'Strip 1 of 4: run, 2.5 L'],
  ['Strip', 'Strip 1 of 4: heat off, let it cool, empty, rinse'],
  ['Spirit run', 'Spirit run: run, 6.1 L'],
  ['Jars', 'Air the jars under a cloth, away from any flame'],
  ['Reduce', 'Reduce with 1.14 kg of water to 55.0 %vol, in steps'],
  ['Wood', 'Lay 4.72 L on 2 staves'],
  ['Wood', 'Draw a sample, nose, taste, note'],
  ['Wood', 'Mature'],
  ['Bottle', 'Reduce to 48.0 %vol, rest, fill 10 bottles'],
];
const steps = [
  ...stepsAt(ternPlan, undefined),
  ...later.map(([stage, what], i): StepAt => ({
    stage,
    what,
    start_min: 11_520 + 60 * i,
    length_min: 45,
    clock: `day 9 ${String(i + 8).padStart(2, '0')}:00`,
    attention: 'hands_on',
    beside: false,
    done: false,
  })),
];

test('every figure of every step of a plan answers with model, source and band', () => {
  for (const step of steps) {
    const told = askedOfStep(ternPlan, step, steps, step.clock);
    const answered = told.flatMap((one) => one.figures);
    for (const number of step.what.match(/\d[\d.]*/g) ?? [])
      expect(answered.join(' '), step.what).toContain(number);
    expect(answered, step.what).toContain(step.clock);
    for (const { why } of told)
      expect([why.what, why.model, why.source, why.band].every(Boolean), step.what).toBe(true);
  }
});

test('figures stand with their units, and a count with what it is of', () => {
  expect(figuresOf('Strip 2 of 4: charge 9.7 L, check the outlet is open')).toEqual([
    '2 of 4',
    '9.7 L',
  ]);
  expect(figuresOf('Reduce to 48.0 %vol, rest, fill 10 bottles')).toEqual([
    '48.0 %vol',
    '10 bottles',
  ]);
});

test('what a step heats, and what it takes, have their own reasons', () => {
  const heated = steps.find((step) => /^Strip 1 .*heat to/.test(step.what))!;
  const told = askedOfStep(ternPlan, heated, steps, heated.clock);
  const of = (figure: RegExp) => told.find((one) => figure.test(String(one.figures[0])))!.why;
  expect(of(/°C/).inputs.map((input) => input.name)).toContain('Air pressure');
  expect(of(/min/).inputs.map((input) => input.name)).toContain('Boiler at full power');
  expect(of(/^day/).inputs[0]).toMatchObject({ name: 'After' });
});
