import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { allRoutes } from '../../../src/service/api/all-routes.js';
import { auditedAs } from '../../../src/service/api/auditing.js';
import { attributed, tokenDigest } from '../../../src/service/api/guard.js';
import { registerRoutes } from '../../../src/service/api/register-routes.js';
import { OnceLink } from '../../../src/service/sign-in/once-link.js';
import { Sessions } from '../../../src/service/sign-in/sessions.js';
import { MOST_WRONG } from '../../../src/service/sign-in/wrong-tries.js';
import { sessionSchema } from '../../../src/site/sign-in.js';
import { Browser } from '../sign-in/browser.js';
import { startTestService, type TestService } from '../sign-in/service.js';

/*
 * Who comes in by a link and by a token, from which page, and what is written down about it. Origin: Fetch Standard,
 * https://fetch.spec.whatwg.org/#origin-header. Sec-Fetch-Site: https://www.w3.org/TR/fetch-metadata/.
 */

const TOKEN = 'a-token-of-the-tests-0123456789';
const clock = { now: Date.parse('2026-03-01T08:00:00Z') };
let service: TestService;
let printed: string[];
let link: OnceLink;
let item: string;

beforeEach(async () => {
  printed = [];
  const time = () => clock.now;
  link = new OnceLink(time, code => void printed.push(code));
  const sessions = new Sessions(sessionSchema.parse({}), time);
  service = await startTestService(
    () => ({
      tokens: [{ name: 'ward-3', sha256: tokenDigest(TOKEN), rights: ['read', 'outbox'] }],
      people: { sessions, way: { kind: 'link', link } },
      proxies: ['127.0.0.1'],
    }),
    time,
  );
  item = (await service.outbox.list())[0]?.id ?? '';
});
afterEach(() => service.stop());

async function signedIn(name = 'Ana Reyes'): Promise<Browser> {
  link.renew();
  const browser = new Browser();
  const seen = await browser.fromPage(service.base, '/sign-in/once', { code: printed.at(-1), name });
  expect(seen.status).toBe(200);
  return browser;
}
const withToken = (path: string, init: RequestInit = {}, token = TOKEN) =>
  fetch(service.base + path, { ...init, headers: { authorization: `Bearer ${token}`, ...init.headers } });
const json = { 'content-type': 'application/json' };
const facts = () => service.trail.facts;

