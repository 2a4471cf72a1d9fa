// How long from the address entered to a page that can be used: the first heading of the house
// and a target under the thumb are there, and the browser has painted. Five new browsers, each
// without anything kept; node bench/serve/first_paint.mjs http://127.0.0.1:8420/
import { createRequire } from 'node:module';
import { existsSync } from 'node:fs';

const { chromium } = createRequire(new URL('../../web/package.json', import.meta.url))(
  'playwright-core',
);

const address = process.argv[2];
const executablePath =
  process.env.CHROMIUM ?? ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);
const usable = [];
const painted = [];
for (let i = 0; i < 5; i++) {
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.setDefaultTimeout(20_000);
    const begun = performance.now();
    await page.goto(address, { waitUntil: 'commit' });
    await page.locator('h1:visible').first().waitFor();
    await page.locator('button:enabled:visible').first().waitFor();
    usable.push(performance.now() - begun);
    await page.waitForFunction(
      () => performance.getEntriesByName('first-contentful-paint').length > 0,
    );
    painted.push(
      await page.evaluate(
        () => performance.getEntriesByName('first-contentful-paint')[0].startTime,
      ),
    );
  } finally {
    await browser.close();
  }
}
const middle = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
console.log(
  `a new browser: first paint after ${middle(painted).toFixed(0)} ms, usable after ` +
    `${middle(usable).toFixed(0)} ms (the middle of ${usable.length})`,
);
