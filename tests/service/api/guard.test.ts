import { describe, expect, it } from 'vitest';
import {
  type Credentials,
  callerOf,
  type KnownToken,
  lacking,
  tokenDigest,
} from '../../../src/service/api/guard.js';
import { rights } from '../../../src/site/service.js';

/*
 * Origin: Fetch Standard, https://fetch.spec.whatwg.org/#origin-header. Sec-Fetch-Site and its four values: Fetch Metadata
 * Request Headers, https://www.w3.org/TR/fetch-metadata/#sec-fetch-site-header; a page can set neither.
 */

const TOKEN = 'a-token-of-the-tests-0123456789';
const here = '127.0.0.1:8720';
const whole: KnownToken = { name: 'service.token', sha256: tokenDigest(TOKEN) };
const refused = (asked: Credentials, tokens: readonly KnownToken[] | undefined) => {
  const found = callerOf(asked, tokens);
  return 'refused' in found ? found.refused : undefined;
};

describe('without a token', () => {
  const letIn: [string, Credentials][] = [
    ['a program', { host: here }],
    ['a program by name', { host: 'localhost:8720' }],
    ['a program over IPv6', { host: '[::1]:8720' }],
    ['the review page', { host: here, origin: `http://${here}`, fetchSite: 'same-origin' }],
    ['the review page by name', { host: 'localhost:8720', origin: 'http://localhost:8720' }],
    ['the review page over IPv6', { host: '[::1]:8720', origin: 'http://[::1]:8720' }],
    ['the review page where a GET has no origin', { host: here, fetchSite: 'same-origin' }],
    ['the review page on the usual port', { host: 'localhost', origin: 'http://localhost' }],
  ];
  it.each(letIn)('%s is let in', (_, asked) => {
    expect(refused(asked, undefined)).toBeUndefined();
  });

  const keptOut: [string, Credentials][] = [
    ['a page elsewhere', { host: here, origin: 'https://page.example.org', fetchSite: 'cross-site' }],
    ['a page elsewhere in a browser without Sec-Fetch', { host: here, origin: 'https://page.example.org' }],
    ['an image or a link of a page elsewhere', { host: here, fetchSite: 'cross-site' }],
    ['a page at another port', { host: here, origin: 'http://127.0.0.1:8721', fetchSite: 'same-site' }],
    ['a link of a page at another port', { host: here, fetchSite: 'same-site' }],
    ['a page under the other name of this machine', { host: here, origin: 'http://localhost:8720' }],
    ['a page that came encrypted', { host: here, origin: `https://${here}` }],
    ['a page without an origin: a file or a sandboxed frame', { host: here, origin: 'null' }],
    ['an empty origin', { host: here, origin: '' }],
    ['an address typed in', { host: here, fetchSite: 'none' }],
    ['an own origin that the browser contradicts', { host: here, origin: `http://${here}`, fetchSite: 'x' }],
    ['a name that was pointed here', { host: 'page.example.org:8720' }],
    [
      'a page whose name was pointed here',
      {
        host: 'page.example.org:8720',
        origin: 'http://page.example.org:8720',
        fetchSite: 'same-origin',
      },
    ],
    ['a name that only begins like this machine', { host: 'localhost.example.org' }],
    ['a name that only ends like this machine', { host: 'page.example.org?127.0.0.1' }],
    ['no name at all', {}],
  ];
  it.each(keptOut)('%s is kept out', (_, asked) => {
    expect(refused(asked, undefined)?.status).toBe(403);
  });
});

describe('with a token', () => {
  it.each([
    ['no token', undefined],
    ['another', `Bearer ${TOKEN}x`],
    ['a part', `Bearer ${TOKEN.slice(1)}`],
    ['another scheme', `Basic ${TOKEN}`],
    ['an empty one', 'Bearer '],
  ])('%s is refused', (_, authorization) => {
    expect(refused({ authorization, host: here, origin: `http://${here}` }, [whole])?.status).toBe(401);
  });
  it('it is enough, by whatever name the service is reached', () => {
    const asked = {
      authorization: `Bearer ${TOKEN}`,
      host: 'cases.hospital.example',
      origin: 'https://x.example',
    };
    expect(refused(asked, [whole])).toBeUndefined();
  });
});

describe('with several tokens', () => {
  const WARD = 'the-token-of-the-ward-0123456789';
  const ward: KnownToken = { name: 'ward', sha256: tokenDigest(WARD), rights: ['read'] };
  const caller = (token: string) => {
    const found = callerOf({ authorization: `Bearer ${token}` }, [whole, ward]);
    return 'caller' in found ? found.caller : undefined;
  };

  it('each is known by its name, whichever stands first', () => {
    expect([caller(TOKEN), caller(WARD)]).toEqual([
      { name: 'service.token' },
      { name: 'ward', rights: ['read'] },
    ]);
    for (const wrong of ['ward', tokenDigest(WARD).toString('hex'), WARD.toUpperCase(), `${TOKEN}${WARD}`])
      expect(caller(wrong)).toBeUndefined();
  });

  it('a token may do what it has the right to, and one without a list everything', () => {
    const statuses = (of: string) => rights.map(right => lacking(caller(of) ?? {}, right)?.status);
    expect(statuses(TOKEN)).toEqual(rights.map(() => undefined));
    expect(statuses(WARD)).toEqual(rights.map(right => (right === 'read' ? undefined : 403)));
    expect(lacking(caller(WARD) ?? {}, undefined)).toBeUndefined();
  });
});
