import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isDelivered } from '../../../src/delivery/answer/outcome.js';
import { openSession } from '../../../src/delivery/destination/session.js';
import { compareWithSent, readBack } from '../../../src/delivery/held/read-back.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { withoutCircles } from '../../../src/delivery/request/acyclic.js';
import { digestOf, readSubmission } from '../../../src/delivery/request/submission.js';
import { inLevels } from '../../../src/delivery/request/topology.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import type { PreparedCase } from '../../../src/pipeline/prepare.js';
import { submitCase } from '../../../src/pipeline/send-case.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { english } from '../../support/english.js';
import { exampleFiles, knownExample } from '../../support/examples.js';
import { deliver, deps, destination, submissionText, urn } from '../samples.js';

let server: RunningSandbox;
const whole = ['abscess-drain.yaml', 'liver-biopsy.yaml', 'gastrostomy.json'] as const;
const prepared = new Map<string, PreparedCase>();
const example = (file: string) => prepared.get(file) ?? knownExample(file);
beforeAll(async () => {
  // Preparing takes seconds on a busy machine, in which the server would close idle connections.
  for (const file of whole) prepared.set(file, knownExample(file));
  server = await startSandbox();
});
afterAll(() => server.close());

const count = () => server.repository.all().length;
const batch = (more = {}) => destination(server.baseUrl, { mode: 'batch', timeoutMs: 20_000, ...more });

function submission(text: string) {
  const read = readSubmission(text);
  if (!read) throw new Error('not a submission');
  return read;
}

describe('in batches', () => {
  it('each holds what refers to nothing still to come, and nothing is made twice', async () => {
    const text = submissionText('batch');
    const before = count();
    const sent: string[][] = [];
    const spy: typeof fetch = (url, init) => {
      if (init?.method === 'POST') {
        const body = JSON.parse(String(init.body));
        expect([body.type, JSON.stringify(body).includes('"reference":"urn:')]).toEqual(['batch', false]);
        sent.push(body.entry.map((e: { request: { url: string } }) => e.request.url));
      }
      return fetch(url, init);
    };
    const first = await deliver(text, batch(), deps({ fetch: spy }));
    if (!isDelivered(first)) throw new Error(first.state);
    expect(sent).toEqual([['Patient'], ['Device', 'Observation'], ['Procedure']]);
    expect(first.receipt.entries.map(e => [e.fullUrl, e.type, e.status])).toEqual([
      [urn(1), 'Patient', 201],
      [urn(2), 'Procedure', 201],
      [urn(3), 'Device', 201],
      [urn(4), 'Observation', 201],
    ]);
    expect(
      compareWithSent(submission(text), await readBack(first.receipt, openSession(batch(), deps()))),
    ).toEqual([]);
    expect((await deliver(text, batch(), deps())).state).toBe('delivered-already');
    expect(count()).toBe(before + 4);
  });

  it.each([
    ['abscess-drain.yaml', { mode: 'batch' }],
    ['liver-biopsy.yaml', { mode: 'batch' }],
    ['gastrostomy.json', { mode: 'single' }],
  ] as const)('%s arrives whole, with %j', async (file, mode) => {
    const before = count();
    const target = { ...mode, timeoutMs: 30_000 };
    const outcome = await submitCase(example(file), destination(server.baseUrl, target), deps());
    expect(outcome.state).toBe('delivered');
    const told = outcome.findings.filter(f => f.code !== 'delivery.reserved-host');
    expect(told.map(f => [f.code, english(f.params['what'])])).toEqual([
      ['delivery.linked-by-identifier', 'Procedure -> Composition'],
    ]);
    expect(count()).toBeGreaterThan(before + 15);
    const again = await submitCase(example(file), destination(server.baseUrl, target), deps());
    expect(again.state).toBe('delivered-already');
  });

  it('keeps what was taken when one entry is refused, says which, and sends no batch after it', async () => {
    const before = count();
    const text = submissionText('refused', t => t.replace('"status": "final",', ''));
    const outcome = await deliver(text, batch(), deps({ sourceOf: (i, p) => `from[${i}] ${p}` }));
    expect(outcome.state).toBe('partial');
    expect(outcome.findings.map(f => f.path)).toContain('from[3] Observation.status');
    // Patient and Device; the Procedure would have come in the batch after.
    expect(count()).toBe(before + 2);
  });

  it.each([
    ['throttles one entry', '429', 'throttled'],
    ['fails at one entry', '500', 'outcome-unknown'],
  ])('goes on where it was when the server %s', async (what, status, state) => {
    const before = count();
    const d = deps();
    const payload = submissionText(`batch ${what}`);
    let posts = 0;
    const once: typeof fetch = async (url, init) => {
      if (init?.method !== 'POST') return fetch(url, init);
      posts += 1;
      if (posts !== 2) return fetch(url, init);
      // The second batch: its first entry is carried out, the other one is not.
      const sent = JSON.parse(String(init.body));
      const done = await fetch(url, {
        ...init,
        body: JSON.stringify({ ...sent, entry: sent.entry.slice(0, 1) }),
      });
      const answer = (await done.json()) as { entry: object[] };
      return Response.json({ ...answer, entry: [...answer.entry, { response: { status } }] });
    };
    const outbox = new MemoryOutbox(d.newId);
    const item = { destination: 'test server', caseKey: 'c', patientKey: 'p', payload };
    const put = await outbox.put({ ...item, digest: digestOf(payload) }, d.clock());
    const seen: string[] = [];
    const worker = {
      outbox,
      targets: [{ destination: batch(), fetch: once }],
      clock: d.clock,
      newId: d.newId,
      random: () => 0.5,
      onOutcome: (_item: unknown, outcome: { state: string }) => void seen.push(outcome.state),
      ...(d.sleep && { sleep: d.sleep }),
    };
    await drain(worker);
    expect([seen, count()]).toEqual([[state], before + 2]);
    await d.sleep?.(3_600_000);
    await drain(worker);
    expect([(await outbox.get(put.id))?.state, count()]).toEqual(['delivered', before + 4]);
  });

  it('does not know the outcome when the answer is not one to a batch', async () => {
    const answer = async (url: unknown, init?: RequestInit) =>
      init?.method === 'POST'
        ? Response.json({ resourceType: 'Bundle', type: 'transaction-response', entry: [] })
        : fetch(String(url), init);
    const outcome = await deliver(submissionText('odd'), batch(), deps({ fetch: answer as typeof fetch }));
    expect(outcome.state).toBe('outcome-unknown');
  });

  it('sends nothing that refers to itself in a circle', async () => {
    const before = count();
    const text = submissionText('batch circle', t =>
      t.replace('"lotNumber"', `"parent": { "reference": "${urn(2)}" }, "lotNumber"`),
    );
    expect((await deliver(text, batch(), deps())).findings[0]?.code).toBe('delivery.circle');
    expect(count()).toBe(before);
  });
});

describe('inLevels', () => {
  it('never puts two that refer to each other together', () => {
    for (const file of exampleFiles) {
      const { text, changed } = withoutCircles(knownExample(file).submission);
      expect(changed).toEqual(['Procedure -> Composition']);
      const levels = inLevels(submission(text).entries) ?? [];
      expect(levels.length).toBeGreaterThan(1);
      for (const level of levels) {
        const urls = new Set(level.map(e => e.fullUrl));
        const text = JSON.stringify(level.map(e => e.resource));
        expect([...urls].filter(url => text.includes(`"reference":"${url}"`))).toEqual([]);
      }
    }
  });
});
