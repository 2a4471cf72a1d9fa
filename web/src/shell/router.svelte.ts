// Addresses by the browser's history: /, /batch/<id>, /batch/<id>/spirit-run, /settings. A click on a
// link of this page changes the address without loading; everything else is the browser's.
import { stageOf } from './stages';

export type Place =
  | { page: 'house' }
  | { page: 'kit' }
  | { page: 'ledger' }
  | { page: 'stock' }
  | { page: 'journal' }
  | { page: 'settings' }
  | { page: 'devices' }
  | { page: 'pair' }
  | { page: 'safety' }
  | { page: 'parts' }
  | { page: 'batch'; batch: string }
  | { page: 'stage'; batch: string; slug: string }
  | { page: 'nowhere'; path: string };

const alone = [
  'kit',
  'ledger',
  'stock',
  'journal',
  'settings',
  'devices',
  'pair',
  'safety',
  'parts',
] as const;

export function placeOf(path: string): Place {
  const pieces = path.split('/').filter(Boolean);
  let parts: string[];
  try {
    parts = pieces.map(decodeURIComponent);
  } catch {
    return { page: 'nowhere', path };
  }
  const [first, batch, slug] = parts;
  if (first === undefined) return { page: 'house' };
  const page = alone.find((p) => p === first);
  if (page && parts.length === 1) return { page };
  if (first === 'batch' && batch !== undefined) {
    if (slug === undefined) return { page: 'batch', batch };
    if (parts.length === 3 && stageOf(slug)) return { page: 'stage', batch, slug };
  }
  return { page: 'nowhere', path };
}

export const pathOfBatch = (batch: string, slug?: string) =>
  `/batch/${encodeURIComponent(batch)}${slug === undefined ? '' : `/${slug}`}`;

class Router {
  place = $state<Place>({ page: 'house' });

  /** Starts listening; the returned function stops. */
  start(): () => void {
    const read = () => (this.place = placeOf(location.pathname));
    const click = (event: MouseEvent) => {
      if (event.defaultPrevented || event.button !== 0) return;
      if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
      const link = (event.target as Element | null)?.closest?.(
        'a[href]',
      ) as HTMLAnchorElement | null;
      if (!link || link.target || link.hasAttribute('download')) return;
      const to = new URL(link.href);
      if (to.origin !== location.origin || to.pathname.startsWith('/api/')) return;
      if (to.hash && to.pathname === location.pathname) return; // within the page
      event.preventDefault();
      this.go(to.pathname + to.search + to.hash);
    };
    addEventListener('popstate', read);
    document.addEventListener('click', click);
    read();
    return () => {
      removeEventListener('popstate', read);
      document.removeEventListener('click', click);
    };
  }

  go(path: string): void {
    if (path !== location.pathname + location.search) history.pushState(null, '', path);
    this.place = placeOf(location.pathname);
    scrollTo?.(0, 0);
  }
}

export const router = new Router();
