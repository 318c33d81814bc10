import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isDelivered } from '../../../src/delivery/answer/outcome.js';
import { openSession } from '../../../src/delivery/destination/session.js';
import { compareWithSent, readBack } from '../../../src/delivery/held/read-back.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { digestOf, readSubmission } from '../../../src/delivery/request/submission.js';
import { inOrderOfReference } from '../../../src/delivery/request/topology.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { deliver, deps, destination, submissionText, urn } from '../samples.js';

let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(() => server.close());

const count = () => server.repository.all().length;
const single = () => destination(server.baseUrl, { mode: 'single' });

function submission(text: string) {
  const read = readSubmission(text);
  if (!read) throw new Error('not a submission');
  return read;
}

/** Lets `pass` writes through and then fails each. */
function failingAfter(pass: number, fail: () => Response): typeof fetch {
  let writes = 0;
  return async (url, init) => {
    if (init?.method === 'GET') return fetch(url, init);
    writes += 1;
    return writes > pass ? fail() : fetch(url, init);
  };
}
const drop = () => {
  throw new TypeError('x', { cause: { code: 'ECONNRESET' } });
};

describe('one resource after the other', () => {
  it('writes each after those it refers to, keeps the digits, and nothing twice', async () => {
    const text = submissionText('single');
    const before = count();
    const paths: string[] = [];
    const spy: typeof fetch = (url, init) => {
      if (init?.method === 'POST') paths.push(new URL(String(url)).pathname);
      return fetch(url, init);
    };
    const first = await deliver(text, single(), deps({ fetch: spy }));
    if (!isDelivered(first)) throw new Error(first.state);
    expect(paths).toEqual(['/fhir/Patient', '/fhir/Device', '/fhir/Procedure', '/fhir/Observation']);
    expect(first.receipt.entries.map(e => [e.fullUrl, e.type, e.status, e.version])).toEqual([
      [urn(1), 'Patient', 201, '1'],
      [urn(2), 'Procedure', 201, '1'],
      [urn(3), 'Device', 201, '1'],
      [urn(4), 'Observation', 201, '1'],
    ]);
    const read = await readBack(first.receipt, openSession(single(), deps()));
    expect(compareWithSent(submission(text), read)).toEqual([]);
    expect((await deliver(text, single(), deps())).state).toBe('delivered-already');
    expect(count()).toBe(before + 4);
  });

  it('says that a part is there when the server refuses one in the middle', async () => {
    const before = count();
    const text = submissionText('half', t => t.replace('"status": "final",', ''));
    const outcome = await deliver(text, single(), deps({ sourceOf: (i, p) => `from[${i}] ${p}` }));
    expect(outcome.state).toBe('partial');
    expect(outcome.findings.map(f => f.path)).toContain('from[3] Observation.status');
    expect(count()).toBe(before + 3);
  });

  it('is plainly refused when it is the first', async () => {
    const before = count();
    const text = submissionText('first', t =>
      t.replace('"resourceType": "Patient",', '"resourceType": "Patient", "colour": 1,'),
    );
    expect((await deliver(text, single(), deps())).state).toBe('refused');
    expect(count()).toBe(before);
  });

  it.each([
    ['the connection goes', drop],
    ['the server is overloaded', () => new Response('', { status: 503 })],
    ['the server throttles', () => new Response('', { status: 429 })],
  ])('goes on where it was when %s in the middle', async (what, fail) => {
    const before = count();
    const d = deps();
    const outbox = new MemoryOutbox(d.newId);
    const payload = submissionText(`resume ${what.length}`);
    const put = await outbox.put(
      { destination: 'test server', caseKey: 'c', patientKey: 'p', payload, digest: digestOf(payload) },
      d.clock(),
    );
    const worker = {
      outbox,
      targets: [{ destination: single(), fetch: failingAfter(2, fail) }],
      clock: d.clock,
      newId: d.newId,
      random: () => 0.5,
      ...(d.sleep && { sleep: d.sleep }),
    };
    await drain(worker);
    expect(count()).toBe(before + 2);
    await d.sleep?.(3_600_000);
    await drain({ ...worker, targets: [{ destination: single() }] });
    expect(count()).toBe(before + 4);
    expect((await outbox.get(put.id))?.state).toBe('delivered');
  });

  it('sends nothing that refers to itself in a circle', async () => {
    const before = count();
    const text = submissionText('circle', t =>
      t.replace('"lotNumber"', `"parent": { "reference": "${urn(2)}" }, "lotNumber"`),
    );
    const outcome = await deliver(text, single(), deps());
    expect([outcome.state, outcome.findings[0]?.code]).toEqual(['not-sent', 'delivery.circle']);
    expect(count()).toBe(before);
  });
});

describe('inOrderOfReference', () => {
  it('keeps the given order where nothing asks for another', () => {
    const { entries } = submission(submissionText());
    expect(inOrderOfReference(entries)?.map(e => e.index)).toEqual([0, 2, 1, 3]);
  });
});
