import { expect, test, vi } from 'vitest';
import type { Api } from './api';
import { Held } from './held.svelte';
import { NoAnswer, Problem } from './problem';

function house() {
  const hearers = new Set<() => void>();
  const resumers = new Set<() => void>();
  const get = vi.fn<(path: string) => Promise<unknown>>();
  return {
    get,
    kept: () => hearers.forEach((h) => h()),
    back: () => resumers.forEach((r) => r()),
    hearers,
    bench: {
      api: { get } as unknown as Pick<Api, 'get'>,
      hear: (h: () => void) => {
        hearers.add(h);
        return () => void hearers.delete(h);
      },
      onTurn: (r: () => void) => {
        resumers.add(r);
        return () => void resumers.delete(r);
      },
    },
  };
}

test('an answer is asked for again when something was recorded', async () => {
  const h = house();
  h.get.mockResolvedValueOnce({ n: 1 }).mockResolvedValueOnce({ n: 2 });
  const held = new Held<{ n: number }>(h.bench, '/a');
  const stop = held.open();
  await vi.waitFor(() => expect(held.value).toEqual({ n: 1 }));
  h.kept();
  await vi.waitFor(() => expect(held.value).toEqual({ n: 2 }));
  stop();
  expect(h.hearers.size).toBe(0);
});

test('stopped and opened again, as an effect that runs again does, it goes on hearing', async () => {
  // Once it stayed deaf: the ferment page no longer took in what its first reading changed.
  const h = house();
  h.get.mockResolvedValueOnce({ n: 1 }).mockResolvedValueOnce({ n: 2 });
  h.get.mockResolvedValueOnce({ n: 3 });
  const held = new Held<{ n: number }>(h.bench, '/again');
  held.open()();
  const stop = held.open();
  await vi.waitFor(() => expect(held.value).toEqual({ n: 2 }));
  h.kept();
  await vi.waitFor(() => expect(held.value).toEqual({ n: 3 }));
  stop();
});

test('wishes made while a question is out become one more question', async () => {
  const h = house();
  let answer: (v: unknown) => void = () => undefined;
  h.get.mockImplementationOnce(() => new Promise((done) => (answer = done)));
  h.get.mockResolvedValue({ n: 2 });
  const held = new Held<{ n: number }>(h.bench, '/b');
  const stop = held.open();
  for (let i = 0; i < 50; ++i) h.kept();
  answer({ n: 1 });
  await vi.waitFor(() => expect(held.value).toEqual({ n: 2 }));
  expect(h.get).toHaveBeenCalledTimes(2);
  stop();
});

test('while the house does not answer, the last answer stays and is said to be old', async () => {
  const h = house();
  h.get.mockResolvedValueOnce({ n: 1 }).mockRejectedValueOnce(new NoAnswer('cut'));
  const held = new Held<{ n: number }>(h.bench, '/c');
  const stop = held.open();
  await vi.waitFor(() => expect(held.value).toEqual({ n: 1 }));
  h.kept();
  await vi.waitFor(() => expect(held.old).toBe(true));
  expect(held.value).toEqual({ n: 1 });
  h.get.mockResolvedValueOnce({ n: 3 });
  h.back();
  await vi.waitFor(() => expect(held.old).toBe(false));
  expect(held.value).toEqual({ n: 3 });
  stop();
});

test('a page opened while the house is away shows what was last heard', async () => {
  const first = house();
  first.get.mockResolvedValue({ n: 7 });
  const before = new Held<{ n: number }>(first.bench, '/d');
  const stop = before.open();
  await vi.waitFor(() => expect(before.value).toEqual({ n: 7 }));
  stop();
  await new Promise((done) => setTimeout(done, 20));
  const second = house();
  second.get.mockRejectedValue(new NoAnswer('cut'));
  const after = new Held<{ n: number }>(second.bench, '/d');
  const stopAfter = after.open();
  await vi.waitFor(() => expect(after.value).toEqual({ n: 7 }));
  await vi.waitFor(() => expect(after.old).toBe(true));
  expect(after.at_ms).toBeLessThanOrEqual(Date.now());
  stopAfter();
});

test('a refusal is told, and the value of before stays', async () => {
  const h = house();
  h.get.mockResolvedValueOnce({ n: 1 });
  const held = new Held<{ n: number }>(h.bench, '/e');
  const stop = held.open();
  await vi.waitFor(() => expect(held.value).toBeDefined());
  h.get.mockRejectedValueOnce(new Problem({ title: 'No such batch', status: 404 }));
  await held.ask();
  expect(held.fault?.message).toBe('No such batch');
  expect(held.value).toEqual({ n: 1 });
  stop();
});

test('a house that is back and refuses is not said to be silent', async () => {
  const h = house();
  h.get.mockRejectedValueOnce(new NoAnswer('cut'));
  const held = new Held<{ n: number }>(h.bench, '/refused');
  const stop = held.open();
  await vi.waitFor(() => expect(held.old).toBe(true));
  h.get.mockRejectedValue(new Problem({ title: 'No forecast', status: 422 }));
  h.back();
  await vi.waitFor(() => expect(held.fault?.message).toBe('No forecast'));
  expect(held.old).toBe(false);
  stop();
});

test('a question that was not answered is asked again after a while, though nothing was heard', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  try {
    const h = house();
    h.get.mockRejectedValueOnce(new NoAnswer('the phone slept')).mockResolvedValueOnce({ n: 4 });
    const held = new Held<{ n: number }>(h.bench, '/f');
    const stop = held.open();
    await vi.advanceTimersByTimeAsync(0);
    expect(held.old).toBe(true);
    await vi.advanceTimersByTimeAsync(2000);
    expect(held.value).toEqual({ n: 4 });
    expect(held.old).toBe(false);
    stop();
    expect(vi.getTimerCount()).toBe(0);
  } finally {
    vi.useRealTimers();
  }
});

test('a wish made just as an answer is in is not lost', async () => {
  // Whatever step of the answer's coming it falls on.
  for (let steps = 0; steps < 8; ++steps) {
    const h = house();
    h.get.mockImplementationOnce(async () => {
      let step = Promise.resolve();
      for (let i = 0; i < steps; ++i) step = step.then(() => undefined);
      void step.then(h.kept);
      return { n: 1 };
    });
    h.get.mockResolvedValue({ n: 2 });
    const held = new Held<{ n: number }>(h.bench, `/wish ${steps}`);
    const stop = held.open();
    await vi.waitFor(() => expect(held.value, `${steps} steps`).toEqual({ n: 2 }));
    stop();
  }
});
