// The house is killed while readings are entered, and comes back: nothing lost, nothing doubled, in
// order. Under a name of the LAN over plain HTTP and over TLS, and what a page can do that was closed
// meanwhile. The browser is told to trust the house's own certificate, as a person who installed it has.
import { connect } from 'node:tls';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, openDevice } from '../browser.mjs';
import { openHouse } from '../house.mjs';
import { person } from '../person.mjs';
import {
  faultsOf,
  holds,
  laptopOf,
  letIn,
  NAME,
  named,
  read,
  says,
  waitingOn,
} from './still_side.mjs';
import { ternNow } from './tern_now.mjs';

/** A grey dot. */
const PICTURE = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
);

describe.each([
  { over: 'plain HTTP', tls: false },
  { over: 'TLS', tls: true },
])('a phone at a name of the LAN over $over', ({ tls }) => {
  let house, browser, laptop, phone, me, run, before, origin, ids;

  beforeAll(async () => {
    [house, browser] = await Promise.all([
      openHouse({ demo: true, lan: true, tls, name: NAME }),
      openBrowser({ args: [named, ...(tls ? ['--ignore-certificate-errors'] : [])] }),
    ]);
    origin = `${tls ? 'https' : 'http'}://${NAME}:${house.port}`;
    laptop = await laptopOf(browser, house);
    run = await ternNow(laptop);
    before = (await laptop.get(`/batches/${run.batch}/entries`)).entries.length;
    phone = await openDevice(browser, origin, 'phone');
    me = person(phone);
    await letIn(phone, me, laptop, origin, 'Still-side phone');
    await phone.open(run.path);
    await me.saved();
  });
  /** Closes the page and opens an empty one on the same device. */
  async function openAnew() {
    await phone.page.close();
    phone.page = await phone.context.newPage();
    me = person(phone);
    return phone.page;
  }

  afterAll(async () => {
    await browser?.close();
    await house?.end();
  });

  test('goes on while the house is away, and says what is not yet saved', async () => {
    await read(me, '60.9');
    await me.saved();
    await phone.page.locator('.uplot').waitFor();
    // The device is ready for what comes: the browser keeps the pages, or all of them are loaded.
    await phone.page.waitForFunction(
      async (kept) =>
        kept
          ? (await navigator.serviceWorker.getRegistration())?.active?.state === 'activated'
          : performance.getEntriesByType('resource').some((one) => /\/Bottle-\w/.test(one.name)),
      tls,
    );
    // Killed while the second is on its way: kept or not, it must be there once in the end.
    const sent = phone.page.waitForRequest('**/api/v1/entries');
    await Promise.all([read(me, '60.6'), sent.then(() => house.kill())]);
    await read(me, '60.4');
    await read(me, '60.1');
    await says(phone.page, /^[23] kept on this phone$/);
    await me.sees(/[23] of this run not yet at home/);
    await me.sees(/The house does not answer. What stands here is as of \d/);
    await me.sees('alcoholmeter 60.1'); // what is only here counts as read
    await phone.page.locator('.uplot').waitFor();
    ids = await waitingOn(phone.page);
    expect(ids.slice(-2)).toHaveLength(2);
    await me.tap(/kept on this phone$/);
    await me.sees(/The house does not answer since \d/);
    await me.sees(
      tls
        ? /may be closed and opens again meanwhile/
        : /Leave this page open: [^]*since it came over plain HTTP/,
    );
    await phone.page.keyboard.press('Escape');
  });

  test('goes to a stage that was not opened before', async () => {
    await me.go('Jars');
    await me.sees(/The house does not answer/);
    await me.go('Spirit run');
    await phone.page.getByText('alcoholmeter 60.1').waitFor();
  });

  test(
    tls
      ? 'closed and opened again while the house is away, it is there'
      : 'closed, it opens when the house is back',
    async () => {
      expect(await phone.page.evaluate(() => globalThis.isSecureContext)).toBe(tls);
      const page = await openAnew();
      if (tls) {
        await page.goto(origin + run.path);
        await me.title('Spirit run');
        await me.sees('alcoholmeter 60.1');
        await me.sees(/The house does not answer. What stands here is as of \d/);
        expect(await waitingOn(page)).toEqual(ids);
        await read(me, '59.8');
        ids = await waitingOn(page);
      } else {
        await expect(page.goto(origin + run.path)).rejects.toThrow(/ERR_CONNECTION_REFUSED/);
      }
    },
  );

  test('sends all in its order when the house is back, nothing lost or doubled', async () => {
    await house.restart();
    if (!tls) await (await openAnew()).goto(origin + run.path);
    await me.saved();
    expect(await waitingOn(phone.page)).toEqual([]);
    await holds(
      laptop,
      run.batch,
      before,
      ['60.9', '60.6', '60.4', '60.1', ...(tls ? ['59.8'] : [])],
      ids,
    );
    await phone.page.getByText(/What stands here is as of/).waitFor({ state: 'hidden' });
    expect(faultsOf(phone)).toEqual([]);
  });

  test('a photograph waits with its note while the house is away, and goes home with it', async () => {
    await phone.page.goto(`${origin}/batch/${run.batch}`);
    await me.sees('Another note');
    await phone.quiet();
    await house.kill();
    await me.fill('Another note', 'The spout, at noon.');
    await phone.page
      .getByLabel('Photographs, if any')
      .setInputFiles({ name: 'spout.png', mimeType: 'image/png', buffer: PICTURE });
    await me.tap('Add the note');
    await me.sees('not yet saved at home, with its photograph');
    await house.restart();
    await me.saved();
    await phone.page.getByRole('img', { name: /^Attachment 1 of the note/ }).waitFor();
    const { notes } = await laptop.get(`/batches/${run.batch}`);
    expect(notes.at(-1)).toMatchObject({ text: 'The spout, at noon.' });
    expect(notes.at(-1).attachments).toHaveLength(1);
    expect(faultsOf(phone)).toEqual([]);
  });

  test.runIf(tls)('the fingerprint to compare is that of the certificate', async () => {
    const socket = connect({ host: '127.0.0.1', port: house.port, rejectUnauthorized: false });
    await new Promise((resolve) => socket.once('secureConnect', resolve));
    const { fingerprint256 } = socket.getPeerCertificate();
    socket.destroy();
    expect((await laptop.get('/devices')).fingerprint).toBe(fingerprint256);
  });

  test.runIf(tls)('who types the address in plain is shown to TLS', async () => {
    await phone.page.goto(`http://${NAME}:${house.port}/devices`);
    await me.title('Devices');
    expect(phone.page.url()).toBe(`${origin}/devices`);
    await me.sees('Still-side phone');
    expect((await phone.context.cookies())[0]).toMatchObject({ httpOnly: true, secure: true });
  });
});
