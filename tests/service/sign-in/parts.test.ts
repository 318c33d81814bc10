import { describe, expect, it } from 'vitest';
import { cookieOf, cookiesOf } from '../../../src/service/sign-in/cookies.js';
import { OnceLink } from '../../../src/service/sign-in/once-link.js';
import { returnTo } from '../../../src/service/sign-in/return-to.js';
import { digestOf, type Person, Sessions, secretText } from '../../../src/service/sign-in/sessions.js';
import { PATIENCE_MS, UnderWays } from '../../../src/service/sign-in/under-way.js';
import { MOST_WRONG, WrongTries } from '../../../src/service/sign-in/wrong-tries.js';
import { claimAt, plainName, rightsOfRoles, roles, rolesOfClaim } from '../../../src/site/roles.js';
import { rights } from '../../../src/site/service.js';
import { sessionSchema, signInSchema } from '../../../src/site/sign-in.js';

const MINUTE = 60_000;
const person = (subject: string): Person => ({
  ...{ name: 'Ana Reyes', roles: ['read'], verified: { issuer: 'https://id.example.org', subject } },
});

describe('sessions', () => {
  const limits = sessionSchema.parse({ hours: 2, idleMinutes: 30, freshMinutes: 5 });
  const at = (start = 0) => {
    const clock = { now: start };
    return { clock, sessions: new Sessions(limits, () => clock.now, 3) };
  };

  it('end when nothing was asked for so long, and at their end however much was asked', () => {
    const { clock, sessions } = at();
    const idle = sessions.open(person('a'), 'x', undefined);
    const busy = sessions.open(person('b'), 'y', undefined);
    for (clock.now = 29 * MINUTE; clock.now < 120 * MINUTE; clock.now += 29 * MINUTE)
      expect(sessions.find(busy)?.session.person).toEqual(person('b'));
    expect(sessions.find(idle)).toBeUndefined();
    clock.now = 120 * MINUTE - 1;
    expect(sessions.find(busy)).toBeDefined();
    clock.now += 1;
    expect(sessions.find(busy)).toBeUndefined();
    expect(sessions.size).toBe(0);
  });

  it('have a new id at each sign-in; the one before, and those of the same browser, end', () => {
    const { sessions } = at();
    const first = sessions.open(person('a'), 'x', undefined);
    const second = sessions.open(person('a'), 'x', undefined);
    const third = sessions.open(person('b'), 'y', undefined, sessions.find(second)?.key);
    expect([first, second, third].map(id => sessions.find(id) !== undefined)).toEqual([false, false, true]);
    expect(new Set([first, second, third]).size).toBe(3);
  });

  it('of one person end together, wherever they are; those of a name that was typed one by one', () => {
    const { sessions } = at();
    const [here, there, other] = ['a', 'a', 'b'].map((subject, i) =>
      sessions.open(person(subject), `${i}`, undefined),
    );
    sessions.end(sessions.find(here)?.key ?? '');
    expect([here, there, other].map(id => sessions.find(id) !== undefined)).toEqual([false, false, true]);
    const typed: Person = { name: 'Ana Reyes', roles: ['read'] };
    const [one, two] = ['3', '4'].map(browser => sessions.open(typed, browser, undefined));
    sessions.end(sessions.find(one)?.key ?? '');
    expect([one, two].map(id => sessions.find(id) !== undefined)).toEqual([false, true]);
  });

  it('are bounded: whoever asked longest ago goes', () => {
    const { clock, sessions } = at();
    const ids = ['a', 'b', 'c'].map(subject => {
      clock.now += 1;
      return sessions.open(person(subject), subject, undefined);
    });
    clock.now += 1;
    sessions.find(ids[0]);
    ids.push(sessions.open(person('d'), 'd', undefined));
    expect(ids.map(id => sessions.find(id) !== undefined)).toEqual([true, false, true, true]);
  });

  it.each([
    ['nobody says when', undefined, 0],
    ['just now', 100 * MINUTE, 5],
    ['by a clock that is ahead', 101 * MINUTE, 5],
    ['two minutes ago', 98 * MINUTE, 3],
    ['an hour ago', 40 * MINUTE, 0],
  ])('are fresh as the person showed who they are: %s', (_, shownAt, minutes) => {
    const { sessions } = at(100 * MINUTE);
    const found = sessions.find(sessions.open(person('a'), 'x', shownAt));
    expect(found?.session.freshUntil).toBe((100 + minutes) * MINUTE);
  });

  it.each([undefined, '', 'x', secretText()])('%s opens none', id => {
    const { sessions } = at();
    sessions.open(person('a'), 'x', undefined);
    expect(sessions.find(id)).toBeUndefined();
  });
});

