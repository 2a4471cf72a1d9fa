// Wrong input in every form: its sentence stands at its field, nothing of it is sent, and what was
// typed stays. The house is the invented one, and a batch of its own for what it is past.
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { openBrowser, openDevice } from './browser.mjs';
import { openHouse } from './house.mjs';
import { person, until } from './person.mjs';

/** Wrong in a field of such a kind; an empty field is wrong where it is needed. */
const WRONG = {
  volume: ['a lot', '10 lb', '-5', '99999'],
  millilitres: ['a lot', '10 lb', '-5', '99999999'],
  degrees: ['warm', '10 lb', '4000', '-300'],
  strength: ['strong', '60 L', '101', '-5'],
  gravity: ['thick', '1.05 kg', '50', '-1'],
  grams: ['a spoon', '3 L', '-5'],
  kilograms: ['some', '3 L', '-5', '99999'],
  pressure: ['low', '1003 kg', '-5', '99999'],
  watts: ['full', '10 lb', '-5', '999999'],
  count: ['many', '2.5', '-1', '999999'],
  fault: ['bad', '11', '-1'],
  minutes: ['long', '0', '-5'],
  extract: ['dry', '3 L', '51', '-1'],
  moment: ['1999-12-31T23:59', '2099-01-01T00:00'], // the browser lets nothing else through
  name: ['x'.repeat(201)],
  prose: ['x'.repeat(20_001)],
};
/** No number for a figure of any kind: each field gets the next of them. */
const NO_NUMBER = ['NaN', '1e999', '9'.repeat(400)];
const TEXTS = new Set(['name', 'prose', 'moment']);

