// The browser's keeper of the built pages: it holds them on the device, so that they open while the
// house is away. Nothing else is held: no answer of the house, and nothing that was typed. The build
// puts `files` (their paths) and `edition` (named by them) before this.
/* global files, edition */
const held = `lynearm-pages-${edition}`;
const PATIENCE_MS = 4000; // a house on a dead net does not refuse, it is silent

addEventListener('install', (event) => {
  skipWaiting();
  event.waitUntil(caches.open(held).then((box) => box.addAll(files)));
});

addEventListener('activate', (event) => {
  const old = (name) => name.startsWith('lynearm-pages-') && name !== held;
  const clear = async () => {
    await clients.claim(); // the page that is open also gets from here what it has not loaded yet
    const names = await caches.keys();
    await Promise.all(names.filter(old).map((name) => caches.delete(name)));
  };
  event.waitUntil(clear());
});

addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== location.origin) return;
  if (request.mode === 'navigate') {
    if (/^\/(api\/|healthz)/.test(pathname) || pathname.includes('.')) return;
    event.respondWith(ofTheHouse());
  } else if (files.includes(pathname)) {
    event.respondWith(
      caches.match(pathname, { cacheName: held }).then((own) => own ?? fetch(request)),
    );
  }
});

/**
 * The page as the house has it now; as it was, when the house is away, silent or has trouble. Every
 * address of a page is answered by the same file. It is asked for by ourselves: the question of
 * somebody who followed a link from another site is refused to a script.
 */
async function ofTheHouse() {
  const now = fetch('/', { cache: 'no-cache' });
  const own = await caches.match('/', { cacheName: held });
  if (!own) return now;
  const silent = new Promise((then) => setTimeout(then, PATIENCE_MS, own));
  return Promise.race([now.then((answer) => (answer.ok ? answer : own)).catch(() => own), silent]);
}
