import { type CryptoKey, exportJWK, generateKeyPair, type JWK, SignJWT } from 'jose';
import { beforeAll, describe, expect, it } from 'vitest';
import { Provider } from '../../../src/service/sign-in/provider.js';
import type { UnderWay } from '../../../src/service/sign-in/under-way.js';
import { signInSchema } from '../../../src/site/sign-in.js';

/*
 * What a provider may say that oidc-provider never would: its answers made here, as OpenID Connect Core 1.0, 3.1.3, and
 * Discovery 1.0 describe them, with jose.
 */

const issuer = 'https://id.example.org';
const redirect = 'https://casetally.example.org/sign-in/back';
let key: CryptoKey;
let jwk: JWK;
beforeAll(async () => {
  const pair = await generateKeyPair('RS256');
  key = pair.privateKey;
  jwk = { ...(await exportJWK(pair.publicKey)), kid: 'k', alg: 'RS256' };
});

const now = () => Math.floor(Date.now() / 1_000);
const underWay = (more: Partial<UnderWay> = {}): UnderWay => ({
  ...{
    nonce: 'the-nonce',
    verifier: 'v'.repeat(43),
    to: '/',
    fresh: false,
    browser: 'b',
    begunAt: Date.now(),
  },
  ...more,
});

interface Says {
  readonly claims?: object;
  readonly metadata?: object;
  readonly token?: (idToken: string) => Response;
}

const seen: Request[] = [];
function provider({ claims = {}, metadata = {}, token }: Says, more: object = {}): Provider {
  const settings = signInSchema.parse({
    ...{ issuer, redirect, clientId: 'casetally', roles: { a: ['read'] } },
    ...more,
  });
  const fetch = (async (input: string, init: RequestInit) => {
    const request = new Request(input, init);
    seen.push(request.clone() as Request);
    const { pathname } = new URL(request.url);
    if (pathname.endsWith('openid-configuration'))
      return Response.json({
        ...{ issuer, authorization_endpoint: `${issuer}/auth`, token_endpoint: `${issuer}/token` },
        ...{ jwks_uri: `${issuer}/keys`, ...metadata },
      });
    if (pathname === '/keys') return Response.json({ keys: [jwk] });
    const base = {
      iss: issuer,
      sub: '4711',
      aud: 'casetally',
      nonce: 'the-nonce',
      iat: now(),
      exp: now() + 300,
    };
    const idToken = await new SignJWT({ ...base, name: 'Ana Reyes', roles: ['a'], ...claims })
      .setProtectedHeader({ alg: 'RS256', kid: 'k' })
      .sign(key);
    return token?.(idToken) ?? Response.json({ access_token: 't', token_type: 'Bearer', id_token: idToken });
  }) as typeof globalThis.fetch;
  return new Provider({ settings, secret: 'swordfish', clock: () => Date.now(), fetch });
}
const confirm = (says: Says, way = underWay(), more?: object) =>
  provider(says, more).confirm('?code=c&state=s', 's', way);

