import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { discard } from '../../../src/cli/commands/outbox/outbox.js';
import { newToken } from '../../../src/cli/commands/token.js';
import { tokensOf } from '../../../src/cli/service-tokens.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import type { OutboxItem } from '../../../src/delivery/outbox/outbox.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { finding } from '../../../src/findings/finding.js';
import { createServiceApp, type RequestEvent } from '../../../src/service/api/app.js';
import { reply } from '../../../src/service/api/reply.js';
import type { CaseWork } from '../../../src/service/threads/cases.js';
import { parseSite } from '../../../src/site/parse.js';
import { rights } from '../../../src/site/service.js';

/* What persons and programs may do over HTTP, and what is written down of it; threads and cases are elsewhere. */

const folder = mkdtempSync(join(tmpdir(), 'decisions-'));
afterAll(() => rmSync(folder, { recursive: true }));

const head = `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a04
organization: { name: Test site }
`;
const WHOLE = 'the-one-that-may-do-everything';
const settings: string[] = [];
const made: Record<string, string> = {};
for (const right of rights) {
  const said: string[] = [];
  const output = { out: (text: string) => void said.push(text), err: () => undefined, color: false };
  newToken(`only-${right}`, { rights: [right] }, output);
  const [, token = '', line = ''] = /\n\n {2}(\S+)\n[\s\S]*\n( {4}only-.*)\n$/.exec(said.join('')) ?? [];
  made[right] = token;
  settings.push(line);
}
const { site, findings } = parseSite(
  `${head}service:\n  token: env:WHOLE\n  tokens:\n${settings.join('\n')}\n`,
);
if (!site) throw new Error(JSON.stringify(findings));

const cases: CaseWork = {
  ask: async ({ wanted }) => reply(200, { did: wanted.do }),
  busy: () => undefined,
  state: { threads: 1, busy: 0, waiting: 0, replaced: 0, failedStarts: 0 },
  close: async () => undefined,
};
let outbox: MemoryOutbox;
let items: OutboxItem[];
let base: string;
let log: RequestEvent[];
let stop: () => Promise<unknown>;

beforeEach(async () => {
  let n = 0;
  outbox = new MemoryOutbox(() => {
    n += 1;
    return `item-${n}`;
  });
  items = [];
  for (const key of ['a', 'b'])
    items.push(
      await outbox.put(
        { destination: 'd', caseKey: key, patientKey: key, payload: `{"name":"Vela ${key}"}`, digest: key },
        1,
      ),
    );
  log = [];
  const app = createServiceApp(
    {
      ...{ outbox, cases, secrets: () => undefined, clock: () => 5 },
      ...{ softwareVersion: '0.0.0-test', site: { site, given: true, folder: '.' } },
    },
    {
      tokens: tokensOf(site, () => WHOLE),
      ...{ maxBytes: 10_000, clock: () => 0, page: { language: 'en-GB', file: () => undefined } },
      onRequest: event => void log.push(event),
    },
  );
  const server = app.listen(0, '127.0.0.1');
  await new Promise(resolve => server.once('listening', resolve));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  stop = () => {
    server.closeAllConnections();
    return new Promise(resolve => server.close(resolve));
  };
});
afterEach(() => stop());

const ask = (token: string, method: string, path: string, body?: string, type = 'application/json') =>
  fetch(base + path, {
    method,
    headers: { authorization: `Bearer ${token}`, ...(body !== undefined && { 'content-type': type }) },
    ...(body !== undefined && { body }),
  });
const decide = (what: string, body: unknown, id = 'item-1') =>
  ask(WHOLE, 'POST', `/v1/outbox/${id}/${what}`, JSON.stringify(body));
const textOf = async (answer: Response) =>
  ((await answer.json()) as { issue: { details: { text: string } }[] }).issue[0]?.details.text;

