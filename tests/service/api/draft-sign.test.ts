import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { AuditFact } from '../../../src/audit/event.js';
import type { AuditTrail } from '../../../src/audit/trail.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import type { Drafts } from '../../../src/drafts/store/drafts.js';
import { openSqliteDrafts } from '../../../src/drafts/store/open.js';
import { createServiceApp } from '../../../src/service/api/app.js';
import { Auditing } from '../../../src/service/api/auditing.js';
import { DraftChanges } from '../../../src/service/api/draft-changes.js';
import { tokenDigest } from '../../../src/service/api/guard.js';
import { type Reply, refusal, reply } from '../../../src/service/api/reply.js';
import { Leaving, type LeavingPorts } from '../../../src/service/leaving.js';
import { cookiesOf } from '../../../src/service/sign-in/cookies.js';
import { Sessions } from '../../../src/service/sign-in/sessions.js';
import type { CaseJob } from '../../../src/service/threads/case-job.js';
import { readyHandler } from '../../../src/service/threads/ready-handler.js';
import { sessionSchema } from '../../../src/site/sign-in.js';
import { siteSchema } from '../../../src/site/site.js';

/* Closing, signing, taking back and leaving. The people, the site and the names are invented. */

const folder = mkdtempSync(join(tmpdir(), 'service-sign-'));
afterAll(() => rmSync(folder, { recursive: true }));
const example = readFileSync('examples/abscess-drain.yaml', 'utf8');
const TOKEN = 'the-one-of-the-room-x';
const MINUTE = 60_000;
const START = Date.parse('2026-03-01T08:00:00Z');

const site = siteSchema.parse({
  casetallySite: 1,
  name: 'Test',
  namespace: '6f1c3c7e-1d5c-4a8e-9a42-4c0f3b1c9d10',
  timeZone: 'Europe/Lisbon',
  organization: { name: 'Test' },
  destinations: {
    records: { url: 'https://records.example.org/fhir' },
    second: { url: 'https://second.example.org/fhir' },
  },
  routes: [{ to: 'records' }],
});

let now: number;
let taken: CaseJob[];
let answer: () => Promise<Reply>;
let facts: AuditFact[];
let full: boolean;
let base: string;
let store: Drafts;
let sessions: Sessions;
let leaving: Leaving;
let ports: LeavingPorts;
let outbox: MemoryOutbox;
let stop: () => Promise<unknown>;
let n = 0;

beforeEach(async () => {
  n += 1;
  now = START;
  [taken, facts, full] = [[], [], false];
  outbox = new MemoryOutbox(() => 'item-1');
  answer = async () => reply(202, { items: [{ id: 'item-1' }] });
  const clock = () => now;
  store = await openSqliteDrafts(join(folder, `${n}.db`), { sealing: unsealed });
  const changes = new DraftChanges(store);
  const opened = { site, given: true, folder: '.' };
  const cases = {
    async ask(job: CaseJob) {
      const { wanted } = job;
      if (wanted.do !== 'ready') {
        taken.push(job);
        return answer();
      }
      const sent = { record: job.body, previous: [], pictures: [], sources: [] };
      const ready = await readyHandler(sent as never, wanted.sign, {
        site: opened,
        language: 'en-GB',
      } as never);
      // As bytes, which is how it comes out of a thread.
      return { ...ready, body: new TextEncoder().encode(String(ready.body)) };
    },
    busy: () => undefined,
    state: { threads: 1, busy: 0, waiting: 0, replaced: 0, failedStarts: 0 },
    close: async () => undefined,
  };
  const trail = {
    append: async (fact: AuditFact) => {
      if (full) throw new Error('no room');
      facts.push(fact);
      return { n: facts.length, digest: '0'.repeat(64) };
    },
  } as unknown as AuditTrail;
  sessions = new Sessions(sessionSchema.parse({}), clock);
  const app = createServiceApp(
    {
      ...{ outbox, cases, site: opened, clock, secrets: () => undefined, softwareVersion: '0' },
      drafts: { store, changes },
    },
    {
      tokens: [{ name: 'room', rights: ['enter'], sha256: tokenDigest(TOKEN) }],
      people: { sessions, way: { kind: 'provider', base: new URL('http://127.0.0.1:1/') } as never },
      ...{ maxBytes: 50_000, clock, page: { language: 'en-GB', file: () => undefined }, audit: trail },
    },
  );
  const auditing = new Auditing(trail, clock);
  const drafts = { store, changes };
  const wanted = (to?: string) => ({ do: 'store' as const, to, secrets: new Map() });
  ports = { drafts, cases, clock, wanted, auditing };
  leaving = new Leaving(ports, 1_000_000);
  const server = app.listen(0, '127.0.0.1');
  await new Promise(resolve => server.once('listening', resolve));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  stop = async () => {
    changes.close();
    await leaving.close();
    server.closeAllConnections();
    await new Promise(resolve => server.close(resolve));
    await store.close();
  };
});
afterEach(() => stop());

