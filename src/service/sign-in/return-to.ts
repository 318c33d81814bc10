/** Longest address that somebody is led back to. */
const MOST = 500;

/**
 * Where somebody is led after signing in: an address of this service, whole, and nothing else. Its fragment stays, since
 * the case page has the id of a draft there. What leads out of the service, or back to signing in, is the first page.
 *
 * @param base where browsers find the service, with a `/` at its end
 * @param first the first page of the service
 */
export function returnTo(asked: unknown, base: URL, first = 'review'): string {
  const home = new URL(first, base).href;
  if (typeof asked !== 'string' || asked.length > MOST || !URL.canParse(asked, base.href)) return home;
  const url = new URL(asked, base);
  const within = url.origin === base.origin && url.username === '' && url.pathname.startsWith(base.pathname);
  const rest = url.pathname.slice(base.pathname.length);
  // Whole, since a path that begins with two strokes would lead to another name by itself.
  return within && !/^\/|^sign-/.test(rest) ? url.href : home;
}
