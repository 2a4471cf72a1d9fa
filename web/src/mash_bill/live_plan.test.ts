import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Plan } from '../data/answers';
import { NoAnswer, Problem } from '../data/problem';
import { LivePlan, MEMBERS } from './live_plan.svelte';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const texts = (recipe: string) => ({ recipe, kit: 'k' });
const planOf = (name: string) => ({ batch: { name } }) as Plan;
type Asked = {
  body: { recipe: string; members?: number };
  answer: (plan: Plan) => void;
  fail: (f: Error) => void;
};

function live() {
  const asked: Asked[] = [];
  const post = vi.fn(
    (_path: string, body: unknown) =>
      new Promise((answer, fail) =>
        asked.push({ body: body as Asked['body'], answer, fail } as Asked),
      ),
  );
  const plan = new LivePlan({ post } as unknown as ConstructorParameters<typeof LivePlan>[0]);
  return { plan, asked };
}

test('of quick typing only what it came to is asked', async () => {
  const { plan, asked } = live();
  for (const text of ['1', '12', '120']) plan.follow(texts(text), false);
  await vi.advanceTimersByTimeAsync(200);
  expect(asked.map((a) => a.body.recipe)).toEqual(['120']);
});

test('the last answer wins, whenever the earlier ones come', async () => {
  const { plan, asked } = live();
  plan.follow(texts('first'), false);
  await vi.advanceTimersByTimeAsync(200);
  plan.follow(texts('second'), false);
  await vi.advanceTimersByTimeAsync(200);
  asked[1]!.answer(planOf('second'));
  asked[0]!.answer(planOf('first'));
  await vi.advanceTimersByTimeAsync(0);
  expect(plan.plan?.batch.name).toBe('second');
  expect(plan.older).toBe(false);
});

test('faults are kept by field, and the last good plan stays, marked as older', async () => {
  const { plan, asked } = live();
  plan.follow(texts('good'), false);
  await vi.advanceTimersByTimeAsync(200);
  asked[0]!.answer(planOf('good'));
  await vi.advanceTimersByTimeAsync(0);
  plan.follow(texts('bad'), false);
  await vi.advanceTimersByTimeAsync(200);
  asked[1]!.fail(
    new Problem({
      title: 'x',
      status: 422,
      errors: [{ field: 'mash_bill[1].mass', value: '8 L' }],
    }),
  );
  await vi.advanceTimersByTimeAsync(0);
  expect(plan.faults.map((f) => f.field)).toEqual(['mash_bill[1].mass']);
  expect(plan.plan?.batch.name).toBe('good');
  expect(plan.older).toBe(true);
  expect(plan.asking).toBe(false);
});

test('a house that does not answer is told, and no fault is made up', async () => {
  const { plan, asked } = live();
  plan.follow(texts('x'), false);
  await vi.advanceTimersByTimeAsync(200);
  asked[0]!.fail(new NoAnswer('gone'));
  await vi.advanceTimersByTimeAsync(0);
  expect(plan.faults).toEqual([]);
  expect(plan.sentence).toContain('does not answer');
  // And asked again by itself, until it is back.
  await vi.advanceTimersByTimeAsync(4000);
  asked[1]!.answer(planOf('x'));
  await vi.advanceTimersByTimeAsync(0);
  expect(plan.sentence).toBe('');
  expect(plan.plan?.batch.name).toBe('x');
});

test('bands are asked for after the plan itself, when wished', async () => {
  const { plan, asked } = live();
  plan.follow(texts('x'), true);
  await vi.advanceTimersByTimeAsync(200);
  asked[0]!.answer(planOf('x'));
  await vi.advanceTimersByTimeAsync(1000);
  expect(asked.map((a) => a.body.members)).toEqual([undefined, MEMBERS]);
});
