// Looks at the pages as a person would: in Chromium, phone and laptop, light and dark, under the
// server's content security policy. Writes a picture of each, and holds each against WCAG 2.2 AA by
// axe-core. Fails on a violation, on anything the policy blocks, on a fault of a script, and on a
// page that is wider than its window.
// Use: node scripts/look.mjs [--out folder] [--only name] [--demo | --house address]; CHROMIUM names
// another browser. With --demo, a house of its own is started with the invented batches (build/lynearm,
// or LYNEARM) and answers in place of the answers made up below; its batches' pages and the stages are
// looked at as well. --house names one that runs already, over data to be thrown away: entries are made.
import axe from 'axe-core';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import { build, preview } from 'vite';
import { openHouse } from '../e2e/house.mjs';
import { smallTargets } from './targets.mjs';

const { values: asked } = parseArgs({
  options: {
    out: { type: 'string', default: 'shots' },
    only: { type: 'string' },
    house: { type: 'string' },
    demo: { type: 'boolean', default: false },
    dist: { type: 'string', default: 'dist-parts' }, // where the pages are built to
  },
});

const own = asked.demo ? await openHouse({ demo: true }) : undefined;
asked.house ??= own?.url;
const outDir = asked.dist;
await build({ mode: 'parts', build: { outDir }, logLevel: 'warn' });
const server = await preview({
  build: { outDir },
  preview: {
    port: 0,
    host: '127.0.0.1',
    proxy: asked.house
      ? {
          '/api': {
            target: asked.house,
            changeOrigin: true,
            // The page comes from here, not from the house, which would refuse its posts.
            configure: (proxy) =>
              proxy.on('proxyReq', (request) => {
                request.removeHeader('origin');
                request.removeHeader('sec-fetch-site');
              }),
          },
        }
      : {},
  },
});
const base = server.resolvedUrls.local[0].replace(/\/$/, '');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--force-prefers-reduced-motion'],
});
mkdirSync(asked.out, { recursive: true });

const why = {
  what: 'True strength by volume at 20 °C',
  inputs: [{ name: 'Read', value: '73.1 %vol' }],
  model: 'Density of ethanol and water.',
  source: 'OIML R 22 (1973)',
};
const answers = {
  '/api/v1/time': { now: '2026-11-26T01:02:03.456Z' },
  '/api/v1/devices': {
    lan: true,
    tls: false,
    devices: [
      {
        id: 'l',
        name: 'The laptop',
        paired_at: '2026-11-01T00:00:00Z',
        laptop: true,
        this_one: true,
      },
      {
        id: 'p',
        name: 'Still-side phone',
        paired_at: '2026-11-20T00:00:00Z',
        laptop: false,
        this_one: false,
      },
    ],
  },
  '/api/v1/pairing/codes': {
    code: 'invented',
    addresses: ['http://192.0.2.7:8080/'],
    lasts_s: 300,
    picture:
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path fill="#fff" d="M0 0h9v9H0z"/><path d="M2 2h5v5H2z"/></svg>',
  },
  '/api/v1/gauge': { strength_percent_vol: 70.2, standard_percent_vol: 0.25, why },
  '/api/v1/reduce': {
    water_kg: 0.941,
    water_L: 0.943,
    volume_L_20C: 4.84,
    contraction_L_20C: 0.003,
    pure_alcohol_L_20C: 2.66,
    proof_gallons: 1.399,
    why,
  },
  '/api/v1/house': {
    batches: [
      {
        batch: 'tern-8',
        name: 'Tern 8',
        remark: 'Maize, rye and barley. Invented.',
        invented: true,
        first: '2026-11-15T19:00:00.000Z',
        last: '2026-11-25T15:02:00.000Z',
        entries: 109,
        struck: 1,
        planned: true,
        pitched: true,
        racked: true,
        runs: [],
        puzzles: 0,
        next: {
          what: 'Strip 1 of 4',
          stage: 'strip',
          since: '2026-11-25T15:02:00.000Z',
          standing: 'waits',
          due: '2026-11-26T08:00:00.000Z',
          late_after: '2026-11-27T08:00:00.000Z',
          due_by: 'the plan’s steps, counted from what was done',
        },
      },
    ],
    airs: [],
    cleanings: [],
    notes: [],
    puzzles: [],
  },
  '/api/v1/lots': { lots: [] },
};