describe('an ID token', () => {
  it('that is as it must be says who it is', async () => {
    expect(await confirm({ claims: { auth_time: 1_700_000_000 } })).toEqual({
      person: { name: 'Ana Reyes', roles: ['read'], verified: { issuer, subject: '4711' } },
      shownAt: 1_700_000_000_000,
    });
  });

  const refused: [string, object][] = [
    ['of another nonce', { nonce: 'x' }],
    ['of no nonce', { nonce: undefined }],
    ['for another client', { aud: 'other' }],
    ['of another provider', { iss: 'https://evil.example.org' }],
    ['that has ended', { exp: Math.floor(Date.now() / 1_000) - 600 }],
    ['of nobody', { sub: undefined }],
  ];
  it.each(refused)('%s signs nobody in', async (_, claims) => {
    expect(await confirm({ claims })).toBe('not-confirmed');
  });

  it.each([
    ['a minute slow', { iat: now() - 60, exp: now() - 30 }],
    ['a minute fast', { iat: now() + 60, nbf: now() + 60, exp: now() + 360 }],
  ])('of a provider whose clock is %s is taken', async (_, claims) => {
    expect(await confirm({ claims })).toMatchObject({ person: { name: 'Ana Reyes' } });
  });

  it('that is missing, or none, signs nobody in', async () => {
    const plain = (body: object) => ({
      token: () => Response.json({ access_token: 't', token_type: 'Bearer', ...body }),
    });
    expect(await confirm(plain({}))).toBe('not-confirmed');
    expect(await confirm(plain({ id_token: 'x.y.z' }))).toBe('not-confirmed');
    const unsigned = `${btoa('{"alg":"none"}')}.${btoa('{"sub":"4711"}')}.`.replaceAll('=', '');
    expect(await confirm(plain({ id_token: unsigned }))).toBe('not-confirmed');
  });

  it.each([
    [{ roles: 'a' }, ['read']],
    [{ roles: 'a b' }, undefined],
    [{ roles: undefined }, undefined],
    [{ roles: { a: true } }, undefined],
    [{ roles: [] }, undefined],
  ])('with %j gives the roles %j', async (claims, roles) => {
    const confirmed = await confirm({ claims });
    expect(typeof confirmed === 'string' ? confirmed : confirmed.person.roles).toEqual(roles ?? 'no-role');
  });

  it('with no name, or a name that is none, has the number of the person in its place', async () => {
    for (const name of [undefined, 7, '', { en: 'Ana' }])
      expect(await confirm({ claims: { name } })).toMatchObject({ person: { name: '4711' } });
  });
});

describe('a fresh sign-in', () => {
  const fresh = underWay({ fresh: true, begunAt: Date.now() - 30_000 });
  it.each([
    ['that was shown after it was asked for', { auth_time: now() - 10 }, true],
    ['by a clock that is a minute slow', { auth_time: now() - 70 }, true],
    ['that the provider took from an hour ago', { auth_time: now() - 3_600 }, false],
    ['of which the provider does not say when', {}, false],
    ['of which it says so in words', { auth_time: 'now' }, false],
  ])('%s: %j is taken: %s', async (_, claims, taken) => {
    const confirmed = await confirm({ claims }, fresh);
    expect(typeof confirmed !== 'string').toBe(taken);
  });

  it('is asked for by prompt and max_age; each has PKCE, state and nonce', async () => {
    const asked = async (isFresh: boolean) => {
      const url = await provider({}).begin(underWay({ fresh: isFresh }), 's');
      return Object.fromEntries(url?.searchParams ?? []);
    };
    expect(await asked(true)).toMatchObject({
      ...{ prompt: 'login', max_age: '0', response_type: 'code', state: 's', nonce: 'the-nonce' },
      ...{ code_challenge_method: 'S256', code_challenge: expect.stringMatching(/^[\w-]{43}$/) },
      ...{ redirect_uri: redirect, client_id: 'casetally', scope: 'openid profile' },
    });
    expect(Object.keys(await asked(false))).not.toContain('prompt');
  });
});

describe('a provider', () => {
  it('that calls itself otherwise is not believed', async () => {
    expect(await confirm({ metadata: { issuer: 'https://evil.example.org' } })).toBe('provider-away');
  });
  it.each([
    ['with a fault of its own', () => new Response('', { status: 502 }), 'provider-away'],
    ['with a page in place of an answer', () => new Response('<html>'), 'provider-away'],
    [
      'that refuses the code',
      () => Response.json({ error: 'invalid_grant' }, { status: 400 }),
      'not-confirmed',
    ],
    ['that cannot be reached', () => Promise.reject(new TypeError('fetch failed')), 'provider-away'],
  ])('%s is told apart', async (_, token, why) => {
    expect(await confirm({ token: token as () => Response })).toBe(why);
  });
  it('gets the secret in the header, in the body where it takes nothing else', async () => {
    const lastToken = async (metadata: object) => {
      await confirm({ metadata });
      const request = seen.filter(({ url }) => url.endsWith('/token')).at(-1);
      return [
        request?.headers.get('authorization')?.split(' ')[0],
        (await request?.text())?.includes('client_secret'),
      ];
    };
    expect(await lastToken({})).toEqual(['Basic', false]);
    expect(await lastToken({ token_endpoint_auth_methods_supported: ['client_secret_post'] })).toEqual([
      undefined,
      true,
    ]);
  });
});
