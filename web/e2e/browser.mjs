// Debian's Chromium for a test: a phone of 360 x 640 with touch, or a laptop of 1280 x 800, each
// with a memory of its own. What a page's scripts throw, or its policy blocks, fails the test that
// asks for faults(). CHROMIUM names another browser. PAGES names a folder of built pages (web/dist)
// to be shown in place of those the house holds, for trying a change without building the program.
import { existsSync, mkdirSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const sizes = {
  phone: { viewport: { width: 360, height: 640 }, hasTouch: true, isMobile: true },
  laptop: { viewport: { width: 1280, height: 800 } },
};

const shots = process.env.SHOTS ?? fileURLToPath(new URL('../shots/e2e', import.meta.url));

/** args: more words for Chromium, such as --host-resolver-rules=MAP tern.example 127.0.0.1. */
export function openBrowser({ args = [] } = {}) {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--force-prefers-reduced-motion', ...args],
  });
}

/**
 * A device of the size 'phone' or 'laptop'. read: whether the safety note was read before; settings:
 * what else is set; more: further options of the browser's context, such as ignoreHTTPSErrors.
 * Gives context and page, faults() (what went wrong in its pages since), open(path), quiet(), shoot(name).
 */
export async function openDevice(
  browser,
  url,
  size,
  { read = true, settings = {}, more = {} } = {},
) {
  const context = await browser.newContext({ ...sizes[size], reducedMotion: 'reduce', ...more });
  context.setDefaultTimeout(30_000);
  if (read) {
    await context.addInitScript(
      (kept) => {
        if (location.protocol !== 'about:' && !localStorage.getItem('lynearm-settings'))
          localStorage.setItem('lynearm-settings', kept);
      },
      JSON.stringify({ theme: 'light', ...settings, safety_read: true }),
    );
  }
  if (process.env.PAGES) await showPagesOf(context, process.env.PAGES);
  const wrong = [];
  const calls = new Set();
  let quiet_since = Date.now();
  const watch = (page) => {
    page.on('request', (call) => {
      if (/\/api\/(?!v1\/events)/.test(call.url())) calls.add(call);
    });
    const over = (call) => {
      calls.delete(call);
      quiet_since = Date.now();
    };
    page.on('requestfinished', over);
    page.on('requestfailed', over);
    page.on('pageerror', (fault) => wrong.push(`${page.url()}: ${fault.message}`));
    page.on('console', (said) => {
      // What a call was answered is the page's to tell, and the test's to look at.
      if (said.type() === 'error' && !/Failed to load resource|ERR_/.test(said.text()))
        wrong.push(`${page.url()}: ${said.text()}`);
    });
  };
  context.on('page', watch);
  const page = await context.newPage();
  return {
    context,
    page,
    size,
    faults: () => wrong,
    open: async (path) => {
      await page.goto(url + path);
      await page.locator('h1').first().waitFor();
    },
    /** Until every call was answered and none came for a while. */
    quiet: async (ms = 100) => {
      const end = Date.now() + 30_000;
      while ((calls.size > 0 || Date.now() - quiet_since < ms) && Date.now() < end)
        await new Promise((then) => setTimeout(then, 20));
    },
    /** A picture of the whole page, or of the window alone, into web/shots/e2e (SHOTS). */
    shoot: async (name, fullPage = true) => {
      mkdirSync(shots, { recursive: true });
      await page.screenshot({ path: join(shots, `${name}-${size}.png`), fullPage });
    },
    close: () => context.close(),
  };
}

const kinds = {
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
  '.html': 'text/html',
};

async function showPagesOf(context, folder) {
  await context.route(
    (url) => !/^\/(api|healthz)/.test(url.pathname),
    async (route) => {
      const own = join(folder, new URL(route.request().url()).pathname);
      const path = extname(own) && existsSync(own) ? own : join(folder, 'index.html');
      await route.fulfill({
        path,
        contentType: kinds[extname(path)] ?? 'application/octet-stream',
      });
    },
  );
}