const read = { safety_read: true };
const tap = (name) => async (page) => {
  await page
    .getByRole('button', { name, exact: typeof name === 'string' })
    .filter({ visible: true })
    .first()
    .click();
  await page.getByRole('dialog').waitFor();
};
const steps = async (page, ...taps) => {
  const drawer = page.getByRole('dialog');
  for (const name of taps) await drawer.getByRole('button', { name, exact: true }).click();
};
const gaugeRead = async (page) => {
  await tap('Gauge')(page);
  await steps(page, '7', '3', 'Point', '1', 'Keep');
  await page.getByText('70.2').waitFor();
};
const gaugeReduce = async (page) => {
  await gaugeRead(page);
  await steps(page, 'Reduce it');
  await page.getByLabel('Volume').fill('3.9');
  await page.getByLabel('Down to').fill('55');
  await steps(page, 'Water');
  await page.getByText('0.943').waitFor();
};
const gaugeBlend = async (page) => {
  await tap('Gauge')(page);
  await steps(page, 'Blend', 'Another lot', 'Pour together');
};
const pages = [
  { name: 'first-start', path: '/', settings: {} },
  { name: 'house', path: '/', settings: read },
  { name: 'parts', path: '/parts', settings: read, whole: true, wait: '.uplot' },
  { name: 'settings', path: '/settings', settings: read },
  { name: 'safety', path: '/safety', settings: read },
  { name: 'nowhere', path: '/no/such/page', settings: read },
  { name: 'gauge', path: '/', settings: read, act: tap('Gauge') },
  { name: 'gauge-read', path: '/', settings: read, act: gaugeRead },
  { name: 'gauge-reduce', path: '/', settings: { ...read, units: 'both' }, act: gaugeReduce },
  { name: 'gauge-blend', path: '/', settings: { ...read, units: 'us' }, act: gaugeBlend },
  { name: 'clocks', path: '/', settings: read, act: tap('Clocks') },
  { name: 'why', path: '/parts', settings: read, act: tap(/True strength.*why/) },
  { name: 'split', path: '/parts', settings: read, act: tap(/^Split jar/) },
  {
    name: 'devices',
    path: '/devices',
    settings: read,
    told: answers, // also before a house that is not open to phones
    act: async (page) => {
      await page.getByRole('button', { name: 'Show a code' }).click();
      await page.getByRole('img').waitFor();
    },
  },
  {
    name: 'devices-closed',
    path: '/devices',
    settings: read,
    told: { '/api/v1/devices': { ...answers['/api/v1/devices'], lan: false } },
    wait: 'code',
  },
  { name: 'pair', path: '/pair#invented', settings: read },
];
if (!asked.house) pages.push({ name: 'batch', path: '/batch/tern-8', settings: read });
if (asked.house) pages.push(...(await import('./look_stages.mjs')).stagePages(read));
/** Pages that show a whole batch: looked at only with a house behind them. */
const housed = [];
if (asked.house) {
  const { batches } = await (await fetch(`${asked.house}/api/v1/house`)).json();
  // One batch that is in hand: the pages of the others are the same.
  for (const { batch, name } of batches.filter((one) => one.name === 'Tern 8')) {
    const slug = name.toLowerCase().replaceAll(' ', '-');
    const of = (stage, more = {}) =>
      housed.push({
        name: `${slug}${stage && `-${stage}`}`,
        path: `/batch/${batch}${stage && `/${stage}`}`,
        settings: read,
        whole: true,
        pause: 900,
        ...more,
      });
    of('');
    of('mash-bill');
    of('mash-bill', { name: `${slug}-two`, act: twoVariants });
    of('mash-bill', { name: `${slug}-fault`, act: badMass });
    for (const stage of ['', 'mash-bill', 'mash', 'reduce'])
      of(stage, { name: `${slug}-long${stage && `-${stage}`}`, act: longName(name) });
    of('', { name: `${slug}-correct`, whole: false, act: tap(/^Correct /) });
    of('kit');
    of('ledger');
  }
  housed.push(
    { name: 'begin', path: '/', settings: read, whole: true, act: beginBatch },
    { name: 'kit', path: '/kit', settings: read, whole: true, pause: 600 },
    { name: 'kit-air', path: '/kit', settings: read, pause: 600, act: tap('Read the air') },
    { name: 'kit-copper', path: '/kit', settings: read, pause: 600, act: copperCleaned },
    { name: 'stock', path: '/stock', settings: read, whole: true, pause: 600 },
    { name: 'stock-take', path: '/stock', settings: read, pause: 600, act: tap(/^Take out/) },
    { name: 'stock-gauge', path: '/stock', settings: read, pause: 600, act: tap(/^Gauge ./) },
    { name: 'stock-bring', path: '/stock', settings: read, pause: 600, act: nothingBrought },
    { name: 'house-journal', path: '/journal', settings: read, whole: true, pause: 600 },
    { name: 'the-ledger', path: '/ledger', settings: read, whole: true, pause: 600 },
  );
}
async function twoVariants(page) {
  await page.getByRole('checkbox', { name: /bands/ }).check();
  await page.getByRole('button', { name: 'A variant beside it' }).click();
  await page.getByLabel('Mass').first().fill('10');
  await page.waitForTimeout(2500);
  await page.evaluate(() => scrollTo(0, 0));
}
async function badMass(page) {
  await page.getByLabel('Mass').first().fill('8 L');
  await page.getByText('is a unit of volume').first().waitFor();
}
/** The batch's name as one long word, wherever it stands: no page is wider for it. */
function longName(name) {
  return async (page) => {
    await page.locator('main').getByText(name).first().waitFor();
    await page.evaluate((short) => {
      const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      while (texts.nextNode()) {
        const { currentNode: at } = texts;
        at.data = at.data.replaceAll(short, 'Langgrannengerste'.repeat(6));
      }
    }, name);
  };
}
async function copperCleaned(page) {
  await tap('Copper was cleaned')(page);
  await page.getByLabel('With', { exact: true }).selectOption('caustic');
}
async function nothingBrought(page) {
  await tap('Bring a lot in')(page);
  await page.getByRole('button', { name: 'It is in stock' }).click();
}
async function beginBatch(page) {
  await page.getByRole('button', { name: 'Begin a batch' }).click();
  await page.getByLabel('A recipe file', { exact: true }).check(); // and none is given
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
}
const sizes = [
  { name: 'phone', width: 360, height: 640, hasTouch: true, isMobile: true },
  { name: 'laptop', width: 1280, height: 800, hasTouch: false, isMobile: false },
];

