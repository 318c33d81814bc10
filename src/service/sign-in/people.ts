import { rightsOfRoles } from '../../site/roles.js';
import { type Caller, type Credentials, isThisMachine } from '../api/guard.js';
import { type Reply, refusal } from '../api/reply.js';
import { cookieOf, cookiesOf } from './cookies.js';
import type { OnceLink } from './once-link.js';
import type { Provider } from './provider.js';
import type { Session, Sessions } from './sessions.js';
import type { UnderWays } from './under-way.js';

/** How people sign in to this service, and who has. */
export interface People {
  readonly sessions: Sessions;
  readonly way:
    | {
        readonly kind: 'provider';
        readonly provider: Provider;
        readonly underWays: UnderWays;
        /** Where browsers find the service, with a `/` at its end. */
        readonly base: URL;
      }
    | { readonly kind: 'link'; readonly link: OnceLink };
}

/** What a page of this service sends with what changes something; a form cannot, and a script of elsewhere may not. */
export const PAGE_HEADER = 'x-casetally-page';

/** What of a request decides whether its cookie counts. */
export interface CookieRequest extends Credentials {
  readonly method: string;
  readonly cookie: string | undefined;
  /** `PAGE_HEADER`. */
  readonly page: string | undefined;
}

/** Where browsers find this service: by the site, or on this machine by the name that was asked; undefined elsewhere. */
export function baseOf({ way }: People, host: string | undefined): URL | undefined {
  if (way.kind === 'provider') return way.base;
  const address = `http://${host ?? ''}/`;
  return isThisMachine(host) && URL.canParse(address) ? new URL(address) : undefined;
}

/**
 * True for a request that a page of this service made, or, to look, a person who typed the address. A page of elsewhere
 * can set neither Sec-Fetch-Site nor Origin (Fetch Standard; Fetch Metadata), and may not send a header of its own
 * without being allowed to, which nobody ever is (Fetch Standard, CORS-preflight). What changes something needs that
 * header, and one of the other two as well.
 */
export function isOwn({ method, origin, fetchSite, page }: CookieRequest, base: URL): boolean {
  if (origin !== undefined && origin !== base.origin) return false;
  const looks = method === 'GET' || method === 'HEAD';
  if (fetchSite !== undefined && fetchSite !== 'same-origin' && !(looks && fetchSite === 'none'))
    return false;
  return looks || (page !== undefined && (origin ?? fetchSite) !== undefined);
}

/** Somebody who is signed in, by the cookie of their browser. */
export interface ByCookie {
  readonly caller: Caller;
  readonly key: string;
  readonly session: Session;
}

/** Who a request comes from by its cookie, or why it must not go on; undefined where its cookie is nobody's. */
export function callerByCookie(
  asked: CookieRequest,
  people: People,
): ByCookie | { readonly refused: Reply } | undefined {
  const base = baseOf(people, asked.host);
  if (!base) return undefined;
  const found = people.sessions.find(cookieOf(asked.cookie, cookiesOf(base).session));
  if (!found) return undefined;
  if (!isOwn(asked, base))
    return {
      refused: refusal(
        403,
        'forbidden',
        `Whoever is signed in is served through the pages of this service alone; what changes something is sent with ${PAGE_HEADER}.`,
      ),
    };
  const { person, signedInAt, freshUntil } = found.session;
  return {
    ...found,
    caller: { person, signedInAt, freshUntil, rights: rightsOfRoles(person.roles) },
  };
}