describe('wrong input', () => {
  let house, browser, device, me, page, tern7, tern8, fresh;
  let sent = [];

  beforeAll(async () => {
    [house, browser] = await Promise.all([openHouse({ demo: true }), openBrowser()]);
    device = await openDevice(browser, house.url, 'phone');
    ({ page } = device);
    me = person(device);
    page.on('request', (call) => {
      if (call.method() === 'POST' && call.url().endsWith('/entries')) sent.push(call.postData());
    });
    const { batches } = await house.get('/house');
    tern7 = batches.find((b) => b.name === 'Tern 7').batch;
    tern8 = batches.find((b) => b.name === 'Tern 8').batch;
    await device.open('/');
    await me.tap('Begin a batch');
    await me.fill(/^Litres of wash/, '40');
    await me.fill(/^Name of the batch/, 'Tern 9');
    await me.tap('Begin');
    await me.title('Mash bill');
    await me.saved();
    fresh = (await house.get('/house')).batches.find((b) => b.name === 'Tern 9').batch;
  });
  beforeEach(({ onTestFailed }) => {
    sent = [];
    onTestFailed(() => device.shoot('wrong-failed', false));
  });
  afterAll(async () => {
    await browser?.close();
    await house?.end();
  });

  const to = (batch, stage) => device.open(`/batch/${batch}/${stage}`);

  /** The sentence that a field names as its description, while it is said to be invalid. */
  const shown = (field) =>
    field.evaluate((input) => ({
      value: input.value,
      sentence:
        input.getAttribute('aria-invalid') === 'true'
          ? (input.getAttribute('aria-describedby') ?? '')
              .split(' ')
              .map((id) => document.getElementById(id)?.textContent ?? '')
              .join(' ')
              .trim()
          : '',
    }));
  const TELLS = /accepted|needed|does not fit|more than there is|is a unit of|first/;
  let turn = 0;
  const texts = (kind, needed, more = []) => [
    ...WRONG[kind],
    ...(TEXTS.has(kind) ? [] : [NO_NUMBER[turn++ % NO_NUMBER.length]]),
    ...more,
    ...(needed ? [''] : []),
  ];

  async function says(field, label, text) {
    const told = await until(
      () => shown(field),
      ({ sentence }) => TELLS.test(sentence),
      10_000,
      `${label}: “${text.slice(0, 20)}”`,
    );
    expect(told.sentence.length, 'a sentence is short').toBeLessThan(400);
    expect(told.value, 'what was typed stays').toBe(text);
  }

  async function unsent(what) {
    await device.quiet(40);
    expect(sent, `${what}: nothing is sent`).toEqual([]);
  }

  /**
   * Each wrong text of its kind in a field, with the form sent after the first and the last (keep: its
   * button; none where it is told while typing). At the end the field holds `well`, or what it held.
   */
  async function refuses(label, kind, { keep, needed = false, within, well } = {}) {
    const field = await me.field(label, within);
    const before = await field.inputValue();
    const all = texts(kind, needed);
    for (const [i, text] of all.entries()) {
      await field.fill(text);
      if (keep && (i === 0 || i + 1 === all.length)) {
        const button = await me.button(keep);
        if (await button.isEnabled()) await button.click();
      }
      await says(field, label, text);
    }
    await field.fill(well ?? before);
    await unsent(label);
  }

  /** The same on a number pad, which has a keyboard as well. */
  async function padRefuses(kind, needed = true) {
    const field = page.getByRole('dialog').filter({ visible: true }).getByRole('textbox').first();
    for (const text of texts(kind, needed)) {
      await field.fill(text);
      await field.press('Enter');
      await says(field, 'the pad', text);
    }
    await field.fill('');
    await unsent('the pad');
  }

  test('at the house: a batch begun', async () => {
    await device.open('/');
    await me.tap('Begin a batch');
    await refuses(/^Name of the batch/, 'name', { keep: 'Begin', well: 'Tern 10' });
    await refuses(/^Litres of wash/, 'volume', { keep: 'Begin', well: '30' });
    await me.tap('Leave');
  });

  test('mash bill and kit: the house’s sentence at its field, and no plan kept', async () => {
    await to(fresh, 'mash-bill');
    const line = page.getByRole('group', { name: 'Ingredient 1' });
    await refuses('Mass', 'kilograms', { within: line, needed: true });
    await refuses('Rest at', 'degrees', { needed: true });
    await refuses(/^Topped up to/, 'volume');
    await device.open('/kit');
    const begin = page.getByRole('button', { name: 'Begin with a plain kit' });
    if (await begin.isVisible()) await begin.click();
    await refuses('Room is at', 'degrees');
    await refuses('Holds to the brim', 'volume', { needed: true });
    await refuses('Power', 'watts', { needed: true });
  });

  test('mash day: temperature and worts', async () => {
    await to(fresh, 'mash');
    await me.tap('Temperature');
    await padRefuses('degrees');
    await me.tap('Close');
    const keep = 'Keep this wort';
    await refuses('Volume', 'volume', { keep, needed: true, well: '25' });
    await refuses('as warm as', 'degrees', { keep, needed: true });
    await refuses('reads', 'gravity', { keep, needed: true, well: '1.060' });
    await refuses('at', 'degrees', { keep, needed: true, well: '20' });
  });

  test('ferment: pitch', async () => {
    await to(fresh, 'ferment');
    const keep = 'The yeast is in';
    await refuses('Wort', 'volume', { keep, needed: true, well: '40' });
    await refuses('as warm as', 'degrees', { keep, needed: true });
    await refuses('reads', 'gravity', { keep, needed: true, well: '1.060' });
    await refuses('at', 'degrees', { keep, needed: true });
    await refuses(/^so much of it/, 'grams', { keep, needed: true });
    // Pitched now, for what comes after.
    await me.fill('reads', '1.060');
    await me.tap(keep);
    await me.sees('Pitched.');
    await me.saved();
    sent = [];
    const read = 'Keep the reading';
    await refuses('reads', 'gravity', { keep: read, needed: true, well: '1.010' });
    await refuses('at', 'degrees', { keep: read, needed: true });
    await refuses(/^Wash, in the fermenter/, 'degrees', { keep: read, well: '' });
    await refuses('Clear wash', 'volume', { keep: 'Racked', needed: true, well: '38' });
    await refuses('as warm as', 'degrees', { keep: 'Racked', needed: true });
    await refuses('Lees left', 'volume', { keep: 'Racked' });
  });

  test('strip: charge, power, the end of the run', async () => {
    await to(fresh, 'strip');
    const keep = 'The heat is on: start the run';
    await refuses('Volume', 'volume', { keep, needed: true, well: '9.6' });
    await refuses('at', 'degrees', { keep, needed: true });
    await refuses(/^Of this batch’s wash/, 'volume', { keep, well: '9.6' });
    await refuses(/^Power from the start/, 'watts', { keep, well: '' });
    await me.tap(keep);
    await page.getByRole('button', { name: 'Next jar' }).waitFor();
    await me.saved();
    sent = [];
    await me.tap('Next jar');
    await padRefuses('millilitres');
    await me.tap('Close');
    await me.tap('Power');
    await padRefuses('watts');
    await me.tap('Close');
    await me.tap('Note');
    await refuses(/^What you saw/, 'prose', { keep: 'Keep', needed: true });
    await me.tap('Close');
    await me.tap('End the run');
    const end = 'Heat is off: end the run';
    await refuses('Volume', 'volume', { keep: end, well: '2.4' });
    await refuses('Alcoholmeter reads', 'strength', { keep: end, well: '33' });
    await refuses('at', 'degrees', { keep: end, needed: true });
    await refuses('Left in the pot', 'volume', { keep: end });
  });

  test('spirit run: every scale of a reading, and its correction', async () => {
    await to(tern8, 'spirit-run');
    await me.tap('Reading');
    for (const [scale, kind] of [
      ['Alcoholmeter', 'strength'],
      ['Head', 'degrees'],
      ['Pot', 'degrees'],
      ['Coolant out', 'degrees'],
    ]) {
      await me.tap(new RegExp(`^${scale}`));
      await padRefuses(kind);
    }
    await me.tap(/^at /);
    await padRefuses('degrees', false);
    await me.tap('Close');
    await page.getByText('Readings and jars', { exact: true }).click();
    await page
      .getByRole('button', { name: /^Correct the reading/ })
      .first()
      .click();
    await padRefuses('strength');
    await me.tap('Close');
  });

  test('jars: split, gauging, sample, fault, words, glass', async () => {
    await to(tern7, 'jars');
    await me.sees('Jars one by one');
    await me.tap(/^Split jar/);
    const field = page.getByRole('dialog').locator('.field');
    await refuses(/^To the/, 'millilitres', { keep: 'Split', needed: true, within: field });
    await me.tap('Close');
    await page.getByRole('row').getByRole('button', { name: 'Jar 6', exact: true }).click();
    const keep = /^(Keep|Gauge it anew|Correct its gauging)$/;
    await refuses('Volume', 'millilitres', { keep, needed: true, well: '400' });
    await refuses('Alcoholmeter reads', 'strength', { keep, needed: true, well: '70' });
    await refuses('at', 'degrees', { keep, needed: true });
    await refuses('Sample', 'millilitres', { needed: true });
    await refuses(/^Fault, 0 to 10/, 'fault', { keep: 'Note it', well: '' });
    await refuses('In your own words', 'prose', { keep: 'Note it', needed: true });
    await me.tap('Close');
    await me.tap('Trial in the glass');
    await refuses(/^Jar 6,/, 'millilitres');
    await me.tap('Close');
  });

  test('reduce: lots, strength, waters, name, what was measured', async () => {
    await to(tern7, 'reduce');
    const keep = 'Keep the lot';
    const lot = page.locator('.lot').first();
    await lot.waitFor();
    await refuses(/./, 'volume', { keep, within: lot, well: '0.2' });
    await refuses(/^Down to/, 'strength', { keep, well: '40' });
    await refuses('Water at', 'degrees', { keep, needed: true });
    await refuses('Name', 'name', { keep, needed: true });
    await refuses('Water that went in', 'kilograms', { keep, needed: true });
    await refuses('Volume', 'volume', { keep, well: '1' });
    await refuses('Alcoholmeter reads', 'strength', { keep, well: '40' });
    await refuses('at', 'degrees', { keep, needed: true });
  });

  test('wood: what is laid on it, a sample, what comes off', async () => {
    await to(tern7, 'wood');
    const lay = page.locator('form').filter({ visible: true }).last();
    const keep = 'It is on wood';
    await refuses('of it, at 20 °C', 'volume', { keep, within: lay, needed: true, well: '0.1' });
    await refuses('Staves', 'count', { keep, within: lay });
    await me.tap('Lay other staves with it');
    await refuses('How many', 'count', { keep, within: lay, needed: true });
    await me.tap('Leave these out');
    await refuses(/^In/, 'name', { keep, within: lay, needed: true });
    await me.tap('Draw a sample');
    await refuses('Drawn', 'millilitres', { keep: 'Note the sample', needed: true });
    await refuses('In your own words', 'prose', { keep: 'Note the sample' });
    await me.tap('Close');
    await me.tap('Take it off the wood');
    const off = 'It is off the wood';
    await refuses('Volume', 'volume', { keep: off, needed: true, well: '1' });
    await refuses('Alcoholmeter reads', 'strength', { keep: off, needed: true, well: '50' });
    await refuses('at', 'degrees', { keep: off, needed: true });
    await me.tap('Close');
  });

  test('bottle: volume, size, count, strength', async () => {
    await to(tern7, 'bottle');
    const keep = 'Bottled';
    await refuses('of it, at 20 °C', 'volume', { keep, needed: true });
    await me.tap('All');
    await refuses('Left in the filter', 'millilitres', { keep });
    await refuses('Size', 'millilitres', { keep, needed: true });
    await refuses(/^Bottles/, 'count', { keep, needed: true });
    await refuses('True strength', 'strength', { keep, needed: true });
  });

  test('bottle: the true strength of a spirit that comes off wood', async () => {
    await to(tern7, 'wood');
    await me.tap('Take it off the wood');
    await me.fill('Volume', '3.3');
    await me.fill('Alcoholmeter reads', '54');
    await me.tap('It is off the wood');
    await me.sees('Off the wood.');
    await me.saved();
    sent = [];
    await to(tern7, 'bottle');
    const lot = await me.field('Lot');
    const ways = page.locator('summary', { hasText: 'true strength' });
    for (const option of await lot.locator('option').all()) {
      await lot.selectOption(await option.getAttribute('value'));
      if (await ways.isVisible()) break;
    }
    await ways.click();
    const form = page.locator('details[open] .fields');
    await refuses('Alcoholmeter reads', 'strength', { within: form, well: '47' });
    await refuses('at', 'degrees', { within: form, needed: true });
    await refuses('Left on drying', 'extract', { within: form });
  });

  test('a batch’s notes and the correction of any entry', async () => {
    await device.open(`/batch/${tern7}`);
    await refuses('Another note', 'prose', { keep: 'Add the note', needed: true });
    await page
      .getByRole('button', { name: /^Correct bottled/ })
      .first()
      .click();
    await refuses('Bottles', 'count', { keep: 'Correct it', needed: true });
    await refuses(/^Size/, 'volume', { keep: 'Correct it', needed: true });
    await refuses('When it happened', 'moment', { keep: 'Correct it', needed: true });
    await refuses('Why it is struck', 'prose', { keep: 'Strike it out' });
    await me.tap('Close');
  });

  test('stock: what is taken out, gauged, brought in', async () => {
    await device.open('/stock');
    const take = 'It is taken out';
    await me.tap(/^Take out of feints of Tern 7/);
    await refuses('Taken out, at 20 °C', 'volume', { keep: take, needed: true, well: '0.1' });
    await refuses(/^Reason/, 'prose', { keep: take });
    await me.tap('Close');
    const gauge = 'It is gauged';
    await me.tap(/^Gauge feints of Tern 7/);
    await refuses('Volume', 'volume', { keep: gauge, needed: true, well: '1' });
    await refuses('Alcoholmeter reads', 'strength', { keep: gauge, needed: true, well: '41' });
    await refuses('at', 'degrees', { keep: gauge, needed: true });
    await me.tap('Close');
    const bring = 'It is in stock';
    await me.tap('Bring a lot in');
    await refuses('Name', 'name', { keep: bring, needed: true, well: 'Feints of spring' });
    await refuses('Volume', 'volume', { keep: bring, needed: true, well: '3' });
    await refuses('Alcoholmeter reads', 'strength', { keep: bring, needed: true, well: '38' });
    await refuses('at', 'degrees', { keep: bring, needed: true });
    await me.tap('Close');
  });

  test('air, copper and what goes into mash and ferment', async () => {
    await device.open('/kit');
    await me.tap('Read the air');
    await refuses(/^Barometer/, 'pressure', { keep: 'Keep the air', needed: true, well: '1003' });
    await refuses(/^Thermometer in/, 'degrees', { keep: 'Keep the air' });
    await me.tap('Close');
    const cleaned = 'Keep the cleaning';
    await me.tap('Copper was cleaned');
    await me.choose('What was cleaned', 'something else');
    await refuses('Namely', 'name', { keep: cleaned, needed: true, well: 'worm' });
    await refuses('Remark', 'prose', { keep: cleaned });
    await me.tap('Close');
    for (const stage of ['mash', 'ferment']) {
      await to(tern8, stage);
      await me.tap('Something went in');
      await me.choose('What went in', 'something else');
      await refuses('Namely', 'name', { keep: 'It went in', needed: true, well: 'raisins' });
      await refuses('Mass', 'grams', { keep: 'It went in', needed: true, well: '24' });
      await refuses('or volume', 'millilitres', { keep: 'It went in' });
      await me.tap('Close');
    }
    await to(tern8, 'mash');
    await me.tap('Something went in');
    await me.choose('What went in', 'water');
    const keep = 'It is stirred in';
    await refuses('Volume', 'volume', { keep, needed: true, well: '1' });
    await refuses('as warm as', 'degrees', { keep, needed: true });
    await me.tap('Close');
  });

  test('gauge, clocks and settings, which record nothing', async () => {
    await device.open('/settings');
    await refuses('Name', 'name');
    await me.tap('Clocks');
    await refuses(/^Minutes/, 'minutes', { keep: 'Start clock', needed: true });
    await refuses('It happened at', 'moment', { keep: 'Tell entries as of then', needed: true });
    await me.tap('Close');
    await me.tap('Gauge');
    await padRefuses('strength');
    await me.tap('Reduce');
    await refuses('Volume', 'volume', { keep: 'Water', needed: true, well: '3' });
    await refuses('Its temperature', 'degrees', { keep: 'Water', needed: true });
    await refuses('Strength, true', 'strength', { keep: 'Water', needed: true, well: '70' });
    await refuses('Down to', 'strength', { keep: 'Water', needed: true });
    await me.tap('Blend');
    await refuses('Lot 1, volume', 'volume', { keep: 'Pour together', needed: true, well: '3' });
    await refuses('Strength, true', 'strength', { keep: 'Pour together', needed: true });
    expect(device.faults()).toEqual([]);
  });
});
