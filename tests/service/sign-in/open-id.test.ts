import OidcProvider from 'oidc-provider';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { Provider } from '../../../src/service/sign-in/provider.js';
import { Sessions } from '../../../src/service/sign-in/sessions.js';
import { UnderWays } from '../../../src/service/sign-in/under-way.js';
import { MOST_WRONG } from '../../../src/service/sign-in/wrong-tries.js';
import { sessionSchema, signInSchema } from '../../../src/site/sign-in.js';
import { Browser, type Seen } from './browser.js';
import { listening, startTestService, type TestService } from './service.js';

/*
 * Signing in at a provider that is not ours: oidc-provider, a certified OpenID Connect server. It demands PKCE, checks
 * the secret, and gives name and roles by its UserInfo endpoint.
 */

const SECRET = 'a-secret-of-the-tests-0123456789';
const claimsOf: Record<string, object> = {
  ana: { name: 'Ana Reyes', realm_access: { roles: ['IR consultant'] } },
  ben: { name: '<img src=x>'.repeat(1_000), realm_access: { roles: 'Radiographer' } },
  cem: { name: 'Cem Aydin', realm_access: { roles: ['porter'] } },
  dia: { name: 'Dia Roy' },
  eve: { realm_access: { roles: ['Radiographer'] } },
};

let issuer: string;
let away = false;
let service: TestService;
let stops: (() => Promise<unknown>)[];

beforeAll(async () => {
  let service$ = '';
  const provider = await listening(base => {
    issuer = base;
    return async (request, response) => {
      if (away) {
        response.statusCode = 503;
        response.end('away');
        return;
      }
      oidc.callback()(request, response);
    };
  });
  service = await startTestService(base => {
    service$ = base;
    const settings = signInSchema.parse({
      ...{ issuer, clientId: 'casetally', clientSecret: 'env:SECRET', redirect: `${base}/sign-in/back` },
      ...{ rolesClaim: 'realm_access.roles', scope: 'openid profile roles' },
      roles: { 'IR consultant': ['sign', 'send'], Radiographer: ['read'] },
    });
    const clock = () => Date.now();
    const sessions = new Sessions(sessionSchema.parse({}), clock);
    const way = {
      ...{ kind: 'provider' as const, underWays: new UnderWays(clock), base: new URL(`${base}/`) },
      provider: new Provider({ settings, secret: SECRET, clock }),
    };
    return { people: { sessions, way } };
  });
  const oidc = new OidcProvider(issuer, {
    clients: [
      {
        ...{ client_id: 'casetally', client_secret: SECRET, redirect_uris: [`${service$}/sign-in/back`] },
        scope: 'openid profile roles',
      },
    ],
    scopes: ['openid', 'profile', 'roles'],
    claims: { openid: ['sub'], profile: ['name'], roles: ['realm_access'] },
    pkce: { required: () => true },
    findAccount: (_context, sub) => ({ accountId: sub, claims: () => ({ sub, ...claimsOf[sub] }) }),
    cookies: { keys: ['of the tests'] },
    features: { devInteractions: { enabled: true } },
  });
  oidc.on('server_error', (_context, error) => console.error(error));
  stops = [service.stop, provider.stop];
});
afterAll(() => Promise.all(stops.map(stop => stop())));
beforeEach(() => {
  service.trail.facts.length = 0;
  service.log.length = 0;
});

const isBack = (url: string) => url.startsWith(`${service.base}/sign-in/back`);

/** Types a login and agrees, as far as the address that leads back, which is not opened. */
async function towardsBack(browser: Browser, login: string, from = '/sign-in'): Promise<string> {
  let seen: Seen = await browser.go(`${service.base}${from}`, {}, isBack);
  for (let forms = 0; !isBack(seen.url) && forms < 4; forms += 1) {
    const action = /<form[^>]* action="([^"]+)"/.exec(seen.body)?.[1] ?? '';
    const prompt = /name="prompt" value="(\w+)"/.exec(seen.body)?.[1] ?? '';
    const body = new URLSearchParams({ prompt, ...(prompt === 'login' && { login, password: 'any' }) });
    const asked = {
      ...{ method: 'POST', body: String(body) },
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
    };
    seen = await browser.go(new URL(action, seen.url).href, asked, isBack);
  }
  return seen.url;
}
async function signIn(browser: Browser, login: string, from?: string): Promise<Seen> {
  return browser.ask(await towardsBack(browser, login, from), {}, true);
}
const me = async (browser: Browser) => JSON.parse((await browser.fromPage(service.base, '/me')).body);

