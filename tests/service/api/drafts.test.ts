import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import type { Edit } from '../../../src/drafts/edits.js';
import { moveDraft } from '../../../src/drafts/save.js';
import type { Drafts } from '../../../src/drafts/store/drafts.js';
import { openSqliteDrafts } from '../../../src/drafts/store/open.js';
import { createServiceApp, type RequestEvent } from '../../../src/service/api/app.js';
import { DraftChanges } from '../../../src/service/api/draft-changes.js';
import { tokenDigest } from '../../../src/service/api/guard.js';
import { type Reply, refusal, reply } from '../../../src/service/api/reply.js';
import type { CaseJob } from '../../../src/service/threads/case-job.js';
import { unconfiguredSite } from '../../../src/site/site.js';

const folder = mkdtempSync(join(tmpdir(), 'service-drafts-'));
afterAll(() => rmSync(folder, { recursive: true }));
const TOKENS = { room: 'the-one-of-the-room-x', reads: 'the-one-that-reads-alone' };
/** Late in the evening by UTC: the next day at the site. */
const NOW = Date.UTC(2024, 3, 1, 23, 30);

/** What the threads answer. */
let answer: (job: CaseJob) => Promise<Reply>;
let log: RequestEvent[];
let base: string;
let store: Drafts;
let other: Drafts;
let changes: DraftChanges;
let stop: () => Promise<unknown>;
let n = 0;
beforeEach(async () => {
  n += 1;
  log = [];
  answer = async () => reply(202, { items: [{ id: 'item-1' }] });
  const path = join(folder, `${n}.db`);
  store = await openSqliteDrafts(path, { sealing: unsealed });
  other = await openSqliteDrafts(path, { sealing: unsealed });
  changes = new DraftChanges(store, { heartbeatMs: 20, lookMs: 20, mostOfOne: 2 });
  const app = createServiceApp(
    {
      outbox: new MemoryOutbox(() => 'x'),
      cases: {
        ask: job => answer(job),
        busy: () => undefined,
        state: { threads: 1, busy: 0, waiting: 0, replaced: 0, failedStarts: 0 },
        close: async () => undefined,
      },
      ...{ secrets: () => undefined, softwareVersion: '0', clock: () => NOW },
      site: { site: { ...unconfiguredSite, timeZone: 'Europe/Lisbon' }, given: true, folder: '.' },
      drafts: { store, changes },
    },
    {
      tokens: [
        { name: 'room', rights: ['enter'], sha256: tokenDigest(TOKENS.room) },
        { name: 'reads', rights: ['read', 'check', 'send'], sha256: tokenDigest(TOKENS.reads) },
      ],
      ...{ maxBytes: 20_000, clock: () => 0, page: { language: 'en-GB', file: () => undefined } },
      onRequest: event => void log.push(event),
    },
  );
  const server = app.listen(0, '127.0.0.1');
  await new Promise(resolve => server.once('listening', resolve));
  stop = async () => {
    changes.close();
    server.closeAllConnections();
    await new Promise(resolve => server.close(resolve));
    await store.close();
    await other.close();
  };
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterEach(() => stop());

type Headers = Readonly<Record<string, string>>;
const ask = (method: string, path: string, body?: string, headers: Headers = {}) =>
  fetch(`${base}/v1${path}`, {
    method,
    headers: { authorization: `Bearer ${TOKENS.room}`, ...headers },
    ...(body !== undefined && { body }),
  });
const NURSE = { 'casetally-by': encodeURIComponent('Nurse Aho-Ñ') };
const YAML = { ...NURSE, 'content-type': 'application/yaml' };

interface Told {
  readonly id: string;
  readonly version: number;
  readonly text: string;
  readonly theirs?: readonly Edit[];
  readonly [more: string]: unknown;
}
const told = async (answer: Response) => (await answer.json()) as Told;

async function begin(text?: string): Promise<string> {
  const answer = await ask('POST', '/drafts', text, text === undefined ? NURSE : YAML);
  expect(answer.status).toBe(201);
  const { id } = await told(answer);
  expect([answer.headers.get('etag'), answer.headers.get('location')]).toEqual(['"1"', `/v1/drafts/${id}`]);
  return id;
}
let batches = 0;
const patch = (id: string, version: number, edits: readonly object[], more: object = {}) => {
  batches += 1;
  return ask(
    'PATCH',
    `/drafts/${id}`,
    JSON.stringify({ batch: `the-batch-${batches}`, by: 'Dr Okonjo', edits, ...more }),
    {
      'content-type': 'application/json',
      'if-match': `"${version}"`,
    },
  );
};
const put = (id: string, version: number, text: string) =>
  ask('PUT', `/drafts/${id}`, text, { ...YAML, 'if-match': `"${version}"` });

const RECORD = `# typed by hand
casetally: 1
case: { id: C-1, date: 2024-03-31 }
patient: { name: Ada Quintanar }
events:
  - { at: "08:30", do: in, device: wire1 } # first
`;

describe('a draft over HTTP', () => {
  it('is begun empty, as a new record is, and listed on the day at the site', async () => {
    const id = await begin();
    const draft = await ask('GET', `/drafts/${id}`);
    expect(draft.headers.get('etag')).toBe('"1"');
    expect(await told(draft)).toMatchObject({
      id,
      version: 1,
      state: 'open',
      by: 'Nurse Aho-Ñ (token room)',
    });
    const list = await told(await ask('GET', '/drafts'));
    expect(list).toMatchObject({ on: '2024-04-02', drafts: [{ id, state: 'open', day: '2024-04-02' }] });
    expect(await told(await ask('GET', '/drafts?on=2024-04-01'))).toMatchObject({ drafts: [] });
    expect((await ask('GET', '/drafts?on=today')).status).toBe(400);
  });

  it('is begun from a record, changed by edits, and every version is read back', async () => {
    const id = await begin(RECORD);
    const first = await told(
      await patch(id, 1, [
        { path: 'events', insert: 'end', value: { at: '08:40', do: 'out', device: 'wire1' } },
      ]),
    );
    expect([first.version, first.text]).toEqual([
      2,
      `${RECORD}  - { at: "08:40", do: out, device: wire1 }\n`,
    ]);
    const undo = first['inverse'] as { edits: object[]; exact: object };
    const back = await told(await patch(id, 2, undo.edits, { exact: undo.exact }));
    expect([back.version, back.text]).toEqual([3, RECORD]);
    const { versions } = (await told(await ask('GET', `/drafts/${id}/versions`))) as unknown as {
      versions: object[];
    };
    expect(versions).toMatchObject([
      { version: 1, by: 'Nurse Aho-Ñ (token room)' },
      { version: 2, by: 'Dr Okonjo (token room)', edits: [{ path: 'events', insert: 1 }] },
      { version: 3, edits: [{ path: 'events[1]', remove: true }] },
    ]);
    expect(await told(await ask('GET', `/drafts/${id}/versions/2`))).toMatchObject({
      text: first.text,
      version: 2,
    });
    expect((await ask('GET', `/drafts/${id}/versions/9`)).status).toBe(404);
    expect(await told(await ask('GET', '/drafts?on=2024-03-31'))).toMatchObject({
      drafts: [{ id, case: 'C-1', patient: 'Ada Quintanar', version: 3 }],
    });
  });

  it('is not sent again to who has it', async () => {
    const id = await begin();
    const known = await ask('GET', `/drafts/${id}`, undefined, { 'if-none-match': '"1"' });
    expect([known.status, await known.text(), known.headers.get('etag')]).toEqual([304, '', '"1"']);
    expect((await ask('GET', `/drafts/${id}`, undefined, { 'if-none-match': '"2"' })).status).toBe(200);
    expect((await ask('GET', '/drafts/none', undefined, { 'if-none-match': '"1"' })).status).toBe(404);
  });

  it('keeps what two tablets enter at the same time, and tells each of the other', async () => {
    const id = await begin(RECORD);
    const mine = await told(
      await patch(id, 1, [{ path: 'events', insert: 0, value: { at: '08:20', do: 'note' } }]),
    );
    expect(mine.theirs).toBeUndefined();
    // A tab that slept: its places are those of the version that it has.
    const answer = await patch(id, 1, [
      { path: 'events[0].at', value: '08:31' },
      { path: 'events', insert: 'end', value: { at: '08:50', do: 'note' } },
    ]);
    const theirs = await told(answer);
    expect([answer.status, answer.headers.get('etag'), theirs.version]).toEqual([200, '"3"', 3]);
    expect(theirs.theirs).toEqual([{ path: 'events', insert: 0, value: { at: '08:20', do: 'note' } }]);
    expect((parse(theirs.text) as { events: object[] }).events).toEqual([
      { at: '08:20', do: 'note' },
      { at: '08:31', do: 'in', device: 'wire1' },
      { at: '08:50', do: 'note' },
    ]);
    expect(theirs.text).toContain('# first');
  });

  it('tells both sides of a conflict and changes nothing', async () => {
    const id = await begin(RECORD);
    await patch(id, 1, [{ path: 'case.id', value: 'C-2' }]);
    const answer = await patch(id, 1, [
      { path: 'case.id', value: 'C-3' },
      { path: 'patient.sex', value: 'female' },
    ]);
    const said = await told(answer);
    expect([answer.status, answer.headers.get('etag')]).toEqual([412, '"2"']);
    expect(answer.headers.get('content-type')).toBe('application/problem+json; charset=utf-8');
    expect(said).toMatchObject({
      ...{ type: 'about:blank', title: 'Precondition Failed', status: 412, version: 2 },
      conflicts: [{ path: 'case.id', base: 'C-1', theirs: 'C-2', mine: 'C-3' }],
      findings: [{ code: 'drafts.conflict', path: 'case.id' }],
    });
    expect(said.text).toContain('C-2');
    expect((await store.get(id))?.version).toBe(2);
    // The same value is no conflict.
    expect((await patch(id, 1, [{ path: 'case.id', value: 'C-2' }])).status).toBe(200);
  });

  it('is changed once by a batch that is sent again, and answered as the first time', async () => {
    const id = await begin(RECORD);
    await patch(id, 1, [{ path: 'case.kind', value: 'nephrostomy' }]);
    const edits = [{ path: 'events', insert: 'end', value: { at: '09:00', do: 'note' } }];
    const first = await told(await patch(id, 1, edits, { batch: 'the-same-1' }));
    await patch(id, 3, [{ path: 'case.id', value: 'C-9' }]);
    for (const version of [1, 3, 4]) {
      const again = await told(await patch(id, version, edits, { batch: 'the-same-1' }));
      expect([again.version, again.text, again.theirs]).toEqual([3, first.text, first.theirs]);
    }
    expect((await store.get(id))?.text.match(/09:00/g)).toHaveLength(1);
    expect((await patch(id, 4, [], { batch: 'the-same-1' })).status).toBe(409);
  });

  it('takes a whole text, against an old version too, and once', async () => {
    const id = await begin(RECORD);
    const typed = `${RECORD}# a remark\nnote: typed\n`;
    expect(await told(await put(id, 1, typed))).toMatchObject({ version: 2, text: typed });
    expect(await told(await put(id, 1, typed))).toMatchObject({ version: 2, text: typed });
    await patch(id, 2, [{ path: 'events', insert: 'end', value: { at: '09:00', do: 'note' } }]);
    const pasted = typed.replace('# a remark', '# another remark').replace('C-1', 'C-7');
    const merged = await told(await put(id, 2, pasted));
    expect(merged.text).toBe(pasted.replace('# first\n', '# first\n  - { at: "09:00", do: note }\n'));
    expect(await told(await put(id, 2, pasted))).toMatchObject({
      version: merged.version,
      text: merged.text,
    });
    const contended = await put(id, 1, RECORD.replace('C-1', 'C-8'));
    expect([contended.status, (await told(contended))['conflicts']]).toEqual([
      412,
      [{ path: 'case.id', base: 'C-1', theirs: 'C-7', mine: 'C-8' }],
    ]);
  });

  it('is discarded with who and why, and then only read', async () => {
    const id = await begin();
    const discard = (body: object, version = 1) =>
      ask('POST', `/drafts/${id}/discard`, JSON.stringify(body), {
        'content-type': 'application/json',
        'if-match': `"${version}"`,
      });
    expect((await discard({ by: 'Dr Okonjo' })).status).toBe(400);
    await patch(id, 1, [{ path: 'case.id', value: 'C-1' }]);
    expect((await discard({ by: 'Dr Okonjo', why: 'Twice' })).status).toBe(412);
    expect(await told(await discard({ by: 'Dr Okonjo', why: 'Twice' }, 2))).toMatchObject({
      state: 'discarded',
    });
    expect((await discard({ by: 'Dr Okonjo', why: 'Twice' }, 3)).status).toBe(409);
    expect((await patch(id, 3, [{ path: 'case.id', value: 'C-2' }])).status).toBe(409);
    expect((await put(id, 3, RECORD)).status).toBe(409);
    expect((await ask('GET', `/drafts/${id}`)).status).toBe(200);
    expect((await store.versions(id)).at(-1)).toMatchObject({ why: 'Twice', by: 'Dr Okonjo (token room)' });
  });

  describe('taken in', () => {
    const takeIn = (id: string, version: number, token = TOKENS.reads) =>
      ask('POST', `/drafts/${id}/take-in`, '{"by":"Dr Okonjo"}', {
        ...{ authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        'if-match': `"${version}"`,
      });

    it('is sent as it stands, and then only read', async () => {
      const sent: string[] = [];
      answer = async ({ body }) => {
        sent.push(Buffer.from(body).toString());
        return reply(202, { items: [{ id: 'item-1' }] });
      };
      const id = await begin(RECORD);
      expect((await takeIn(id, 1, TOKENS.room)).status).toBe(403);
      expect((await takeIn(id, 1)).status).toBe(202);
      expect(sent).toEqual([RECORD]);
      expect(await store.get(id)).toMatchObject({ state: 'taken-in', text: RECORD, version: 3 });
      expect((await store.versions(id)).at(-1)).toMatchObject({
        items: ['item-1'],
        by: 'Dr Okonjo (token reads)',
      });
      expect((await takeIn(id, 3)).status).toBe(409);
      expect(sent).toHaveLength(1);
    });

    it('stays open where the case is refused, and says why', async () => {
      answer = async () => refusal(422, 'invalid', 'Errors stand against it.');
      const id = await begin(RECORD);
      expect((await takeIn(id, 1)).status).toBe(422);
      expect((await patch(id, 3, [{ path: 'case.id', value: 'C-2' }])).status).toBe(200);
    });

    it('is not edited on its way, and not sent at once by two people or from an older version', async () => {
      let letGo = (_: Reply) => {};
      answer = () => new Promise(done => (letGo = done));
      const id = await begin(RECORD);
      const first = takeIn(id, 1);
      while ((await store.get(id))?.state !== 'taking-in') await new Promise(done => setTimeout(done, 5));
      expect((await patch(id, 2, [{ path: 'case.id', value: 'C-2' }])).status).toBe(409);
      expect((await takeIn(id, 1)).status).toBe(412);
      letGo(reply(202, { items: [{ id: 'item-1' }] }));
      expect((await first).status).toBe(202);
    });

    it('that was cut off is taken in again', async () => {
      answer = async () => {
        throw new Error('gone');
      };
      const id = await begin(RECORD);
      expect((await takeIn(id, 1)).status).toBe(500);
      expect(await store.get(id)).toMatchObject({ state: 'taking-in', version: 2 });
      answer = async () => reply(202, { items: [{ id: 'item-1' }] });
      expect((await takeIn(id, 2)).status).toBe(202);
      expect(await store.get(id)).toMatchObject({ state: 'taken-in', version: 3 });
    });
  });

  it('is not changed once it is signed', async () => {
    const id = await begin(RECORD);
    const by = { id, by: 'Dr Okonjo', at: 1 };
    expect(await moveDraft(store, { ...by, base: 1 }, 'signed')).toEqual({ kind: 'moved', version: 2 });
    expect((await patch(id, 2, [{ path: 'case.id', value: 'C-2' }])).status).toBe(409);
    expect(await moveDraft(store, { ...by, base: 2 }, 'open')).toEqual({ kind: 'moved', version: 3 });
    expect((await patch(id, 3, [{ path: 'case.id', value: 'C-2' }])).status).toBe(200);
    await moveDraft(store, { ...by, base: 4 }, 'taken-in', { items: ['i1'] });
    expect(await moveDraft(store, { ...by, base: 5 }, 'open')).toEqual({ kind: 'not so', state: 'taken-in' });
  });
});

describe('what is refused is said as problem details', () => {
  const json = { 'content-type': 'application/json', 'if-match': '"1"' };
  const good = JSON.stringify({
    batch: 'batch-of-one',
    by: 'Dr Okonjo',
    edits: [{ path: 'case.id', value: 'C' }],
  });
  it.each([
    ['without If-Match', 'PATCH', good, { 'content-type': 'application/json' }, 428],
    ['with If-Match for anything', 'PATCH', good, { ...json, 'if-match': '*' }, 400],
    ['for a version that never was', 'PATCH', good, { ...json, 'if-match': '"7"' }, 412],
    ['without an id of the batch', 'PATCH', '{"by":"x","edits":[]}', json, 400],
    ['no edits', 'PATCH', good.replace('[{', '{"a":[{').replace('}]', '}]}'), json, 422],
    ['an edit that cannot be', 'PATCH', good.replace('case.id', '__proto__.id'), json, 422],
    ['no JSON', 'PATCH', '{', json, 400],
    ['as a form', 'PATCH', good, { ...json, 'content-type': 'text/plain' }, 415],
    ['a text as a form', 'PUT', RECORD, { ...NURSE, ...json, 'content-type': 'text/plain' }, 415],
    ['a text that is none', 'PUT', 'a: [', { ...YAML, 'if-match': '"1"' }, 422],
    ['a text with an alias', 'PUT', 'casetally: 1\na: &x b\nc: *x\n', { ...YAML, 'if-match': '"1"' }, 422],
    ['nobody', 'PUT', RECORD, { 'content-type': 'application/yaml', 'if-match': '"1"' }, 400],
    ['too large', 'PUT', `${RECORD}note: ${'x '.repeat(20_000)}`, { ...YAML, 'if-match': '"1"' }, 413],
    ['another method', 'DELETE', undefined, {}, 405],
    ['another token', 'GET', undefined, { authorization: `Bearer ${TOKENS.reads}` }, 403],
    ['no token', 'GET', undefined, { authorization: '' }, 401],
  ] as const)('%s', async (_what, method, body, headers, status) => {
    const id = await begin(RECORD);
    const answer = await ask(method, `/drafts/${id}`, body, headers as Headers);
    expect([answer.status, answer.headers.get('content-type')]).toEqual([
      status,
      'application/problem+json; charset=utf-8',
    ]);
    const said = (await answer.json()) as Record<string, unknown>;
    // RFC 9457, 3.1: members of problem details; 4.2.1: about:blank has the title of its status.
    expect(said).toMatchObject({
      type: 'about:blank',
      status,
      title: expect.any(String),
      detail: expect.any(String),
    });
    expect(said).not.toHaveProperty('resourceType');
    expect(answer.headers.get('allow')).toBe(status === 405 ? 'GET, HEAD, PATCH, PUT' : null);
    expect(await store.get(id)).toMatchObject({ version: 1, text: RECORD });
  });

  it('a bytes that are no text, and half a batch', async () => {
    const id = await begin(RECORD);
    const bytes = await fetch(`${base}/drafts/${id}`, {
      method: 'PUT',
      headers: { authorization: `Bearer ${TOKENS.room}`, ...YAML, 'if-match': '"1"' },
      body: new Uint8Array([0x61, 0xff, 0xfe]),
    });
    expect(bytes.status).toBe(422);
    const half = await patch(id, 1, [
      { path: 'case.id', value: 'C-2' },
      { path: 'events[9]', remove: true },
    ]);
    expect([half.status, (await told(half))['findings']]).toMatchObject([422, [{ path: 'events[9]' }]]);
    expect((await store.get(id))?.text).toBe(RECORD);
  });

  it('and the other routes answer as they did', async () => {
    const answer = await fetch(`${base}/outbox`, { headers: { authorization: 'Bearer x' } });
    expect(await answer.json()).toMatchObject({ resourceType: 'OperationOutcome' });
  });

  it('nothing of a case is in the log', async () => {
    const id = await begin(RECORD);
    await patch(id, 1, [{ path: 'patient.name', value: 'Ada Canary' }]);
    await ask('GET', '/drafts?on=2024-03-31');
    for (const method of ['GET', 'PATCH', 'PUT'])
      await ask(
        method,
        '/drafts/Quintanar',
        method === 'GET'
          ? undefined
          : method === 'PUT'
            ? RECORD
            : '{"batch":"the-batch-x","by":"x","edits":[]}',
        { ...YAML, 'if-match': '"1"', ...(method === 'PATCH' && { 'content-type': 'application/json' }) },
      );
    expect(JSON.stringify(log)).not.toMatch(/Quintanar|Canary|C-1/);
    expect(log).toMatchObject([
      { route: '/drafts', drafts: [id], by: 'room' },
      { route: '/drafts/:id', method: 'PATCH', drafts: [id], person: 'Dr Okonjo' },
      { route: '/drafts' },
      ...['GET', 'PATCH', 'PUT'].map(method => ({ method, route: '/drafts/:id', status: 404 })),
    ]);
  });
});

/** Reads events until `enough`; comments are events of their own. */
async function events(answer: Response, enough: (all: readonly string[]) => boolean): Promise<string[]> {
  const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  while (!enough(text.split('\n\n'))) {
    const part = await reader?.read();
    if (!part || part.done) break;
    text += part.value;
  }
  await reader?.cancel();
  return text.split('\n\n').filter(Boolean);
}
const has = (word: string) => (all: readonly string[]) => all.some(one => one.includes(word));

describe('changes as they come', () => {
  const listen = (id: string, headers: Headers = {}, by = 'Tablet') =>
    ask('GET', `/drafts/${id}/changes?by=${by}`, undefined, headers);

  it('tells the newest version first, then each new one, who is there, and that it is alive', async () => {
    const id = await begin(RECORD);
    const open = await listen(id);
    expect(open.headers.get('content-type')).toBe('text/event-stream; charset=utf-8');
    const second = await listen(id, {}, 'Desk');
    await patch(id, 1, [{ path: 'case.id', value: 'C-2' }]);
    const all = await events(open, one => has('id: 2')(one) && has('Desk')(one) && one.includes(':'));
    expect(all).toContain(
      `id: 1\nevent: version\ndata: ${JSON.stringify({ version: 1, state: 'open', by: 'Nurse Aho-Ñ (token room)', at: new Date(NOW).toISOString() })}`,
    );
    expect(all.some(one => one.startsWith('id: 2\nevent: version'))).toBe(true);
    expect(all).toContain('event: people\ndata: {"people":["Desk (token room)","Tablet (token room)"]}');
    // The first has gone.
    expect(await events(second, has('["Desk (token room)"]'))).toContain(
      'event: people\ndata: {"people":["Desk (token room)"]}',
    );
  });

  it('goes on where it broke off, and tells what another process wrote', async () => {
    const id = await begin(RECORD);
    await patch(id, 1, [{ path: 'case.id', value: 'C-2' }]);
    await patch(id, 2, [{ path: 'case.id', value: 'C-3' }]);
    const open = await listen(id, { 'last-event-id': '1' });
    const draft = await other.get(id);
    await other.write(id, 3, { text: draft?.text ?? '', by: 'x', at: 1, state: 'open', edits: [], base: 3 });
    const all = await events(open, has('id: 4'));
    expect(all.filter(one => one.startsWith('id:')).map(one => one.slice(0, 5))).toEqual([
      'id: 2',
      'id: 3',
      'id: 4',
    ]);
  });

  it('is told to so many alone, of drafts that are there, and ends with the service', async () => {
    const id = await begin();
    const [one, two] = [await listen(id), await listen(id)];
    expect((await listen(id)).status).toBe(503);
    expect((await listen('none')).status).toBe(404);
    changes.close();
    expect((await events(one, () => false)).length).toBeGreaterThan(0);
    expect((await events(two, () => false)).length).toBeGreaterThan(0);
    expect((await listen(id)).status).toBe(503);
  });
});

describe('whoever listens', () => {
  it('is let go after a while, and has to ask again', async () => {
    const short = new DraftChanges(store, { longestMs: 20 });
    await new Promise<void>(resolve => {
      const sink = { write: () => undefined, end: resolve, onClose: () => undefined, waiting: () => 0 };
      short.listen('any', 'Nurse', 0, sink);
    });
    short.close();
    expect(short.hasRoom('any')).toBe(false);
  });
});
