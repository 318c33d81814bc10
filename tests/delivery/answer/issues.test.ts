import { describe, expect, it } from 'vitest';
import type { ExactObject } from '../../../src/delivery/answer/exact-json.js';
import { foldIssues, issuesOf } from '../../../src/delivery/answer/issues.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { startSandbox } from '../../../src/service/sandbox/server.js';
import { deps, destination, sendSubmission, submissionText } from '../samples.js';

const BASE = 'https://fhir.example.org/r4';
const json = { 'content-type': 'application/fhir+json' };
const outcomeOf = (...issue: ExactObject[]) => ({ resourceType: 'OperationOutcome', issue });
const fault = (diagnostics: string, ...expression: string[]): ExactObject => ({
  ...{ severity: 'error', code: 'invalid', diagnostics },
  ...(expression.length > 0 && { expression }),
});
const answering =
  (status: number, body: unknown, after = 0): typeof fetch =>
  async (_url, init) => {
    if (init?.method === 'GET')
      return new Response('{"resourceType":"Bundle","type":"searchset"}', { headers: json });
    after -= 1;
    return after >= 0
      ? new Response('{}', { status: 201, headers: { ...json, location: `${BASE}/Patient/1/_history/1` } })
      : new Response(JSON.stringify(body), { status, headers: json });
  };

describe('what a server says is wrong', () => {
  it('is folded by cause, with places in the words left out of it', () => {
    const issues = issuesOf(
      outcomeOf(
        fault('bad code at entry[1]'),
        fault('bad code at entry[2]'),
        fault('bad unit 5'),
        fault('bad unit 7'),
      ),
      [],
    );
    expect(foldIssues(issues).map(({ text, more }) => [text, more])).toEqual([
      ['bad code at entry[1]', 1],
      ['bad unit 5', undefined],
      ['bad unit 7', undefined],
    ]);
  });

  it('has its explanation beside its heading', () => {
    const issue = {
      severity: 'error',
      code: 'invalid',
      details: { text: 'Refused' },
      diagnostics: 'no such unit',
    };
    expect(issuesOf(outcomeOf(issue), []).map(i => i.text)).toEqual(['Refused (no such unit)']);
  });

  it('is read to its end in an answer of 3 MB with 30,000 issues', async () => {
    const many = Array.from({ length: 30_000 }, (_, i) =>
      fault(`profile not known at line ${i} ${'.'.repeat(30)}`),
    );
    const body = outcomeOf(...many, fault('the last one', 'Bundle.entry[3].resource.status'));
    const outcome = await sendSubmission(
      submissionText(),
      destination(BASE),
      deps({ fetch: answering(422, body) }),
    );
    const said = outcome.findings.filter(f => f.code === 'delivery.server-says');
    expect(said.map(f => [f.path, String(f.params?.['text']).slice(-25)])).toEqual([
      ['Bundle', ' (and at 29999 more places)'.slice(-25)],
      ['Observation.status', 'the last one'],
    ]);
    expect('answer' in outcome && outcome.answer).toBe(JSON.stringify(body));
  });

  it.each([
    ['transaction', 'Bundle.entry[1].resource.status', 0],
    ['batch', 'Bundle.entry[1].resource.status', 1],
    ['single', 'Procedure.status', 3],
  ] as const)('is led back to the record in mode %s', async (mode, expression, after) => {
    const sourceOf = (entry: number, path: string) => `line of ${entry} ${path}`;
    const to = destination(BASE, { mode, undeclaredTransaction: true });
    // In a batch the second level holds Device and Observation: its second entry is the Observation.
    const first: typeof fetch = (url, init) =>
      mode === 'batch' && String(init?.body).includes('"url":"Patient"')
        ? Promise.resolve(
            new Response(
              JSON.stringify({
                resourceType: 'Bundle',
                type: 'batch-response',
                entry: [{ response: { status: '201', location: 'Patient/1/_history/1' } }],
              }),
              { headers: json },
            ),
          )
        : answering(
            422,
            outcomeOf(fault('not allowed', expression)),
            mode === 'single' ? left-- : 0,
          )(url, init);
    let left: number = after;
    const outcome = await sendSubmission(submissionText(), to, deps({ fetch: first, sourceOf }));
    const said = outcome.findings.find(f => f.code === 'delivery.server-says');
    expect(said?.path).toBe(mode === 'batch' ? 'line of 3 Observation.status' : 'line of 1 Procedure.status');
  });

  it('stays with an item that waits, until it is delivered', async () => {
    const body = JSON.stringify(outcomeOf(fault('closed for the night')));
    let isOpen = false;
    const sandbox = await startSandbox();
    const fetch: typeof globalThis.fetch = async (url, init) =>
      init?.method === 'POST' && !isOpen
        ? new Response(body, { status: 503, headers: json })
        : globalThis.fetch(url, init);
    try {
      let now = 1_000_000;
      const outbox = new MemoryOutbox(() => 'i1');
      const keys = { destination: 'test server', caseKey: 'c', patientKey: 'p' };
      const payload = submissionText();
      await outbox.put({ ...keys, payload, digest: digestOf(payload) }, now);
      const targets = [{ destination: destination(sandbox.baseUrl), fetch }];
      const worker = { outbox, targets, clock: () => now, newId: () => 'r', random: () => 0.5 };
      await drain(worker);
      const waiting = await outbox.get('i1');
      expect([waiting?.state, waiting?.unknownSince]).toEqual(['waiting', undefined]);
      expect(waiting?.parked?.answer).toBe(body);
      expect(waiting?.parked?.findings.map(f => f.code)).toContain('delivery.server-says');
      isOpen = true;
      now += 3_600_000;
      await drain(worker);
      const delivered = await outbox.get('i1');
      expect([delivered?.state, delivered?.parked]).toEqual(['delivered', undefined]);
    } finally {
      await sandbox.close();
    }
  });
});