describe('tokens with rights', () => {
  const needs: [string, string, string][] = [
    ['check', 'POST', '/cases/check'],
    ['check', 'POST', '/cases/prepare'],
    ['check', 'POST', '/v1/cases/report'],
    ['send', 'POST', '/v1/cases'],
    ['read', 'GET', '/outbox'],
    ['read', 'GET', '/v1/outbox/item-1'],
    ['outbox', 'POST', '/v1/outbox/item-1/retry'],
    ['outbox', 'POST', '/outbox/item-1/park'],
    ['outbox', 'POST', '/outbox/item-1/discard'],
  ];
  it.each(needs)("only '%s' opens %s %s", async (needed, method, path) => {
    for (const right of rights) {
      const body = method === 'POST' ? '{"by":"Ana","why":"asked"}' : undefined;
      const answer = await ask(made[right] ?? '', method, path, body);
      expect([right, answer.status]).toEqual([right, right === needed ? 200 : 403]);
      if (right !== needed) expect(await textOf(answer)).toContain(`lacks the right '${needed}'`);
    }
  });

  it('each opens what is about nobody, and the one token of before opens everything', async () => {
    for (const path of ['/schema', '/destinations'])
      for (const right of rights) expect((await ask(made[right] ?? '', 'GET', path)).status).toBe(200);
    expect((await ask(WHOLE, 'GET', '/outbox')).status).toBe(200);
    expect((await decide('discard', { by: 'Ana', why: 'twice' })).status).toBe(200);
  });

  it('a digest from the settings is no token', async () => {
    const sha256 = site.service.tokens['only-read']?.sha256 ?? '';
    expect(sha256).toMatch(/^[0-9a-f]{64}$/);
    expect((await ask(sha256, 'GET', '/outbox')).status).toBe(401);
  });
});

