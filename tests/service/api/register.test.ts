import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { openSqliteRegister } from '../../../src/register/store/open.js';
import type { Register } from '../../../src/register/store/register.js';
import { createServiceApp, type RequestEvent } from '../../../src/service/api/app.js';
import { tokenDigest } from '../../../src/service/api/guard.js';
import { reply } from '../../../src/service/api/reply.js';
import type { CaseWork } from '../../../src/service/threads/cases.js';
import { parseSite } from '../../../src/site/parse.js';
import { caseOf, device, SYSTEM } from '../../register/facts.js';

const folder = mkdtempSync(join(tmpdir(), 'service-register-'));
afterAll(() => rmSync(folder, { recursive: true }));
const { site } = parseSite(`casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a04
organization: { name: Test site }
register: {}
`);
if (!site) throw new Error('the settings cannot be read');
const cases: CaseWork = {
  ask: async () => reply(200, {}),
  busy: () => undefined,
  state: { threads: 1, busy: 0, waiting: 0, replaced: 0, failedStarts: 0 },
  close: async () => undefined,
};
const TOKENS = {
  may: 'the-one-that-may-ask-it',
  reads: 'the-one-that-reads-alone',
  enters: 'the-one-that-enters-cases',
  both: 'the-one-that-may-do-both',
};
const plan = { key: 'k', what: 'Change', by: 'ward', due: '2024-03-01', latest: '2024-03-10' };

let log: RequestEvent[];
let stops: (() => unknown)[] = [];
afterEach(async () => {
  for (const stop of stops) await stop();
  stops = [];
});