describe('the link', () => {
  it('opens a session under the name that is typed, as not verified, once', async () => {
    const browser = await signedIn('  Ana\nReyes ');
    const me = JSON.parse((await browser.fromPage(service.base, '/me')).body);
    expect(me).toMatchObject({
      ...{ signedIn: true, name: 'Ana Reyes', verified: false, how: 'typed on this machine, not verified' },
      ...{ signedInAt: '2026-03-01T08:00:00.000Z', until: '2026-03-01T18:00:00.000Z' },
      freshUntil: '2026-03-01T08:05:00.000Z',
    });
    const again = await new Browser().fromPage(service.base, '/sign-in/once', {
      code: printed[0],
      name: 'Eva',
    });
    expect([again.status, again.headers['set-cookie']]).toEqual([401, undefined]);
    expect(facts()).toMatchObject([
      { kind: 'sign-in', who: { kind: 'typed', name: 'Ana Reyes' }, outcome: 200 },
      { kind: 'sign-in', who: { kind: 'nobody' }, outcome: 401 },
    ]);
  });

  it.each([
    ['a page of elsewhere', { origin: 'https://evil.example.org', 'sec-fetch-site': 'cross-site' }],
    ['a page at another port', { origin: 'http://127.0.0.1:1', 'sec-fetch-site': 'same-site' }],
    ['a name that was pointed here', { host: 'evil.example.org', origin: 'http://evil.example.org' }],
    ['another machine, through a proxy', { 'x-forwarded-for': '192.0.2.7' }],
    ['a form, which can set no header', { 'x-casetally-page': undefined }],
  ])('is of no use to %s, and stays for the right one', async (_, headers) => {
    link.renew();
    const own = { origin: service.base, 'sec-fetch-site': 'same-origin', 'x-casetally-page': 'yes', ...json };
    const all = Object.entries({ ...own, ...headers }).filter(([, value]) => value !== undefined);
    const body = JSON.stringify({ code: printed[0], name: 'Eva' });
    for (const path of ['once', 'link']) {
      const asked = { method: 'POST', body, headers: Object.fromEntries(all) as Record<string, string> };
      expect((await new Browser().ask(`${service.base}/sign-in/${path}`, asked)).status).toBe(403);
    }
    expect(printed).toHaveLength(1);
    const seen = await new Browser().fromPage(service.base, '/sign-in/once', {
      code: printed[0],
      name: 'Ana',
    });
    expect(seen.status).toBe(200);
  });

  it('is asked for anew on the page, so often and no oftener', async () => {
    const browser = new Browser();
    const answers = [];
    for (let i = 0; i <= MOST_WRONG; i += 1)
      answers.push((await browser.fromPage(service.base, '/sign-in/link', {})).status);
    expect(answers).toEqual([...Array(MOST_WRONG).fill(200), 429]);
    expect(new Set(printed).size).toBe(MOST_WRONG);
  });

  it('is led to, and its page runs its own script alone', async () => {
    const seen = await new Browser().go(`${service.base}/sign-in`);
    expect([seen.status, seen.url]).toEqual([200, `${service.base}/sign-in/once?language=en-GB`]);
    expect(String(seen.headers['content-security-policy'])).toContain("script-src 'self'");
    expect(seen.body).not.toMatch(/\{\{|<script(?! type="module" src=)/);
  });
});

describe('a cookie', () => {
  const hostile: [string, Record<string, string>][] = [
    ['a page of elsewhere', { origin: 'https://evil.example.org', 'sec-fetch-site': 'cross-site' }],
    ['a page of elsewhere in a browser without Sec-Fetch', { origin: 'https://evil.example.org' }],
    ['a page under another name of the domain', { 'sec-fetch-site': 'same-site' }],
    ['a sandboxed frame', { origin: 'null' }],
    ['an own origin that the browser contradicts', { 'sec-fetch-site': 'cross-site' }],
  ];
  it.each(hostile)('does not count for %s', async (_, headers) => {
    const browser = await signedIn();
    const look = await browser.ask(`${service.base}/outbox`, { headers });
    const change = await browser.ask(`${service.base}/outbox/${item}/park`, {
      ...{ method: 'POST', body: '{"why":"x"}' },
      headers: { ...json, 'x-casetally-page': 'yes', ...headers },
    });
    const out = await browser.ask(`${service.base}/sign-out`, { method: 'POST', headers });
    expect([look.status, change.status, out.status]).toEqual([403, 403, 403]);
    expect((await service.outbox.get(item))?.state).toBe('waiting');
    expect((await browser.fromPage(service.base, '/outbox')).status).toBe(200);
  });

  it('does not let a form change anything, nor a program that says nothing of itself', async () => {
    const browser = await signedIn();
    const park = (headers: Record<string, string>) =>
      browser.ask(`${service.base}/outbox/${item}/park`, { method: 'POST', body: '{"why":"x"}', headers });
    expect((await park({ 'content-type': 'text/plain', origin: service.base })).status).toBe(403);
    expect((await park({ ...json, origin: service.base })).status).toBe(403);
    expect((await park({ ...json, 'x-casetally-page': 'yes' })).status).toBe(403);
    expect((await park({ ...json, 'x-casetally-page': 'yes', 'sec-fetch-site': 'none' })).status).toBe(403);
    expect((await park({ ...json, 'x-casetally-page': 'yes', origin: service.base })).status).toBe(200);
  });

  it('is not asked where a token is shown, be it wrong', async () => {
    const browser = await signedIn();
    const seen = await browser.ask(`${service.base}/outbox`, { headers: { authorization: 'Bearer x' } });
    expect(seen.status).toBe(401);
  });

  it('ends with the session, idle and absolute', async () => {
    const browser = await signedIn();
    clock.now += 61 * 60_000;
    expect((await browser.fromPage(service.base, '/outbox')).status).toBe(401);
  });
});

describe('who decides', () => {
  it('is who is signed in, whatever name is sent along', async () => {
    const browser = await signedIn();
    await browser.fromPage(service.base, `/outbox/${item}/park`, { by: 'Eva Blum', why: 'sent on paper' });
    const parked = JSON.stringify((await service.outbox.get(item))?.parked);
    expect(parked).toContain('Eva Blum (signed in as Ana Reyes (name not verified))');
    expect(service.log.at(-1)).toMatchObject({ person: 'Ana Reyes', audit: expect.stringMatching(/^3:/) });
  });
  const verified = { name: 'Ana', roles: [], verified: { issuer: 'i', subject: 's' } };
  it.each([
    ['Ana', {}, 'Ana'],
    ['Ana', { name: 'ward-3' }, 'Ana (token ward-3)'],
    [undefined, { name: 'ward-3' }, undefined],
    [undefined, { person: verified }, 'Ana'],
    ['Eva', { person: verified }, 'Eva (signed in as Ana)'],
    ['Ana', { person: { name: 'Ana', roles: [] } }, 'Ana (name not verified)'],
  ])('%s by %j is %s', (typed, caller, said) => {
    expect(attributed(typed, caller)).toBe(said);
  });
});

describe('a draft', () => {
  it('is of whoever is signed in, without a name that is sent along, and in the trail by its id', async () => {
    const browser = await signedIn();
    const begun = await browser.fromPage(service.base, '/drafts', {});
    expect(begun.status).toBe(201);
    const { id } = JSON.parse(begun.body) as { id: string };
    expect(JSON.parse((await browser.fromPage(service.base, `/drafts/${id}/versions`)).body)).toMatchObject({
      versions: [{ version: 1, by: 'Ana Reyes (name not verified)' }],
    });
    const who = { kind: 'typed', name: 'Ana Reyes' };
    expect(facts().slice(1)).toMatchObject([
      { kind: 'change', who, doing: 'POST /drafts', outcome: 'begun' },
      { kind: 'change', who, doing: 'POST /drafts', outcome: 201, about: [id] },
      { kind: 'look', who, doing: 'GET /drafts/:id/versions', outcome: 200, about: [id] },
    ]);
    expect(service.log.at(-1)).toMatchObject({ person: 'Ana Reyes', drafts: [id] });
  });

  it('that is listened to is in the trail once its answer begins, and is not told of where the trail is full', async () => {
    const browser = await signedIn();
    const { id } = JSON.parse((await browser.fromPage(service.base, '/drafts', {})).body) as { id: string };
    const before = facts().length;
    const cookie = [...browser.cookies].map(([name, { value }]) => `${name}=${value}`).join('; ');
    const listen = () =>
      fetch(`${service.base}/drafts/${id}/changes`, { headers: { cookie, 'sec-fetch-site': 'same-origin' } });
    const open = await listen();
    expect(open.headers.get('content-type')).toContain('text/event-stream');
    const first = await open.body?.getReader().read();
    expect(new TextDecoder().decode(first?.value)).toContain('retry:');
    expect(facts().slice(before)).toMatchObject([
      { kind: 'look', doing: 'GET /drafts/:id/changes', outcome: 200, about: [id] },
    ]);
    service.trail.most = before + 1;
    const none = await listen();
    expect([none.status, none.headers.get('content-type')]).toEqual([
      503,
      'application/problem+json; charset=utf-8',
    ]);
  });
});

describe('the trail', () => {
  it('has one entry for a look, with its id; two for a change, the first before it', async () => {
    await withToken(`/v1/outbox/${item}`, { headers: { 'x-forwarded-for': '192.0.2.7' } });
    await withToken(`/outbox/${item}/park`, {
      method: 'POST',
      headers: json,
      body: '{"by":"Ana","why":"x"}',
    });
    const who = { kind: 'token', name: 'ward-3' };
    expect(facts()).toMatchObject([
      { kind: 'look', who, doing: 'GET /outbox/:id', about: [item], outcome: 200, from: '192.0.2.7' },
      { kind: 'change', who, doing: 'POST /outbox/:id/park', about: [], outcome: 'begun', from: '127.0.0.1' },
      { kind: 'change', who, about: [item], outcome: 200 },
    ]);
    expect(facts()[1]?.request).toBe(facts()[2]?.request);
    expect(JSON.stringify(facts())).not.toContain('Ana');
  });

  it('has what was refused, and never what an address holds that names nothing', async () => {
    await withToken('/outbox/Vela%201950-01-01');
    await withToken('/register/due');
    await withToken('/outbox', {}, `${TOKEN}x`);
    await fetch(`${service.base}/outbox`);
    expect(facts()).toMatchObject([
      { kind: 'look', doing: 'GET /outbox/:id', outcome: 404, about: [] },
      { kind: 'look', doing: 'GET /register/due', outcome: 403 },
      { kind: 'sign-in', who: { kind: 'nobody' }, doing: 'token', outcome: 401 },
    ]);
    expect(JSON.stringify(facts())).not.toContain('Vela');
  });

  it('that cannot be written lets nothing be changed and nothing be seen', async () => {
    service.trail.most = 0;
    const look = await withToken(`/outbox/${item}`);
    const text = await look.text();
    expect([look.status, look.headers.get('retry-after')]).toEqual([503, '60']);
    expect(text).toContain('The audit trail cannot be written (outbox-full)');
    expect(text).not.toContain(item);
    const decide = () =>
      withToken(`/outbox/${item}/park`, { method: 'POST', headers: json, body: '{"by":"Ana","why":"x"}' });
    expect((await decide()).status).toBe(503);
    expect((await service.outbox.get(item))?.state).toBe('waiting');
    // Room for the beginning alone: done, and whoever asked is told that they have to look.
    service.trail.most = 1;
    const half = await decide();
    expect([half.status, await half.text()]).toEqual([503, expect.stringContaining('may have been done')]);
    expect((await service.outbox.get(item))?.state).toBe('parked');
    // What shows nothing that is kept goes on.
    expect((await withToken('/schema')).status).toBe(200);
  });

  it('covers every route that shows or changes what is kept, by its right and method', () => {
    const rows = allRoutes.map(({ method, route }) => [route.path, auditedAs(route, method.toUpperCase())]);
    const of = (kind: string) => rows.flatMap(([path, audited]) => (audited === kind ? [path] : []));
    expect(of('change')).toEqual([
      ...['retry', 'park', 'discard'].map(what => `/outbox/:id/${what}`),
      '/cases',
      ...[
        '',
        '/:id',
        '/:id',
        '/:id/discard',
        '/:id/close',
        '/:id/reopen',
        '/:id/sign',
        '/:id/take-back',
        '/:id/take-in',
      ].map(of => `/drafts${of}`),
    ]);
    expect(of('export')).toEqual(['/cases/prepare', '/cases/report', '/fhir/$process-case']);
    expect(
      of('none').every(path =>
        /^\/(schema|settings|questionnaire|destinations|devices\/catalogue|(cases|intake|dose|fhir)\/)/.test(
          path ?? '',
        ),
      ),
    ).toBe(true);
    expect(of('look').filter(path => path?.startsWith('/register/'))).toHaveLength(registerRoutes.length);
    for (const method of ['PUT', 'PATCH', 'DELETE', 'POST'])
      expect(auditedAs({ right: 'enter' }, method)).toBe('change');
    for (const method of ['GET', 'HEAD']) expect(auditedAs({ right: 'enter' }, method)).toBe('look');
  });
});

describe('wrong tokens', () => {
  it('past the limit, whatever that address shows, are not even looked at; others, and people, go on', async () => {
    const browser = await signedIn();
    const from = (address: string, token = TOKEN) =>
      withToken('/outbox', { headers: { 'x-forwarded-for': address } }, token);
    const answers = [];
    for (let i = 0; i <= MOST_WRONG; i += 1) answers.push((await from('192.0.2.7', `wrong-${i}`)).status);
    expect(answers).toEqual([...Array(MOST_WRONG).fill(401), 429]);
    const right = await from('192.0.2.7');
    expect([right.status, right.headers.get('retry-after')]).toEqual([429, '60']);
    expect((await from('192.0.2.8')).status).toBe(200);
    expect((await browser.fromPage(service.base, '/outbox')).status).toBe(200);
    expect(facts().filter(({ doing }) => doing === 'token')).toHaveLength(MOST_WRONG);
    clock.now += 60_000;
    expect((await from('192.0.2.7')).status).toBe(200);
  });
});
