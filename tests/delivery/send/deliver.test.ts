import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { isDelivered } from '../../../src/delivery/answer/outcome.js';
import { openSession } from '../../../src/delivery/destination/session.js';
import { compareWithSent, readBack } from '../../../src/delivery/held/read-back.js';
import { reconcile } from '../../../src/delivery/held/reconcile.js';
import { readSubmission } from '../../../src/delivery/request/submission.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { english } from '../../support/english.js';
import { answerReads } from '../../support/reads.js';
import { deliver, deps, destination, SYSTEM, submissionText } from '../samples.js';

let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(() => server.close());

const count = () => server.repository.all().length;

function submission(text: string) {
  const read = readSubmission(text);
  if (!read) throw new Error('not a submission');
  return read;
}

/** A fetch that lets the server do its work and then loses or spoils the answer to the POST. */
function spoilPost(spoil: (response: Response) => Response): typeof fetch {
  return async (url, init) => {
    const response = await fetch(url, init);
    return init?.method === 'POST' ? spoil(response) : response;
  };
}
const drop = () => {
  throw new TypeError('fetch failed', { cause: { code: 'ECONNRESET' } });
};

describe('delivery to the embedded server', () => {
  it('delivers, and sending again creates nothing twice', async () => {
    const text = submissionText('twice');
    const before = count();
    const first = await deliver(text, destination(server.baseUrl), deps());
    expect(first.state).toBe('delivered');
    expect(count()).toBe(before + 4);
    const second = await deliver(text, destination(server.baseUrl), deps());
    expect(second.state).toBe('delivered-already');
    expect(count()).toBe(before + 4);
    if (!isDelivered(first) || !isDelivered(second)) throw new Error('not delivered');
    expect(second.receipt.entries.map(e => e.id)).toEqual(first.receipt.entries.map(e => e.id));
  });

  it('reads back what it sent, equal but for what the server assigns', async () => {
    const text = submissionText('back');
    const outcome = await deliver(text, destination(server.baseUrl), deps());
    if (!isDelivered(outcome)) throw new Error(outcome.state);
    const read = await readBack(outcome.receipt, openSession(destination(server.baseUrl), deps()));
    expect(read.map(r => r.state)).toEqual(['read', 'read', 'read', 'read']);
    expect(compareWithSent(submission(text), read)).toEqual([]);
  });

  it.each([
    ['the connection goes', drop],
    ['a gateway answers 504 with HTML', () => new Response('<html>', { status: 504 })],
    ['the answer is cut', () => new Response('{"resourceType":"Bundle","type":"transact', { status: 200 })],
  ])('finds the case there when the server took it and %s', async (what, spoil) => {
    const text = submissionText(`lost ${what.length}`);
    const before = count();
    const outcome = await deliver(text, destination(server.baseUrl), deps({ fetch: spoilPost(spoil) }));
    expect(outcome).toMatchObject({ state: 'delivered-already', receipt: { how: 'reconciled' } });
    expect(count()).toBe(before + 4);
    if (!isDelivered(outcome)) throw new Error(outcome.state);
    expect(outcome.receipt.entries.every(e => e.found === 'search' && e.id && e.version === '1')).toBe(true);
  });

  it('believes "not found" only when the search lag has passed, and does not send again by itself', async () => {
    const text = submissionText('never arrived');
    const before = count();
    const d = deps({ fetch: async (url, init) => (init?.method === 'POST' ? drop() : fetch(url, init)) });
    const outcome = await deliver(text, destination(server.baseUrl, { searchLagMs: 60_000 }), d);
    expect(outcome).toMatchObject({ state: 'outcome-unknown', verdict: { next: 'reconcile-then-resend' } });
    expect(d.slept.reduce((a, b) => a + b, 0)).toBe(60_000);
    expect(count()).toBe(before);
  });

  it('stays unknown when the server cannot be asked either', async () => {
    const d = deps({ fetch: async () => drop() });
    const outcome = await deliver(submissionText('dark'), destination(server.baseUrl), d);
    if (isDelivered(outcome)) throw new Error('delivered to nobody');
    expect(outcome.state).toBe('outcome-unknown');
    expect(new Set(outcome.presence?.map(p => p.state))).toEqual(new Set(['no-answer']));
  });

  it('leaves nothing of a submission that is refused, and says which entry', async () => {
    const before = count();
    const text = submissionText('bad', t => t.replace('"status": "final",', ''));
    const outcome = await deliver(
      text,
      destination(server.baseUrl),
      deps({ sourceOf: (i, p) => `from[${i}] ${p}` }),
    );
    expect(outcome.state).toBe('refused');
    expect(outcome.findings.map(f => f.path)).toContain('from[3] Observation.status');
    expect(count()).toBe(before);
  });

  it('never takes a changed case for delivered when the old one is there', async () => {
    await deliver(submissionText('changed'), destination(server.baseUrl), deps());
    const before = count();
    const changed = submissionText('changed', t => t.replace('L-17', 'L-18').replace('4.20', '4.30'));
    const outcome = await deliver(changed, destination(server.baseUrl), deps());
    if (isDelivered(outcome)) throw new Error('a changed case passed for delivered');
    expect(outcome.state).toBe('conflict');
    expect(outcome.differences).toMatchObject([
      { path: 'Device.lotNumber', sent: 'L-18', held: 'L-17', alarm: true },
      { path: 'Observation.valueQuantity.value', sent: '4.30', held: '4.20', alarm: false },
    ]);
    expect(count()).toBe(before);
  });

  it('shows which resources stand under one identifier when there are several', async () => {
    const copy = { resourceType: 'Device', identifier: [{ system: SYSTEM, value: 'many-drain' }] };
    for (const _ of [1, 2]) {
      const headers = { 'content-type': 'application/fhir+json' };
      await fetch(`${server.baseUrl}/Device`, { method: 'POST', headers, body: JSON.stringify(copy) });
    }
    const before = count();
    const outcome = await deliver(submissionText('many'), destination(server.baseUrl), deps());
    expect(outcome.state).toBe('conflict');
    const said = outcome.findings.find(f => f.code === 'delivery.several-held');
    expect(said?.params).toMatchObject({ resource: 'Device', count: '2', system: SYSTEM });
    expect(english(said?.params['addresses'])).toMatch(/^Device\/\S+, Device\/\S+$/);
    expect(count()).toBe(before);
  });

  it.each([
    [1, 'delivered', 'delivery.not-compared'],
    [0, 'not-sent', 'delivery.target-missing'],
    [2, 'not-sent', 'delivery.target-several'],
  ])('conditional reference with %d matches: %s', async (copies, state, code) => {
    const system = `urn:oid:2.16.840.1.113883.19.5.${copies}`;
    for (let i = 0; i < copies; i += 1) {
      const body = JSON.stringify({ resourceType: 'Patient', identifier: [{ system, value: '7' }] });
      const headers = { 'content-type': 'application/fhir+json' };
      await fetch(`${server.baseUrl}/Patient`, { method: 'POST', headers, body });
    }
    const reference = `Patient?identifier=${encodeURIComponent(`${system}|7`)}`;
    const text = submissionText(`conditional ${copies}`, t => {
      const bundle = JSON.parse(t);
      bundle.entry.shift();
      for (const { resource } of bundle.entry) {
        if (resource.subject) resource.subject.reference = reference;
        if (resource.patient) resource.patient.reference = reference;
      }
      return JSON.stringify(bundle);
    });
    const before = count();
    const outcome = await deliver(text, destination(server.baseUrl), deps());
    expect([outcome.state, outcome.findings[0]?.code]).toEqual([state, code]);
    expect(count()).toBe(before + (copies === 1 ? 3 : 0));
  });

  it.each([
    ['no longer in use', { active: false }, 'delivery.target-inactive'],
    [
      'merged',
      { link: [{ type: 'replaced-by', other: { reference: 'Patient/kept' } }] },
      'delivery.target-merged',
    ],
    ['removed', undefined, 'delivery.target-missing'],
  ])('sends nothing for a patient that is %s, with reads only', async (what, state, code) => {
    const headers = { 'content-type': 'application/fhir+json' };
    const put = (id: string, more: object) =>
      fetch(`${server.baseUrl}/Patient/${id}`, {
        method: 'PUT',
        headers,
        body: JSON.stringify({ resourceType: 'Patient', id, ...more }),
      });
    await put('kept', {});
    const id = `known-${what.length}`;
    await put(id, state ?? {});
    if (!state) await fetch(`${server.baseUrl}/Patient/${id}`, { method: 'DELETE' });
    const text = submissionText('known', t =>
      t.replaceAll(
        /"(subject|patient)": \{ "reference": "[^"]+" \}/g,
        `"$1": { "reference": "Patient/${id}" }`,
      ),
    );
    const methods: (string | undefined)[] = [];
    const fetchSpy: typeof fetch = (url, init) => {
      methods.push(init?.method);
      return fetch(url, init);
    };
    answerReads(fetchSpy);
    const outcome = await deliver(text, destination(server.baseUrl), deps({ fetch: fetchSpy }));
    vi.unstubAllGlobals();
    expect([outcome.state, outcome.findings.map(f => f.code)]).toEqual(['not-sent', [code]]);
    expect(methods).toEqual(['GET']);
  });

  it('tells some from all when only a part is there', async () => {
    const text = submissionText('part');
    await deliver(text, destination(server.baseUrl), deps());
    const drain = server.repository.all().find(r => JSON.stringify(r).includes('part-drain'));
    await fetch(`${server.baseUrl}/Device/${drain?.id}`, { method: 'DELETE' });
    const seen = await reconcile(submission(text), openSession(destination(server.baseUrl), deps()));
    expect(seen.verdict).toBe('some');
    expect(seen.entries.map(e => e.state)).toEqual(['equal', 'equal', 'absent', 'equal']);
  });
});
