import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSession } from '../../src/delivery/destination/session.js';
import { MemoryOutbox } from '../../src/delivery/outbox/memory-outbox.js';
import { digestOf, readSubmission } from '../../src/delivery/request/submission.js';
import { deliver } from '../../src/delivery/send/deliver.js';
import { drain } from '../../src/delivery/worker/worker.js';
import { beside, filedCase, number, person } from '../delivery/patient/filed.js';
import { deps, destination } from '../delivery/samples.js';
import { type OtherServer, startOtherServer } from './server/start.js';

/*
 * The right patient at a FHIR server of another make, HAPI FHIR's JPA server, with its own searches. Runs when asked
 * for: npm run test:servers.
 */
const asked = process.env['CASETALLY_TEST_SERVERS'] === '1';

describe.skipIf(!asked)('the right patient at HAPI FHIR 8.8.0', () => {
  let server: OtherServer;
  beforeAll(async () => {
    server = await startOtherServer();
  }, 900_000);
  afterAll(() => server?.close());

  const put = async (type: string, id: string, resource: object) => {
    const answer = await fetch(`${server.baseUrl}/${type}/${id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({ ...resource, resourceType: type, id }),
    });
    if (!answer.ok) throw new Error(await answer.text());
  };
  const right = { reference: 'Patient/right' };
  const encounter = (subject: object) =>
    put('Encounter', 'enc', {
      ...{ identifier: number('ENC'), status: 'in-progress', subject, period: { start: '2024-11-06' } },
      class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'IMP' },
    });
  const order = (subject: object) =>
    put('ServiceRequest', 'ord', { identifier: number('ORD'), status: 'active', intent: 'order', subject });
  const procedures = async () => {
    const headers = { 'cache-control': 'no-cache' };
    const answer = await fetch(`${server.baseUrl}/Procedure?_summary=count`, { headers });
    return ((await answer.json()) as { total: number }).total;
  };

  it.each(['transaction', 'batch', 'single'] as const)(
    'holds back the wrong patient, the wrong encounter and the order of another case (%s)',
    async mode => {
      const to = destination(server.baseUrl, { timeoutMs: 60_000, mode });
      const real = deps({ clock: Date.now, newId: randomUUID });
      const send = async (caseId: string, context: string) => {
        const read = readSubmission(filedCase(caseId), undefined, { context });
        if (!read) throw new Error('no submission');
        const { state, findings } = await deliver(read, openSession(to, real));
        return [state, ...findings.map(f => f.params['field'])];
      };
      await put('Patient', 'right', person);
      await put('Patient', 'wrong', { ...person, identifier: number('OTHER') });
      await encounter({ reference: 'Patient/wrong' });
      await order(right);
      const before = await procedures();
      expect(await send(mode, beside({ birthDate: '1944-01-02' }))).toEqual([
        'not-sent',
        'birthDate',
        'encounter.subject',
        ...(before > 0 ? ['order.case'] : []),
      ]);
      const payload = filedCase(mode);
      const outbox = new MemoryOutbox(randomUUID);
      const keys = { destination: 'test server', caseKey: 'c', patientKey: 'p' };
      const item = { ...keys, payload, context: beside(), digest: digestOf(payload) };
      const { id } = await outbox.put(item, Date.now());
      const worker = { outbox, targets: [{ destination: to }], clock: Date.now, newId: randomUUID };
      await drain({ ...worker, random: Math.random });
      expect((await outbox.get(id))?.parked?.reason).toBe('delivery.match-differs');
      expect(await procedures()).toBe(before);
      await encounter(right);
      if (before === 0) expect(await send(mode, beside())).toEqual(['delivered']);
      expect(await send(`second ${mode}`, beside())).toEqual(['not-sent', 'order.case']);
    },
    300_000,
  );
});
