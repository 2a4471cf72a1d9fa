// A phone is let in by the code that the laptop shows, once; a stranger and a phone that was shut out
// are refused, and nothing secret stays behind.
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openDevice } from '../browser.mjs';
import { openHouse } from '../house.mjs';
import { person } from '../person.mjs';
import { scanned } from './camera.mjs';
import { faultsOf, NAME, named, says, waitingOn } from './still_side.mjs';

const NEW = 'Still-side phone';
let house, browser, laptop, phone, owner, me, origin, link, token;

beforeAll(async () => {
  [house, browser] = await Promise.all([
    openHouse({ demo: true, lan: true, name: NAME, clock: true }),
    openBrowser({ args: [named] }),
  ]);
  origin = `http://${NAME}:${house.port}`;
  laptop = await openDevice(browser, house.url, 'laptop');
  phone = await openDevice(browser, origin, 'phone');
  owner = person(laptop);
  me = person(phone);
});
afterAll(async () => {
  await browser?.close();
  await house?.end();
});

const asks = (device, path) =>
  device.page.evaluate(async (to) => {
    const answer = await fetch(to);
    return { status: answer.status, told: await answer.json() };
  }, path);

/** The link as it stands under the picture, at the name of the house. */
async function showCode() {
  await owner.tap('Show a code');
  await laptop.page.getByRole('img', { name: 'Code to scan with the phone' }).waitFor();
  return laptop.page.getByText(`${origin}/pair#`).textContent();
}

test('a stranger gets the page and a sentence, and nothing of the house', async () => {
  await phone.open('/');
  await says(phone.page, 'This phone is not paired');
  await me.tap('This phone is not paired');
  await me.sees(
    'The house answers, but does not know this phone. On the laptop where it runs, open Devices',
  );
  await phone.page.keyboard.press('Escape');
  for (const path of ['/api/v1/house', '/api/v1/lots', '/api/v1/events', '/api/v1/devices']) {
    expect(await asks(phone, path)).toMatchObject({
      status: 401,
      told: { title: 'This device is not paired with the house' },
    });
  }
  expect(await phone.page.getByText('Tern 7').count()).toBe(0);
});

test('the code of the laptop lets it in under its name', async () => {
  await laptop.open('/devices');
  link = await showCode();
  const drawn = laptop.page.getByRole('img', { name: 'Code to scan with the phone' });
  expect(await drawn.evaluate((img) => img.naturalWidth)).toBeGreaterThan(20);
  await owner.sees(/It opens once, within (five|four) minutes/);
  await phone.page.goto(link);
  await me.title('Pair this device');
  expect(phone.page.url()).toBe(`${origin}/pair`);
  await me.sees(/This house speaks plain HTTP: whoever shares its network can read along/);
  await me.tap('Pair');
  await me.sees(/Nothing was given; accepted: a name/);
  await me.fill(/^A name for this device/, NEW);
  await me.tap('Pair');
  await me.title('House');
  await me.saved();
  await me.sees('Tern 7');
  await owner.sees(NEW); // the laptop's list hears of it while the code is shown
});

test('the code is spent', async () => {
  const second = await openDevice(browser, origin, 'phone');
  const other = person(second);
  await second.page.goto(link);
  await other.fill(/^A name for this device/, 'Another');
  await other.tap('Pair');
  await other.sees(/This code does not open the house. It was used, is older than five minutes/);
  expect((await house.get('/devices')).devices.map((d) => d.name)).not.toContain('Another');
  await second.close();
});

test('no secret stays in address, history, scripts’ reach or log', async () => {
  const code = link.split('#')[1];
  const [cookie, ...more] = await phone.context.cookies();
  token = cookie.value;
  expect(more).toEqual([]);
  expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Strict' });
  const devtools = await phone.context.newCDPSession(phone.page);
  const { entries } = await devtools.send('Page.getNavigationHistory');
  // What was typed or scanned Chromium remembers beside it; the code is spent by then.
  const visited = entries.map((entry) => entry.url);
  expect(visited).toContain(`${origin}/pair`);
  expect(visited.join()).not.toContain(code);
  expect(
    await phone.page.evaluate(
      () => document.cookie + JSON.stringify({ ...localStorage, ...sessionStorage }),
    ),
  ).not.toContain(token);
  for (const secret of [code, token]) expect(house.said()).not.toContain(secret);
});

test('shut out, it is refused at once, its open page as well, and loses nothing', async () => {
  await laptop.open('/devices'); // the code is not on the screen any more
  await owner.tap(`Shut out ${NEW}`);
  await owner.tap('Yes, shut out');
  const shut = performance.now();
  await says(phone.page, 'This phone is shut out');
  await me.sees(/no longer lets this phone in: it was shut out/);
  // Not by a question of its own: its stream was ended.
  expect(performance.now() - shut).toBeLessThan(3000);
  await laptop.page.getByText(NEW).waitFor({ state: 'hidden' });
  expect((await asks(phone, '/api/v1/house')).status).toBe(401);
  const again = await phone.context.request.get(`${house.url}/api/v1/house`, {
    headers: { Authorization: `Bearer ${token}`, Host: `${NAME}:${house.port}` },
  });
  expect(again.status()).toBe(401);
});

test('what it entered meanwhile is sent when it is let in again', async () => {
  const [tern] = (await house.get('/house')).batches;
  await phone.open(`/batch/${tern.batch}`);
  await me.fill(/^Another note/, 'Written while shut out');
  await me.tap('Add the note');
  await says(phone.page, 'This phone is not paired, 1 kept');
  const [id] = await waitingOn(phone.page);
  await phone.page.goto(await showCode());
  await me.fill(/^A name for this device/, NEW);
  await me.tap('Pair');
  await me.saved();
  const { entries } = await house.get(`/batches/${tern.batch}/entries`);
  expect(entries.filter((entry) => entry.id === id)).toHaveLength(1);
  expect(faultsOf(phone, laptop)).toEqual([]);
});

test('what a camera reads off the laptop’s screen pairs a second phone', async () => {
  await laptop.open('/devices');
  await showCode();
  const shown = await laptop.page.getByText(/\/pair#/).allTextContents();
  const read = await scanned(laptop.page.getByRole('img', { name: 'Code to scan with the phone' }));
  expect(shown).toContain(read);
  // Of several that stand beside it, the page tells which the picture holds.
  if (shown.length > 1) await owner.sees(`The picture leads to ${new URL(read).origin}/.`);
  else expect(read).toBe(shown[0]);
  const second = await openDevice(browser, new URL(read).origin, 'phone');
  const other = person(second);
  await second.page.goto(read);
  await other.title('Pair this device');
  await other.fill(/^A name for this device/, 'Phone with a camera');
  await other.tap('Pair');
  await other.title('House');
  await other.saved();
  await other.sees('Tern 7');
  await owner.sees('Phone with a camera');
  expect(faultsOf(second)).toEqual([]);
  await second.close();
});

test('a code that nobody used opens nothing after five minutes', async () => {
  await laptop.open('/devices');
  link = await showCode();
  await house.pass(301_000);
  const late = await openDevice(browser, origin, 'phone');
  const other = person(late);
  await late.page.goto(link);
  await other.fill(/^A name for this device/, 'Too late');
  await other.tap('Pair');
  await other.sees(/This code does not open the house. It was used, is older than five minutes/);
  expect((await house.get('/devices')).devices.map((d) => d.name)).not.toContain('Too late');
  expect((await asks(late, '/api/v1/house')).status).toBe(401);
  await late.close();
});