let faults = 0;
let looked = 0;
const tell = (where, what) => {
  faults += 1;
  console.error(`${where}: ${what}`);
};

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

async function hold(page, where, runOnly) {
  const { violations } = await page.evaluate(
    // What passes is not told node by node: that takes longer than the rules themselves.
    (run) =>
      globalThis.axe.run(document, { runOnly: run, resultTypes: ['violations'], preload: false }),
    runOnly,
  );
  for (const v of violations) {
    for (const node of v.nodes) tell(where, `${v.id}: ${node.html.slice(0, 110)} (${v.help})`);
  }
}

async function shoot(page, one, size, theme) {
  await page.waitForTimeout(100);
  await page.screenshot({
    path: join(asked.out, `${one.name}-${size.name}-${theme}.png`),
    fullPage: one.whole ?? false,
  });
  looked += 1;
}

/** Calls that ask and record nothing; those of the gauge's drawer are answered here, so that its
 * pictures show the figures that are waited for. */
const reads = (request) =>
  request.method() === 'GET' || /\/(plan|gravity|pour)$/.test(request.url());

async function fromHouse(route) {
  const request = route.request();
  const { pathname, search } = new URL(request.url());
  const answer = await fetch(asked.house + pathname + search, {
    method: request.method(),
    headers: { 'Content-Type': 'application/json' },
    body: request.postData() ?? undefined,
  });
  return route.fulfill({
    status: answer.status,
    headers: { 'Content-Type': answer.headers.get('content-type') ?? 'text/plain' },
    body: Buffer.from(await answer.arrayBuffer()),
  });
}