describe('a decision about an item', () => {
  it('is kept with it by whom, with which token, and why', async () => {
    const answer = await ask(
      ...([made['outbox'] ?? '', 'POST', '/v1/outbox/item-1/park'] as const),
      '{"by":"Ana Reyes","why":"wrong day"}',
    );
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({ id: 'item-1', state: 'parked', reason: 'wrong day' });
    expect((await outbox.get('item-1'))?.parked).toMatchObject({
      ...{ by: 'Ana Reyes (token only-outbox)', reason: 'wrong day', at: 5 },
    });
    const retried = await decide('retry', { by: 'Ana Reyes' });
    expect(await retried.json()).toMatchObject({
      state: 'waiting',
      next: expect.stringContaining('goes again'),
    });
    const discarded = await decide('discard', { by: 'Ana Reyes', why: 'sent on paper' });
    expect(await discarded.json()).toMatchObject({ state: 'discarded' });
  });

  it('says what the command line says where it cannot be done, and changes nothing', async () => {
    expect((await decide('discard', { by: 'Ana', why: 'twice' })).status).toBe(200);
    const before = await outbox.get('item-1');
    for (const [what, word] of [
      ['retry', 'retried'],
      ['park', 'parked'],
      ['discard', 'discarded'],
    ] as const) {
      const answer = await decide(what, { by: 'Ben', why: 'x' });
      expect([what, answer.status]).toEqual([what, 409]);
      expect(await textOf(answer)).toBe(`item-1 cannot be ${word}: it is discarded.`);
    }
    expect(await outbox.get('item-1')).toEqual(before);
    // The same words on the command line, of an outbox of its own.
    const data = join(folder, 'data');
    const file = await openSqliteOutbox(join(data, 'outbox.db'), { newId: () => 'item-1' });
    const [first] = items;
    if (first) await file.put(first, 1);
    await file.discard('item-1', { reason: 'twice', by: 'Ana', at: 1, findings: [] });
    await file.close();
    const said: string[] = [];
    const output = { out: () => undefined, err: (text: string) => void said.push(text), color: false };
    expect(await discard('item-1', { data, by: 'Ben', why: 'x' }, output)).toBe(1);
    expect(said).toEqual(['item-1 cannot be discarded: it is discarded.\n']);
  });

  it('of two at once one wins, and the other is told how it stands', async () => {
    const both = await Promise.all([
      decide('discard', { by: 'Ana', why: 'twice' }),
      decide('discard', { by: 'Ben', why: 'twice too' }),
    ]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409]);
    const lost = both.find(({ status }) => status === 409);
    expect(lost && (await textOf(lost))).toContain('it is discarded');
  });

  it.each([
    ['nobody', 'park', { why: 'x' }],
    ['no reason', 'park', { by: 'Ana' }],
    ['an empty name', 'discard', { by: ' ', why: 'x' }],
    ['nobody for a retry', 'retry', {}],
    ['acceptance without a reason', 'retry', { by: 'Ana', accept: ['name'] }],
    ['acceptance where nothing is sent', 'park', { by: 'Ana', why: 'x', accept: ['name'] }],
    ['a field that is not known', 'retry', { by: 'Ana', now: true }],
    ['a line break', 'discard', { by: 'Ana\n{"by":"Ben"}', why: 'x' }],
    ['a very long reason', 'discard', { by: 'Ana', why: 'x'.repeat(1_001) }],
    ['a list', 'park', []],
  ])('with %s is refused, says what to send, and changes nothing', async (_, what, body) => {
    const answer = await decide(what, body);
    expect(answer.status).toBe(400);
    expect(await textOf(answer)).toMatch(/send \{"by": who/);
    expect((await outbox.get('item-1'))?.state).toBe('waiting');
  });

  it.each([
    ['a form', 'by=Ana&why=x', 'application/x-www-form-urlencoded', 415],
    ['plain text that is JSON', '{"by":"Ana","why":"x"}', 'text/plain', 415],
    ['half of it', '{"by":"Ana"', 'application/json', 400],
    ['far too much', `{"by":"${'x'.repeat(20_000)}"}`, 'application/json', 413],
  ])('sent as %s is refused', async (_, body, type, status) => {
    const answer = await ask(WHOLE, 'POST', '/outbox/item-1/discard', body, type);
    expect(answer.status).toBe(status);
    expect((await outbox.get('item-1'))?.state).toBe('waiting');
  });

  it('is refused for an item that is not there, and by another method', async () => {
    expect((await decide('park', { by: 'Ana', why: 'x' }, 'no-such')).status).toBe(404);
    const got = await ask(WHOLE, 'GET', '/outbox/item-1/discard');
    expect([got.status, got.headers.get('allow')]).toEqual([405, 'POST']);
  });

  it('lets a near match pass that the item is parked for, and no other', async () => {
    const params = { field: 'name', sent: 'Vela', held: 'Vila' };
    const near = finding('delivery.match-near', 'patient.name', params as never);
    await outbox.park('item-1', { reason: 'near', by: 'casetally', at: 1, findings: [near] });
    const other = await decide('retry', { by: 'Ana', why: 'same person', accept: ['birthDate'] });
    expect(other.status).toBe(422);
    expect(await textOf(other)).toContain(
      "not held back for a near match of 'birthDate'; to be accepted are: name",
    );
    expect((await outbox.get('item-1'))?.state).toBe('parked');
    expect((await decide('retry', { by: 'Ana', why: 'same person', accept: ['name'] })).status).toBe(200);
    expect((await outbox.get('item-1'))?.accepted).toEqual([
      { ...params, by: 'Ana (token service.token)', why: 'same person', at: 5 },
    ]);
  });
});

describe('what is written down', () => {
  it('says who did what with which item, and nothing of a patient, a token or a reason', async () => {
    await decide('discard', { by: 'Ana Reyes', why: 'Vela was sent on paper' });
    await ask(made['read'] ?? '', 'GET', '/v1/outbox/item-2');
    await ask(made['read'] ?? '', 'POST', '/outbox/item-2/park', '{"by":"Ben","why":"x"}');
    await ask('a-token-that-nobody-was-given', 'GET', '/outbox/item-2');
    expect(log).toMatchObject([
      {
        ...{ by: 'service.token', method: 'POST', route: '/outbox/:id/discard', status: 200 },
        ...{ items: ['item-1'], person: 'Ana Reyes' },
      },
      { by: 'only-read', method: 'GET', route: '/outbox/:id', items: ['item-2'], status: 200 },
      { by: 'only-read', route: '/outbox/:id/park', status: 403 },
      { status: 401 },
    ]);
    expect(log[3]).not.toHaveProperty('by');
    const text = JSON.stringify(log);
    for (const secret of ['Vela', 'paper', WHOLE, 'nobody-was-given', ...Object.values(made)])
      expect(text).not.toContain(secret);
  });
});