describe('a sign-in under way', () => {
  const begun = (browser: string) => ({
    ...{ nonce: 'n', verifier: 'v', to: '/', fresh: false, browser: digestOf(browser) },
  });
  it('is taken once, by the browser that began it, and not for ever', () => {
    const clock = { now: 0 };
    const ways = new UnderWays(() => clock.now, 3);
    const state = ways.begin(begun('a'));
    expect(ways.take(state, digestOf('b'))).toBeUndefined();
    expect(ways.take(secretText(), digestOf('a'))).toBeUndefined();
    expect(ways.take(state, digestOf('a'))).toMatchObject({ nonce: 'n' });
    expect(ways.take(state, digestOf('a'))).toBeUndefined();
    const late = ways.begin(begun('a'));
    clock.now = PATIENCE_MS;
    expect(ways.take(late, digestOf('a'))).toBeUndefined();
    expect(ways.knows(digestOf('a'))).toBe(false);
  });
  it('is one of a bounded number: the oldest goes', () => {
    const ways = new UnderWays(() => 0, 3);
    const states = ['a', 'a', 'a', 'a'].map(browser => ways.begin(begun(browser)));
    expect(states.map(state => ways.take(state, digestOf('a')) !== undefined)).toEqual([
      false,
      true,
      true,
      true,
    ]);
  });
});

describe('wrong tries', () => {
  const tried = (times: number, address: string, tries: WrongTries) => {
    for (let i = 0; i < times; i += 1) tries.wrong(address);
  };
  it('are counted by address; past the limit it waits for the end of its minute and no longer', () => {
    const clock = { now: 0 };
    const tries = new WrongTries(() => clock.now);
    tried(MOST_WRONG - 1, '192.0.2.1', tries);
    expect(tries.wait('192.0.2.1')).toBeUndefined();
    clock.now = 20_000;
    tries.wrong('192.0.2.1');
    expect([tries.wait('192.0.2.1'), tries.wait('192.0.2.2')]).toEqual([40, undefined]);
    expect(tries.wait('::ffff:192.0.2.1')).toBe(40);
    clock.now = 60_000;
    expect(tries.wait('192.0.2.1')).toBeUndefined();
  });
  it('of a whole network of 64 bits are those of one', () => {
    const tries = new WrongTries(() => 0);
    for (let i = 0; i < MOST_WRONG; i += 1) tries.wrong(`2001:db8:0:7::${i.toString(16)}`);
    expect(tries.wait('2001:DB8::7:aaaa:bbbb:cccc:dddd')).toBe(60);
    expect(tries.wait('2001:db8:0:8::1')).toBeUndefined();
    tried(MOST_WRONG, '::1', tries);
    expect(tries.wait('::1')).toBe(60);
  });
  it('are of a bounded number of addresses', () => {
    const tries = new WrongTries(() => 0, 100);
    for (let i = 0; i < 1_000; i += 1) tries.wrong(`10.0.${i >> 8}.${i & 255}`);
    expect(tries.size).toBe(100);
  });
});

describe('a link', () => {
  it('works once, is replaced by the next, and ends', () => {
    const clock = { now: 0 };
    const printed: string[] = [];
    const link = new OnceLink(
      () => clock.now,
      code => void printed.push(code),
    );
    expect(link.take('')).toBe(false);
    link.renew();
    expect([link.take('x'), link.take(printed[0] ?? ''), link.take(printed[0] ?? '')]).toEqual([
      false,
      true,
      false,
    ]);
    link.renew();
    link.renew();
    expect([link.take(printed[1] ?? ''), link.take(printed[2] ?? '')]).toEqual([false, true]);
    link.renew();
    clock.now = 10 * MINUTE;
    expect(link.take(printed[3] ?? '')).toBe(false);
  });
});

describe('cookies', () => {
  it('over https have the prefix __Host- and what it asks for (RFC 6265bis, 4.1.3.2)', () => {
    const { session, browser, set, clear } = cookiesOf(new URL('https://casetally.example.org/under/'));
    expect(session).toBe('__Host-casetally-session');
    expect(set(session, 'v', 9.7)).toBe(`${session}=v; Max-Age=9; Path=/; HttpOnly; Secure; SameSite=Strict`);
    expect(set(browser, 'v', 9)).toMatch(/Secure; SameSite=Lax$/);
    expect(clear(session)).toBe(`${session}=; Max-Age=0; Path=/; HttpOnly; Secure; SameSite=Strict`);
  });
  it('on one machine are told apart by port', () => {
    expect(cookiesOf(new URL('http://127.0.0.1:8720/')).session).toBe('casetally-session-8720');
  });
  const good = secretText();
  it.each([
    [`a=1; s=${good}; b=2`, good],
    [`s=${good}`, good],
    [`s=${good}; s=${secretText()}`, undefined],
    [`xs=${good}`, undefined],
    ['s=', undefined],
    [`s=${good}x`, undefined],
    [undefined, undefined],
  ])('%s gives %s', (header, value) => {
    expect(cookieOf(header, 's')).toBe(value);
  });
});

