/** What the browser keeps of the page: its files, and what the service said of the site. Nothing of it is about a patient. */
const KEPT = 'casetally-page';

export const openKept = (): Promise<Cache> => caches.open(KEPT);

/** Keeps a file as it is answered; a page to sign in with, which a proxy may lead to, is another file. */
export async function keepFile(cache: Cache, url: URL | string): Promise<void> {
  const answer = await fetch(url, { redirect: 'error' });
  if (answer.ok) await cache.put(url, answer);
}
