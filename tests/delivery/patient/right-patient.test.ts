import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openSession } from '../../../src/delivery/destination/session.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { accepting, heldBack } from '../../../src/delivery/patient/accept.js';
import { digestOf, readSubmission } from '../../../src/delivery/request/submission.js';
import { deliver } from '../../../src/delivery/send/deliver.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { answerReads } from '../../support/reads.js';
import { deps, destination } from '../samples.js';
import { beside, filedCase, number, person } from './filed.js';

const MODES = ['transaction', 'batch', 'single'] as const;
type Mode = (typeof MODES)[number];

let server: RunningSandbox;
beforeEach(async () => {
  server = await startSandbox();
  await put('Patient/right', person);
  await put('Patient/wrong', { ...person, identifier: number('OTHER'), birthDate: '1944-01-02' });
  await put('Encounter/enc', encounter());
  await put('ServiceRequest/ord', order());
});
afterEach(async () => {
  vi.unstubAllGlobals();
  await server.close();
});

const encounter = (more: object = {}) => ({
  resourceType: 'Encounter',
  identifier: number('ENC'),
  status: 'in-progress',
  class: { code: 'IMP' },
  subject: { reference: 'Patient/right' },
  period: { start: '2024-11-06' },
  ...more,
});
const order = (more: object = {}) => ({
  resourceType: 'ServiceRequest',
  identifier: number('ORD'),
  status: 'active',
  intent: 'order',
  subject: { reference: 'Patient/right' },
  ...more,
});

async function put(address: string, resource: object): Promise<void> {
  const answer = await fetch(`${server.baseUrl}/${address}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/fhir+json' },
    body: JSON.stringify({ ...resource, id: address.split('/')[1] }),
  });
  if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`);
}
const count = () => server.repository.all().length;

async function direct(text: string, context: string | undefined, mode: Mode = 'transaction') {
  const submission = readSubmission(text, undefined, { context });
  if (!submission) throw new Error('no submission');
  return deliver(submission, openSession(destination(server.baseUrl, { mode }), deps()));
}

/** One item through the outbox. */
function worker(mode: Mode = 'transaction') {
  const d = deps();
  const outbox = new MemoryOutbox(d.newId);
  const targets = [{ destination: destination(server.baseUrl, { mode }) }];
  const run = () => drain({ outbox, targets, clock: d.clock, newId: d.newId, random: () => 0.5 });
  const add = (payload: string, context: string, caseKey = 'c') => {
    const keys = { destination: 'test server', caseKey, patientKey: caseKey };
    return outbox.put({ ...keys, payload, context, digest: digestOf(payload) }, d.clock());
  };
  return { outbox, run, add };
}

/** What stands there, what is asked, and which field contradicts. */
const WRONG: [string, () => Promise<void>, object, string][] = [
  ['another birth date', () => put('Patient/right', { ...person, birthDate: '1990-07-18' }), {}, 'birthDate'],
  ['another sex', async () => undefined, { gender: 'female' }, 'sex'],
  ['another name', async () => undefined, { name: [{ text: 'Ilse Branquinho' }] }, 'name'],
  [
    'a death before',
    () => put('Patient/right', { ...person, deceasedDateTime: '2023-01-01' }),
    {},
    'deceased',
  ],
  [
    'numbers of two people',
    async () => undefined,
    { identifier: [...number('MRN'), ...number('OTHER')] },
    'identifiers',
  ],
  [
    'the encounter of somebody else',
    () => put('Encounter/enc', encounter({ subject: { reference: 'Patient/wrong' } })),
    {},
    'encounter.subject',
  ],
  [
    'an encounter of another year',
    () => put('Encounter/enc', encounter({ period: { start: '2022-01-01', end: '2022-01-09' } })),
    {},
    'encounter.period',
  ],
  [
    'the order of somebody else',
    () => put('ServiceRequest/ord', order({ subject: { reference: 'Patient/wrong' } })),
    {},
    'order.subject',
  ],
];

describe.each(MODES)('a case for the wrong patient (%s)', mode => {
  it.each(WRONG)(
    '%s: held back, directly and by the worker, nothing written',
    async (_what, change, ours, field) => {
      await change();
      const before = count();
      const outcome = await direct(filedCase('x'), beside(ours), mode);
      expect(outcome.state).toBe('not-sent');
      expect(outcome.findings.map(f => [f.code, f.params['field']])).toContainEqual([
        'delivery.match-differs',
        field,
      ]);
      const { add, run, outbox } = worker(mode);
      const { id } = await add(filedCase('x'), beside(ours));
      await run();
      expect((await outbox.get(id))?.parked?.reason).toBe('delivery.match-differs');
      expect(count()).toBe(before);
    },
  );

  it('the right one goes through, without a word', async () => {
    const outcome = await direct(filedCase('y'), beside(), mode);
    expect([outcome.state, outcome.findings]).toEqual(['delivered', []]);
  });

  it('a case that is there under another patient is never overwritten', async () => {
    await direct(filedCase('z'), beside(), mode);
    await put('Encounter/enc', encounter({ subject: { reference: 'Patient/wrong' } }));
    await put('ServiceRequest/ord', order({ subject: { reference: 'Patient/wrong' } }));
    const other = beside({ identifier: number('OTHER'), birthDate: '1944-01-02' });
    const before = JSON.stringify(server.repository.all());
    const outcome = await direct(filedCase('z', { patient: 'OTHER' }), other, mode);
    expect(outcome.findings[0]).toMatchObject({
      code: 'delivery.case-of-another-patient',
      params: { patient: 'Patient/right' },
    });
    expect(JSON.stringify(server.repository.all())).toBe(before);
  });
});

