// Has the browser keep the built pages (src/shell/page_keeper.js), so that they open while the house
// is away. Browsers do that for an origin they hold to be safe: the laptop's own loopback name, or TLS
// with a certificate that the device trusts. Elsewhere it ends in false, and the page that is open
// is all there is.

/** Whether the pages are kept; never throws. */
export async function keepPages(): Promise<boolean> {
  const { serviceWorker } = navigator;
  if (!import.meta.env.PROD || !serviceWorker) return false;
  try {
    await serviceWorker.register('/page_keeper.js');
    await serviceWorker.ready;
    // What waits to be sent is then not cleared away when the device runs short of room.
    await navigator.storage?.persist?.();
    return true;
  } catch {
    return false; // a certificate the device does not trust, a private window
  }
}

/** Whether they were kept by an earlier visit: then this very page may have come from there. */
export async function pagesWereKept(): Promise<boolean> {
  try {
    return (await navigator.serviceWorker?.getRegistration('/'))?.active !== undefined;
  } catch {
    return false;
  }
}
