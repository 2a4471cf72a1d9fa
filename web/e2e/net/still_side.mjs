// What the tests of the network share: a house under a name of the LAN, a phone let in, readings beside
// the still, and what a device still holds.
import { expect } from 'vitest';
import { until } from '../person.mjs';

export const NAME = 'tern.example';

/** For Chromium: the name is this machine. */
export const named = `--host-resolver-rules=MAP ${NAME} 127.0.0.1`;

/** The calls of the laptop, also over TLS, whose certificate Node does not know. */
export async function laptopOf(browser, house) {
  const context = await browser.newContext({ ignoreHTTPSErrors: true });
  const told = async (answer) => {
    if (!answer.ok()) throw new Error(`${answer.url()}: ${answer.status()} ${await answer.text()}`);
    return answer.json();
  };
  return {
    get: async (path) => told(await context.request.get(`${house.url}/api/v1${path}`)),
    post: async (path, data) =>
      told(await context.request.post(`${house.url}/api/v1${path}`, { data })),
  };
}

/** Lets a device in by a new code, as if it had scanned it. */
export async function letIn(device, me, laptop, origin, name) {
  const { code } = await laptop.post('/pairing/codes', {});
  await device.page.goto(`${origin}/pair#${code}`);
  await me.fill(/^A name for this device/, name);
  await me.tap('Pair');
  await me.title('House');
}

/** One reading of the alcoholmeter: two taps and the number. */
export async function read(me, number) {
  await me.tap('Reading');
  await me.pad(number);
  await me.page.getByRole('dialog', { name: 'Reading' }).waitFor({ state: 'hidden' });
}

/** The ids that wait on a device, in the order in which they go. */
export const waitingOn = (page) =>
  page.evaluate(
    () =>
      new Promise((then, fail) => {
        const asked = indexedDB.open('lynearm-outbox');
        asked.onerror = () => fail(asked.error);
        asked.onsuccess = () => {
          const all = asked.result.transaction('held').objectStore('held').getAll();
          all.onsuccess = () => {
            asked.result.close();
            then(all.result.map((held) => held.entry.id));
          };
        };
      }),
  );

/** The readings of a run that came after the first `before` entries, in the journal's order. */
export async function journalOf(laptop, batch, before) {
  const { entries } = await laptop.get(`/batches/${batch}/entries`);
  return entries.slice(before);
}

/**
 * What went wrong in a device's pages. Over plain HTTP Chromium tells of each page that one of the
 * house's headers needs TLS; its own page for a house that is away knows no local storage.
 */
export const faultsOf = (...devices) =>
  devices
    .flatMap((device) => device.faults())
    .filter(
      (fault) => !/Cross-Origin-Opener-Policy header has been ignored|^chrome-error:/.test(fault),
    );

/** The bar of saving says so. */
export const says = (page, sentence) => page.getByRole('button', { name: sentence }).waitFor();

/** The journal holds just these readings, each once and in this order. */
export async function holds(laptop, batch, before, numbers, ids = []) {
  const entries = await until(
    () => journalOf(laptop, batch, before),
    (found) => found.length >= numbers.length,
  );
  expect(entries.map((entry) => entry.body.spout?.reading)).toEqual(numbers.map(Number));
  const kept = entries.map((entry) => entry.id);
  expect(new Set(kept).size).toBe(numbers.length);
  expect(kept.filter((id) => ids.includes(id))).toEqual(ids);
}