type Role = 'enter' | 'sign' | 'send';
type Headers = Readonly<Record<string, string>>;
const page = new URL('http://127.0.0.1:1/');

/** Somebody who signed in just now. */
function person(name: string, roles: Role[] = ['enter', 'sign'], verified = true): Headers {
  const proof = { verified: { issuer: 'https://id.example.org', subject: name } };
  const id = sessions.open({ name, roles, ...(verified && proof) }, `${name} ${roles}`, now);
  return {
    cookie: `${cookiesOf(page).session}=${id}`,
    ...{ origin: page.origin, 'x-casetally-page': 'yes' },
  };
}

const post = (path: string, headers: Headers, body: object, version?: number) =>
  fetch(`${base}/v1/drafts${path}`, {
    method: 'POST',
    headers: {
      ...{ 'content-type': 'application/json', ...headers },
      ...(version !== undefined && { 'if-match': `"${version}"` }),
    },
    body: JSON.stringify(body),
  });
const told = async (response: Response) => (await response.json()) as Record<string, unknown>;

const AUTHOR = 'Nyambura Hallowell';
/** The record as it stands before anybody signed. */
const unsigned = example.replace(
  /^report: .*$/m,
  'report: { status: preliminary, author: op } # to be signed',
);
const broken = unsigned.replace('role: operator', 'role: nobody');

async function begun(text = unsigned): Promise<string> {
  const id = `draft-${n}-${Math.random()}`.replace('.', '');
  await store.begin(id, '2026-03-01', { text, by: 'Nurse', at: now, state: 'open', edits: [], base: 0 });
  return id;
}
const stateOf = async (id: string) => {
  const draft = await store.get(id);
  return [draft?.state, draft?.version];
};

