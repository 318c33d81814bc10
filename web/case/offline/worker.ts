import { keepFile, openKept } from './kept.js';

/**
 * Keeps the files of the case page in the browser, so that it opens while the service is away. They are the same for
 * everybody and hold nothing of a patient; everything else goes to the service as if this were not there.
 */

interface Fetched extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Lasting extends Event {
  waitUntil(done: Promise<unknown>): void;
}
/** What this needs of its surroundings; the types of the library are those of a page. */
interface Surroundings {
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
}

const worker = self as unknown as Surroundings;
/** A service that does not answer for so long is taken for one that is away. */
const WAIT = 4_000;
const base = new URL('../', location.href);
const FILES = ['case', 'case/case.js', 'case/case.css', 'case/case-engine.js'];

addEventListener('install', event => {
  const keep = async () => {
    const cache = await openKept();
    await Promise.all(FILES.map(file => keepFile(cache, new URL(file, base))));
  };
  // A page that is open goes on with what it has; the next one has this.
  (event as Lasting).waitUntil(Promise.all([keep(), worker.skipWaiting()]));
});

addEventListener('activate', event => (event as Lasting).waitUntil(worker.clients.claim()));

addEventListener('fetch', event => {
  const { request } = event as Fetched;
  const { origin, pathname } = new URL(request.url);
  const isOurs = origin === base.origin && pathname.startsWith(base.pathname);
  if (request.method !== 'GET' || !isOurs || !FILES.includes(pathname.slice(base.pathname.length))) return;
  (event as Fetched).respondWith(answerTo(request));
});

/** What the service answers; what was kept where it does not, or says that it cannot. */
async function answerTo(request: Request): Promise<Response> {
  const cache = await openKept();
  const asked = fetch(request).then(async answer => {
    if (answer.ok && !answer.redirected) await cache.put(request, answer.clone());
    return answer;
  });
  const late = new Promise<undefined>(resolve => setTimeout(() => resolve(undefined), WAIT));
  const answer = await Promise.race([asked.catch(() => undefined), late]);
  if (answer && answer.status < 500) return answer;
  // In another language rather than not at all.
  const kept = (await cache.match(request)) ?? (await cache.match(request, { ignoreSearch: true }));
  return kept ?? asked;
}