describe('a near match', () => {
  const near = beside({ name: [{ text: 'Wambugu Oderas' }] });

  it('is parked, goes when a person accepted it, and who did is kept', async () => {
    const { add, run, outbox } = worker();
    const { id } = await add(filedCase('n'), near);
    await run();
    const parked = await outbox.get(id);
    if (!parked) throw new Error('no item');
    expect(parked.parked).toMatchObject({
      reason: 'delivery.match-near',
      findings: [{ params: { field: 'name', sent: 'Wambugu Oderas', held: 'Wambugu Odera' } }],
    });
    const by = { by: 'Sister Arcos', why: 'asked the patient' };
    expect(() => accepting(heldBack(parked), { fields: ['birthDate'], ...by }, 1)).toThrow(
      /not held back for/,
    );
    await outbox.retry(id, Date.UTC(2024, 2, 14), {
      accepted: accepting(heldBack(parked), { fields: ['name'], ...by }, 1),
    });
    await run();
    const sent = await outbox.get(id);
    expect(sent?.state).toBe('delivered');
    expect(sent?.accepted).toEqual([
      { field: 'name', sent: 'Wambugu Oderas', held: 'Wambugu Odera', ...by, at: 1 },
    ]);
  });

  it('that is another one by then is shown again', async () => {
    const { add, run, outbox } = worker();
    const { id } = await add(filedCase('n'), near);
    await run();
    const parked = await outbox.get(id);
    if (!parked) throw new Error('no item');
    await put('Patient/right', { ...person, name: [{ text: 'Wambugu Oderan' }] });
    await outbox.retry(id, 0, {
      accepted: accepting(heldBack(parked), { fields: ['name'], by: 'a', why: 'b' }, 1),
    });
    await run();
    expect((await outbox.get(id))?.parked?.reason).toBe('delivery.match-near');
  });

  it('of an order on which another case was done waits too; a withdrawn one does not count', async () => {
    await direct(filedCase('first'), beside());
    const second = await direct(filedCase('second'), beside());
    expect(second.findings).toMatchObject([
      { code: 'delivery.match-near', params: { field: 'order.case', held: 'first-Procedure' } },
    ]);
    const held = server.repository.all().find(r => r.resourceType === 'Procedure');
    await put(`Procedure/${held?.id}`, { ...held, status: 'entered-in-error' });
    expect((await direct(filedCase('second'), beside())).state).toBe('delivered');
  });
});

describe('what cannot be compared', () => {
  it('is said and sent: fields that the server does not have', async () => {
    await put('Patient/right', { resourceType: 'Patient', identifier: number('MRN') });
    const outcome = await direct(filedCase('u'), beside());
    expect([outcome.state, outcome.findings.map(f => f.params['what'])]).toEqual([
      'delivered',
      ['birthDate', 'sex', 'name'],
    ]);
  });

  it('holds nothing back in a withdrawal: a case must be taken away from where it is', async () => {
    const withdrawn = filedCase('w', { procedure: { status: 'entered-in-error' } });
    const outcome = await direct(withdrawn, beside({ birthDate: '1901-01-01' }));
    expect(outcome.state).toBe('delivered');
    expect(outcome.findings).toMatchObject([{ code: 'delivery.match-differs', severity: 'warning' }]);
  });

  it.each<[string, number, string]>([
    ['does not search', 400, 'delivered'],
    ['is not itself', 503, 'unreachable'],
  ])('a server that %s for patients: %d, %s', async (_what, status, state) => {
    answerReads((url, init) =>
      String(url).includes('/Patient?') ? Promise.resolve(new Response('', { status })) : fetch(url, init),
    );
    const outcome = await direct(filedCase('s'), beside());
    expect(outcome.state).toBe(state);
    if (state === 'delivered') expect(outcome.findings.map(f => f.code)).toContain('delivery.not-compared');
    else expect(server.repository.all().filter(r => r.resourceType === 'Procedure')).toEqual([]);
  });

  it('by an item of an earlier release, with nothing kept beside it, is said', async () => {
    const outcome = await direct(filedCase('o'), undefined);
    expect([outcome.state, outcome.findings.map(f => f.code)]).toEqual([
      'delivered',
      ['delivery.not-compared'],
    ]);
  });
});

describe('the outbox', () => {
  it('refuses a case that it delivered under another patient, whatever searches find', async () => {
    const { add, run, outbox } = worker();
    await add(filedCase('k'), beside());
    await run();
    answerReads((url, init) =>
      String(url).includes('/Procedure?')
        ? Promise.resolve(Response.json({ resourceType: 'Bundle', type: 'searchset' }))
        : fetch(url, init),
    );
    const other = beside({ identifier: number('OTHER'), birthDate: '1944-01-02' });
    const { id } = await add(filedCase('k', { patient: 'OTHER' }), other);
    await run();
    expect((await outbox.get(id))?.parked?.reason).toBe('delivery.case-of-another-patient');
  });
});
