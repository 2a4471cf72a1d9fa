// A question that comes after a press of Keep stands at the page's top, out of sight on a phone: a notice at
// the window's foot tells of it, and leads there.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, expect, test, vi } from 'vitest';
import type { Batch } from '../data/answers';
import { Held, type Voice } from '../data/held.svelte';
import AskedHere from './AskedHere.svelte';
import { inBrief, questionKey } from './asked_here';

afterEach(() => vi.unstubAllGlobals());

const ask = (entry: string, why: string) => ({ entry, why, counts: true });
const FIRST = ask('first', 'A mash at 6.6 °C.');
const LATER = ask('later', 'Jar 2 was gauged at 900 mL.');
const things = [{ entry: 'first' }, { entry: 'later' }, { entry: 'third' }];
const told = (batch: string, ...puzzles: (typeof FIRST)[]) =>
  ({ batch, puzzles }) as unknown as Batch;
const see = () => screen.queryByRole('button', { name: 'See it' });

test('what is asked since the page was opened is told at the foot, and “See it” leads to it', async () => {
  const scrolled = vi.spyOn(Element.prototype, 'scrollIntoView').mockReturnValue();
  const page = render(AskedHere, { told: undefined, things });
  await page.rerender({ told: told('notice 1', FIRST), things });
  expect(see()).toBeNull(); // it stood there
  await page.rerender({ told: told('notice 1', FIRST, LATER), things });
  await vi.waitFor(() => expect(see()).toBeTruthy());
  expect(screen.getByRole('status').textContent).toMatch(/The house asks\.\s+Jar 2 was gauged/);
  await userEvent.click(see()!);
  expect(document.activeElement?.textContent).toMatch(/Jar 2 was gauged at 900.mL/);
  expect(scrolled).toHaveBeenCalledTimes(1);
  expect(see()).toBeNull();
  scrolled.mockRestore();
});

test('put off, it does not come again, nor when its figures move; answered, it goes, and may come anew', async () => {
  const page = render(AskedHere, { told: told('notice 2', FIRST), things });
  const now = (...puzzles: (typeof FIRST)[]) =>
    page.rerender({ told: told('notice 2', ...puzzles), things });
  await now(FIRST, LATER, ask('third', 'A third.'));
  await vi.waitFor(() => expect(screen.getByRole('status').textContent).toMatch(/And 1 more/));
  await userEvent.click(screen.getByRole('button', { name: 'Later' }));
  expect(see()).toBeNull();
  await now(FIRST, { ...LATER, why: 'Jar 2 was gauged at 901.5 mL.' }, ask('third', 'A third.'));
  expect(see()).toBeNull();
  await now(FIRST);
  await now(FIRST, LATER);
  await vi.waitFor(() => expect(see()).toBeTruthy());
  await now(FIRST);
  expect(see()).toBeNull();
});

test('under an open drawer it waits, and in the window it is seen', async () => {
  let tell: (in_view: boolean) => void = () => undefined;
  vi.stubGlobal(
    'IntersectionObserver',
    class {
      constructor(heard: (seen: unknown[]) => void) {
        tell = (isIntersecting) =>
          heard([
            {
              isIntersecting,
              intersectionRatio: isIntersecting ? 1 : 0,
              intersectionRect: { height: isIntersecting ? 80 : 0 },
            },
          ]);
      }
      observe() {}
      disconnect() {}
    },
  );
  const dialog = document.body.appendChild(document.createElement('dialog'));
  dialog.open = true;
  const page = render(AskedHere, { told: told('notice 3'), things });
  await page.rerender({ told: told('notice 3', LATER), things });
  tell(false);
  await new Promise((then) => setTimeout(then, 10));
  expect(see()).toBeNull();
  dialog.open = false;
  await vi.waitFor(() => expect(see()).toBeTruthy());
  dialog.open = true;
  await vi.waitFor(() => expect(see()).toBeNull());
  dialog.remove();
  await vi.waitFor(() => expect(see()).toBeTruthy());
  tell(true);
  await vi.waitFor(() => expect(see()).toBeNull());
  tell(false); // scrolled away again
  await new Promise((then) => setTimeout(then, 10));
  expect(see()).toBeNull();
});

test('a long question is cut behind a word', () => {
  const brief = inBrief(`${'word '.repeat(60)}end.`);
  expect(brief.length).toBeLessThanOrEqual(142);
  expect(brief).toMatch(/word …$/);
  expect(inBrief('Short.')).toBe('Short.');
  expect(questionKey(FIRST)).not.toBe(questionKey(LATER));
});

test('what the device remembers of last time is no state that a question is new against', async () => {
  const bench = (get: () => Promise<unknown>) =>
    ({ api: { get }, hear: () => () => true, onTurn: () => () => true }) as unknown as Voice;
  const last = new Held<Batch>(
    bench(() => Promise.resolve(told('notice 4', FIRST))),
    '/batches/notice4',
  );
  const stop = last.open();
  await vi.waitFor(() => expect(last.value).toBeDefined());
  stop();
  let answer: (told: Batch) => void = () => undefined;
  const now = new Held<Batch>(
    bench(() => new Promise((then) => (answer = then as typeof answer))),
    '/batches/notice4',
  );
  await vi.waitFor(() => {
    now.open()();
    now.open();
    expect(now.value).toBeDefined();
  });
  const page = render(AskedHere, { told: now.value, things });
  answer(told('notice 4', FIRST, LATER));
  await vi.waitFor(() => expect(now.value!.puzzles).toHaveLength(2));
  await page.rerender({ told: now.value, things });
  await new Promise((then) => setTimeout(then, 10));
  expect(see()).toBeNull(); // it stood at home when the page was opened
  await page.rerender({
    told: told('notice 4', FIRST, LATER, ask('third', 'A third.')),
    things,
  });
  await vi.waitFor(() => expect(see()).toBeTruthy());
});
