import { keepFile, openKept } from './kept.js';

/** The files of the page are kept in the browser, where it can do that: on this machine, or over TLS. */
export function keepPage(): void {
  if (!('serviceWorker' in navigator)) return;
  const script = new URL('case/case-offline.js', document.baseURI);
  const keep = async () => {
    await navigator.serviceWorker.register(script, { scope: new URL('case', document.baseURI).pathname });
    // The page in the language in which it is read: it came before there was anything to keep it.
    const { origin, pathname, search } = location;
    await keepFile(await openKept(), origin + pathname + search);
  };
  // Without it the page works as before, as long as the service is there.
  void keep().catch(() => undefined);
}