async function lookAt(context, one, size) {
  const where = `${one.name}, ${size.name}`;
  const page = await context.newPage();
  page.on('pageerror', (fault) => tell(where, fault.message));
  page.on('console', (said) => {
    if (said.type() === 'error' && !/ERR_FAILED|ERR_ABORTED|status of 422/.test(said.text()))
      tell(where, said.text());
  });
  await page.addInitScript(
    (kept) => localStorage.setItem('lynearm-settings', kept),
    JSON.stringify({ theme: 'system', ...one.settings }),
  );
  await page.emulateMedia({ colorScheme: 'light' });
  await page.goto(base + one.path);
  await page.locator('h1').first().waitFor();
  if (one.pause) await page.waitForTimeout(one.pause);
  if (one.wait) await page.locator(one.wait).first().waitFor();
  await page.evaluate(() => document.fonts.ready);
  if (one.act) await one.act(page);
  await shoot(page, one, size, 'light');
  const wide = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  if (wide > 0) tell(where, `the page is ${wide} px wider than its window`);
  await page.evaluate(axe.source);
  // In a window as tall as the page: what the bar at its foot happens to cover at this place of
  // scrolling is no small target.
  const tall = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width: size.width, height: Math.max(size.height, tall) });
  for (const s of await smallTargets(page)) tell(where, `a target under 44 px: ${s}`);
  await hold(page, `${where}, light`, { type: 'tag', values: rules });
  await page.setViewportSize({ width: size.width, height: size.height });
  // The other theme differs in its inks alone.
  await page.emulateMedia({ colorScheme: 'dark' });
  await shoot(page, one, size, 'dark');
  await hold(page, `${where}, dark`, {
    type: 'rule',
    values: ['color-contrast', 'link-in-text-block'],
  });
  await page.close();
}

async function lookAs(one, size) {
  // A context of its own: what one page keeps on the device is not there for the next.
  const context = await browser.newContext({
    viewport: { width: size.width, height: size.height },
    hasTouch: size.hasTouch,
    isMobile: size.isMobile,
    reducedMotion: 'reduce',
  });
  await context.route('**/api/v1/**', async (route) => {
    const path = new URL(route.request().url()).pathname;
    if (one.ofHouse) return one.cut?.(route) ? route.abort() : route.continue();
    if (path === '/api/v1/events') return; // never answered: the house is being called
    if (one.told && path in one.told) return route.fulfill({ json: one.told[path] });
    if (asked.house && reads(route.request())) return fromHouse(route);
    if (path in answers) return route.fulfill({ json: answers[path] });
    return route.abort();
  });
  await lookAt(context, one, size);
  await context.close();
}

// One more than there are usually cores: a page also waits, to be drawn and to come to rest.
const AT_A_TIME = 3;
const wanted = [...pages, ...housed].filter(
  (one) => !asked.only || asked.only.split(',').some((n) => one.name.startsWith(n)),
);
const waiting = wanted.flatMap((one) => sizes.map((size) => [one, size]));
const looking = async () => {
  for (let next = waiting.shift(); next; next = waiting.shift()) await lookAs(...next);
};
await Promise.all(Array.from({ length: AT_A_TIME }, looking));
await browser.close();
await server.close();
await own?.end();
console.log(`${looked} pictures looked at, ${faults} faults; they are in ${asked.out}`);
process.exit(faults > 0 ? 1 : 0);