async function serve(register: Register | undefined): Promise<string> {
  log = [];
  const app = createServiceApp(
    {
      ...{ outbox: new MemoryOutbox(() => 'x'), cases, secrets: () => undefined },
      softwareVersion: '0.0.0-test',
      clock: () => Date.UTC(2024, 3, 1),
      site: { site: site!, given: true, folder: '.' },
      ...(register && { register }),
    },
    {
      tokens: [
        { name: 'may', rights: ['register'], sha256: tokenDigest(TOKENS.may) },
        { name: 'both', rights: ['enter', 'register'], sha256: tokenDigest(TOKENS.both) },
        { name: 'enters', rights: ['enter'], sha256: tokenDigest(TOKENS.enters) },
        { name: 'reads', rights: ['read', 'check', 'send', 'outbox'], sha256: tokenDigest(TOKENS.reads) },
      ],
      ...{ maxBytes: 10_000, clock: () => 0, page: { language: 'en-GB', file: () => undefined } },
      onRequest: event => void log.push(event),
    },
  );
  const server = app.listen(0, '127.0.0.1');
  await new Promise(resolve => server.once('listening', resolve));
  stops.push(() => {
    server.closeAllConnections();
    return new Promise(resolve => server.close(resolve));
  });
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/v1/register`;
}

let base: string;
let n = 0;
beforeEach(async () => {
  n += 1;
  const register = await openSqliteRegister(join(folder, `${n}.db`), {
    sealing: unsealed,
    ownSystem: SYSTEM,
  });
  const known = { di: '09506000117843', side: 'left' as const };
  await register.take(
    {
      facts: caseOf('A', '2024-01-10', [
        device('drain', { ...known, lot: 'L1', plans: [plan] }),
        device('filter', { kind: 'caval filter', family: 'filter', retrievable: true }),
        device('gone', { ...known, lot: 'L2' }),
      ]),
      record: '',
    },
    1,
  );
  const out = device('gone', { ...known, lot: 'L2', carried: {}, out: 1, outOn: '2024-02-01' });
  await register.take({ facts: caseOf('B', '2024-02-01', [out]), record: '' }, 1);
  base = await serve(register);
  stops.push(() => register.close());
});

const get = (path: string, token = TOKENS.may) =>
  fetch(`${base}/${path}`, { headers: { authorization: `Bearer ${token}` } });
const post = (path: string, body: unknown, token = TOKENS.may) =>
  fetch(`${base}/${path}`, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
interface Use {
  readonly id: string;
}
const of = async <T>(answer: Promise<Response>): Promise<T> => (await (await answer).json()) as T;

describe('the register over HTTP', () => {
  it('is not asked for a case that begins by whoever may not ask it, nor where there is none', async () => {
    const begin = (token: string, body: object, path = 'begin') =>
      fetch(`${base.replace('/register', '')}/intake/${path}`, {
        method: 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
    expect((await begin(TOKENS.enters, { register: true })).status).toBe(403);
    expect((await begin(TOKENS.enters, { register: true, record: 'casetally: 1' }, 'add')).status).toBe(403);
    expect((await begin(TOKENS.enters, { register: false })).status).toBe(200);
    expect((await begin(TOKENS.reads, { record: 'casetally: 1' }, 'add')).status).toBe(403);
    base = await serve(undefined);
    expect((await begin(TOKENS.both, { register: true })).status).toBe(400);
  });

  it('tells what is inside a patient, and what was', async () => {
    type Told = { patients: { numbers: object[]; uses: Use[] }[] };
    const inside = await of<Told>(post('inside', { patient: '4711' }));
    expect(inside.patients.map(({ uses }) => uses.map(({ id }) => id))).toEqual([['A/drain', 'A/filter']]);
    const all = await of<Told>(post('inside', { patient: '4711', all: true }));
    expect(all.patients[0]?.uses).toHaveLength(3);
    expect(await of(post('inside', { patient: '9' }))).toEqual({ patients: [] });
    expect(await of(post('inside', { patient: '4711', system: 'https://other.example' }))).toEqual({
      patients: [],
    });
  });

  it('tells the history of a device by any of its names', async () => {
    const use = await of<Use & { events: object[] }>(post('history', { use: 'B/gone' }));
    expect([use.id, use.events.length]).toEqual(['A/gone', 2]);
    expect(use).not.toHaveProperty('person');
    expect((await post('history', { use: 'Z/gone' })).status).toBe(404);
  });

  it('lists what is due, overdue, unreviewed and to be decided', async () => {
    expect(await of(get('overdue'))).toMatchObject({
      on: '2024-04-01',
      count: 1,
      items: [{ what: 'Change', use: { id: 'A/drain' } }],
    });
    expect(await of(get('due?on=2024-02-20&within=14'))).toMatchObject({ count: 1 });
    expect(await of(get('due?on=2024-02-20&within=3&kind=drain&by=ward'))).toMatchObject({ count: 0 });
    expect(await of(get('unreviewed'))).toMatchObject({ count: 1, items: [{ id: 'A/filter' }] });
    expect(await of(get('unlinked'))).toMatchObject({ count: { unlinked: 0, gaps: 0, sameSerials: 0 } });
  });

  it('answers a recall, and names patients where that is asked for alone', async () => {
    const lines = [{ di: '09506000117843', lot: 'L1' }, { lot: 'L2' }];
    const told = await of<{ hits: object[] }>(post('recall', { lines }));
    expect(told).toMatchObject({
      lines: 2,
      count: 2,
      hits: [
        { line: 1, answer: 'carries now', use: { id: 'A/drain' } },
        { line: 2, answer: 'carried' },
      ],
      insideWithoutIdentifier: 1,
    });
    expect(JSON.stringify(told)).not.toContain('4711');
    expect(JSON.stringify(await of(post('recall', { lines, contacts: true })))).toContain('4711');
  });

  it('refuses what it does not understand', async () => {
    const refused: [string, unknown][] = [
      ['inside', {}],
      ['inside', { patient: '4711', name: 'x' }],
      ['inside', { patient: 4711 }],
      ['inside', [{ patient: '4711' }]],
      ['history', { use: '' }],
      ['recall', { lines: [] }],
      ['recall', { lines: [{ expiresTo: '2024-01-01' }] }],
      ['recall', { lines: [{ lot: 'L1', expiresTo: 'soon' }] }],
      ['recall', { lines: Array.from({ length: 501 }, () => ({ lot: 'L1' })) }],
    ];
    for (const [path, body] of refused) expect([path, (await post(path, body)).status]).toEqual([path, 400]);
    for (const query of ['due?on=2024-02-30', 'due?within=-1', 'overdue?patient=4711', 'unreviewed?on=x'])
      expect([query, (await get(query)).status]).toEqual([query, 400]);
    expect((await post('recall', { lines: [{ lot: 'x'.repeat(300_000) }] })).status).toBe(413);
    expect((await get('inside')).status).toBe(405);
    expect((await post('overdue', {})).status).toBe(405);
  });

  it('opens to tokens with its right alone, and writes no number or case into the log', async () => {
    for (const path of ['inside', 'history', 'recall'])
      expect((await post(path, { patient: '4711' }, TOKENS.reads)).status).toBe(403);
    for (const path of ['due', 'overdue', 'unreviewed', 'unlinked'])
      expect((await get(path, TOKENS.reads)).status).toBe(403);
    expect((await fetch(`${base}/overdue`)).status).toBe(401);
    await of(post('inside', { patient: '4711' }));
    await of(post('history', { use: 'A/drain' }));
    expect(log.length).toBeGreaterThan(8);
    expect(JSON.stringify(log)).not.toMatch(/4711|A\/drain/);
    expect(log.at(-1)).toMatchObject({ route: '/register/history', by: 'may', status: 200 });
  });

  it('says so where the site keeps none', async () => {
    base = await serve(undefined);
    expect((await get('overdue')).status).toBe(404);
    expect((await post('inside', { patient: '4711' })).status).toBe(404);
  });
});
