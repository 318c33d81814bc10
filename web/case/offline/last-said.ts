import { openKept } from './kept.js';

const where = () => new URL('settings', document.baseURI);

/** Keeps what the service said of the site, none of it about a patient, for when the page is opened and it is away. */
export async function keepSaid(said: object): Promise<void> {
  if (!('caches' in globalThis)) return;
  await (await openKept()).put(where(), Response.json(said));
}

/** What was said last; undefined where nothing was kept. */
export async function lastSaid<T>(): Promise<T | undefined> {
  if (!('caches' in globalThis)) return undefined;
  const kept = await (await openKept()).match(where());
  return kept && ((await kept.json()) as T);
}
