// Two devices at one run, and a house whose disk is full.
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openDevice } from '../browser.mjs';
import { openHouse } from '../house.mjs';
import { person } from '../person.mjs';
import { faultsOf, holds, read, says } from './still_side.mjs';
import { ternNow } from './tern_now.mjs';

let house, browser, phone, laptop, me, run, before;

beforeAll(async () => {
  [house, browser] = await Promise.all([openHouse({ demo: true, disk: true }), openBrowser()]);
  run = await ternNow(house);
  before = (await house.get(`/batches/${run.batch}/entries`)).entries.length;
  [phone, laptop] = await Promise.all([
    openDevice(browser, house.url, 'phone'),
    openDevice(browser, house.url, 'laptop'),
  ]);
  me = person(phone);
  await Promise.all([phone.open(run.path), laptop.open(run.path)]);
  await Promise.all([me.saved(), person(laptop).saved()]);
});
afterAll(async () => {
  await browser?.close();
  await house?.end();
});

const numbers = ['60.9', '60.6', '60.4', '60.1', '59.8'];

test('a reading made beside the still stands on the laptop within a second', async () => {
  const took = [];
  for (const number of numbers) {
    const seen = laptop.page.getByText(`alcoholmeter ${number}`).waitFor();
    await me.tap('Reading');
    for (const key of number) await me.tap(key === '.' ? 'Point' : key);
    const keep = await me.button('Keep');
    const tapped = performance.now();
    await Promise.all([keep.click(), seen]);
    took.push(performance.now() - tapped);
  }
  took.sort((a, b) => a - b);
  console.log(
    `from the tap on the phone to the laptop's page, ms: ${took.map(Math.round).join(' ')}`,
  );
  expect(took[Math.floor(took.length / 2)]).toBeLessThan(1000);
  await holds(house, run.batch, before, numbers);
});

test('a house whose disk is full says so; the page keeps the entry and sends it again', async () => {
  await house.fillDisk();
  await read(me, '59.6');
  await says(phone.page, '1 kept on this phone');
  await me.sees('1 of this run not yet at home');
  await me.tap('1 kept on this phone');
  await me.sees(
    /could not keep what was sent: The disk of the house is full; nothing of this was kept\./,
  );
  await holds(house, run.batch, before, numbers);
  await house.freeDisk();
  await me.tap('Send now');
  await phone.page.keyboard.press('Escape');
  await me.saved();
  await holds(house, run.batch, before, [...numbers, '59.6']);
  await house.kill();
  await house.restart();
  await holds(house, run.batch, before, [...numbers, '59.6']);
  expect(faultsOf(phone, laptop)).toEqual([]);
});