describe('where somebody is led afterwards', () => {
  const base = new URL('https://casetally.example.org/under/');
  it.each([
    ['review?language=de', 'https://casetally.example.org/under/review?language=de'],
    ['drafts/7#line-3', 'https://casetally.example.org/under/drafts/7#line-3'],
    ['/under/review', 'https://casetally.example.org/under/review'],
    ['case#3f1c3c7e-1d5c-4a8e/finish', 'https://casetally.example.org/under/case#3f1c3c7e-1d5c-4a8e/finish'],
  ])('%s is within', (asked, href) => {
    expect(returnTo(asked, base)).toBe(href);
  });
  it.each([
    ...['https://evil.example.org/', '//evil.example.org', '\\\\evil.example.org', '/\\evil.example.org'],
    ...[
      'javascript:alert(1)',
      'data:text/html,x',
      '../other',
      '/elsewhere',
      'https://u:p@casetally.example.org/under/x',
    ],
    ...[
      '/under//evil.example.org',
      'sign-in?fresh=yes',
      'sign-out',
      'http://casetally.example.org/under/review',
    ],
    ...[
      'https://casetally.example.org:444/under/review',
      '\thttps://evil.example.org',
      `review?${'x'.repeat(600)}`,
    ],
    ...[undefined, ['a', 'b'], 7],
  ])('%s is not', asked => {
    expect(returnTo(asked, base)).toBe('https://casetally.example.org/under/review');
  });
});

describe('claims', () => {
  const table = { Radiographer: ['enter', 'read'], 'IR consultant': ['sign'] } as const;
  const given: [string, unknown, string[]][] = [
    ['a list', ['IR consultant', 'Radiographer', 'other'], ['enter', 'sign', 'read']],
    ['one value as a text', 'IR consultant', ['sign']],
    ['a text that only holds one', 'IR consultant Radiographer', []],
    ['a value in other letters', ['radiographer'], []],
    ['what every object has', ['constructor', '__proto__', 'toString'], []],
    ['nothing', undefined, []],
    ['values that are no texts', [{ Radiographer: true }, 7, null, ['Radiographer']], []],
    ['an object', { Radiographer: true }, []],
  ];
  it.each(given)('of roles: %s', (_, claim, found) => {
    expect(rolesOfClaim(claim, table)).toEqual(found);
  });
  it('are found by name and by path', () => {
    const claims = { realm_access: { roles: ['a'] }, 'https://example.org/roles': ['b'], name: 'x' };
    expect(claimAt(claims, 'realm_access.roles')).toEqual(['a']);
    expect(claimAt(claims, 'https://example.org/roles')).toEqual(['b']);
    for (const path of [
      'realm_access.x',
      'name.length',
      '__proto__.toString',
      'constructor',
      'realm_access.roles.0.1',
    ])
      expect(claimAt(claims, path)).toBeUndefined();
  });
  it.each([
    ['  Ana\n Reyes ', 'Ana Reyes'],
    ['<b>Ana</b>', '<b>Ana</b>'],
    ['Ana\u202eseyeR\u0000\u200b', 'Ana seyeR'],
    ['x'.repeat(10_000), 'x'.repeat(100)],
    ['😀'.repeat(10_000), '😀'.repeat(100)],
    [' \u200b ', undefined],
    [{ name: 'x' }, undefined],
    [undefined, undefined],
  ])('of a name: %j', (claim, name) => {
    expect(plainName(claim)).toBe(name);
  });
  it('each role gives rights that there are, and all together every one', () => {
    expect([...rightsOfRoles(roles)].sort()).toEqual([...rights].sort());
    expect(rightsOfRoles(['registry'])).toEqual(['register']);
    expect(rightsOfRoles([])).toEqual([]);
  });
});

describe('settings', () => {
  const good = {
    ...{
      issuer: 'https://id.example.org/realms/hospital',
      clientId: 'casetally',
      clientSecret: 'env:SECRET',
    },
    ...{ redirect: 'https://casetally.example.org/under/sign-in/back', roles: { Radiographer: ['enter'] } },
  };
  it('are taken, on this machine without https too', () => {
    expect(signInSchema.parse(good)).toMatchObject({ nameClaim: 'name', scope: 'openid profile' });
    const local = {
      ...good,
      issuer: 'http://127.0.0.1:9000',
      redirect: 'http://localhost:8720/sign-in/back',
    };
    expect(signInSchema.safeParse(local).success).toBe(true);
  });
  it.each([
    ['a secret that stands there', { clientSecret: 'swordfish' }],
    ['a provider without encryption', { issuer: 'http://id.example.org' }],
    ['a name that begins like this machine', { issuer: 'http://127.0.0.1.example.org' }],
    ['another way back', { redirect: 'https://casetally.example.org/back' }],
    ['a way back with a query', { redirect: 'https://casetally.example.org/?x=/sign-in/back' }],
    ['a role that there is not', { roles: { Radiographer: ['admin'] } }],
    ['a scope without openid', { scope: 'profile' }],
  ])('%s is refused', (_, more) => {
    expect(signInSchema.safeParse({ ...good, ...more }).success).toBe(false);
  });
});