describe('signing in', () => {
  it('gives name and roles of the claims, a new cookie, an entry, and no token of the provider to anybody', async () => {
    const browser = new Browser();
    const seen = await signIn(browser, 'ana', '/sign-in?to=review%3Flanguage%3Dde');
    expect([seen.status, seen.headers.location]).toEqual([302, `${service.base}/review?language=de`]);
    expect(await me(browser)).toMatchObject({
      ...{ signedIn: true, name: 'Ana Reyes', verified: true, how: issuer, roles: ['sign', 'send'] },
      rights: ['check', 'enter', 'read', 'sign', 'send', 'outbox'],
    });
    expect((await browser.fromPage(service.base, '/outbox')).status).toBe(200);
    expect((await browser.fromPage(service.base, '/register/due')).status).toBe(403);
    const person = { kind: 'person', name: 'Ana Reyes', issuer, subject: 'ana' };
    expect(service.trail.facts).toMatchObject([
      { kind: 'sign-in', who: person, outcome: 302, from: '127.0.0.1' },
      { kind: 'look', who: person, outcome: 200, doing: 'GET /outbox' },
      { kind: 'look', who: person, outcome: 403, doing: 'GET /register/due' },
    ]);
    expect(service.log.find(({ route }) => route === '/outbox')).toMatchObject({ person: 'Ana Reyes' });
  });

  it('takes a name of 10,000 characters and markup as text of 100, and one role as a text', async () => {
    const browser = new Browser();
    await signIn(browser, 'ben');
    const { name, roles } = await me(browser);
    expect([name.length, name.slice(0, 11), roles]).toEqual([100, '<img src=x>', ['read']]);
  });

  it('goes by the number of the person where there is no name', async () => {
    const browser = new Browser();
    await signIn(browser, 'eve');
    expect((await me(browser)).name).toBe('eve');
  });

  it.each(['cem', 'dia'])(
    'tells %s, whose claims give no role, so, and lets them in nowhere',
    async login => {
      const browser = new Browser();
      const seen = await signIn(browser, login);
      expect([seen.status, seen.headers['content-type']]).toEqual([403, 'text/html; charset=utf-8']);
      expect(seen.body).toContain('none of your roles lets you use this service');
      expect(String(seen.headers['content-security-policy'])).toContain("script-src 'self'");
      expect(await me(browser)).toMatchObject({ signedIn: false, signIn: 'provider' });
      expect((await browser.fromPage(service.base, '/outbox')).status).toBe(401);
      expect(service.trail.facts).toMatchObject([{ kind: 'sign-in', who: { kind: 'nobody' }, outcome: 403 }]);
    },
  );
});

describe('what others may try', () => {
  it('the way back by another browser signs nobody in, and leaves it to the right one', async () => {
    const [own, other] = [new Browser(), new Browser()];
    const back = await towardsBack(own, 'ana');
    const seen = await other.ask(back, {}, true);
    expect([seen.status, seen.headers['set-cookie']]).toEqual([400, undefined]);
    expect(await me(other)).toMatchObject({ signedIn: false });
    // With a sign-in of its own under way as well.
    await other.ask(`${service.base}/sign-in`);
    expect((await other.ask(back, {}, true)).status).toBe(400);
    expect((await own.ask(back, {}, true)).status).toBe(302);
  });

  it('the way back works once', async () => {
    const browser = new Browser();
    const back = await towardsBack(browser, 'ana');
    expect((await browser.ask(back, {}, true)).status).toBe(302);
    expect((await browser.ask(back, {}, true)).status).toBe(400);
  });

  it.each([
    ['a state that was never given', (url: URL) => url.searchParams.set('state', 'x'.repeat(43)), 400],
    ['no state', (url: URL) => url.searchParams.delete('state'), 400],
    ['two states', (url: URL) => url.searchParams.append('state', 'x'), 400],
    ['a code of somebody else', (url: URL) => url.searchParams.set('code', 'x'), 401],
    ['no code', (url: URL) => url.searchParams.delete('code'), 401],
    ['another provider', (url: URL) => url.searchParams.set('iss', 'https://evil.example.org'), 401],
    [
      'a refusal',
      (url: URL) => {
        url.searchParams.delete('code');
        url.searchParams.set('error', 'access_denied');
        url.searchParams.set('error_description', '<script>alert(1)</script>');
      },
      401,
    ],
  ])('the way back with %s is refused, and nothing of it is shown', async (_, change, status) => {
    const browser = new Browser();
    const url = new URL(await towardsBack(browser, 'ana'));
    change(url);
    const seen = await browser.ask(url.href, {}, true);
    expect(seen.status).toBe(status);
    expect(seen.body).not.toMatch(/script|access_denied|evil/);
    expect(await me(browser)).toMatchObject({ signedIn: false });
  });

  it('an id that a browser was given before signing in is worth nothing afterwards', async () => {
    const browser = new Browser();
    const name = `casetally-session-${new URL(service.base).port}`;
    browser.cookies.set(name, { value: 'A'.repeat(43), strict: true });
    await signIn(browser, 'ana');
    expect(browser.cookies.get(name)?.value).not.toBe('A'.repeat(43));
    const attacker = new Browser();
    attacker.cookies.set(name, { value: 'A'.repeat(43), strict: true });
    expect(await me(attacker)).toMatchObject({ signedIn: false });
  });

  it('two tabs sign in, one after the other, whichever ends first', async () => {
    const browser = new Browser();
    const first = await browser.ask(`${service.base}/sign-in`);
    const second = await towardsBack(browser, 'ana');
    expect((await browser.ask(second, {}, true)).status).toBe(302);
    const back = await browser.go(first.headers.location ?? '', {}, isBack);
    expect((await browser.ask(back.url, {}, true)).status).toBe(302);
    expect((await me(browser)).signedIn).toBe(true);
  });
});