describe('closing', () => {
  it('takes a whole record alone, and can be taken back until it is signed', async () => {
    const id = await begun();
    const nurse = person('Otieno Brackenridge', ['enter']);
    const closed = await post(`/${id}/close`, nurse, {}, 1);
    expect([closed.status, await told(closed)]).toEqual([200, { id, version: 2, state: 'closed' }]);
    expect((await post(`/${id}/close`, nurse, {}, 2)).status).toBe(409);
    expect(await (await fetch(`${base}/drafts?on=2026-03-01`, { headers: nurse })).json()).toMatchObject({
      drafts: [],
    });
    const day = String((await store.get(id))?.day);
    expect(await (await fetch(`${base}/drafts?on=${day}`, { headers: nurse })).json()).toMatchObject({
      drafts: [{ id, next: 'signature' }],
    });
    expect((await post(`/${id}/reopen`, nurse, {}, 2)).status).toBe(200);
    expect(await stateOf(id)).toEqual(['open', 3]);
  });

  it('is refused with what stands against it', async () => {
    const nurse = person('Otieno Brackenridge', ['enter']);
    const unclear = await begun(unsigned.replace(/^ {2}- \{ at: .*do: remove.*\n/gm, ''));
    const refused = await post(`/${unclear}/close`, nurse, {}, 1);
    expect(refused.status).toBe(422);
    const { findings } = (await told(refused)) as { findings: { severity: string; message: string }[] };
    expect(findings.some(({ severity }) => severity === 'error')).toBe(true);
    expect((await post(`/${await begun(broken)}/close`, nurse, {}, 1)).status).toBe(422);
    expect(await stateOf(unclear)).toEqual(['open', 1]);
  });

  it('is for the version that was looked at', async () => {
    const id = await begun();
    const nurse = person('Otieno Brackenridge', ['enter']);
    expect((await post(`/${id}/close`, nurse, {})).status).toBe(428);
    expect((await post(`/${id}/close`, nurse, {}, 7)).status).toBe(412);
    expect((await post('/none-of-these/close', nurse, {}, 1)).status).toBe(404);
  });
});

describe('before signing', () => {
  it('it is said of whom, what, which side, what stays and where it goes; nothing changes', async () => {
    const id = await begun();
    const said = await told(await post(`/${id}/to-sign`, person(AUTHOR), { author: 'op' }));
    const facts = Object.fromEntries(
      (said['facts'] as { key: string; lines: string[] }[]).map(({ key, lines }) => [key, lines.join('; ')]),
    );
    const record = parse(unsigned) as { patient: { name: string }; case: { id: string } };
    expect(facts).toMatchObject({ name: record.patient.name, caseId: record.case.id });
    expect(facts['signature']).toContain('Dr Nyambura Hallowell');
    expect(facts['procedure']).not.toBe('');
    expect(said).toMatchObject({
      ...{ ready: true, goesTo: ['records'] },
      author: { key: 'op', name: 'Dr Nyambura Hallowell', role: 'operator' },
    });
    expect((said['inside'] as object[]).length).toBeGreaterThan(0);
    expect(await stateOf(id)).toEqual(['open', 1]);
  });
});

describe('signing', () => {
  it('writes author, time and status into the text and nothing else, and waits', async () => {
    const id = await begun();
    const signed = await post(`/${id}/sign`, person(AUTHOR), { author: 'op' }, 1);
    expect([signed.status, await told(signed)]).toEqual([
      200,
      {
        ...{ id, version: 2, state: 'signed', by: AUTHOR, verified: true, goesTo: ['records'] },
        leavesAt: '2026-03-01T08:10:00.000Z',
      },
    ]);
    const text = (await store.get(id))?.text ?? '';
    expect((parse(text) as { report: object }).report).toEqual({
      ...{ status: 'final', author: 'op', signedAt: '2026-03-01T11:00:00+03:00' },
    });
    const rest = (all: string) => all.split('\n').filter(line => !/^report:|^ {2}signedAt/.test(line));
    expect(rest(text)).toEqual(rest(unsigned));
    expect(text).toContain('# to be signed');
    await leaving.look();
    expect([taken.length, ...(await stateOf(id))]).toEqual([0, 'signed', 2]);
  });

  it.each([
    ['nobody who signed in a while ago', AUTHOR, {}, 6 * MINUTE, 403, 'Sign in afresh'],
    ['nobody but the author', 'Somebody Else', {}, 0, 403, 'by its author alone'],
    ['nobody else of the team', 'Otieno Brackenridge', {}, 0, 403, 'by its author alone'],
    ['nobody under a key that is not there', AUTHOR, { author: 'none' }, 0, 422, ''],
    ['nothing to a destination that is not there', AUTHOR, { to: 'elsewhere' }, 0, 400, 'no destination'],
  ])('is for %s', async (_, name, body, later, status, words) => {
    const id = await begun();
    const who = person(name);
    now += later;
    const answer = await post(`/${id}/sign`, who, { author: 'op', ...body }, 1);
    const text = await answer.text();
    expect([answer.status, text]).toEqual([status, expect.stringContaining(words)]);
    expect(await stateOf(id)).toEqual(['open', 1]);
  });

  it('needs the right, which who enters does not have', async () => {
    const id = await begun();
    for (const headers of [person(AUTHOR, ['enter']), { authorization: `Bearer ${TOKEN}` }])
      expect((await post(`/${id}/sign`, headers, { author: 'op', by: AUTHOR }, 1)).status).toBe(403);
  });

  it('under a typed name asks for it again, and says that it was typed', async () => {
    const id = await begun();
    const who = person(AUTHOR, ['sign'], false);
    expect((await post(`/${id}/sign`, who, { author: 'op' }, 1)).status).toBe(403);
    const signed = await told(await post(`/${id}/sign`, who, { author: 'op', by: AUTHOR }, 1));
    expect(signed).toMatchObject({ by: `${AUTHOR} (name not verified)`, verified: false });
  });

  it('takes a record without errors alone', async () => {
    const id = await begun(unsigned.replace(/^ {2}- \{ at: .*do: remove.*\n/gm, ''));
    expect((await post(`/${id}/sign`, person(AUTHOR), { author: 'op' }, 1)).status).toBe(422);
    expect(await stateOf(id)).toEqual(['open', 1]);
  });

  it('goes where it was sent by whoever signed, and nowhere without knowing where', async () => {
    const id = await begun();
    await post(`/${id}/sign`, person(AUTHOR), { author: 'op', to: 'second' }, 1);
    now += 10 * MINUTE;
    await leaving.look();
    expect(taken.map(({ wanted }) => wanted)).toMatchObject([{ do: 'store', to: 'second' }]);
  });
});

describe('taking back', () => {
  it('gives the text as it was, while it has not left', async () => {
    const id = await begun();
    await post(`/${id}/sign`, person(AUTHOR), { author: 'op' }, 1);
    const back = await post(`/${id}/take-back`, person(AUTHOR), {}, 2);
    expect([back.status, await told(back)]).toEqual([200, { id, version: 3, state: 'open' }]);
    expect((await store.get(id))?.text).toBe(unsigned);
    now += 60 * MINUTE;
    await leaving.look();
    expect([taken.length, ...(await stateOf(id))]).toEqual([0, 'open', 3]);
    // Both stay on record: who signed, and who took it back.
    expect((await store.versions(id)).map(({ state, by }) => [state, by])).toEqual([
      ['open', 'Nurse'],
      ['signed', AUTHOR],
      ['open', AUTHOR],
    ]);
  });

  it('comes too late once it has left', async () => {
    const id = await begun();
    await post(`/${id}/sign`, person(AUTHOR), { author: 'op' }, 1);
    now += 10 * MINUTE;
    await leaving.look();
    expect((await post(`/${id}/take-back`, person(AUTHOR), {}, 4)).status).toBe(409);
  });
});

describe('leaving', () => {
  async function signed(): Promise<string> {
    const id = await begun();
    expect((await post(`/${id}/sign`, person(AUTHOR), { author: 'op' }, 1)).status).toBe(200);
    now += 10 * MINUTE;
    return id;
  }

  it('takes the signed text in once, and it is in the trail', async () => {
    const id = await signed();
    const text = (await store.get(id))?.text ?? '';
    facts = [];
    await Promise.all([leaving.look(), leaving.look()]);
    await leaving.look();
    expect(taken.map(({ body }) => new TextDecoder().decode(body))).toEqual([text]);
    expect(await stateOf(id)).toEqual(['taken-in', 4]);
    expect(facts).toMatchObject([
      { kind: 'change', doing: 'leave', outcome: 'begun', about: [id] },
      { kind: 'change', doing: 'leave', outcome: 202, about: [id] },
    ]);
  });

  it('waits while the service is busy, and stays signed', async () => {
    const id = await signed();
    answer = async () => refusal(503, 'transient', 'Busy.');
    await leaving.look();
    expect(await stateOf(id)).toEqual(['signed', 4]);
    await leaving.look();
    expect(taken).toHaveLength(1);
    now += MINUTE;
    answer = async () => reply(202, { items: [{ id: 'item-1' }] });
    await leaving.look();
    expect(await stateOf(id)).toEqual(['taken-in', 6]);
  });

  it('that is refused opens the draft again without its signature, and says why', async () => {
    const id = await signed();
    answer = async () => refusal(503, 'transient', 'Busy.');
    await leaving.look();
    now += MINUTE;
    answer = async () => refusal(422, 'invalid', 'The case was not taken in: see the findings.');
    await leaving.look();
    const draft = await store.get(id);
    expect([draft?.state, draft?.text]).toEqual(['open', unsigned]);
    const headers = person(AUTHOR);
    expect(await (await fetch(`${base}/drafts/${id}`, { headers })).json()).toMatchObject({
      why: 'The case was not taken in: see the findings.',
    });
    const list = await (await fetch(`${base}/drafts?on=${draft?.day}`, { headers })).json();
    expect(list).toMatchObject({ drafts: [{ id, next: 'somebody' }] });
  });

  it('that was cut off is taken up after a while, by whichever service looks', async () => {
    const id = await signed();
    let release: (reply: Reply) => void = () => undefined;
    answer = () => new Promise(resolve => (release = resolve));
    const first = leaving.look();
    await expect.poll(() => taken.length).toBe(1);
    // Another process, which knows nothing of the first.
    const other = new Leaving(ports, 1_000_000);
    answer = async () => reply(202, { items: [{ id: 'item-1' }] });
    await other.look();
    expect(await stateOf(id)).toEqual(['taking-in', 3]);
    now += 5 * MINUTE;
    await other.look();
    expect(await stateOf(id)).toEqual(['taken-in', 4]);
    release(reply(202, { items: [{ id: 'item-1' }] }));
    await first;
    expect(await stateOf(id)).toEqual(['taken-in', 4]);
    await other.close();
  });

  it('does nothing that the trail cannot tell', async () => {
    const id = await signed();
    full = true;
    await leaving.look();
    expect([taken.length, ...(await stateOf(id))]).toEqual([0, 'signed', 2]);
  });

  it('shows whoever asks what became of it', async () => {
    const id = await signed();
    await outbox.put(
      { destination: 'records', caseKey: 'a', patientKey: 'a', payload: '{}', digest: 'a' },
      1,
    );
    await leaving.look();
    const headers = person(AUTHOR);
    const found = await told(await post('/search', headers, { find: 'hallowell drain' }));
    expect(found).toMatchObject({ drafts: [] });
    const day = (await store.get(id))?.day;
    const listed = await (await fetch(`${base}/drafts?on=${day}`, { headers })).json();
    expect(listed).toMatchObject({
      drafts: [{ id, next: 'delivery', items: [{ id: 'item-1', destination: 'records', state: 'waiting' }] }],
    });
  });
});

describe('a search', () => {
  it('finds by patient, number, case and device, in any spelling, and is not in the address', async () => {
    const id = await begun();
    const { patient, patientNumber, case: number } = (await store.get(id)) ?? {};
    const headers = person(AUTHOR, ['enter']);
    for (const find of [
      String(patient).toUpperCase(),
      String(patientNumber),
      String(number),
      'needle',
      `${String(patient).split(' ').at(-1)} drain`,
    ]) {
      const found = await told(await post('/search', headers, { find, since: '2020-01-01' }));
      expect([find, (found['drafts'] as { id: string }[]).map(one => one.id)]).toEqual([find, [id]]);
    }
    expect(await told(await post('/search', headers, { find: 'nobody', since: '2020-01-01' }))).toMatchObject(
      {
        drafts: [],
      },
    );
    for (const body of [{}, { find: '' }, { find: '—' }, { find: 'a', more: 1 }])
      expect((await post('/search', headers, body)).status).toBe(400);
  });
});
