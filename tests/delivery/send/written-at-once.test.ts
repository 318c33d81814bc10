import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { sendDurably } from '../../../src/delivery/worker/send-durably.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { corrected, deliver, deps, destination, SYSTEM, submissionText } from '../samples.js';

let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(() => server.close());

/** Two cases of one patient whom nobody has yet. */
const ofOnePatient = (caseId: string, patient: string, text = submissionText(caseId)) =>
  text.replaceAll(`${caseId}-patient`, patient);

/** Refuses the first posts as a server does that is writing the same for somebody else, and then has written it. */
function collides(times: number, meanwhile: () => Promise<void> = async () => undefined): typeof fetch {
  let left = times;
  return async (url, init) => {
    if (init?.method !== 'POST' || left === 0) return fetch(url, init);
    left -= 1;
    await meanwhile();
    const issue = [{ severity: 'error', code: 'conflict', diagnostics: 'locked by another transaction' }];
    return new Response(JSON.stringify({ resourceType: 'OperationOutcome', issue }), {
      status: 409,
      headers: { 'content-type': 'application/fhir+json' },
    });
  };
}
const patients = (value: string) =>
  server.repository
    .all()
    .filter(
      r => r.resourceType === 'Patient' && r.identifier?.some(i => i.system === SYSTEM && i.value === value),
    );

describe('two cases of one new patient at once', () => {
  it('the loser is sent again, and both are there with one patient', async () => {
    const to = destination(server.baseUrl);
    const meanwhile = async () => {
      expect((await deliver(ofOnePatient('w1', 'new-1'), to, deps())).state).toBe('delivered');
    };
    // Something that is updated makes a 409 look like one about versions.
    const text = corrected('w2', 'L-2').replaceAll('w2-patient', 'new-1');
    const d = deps({ fetch: collides(1, meanwhile) });
    const outcome = await deliver(text, to, d);
    expect([outcome.state, outcome.findings.map(f => f.code)]).toEqual(['delivered', []]);
    expect(patients('new-1')).toHaveLength(1);
    expect(d.slept).toEqual([500]);
  });

  it('waits in the outbox, and is no amendment, where it goes on', async () => {
    const { sourceOf: _, ...d } = deps();
    const outbox = new MemoryOutbox(d.newId);
    const payload = corrected('w3', 'L-3').replaceAll('w3-patient', 'new-3');
    const fetch = collides(3);
    const worker = {
      ...d,
      outbox,
      targets: [{ destination: destination(server.baseUrl), fetch }],
      random: () => 0.5,
    };
    const item = {
      ...{ destination: 'test server', caseKey: 'w3', patientKey: 'p3', payload },
      digest: digestOf(payload),
    };
    const first = await sendDurably(item, worker);
    expect([first.item.state, first.item.lastReason]).toEqual(['waiting', 'written-at-once']);
    expect(first.findings.map(f => f.code)).toEqual(['delivery.written-at-once', 'delivery.server-says']);
    await d.sleep?.(60_000);
    const second = await sendDurably(item, worker);
    expect([second.item.state, second.item.id]).toEqual(['delivered', first.item.id]);
    expect(patients('new-3')).toHaveLength(1);
  });

  it('is a conflict all the same where somebody has edited what it updates', async () => {
    const { sourceOf: _, ...d } = deps();
    const outbox = new MemoryOutbox(d.newId);
    const edit = async () => {
      const device = server.repository
        .all()
        .find(r => r.resourceType === 'Device' && r.identifier?.some(i => i.value === 'w4-drain'));
      const answer = await fetch(`${server.baseUrl}/Device/${device?.id}`, {
        method: 'PUT',
        headers: { 'content-type': 'application/fhir+json' },
        body: JSON.stringify({ ...device, lotNumber: 'edited' }),
      });
      expect(answer.status).toBe(200);
    };
    let way: typeof fetch = fetch;
    const targets = [
      { destination: destination(server.baseUrl), fetch: ((u, i) => way(u, i)) as typeof fetch },
    ];
    const send = (payload: string) =>
      sendDurably(
        { destination: 'test server', caseKey: 'w4', patientKey: 'p4', payload, digest: digestOf(payload) },
        { ...d, outbox, targets, random: () => 0.5 },
      );
    expect((await send(submissionText('w4'))).item.state).toBe('delivered');
    way = collides(1, edit);
    const { item, findings } = await send(corrected('w4', 'L-4'));
    expect([item.state, item.parked?.reason]).toEqual(['parked', 'version-conflict']);
    expect(findings.map(f => f.code)).toContain('delivery.edited-there');
  });
});