describe('afterwards', () => {
  it('a cookie that was copied is worth nothing once its owner signed out, on another machine too', async () => {
    const [here, there] = [new Browser(), new Browser()];
    await signIn(here, 'ana');
    await signIn(there, 'ana');
    const thief = new Browser();
    for (const [name, cookie] of here.cookies) thief.cookies.set(name, cookie);
    expect((await me(thief)).signedIn).toBe(true);
    const out = await there.fromPage(service.base, '/sign-out', {});
    expect(JSON.parse(out.body)).toMatchObject({
      signedOut: true,
      providerSignOut: expect.stringContaining(`${issuer}/session/end?client_id=casetally`),
    });
    for (const browser of [here, there, thief]) expect((await me(browser)).signedIn).toBe(false);
    expect(service.trail.facts.at(-1)).toMatchObject({ kind: 'sign-out', who: { name: 'Ana Reyes' } });
  });

  it('a new sign-in ends the session that the browser had', async () => {
    const browser = new Browser();
    await signIn(browser, 'ana');
    const former = new Map(browser.cookies);
    await signIn(browser, 'ana');
    const thief = new Browser();
    for (const [name, cookie] of former) thief.cookies.set(name, cookie);
    expect([(await me(browser)).signedIn, (await me(thief)).signedIn]).toEqual([true, false]);
  });

  it('a fresh sign-in asks the person again, and counts as one', async () => {
    const browser = new Browser();
    await signIn(browser, 'ana');
    // Known to the provider: led through without a form.
    const plain = await browser.go(`${service.base}/sign-in`, {}, isBack);
    expect(isBack(plain.url)).toBe(true);
    const asked = await browser.go(`${service.base}/sign-in?fresh=yes`, {}, isBack);
    expect(asked.body).toContain('name="login"');
    const before = Date.now();
    expect((await signIn(browser, 'ana', '/sign-in?fresh=yes')).status).toBe(302);
    const { freshUntil } = await me(browser);
    expect(Date.parse(freshUntil)).toBeGreaterThanOrEqual(before + 5 * 60_000);
  });

  it('while the provider is away whoever is signed in goes on, and others are told so', async () => {
    const browser = new Browser();
    await signIn(browser, 'ana');
    const waiting = new Browser();
    const late = await towardsBack(waiting, 'ben');
    away = true;
    try {
      expect((await browser.fromPage(service.base, '/outbox')).status).toBe(200);
      const seen = await waiting.ask(late, {}, true);
      expect([seen.status, seen.body.includes('does not answer')]).toEqual([503, true]);
      const fresh = new Provider({
        settings: signInSchema.parse({
          ...{ issuer, clientId: 'casetally', redirect: `${service.base}/sign-in/back` },
          roles: { x: ['read'] },
        }),
        ...{ secret: undefined, clock: () => Date.now() },
      });
      expect(await fresh.begin({ nonce: 'n', verifier: 'v', fresh: false }, 's')).toBeUndefined();
    } finally {
      away = false;
    }
    expect((await signIn(waiting, 'ben')).status).toBe(302);
  });

  it('nobody signs in while the audit trail cannot be written, but whoever wants to leave leaves', async () => {
    const [browser, other] = [new Browser(), new Browser()];
    await signIn(browser, 'ana');
    service.trail.most = service.trail.facts.length;
    try {
      const seen = await signIn(other, 'eve');
      expect([seen.status, seen.body.includes('audit trail')]).toEqual([503, true]);
      expect((await me(other)).signedIn).toBe(false);
      expect((await browser.fromPage(service.base, '/sign-out', {})).status).toBe(200);
      expect((await me(browser)).signedIn).toBe(false);
    } finally {
      service.trail.most = Number.POSITIVE_INFINITY;
    }
  });
});

// Last, since it uses up the wrong tries of this minute.
describe('many at once', () => {
  it('ways back of nobody fill no trail, and hold up nobody else behind the same address', async () => {
    const browser = new Browser();
    const back = await towardsBack(browser, 'ana');
    const answers = [];
    for (let i = 0; i <= MOST_WRONG; i += 1)
      answers.push((await new Browser().ask(`${service.base}/sign-in/back?state=x&code=${i}`)).status);
    expect([answers[0], answers.at(-1)]).toEqual([400, 429]);
    expect(service.trail.facts.length).toBeLessThanOrEqual(MOST_WRONG);
    expect((await browser.ask(back, {}, true)).status).toBe(302);
  });
});
