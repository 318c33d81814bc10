import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isDelivered } from '../../src/delivery/answer/outcome.js';
import type { Destination } from '../../src/delivery/destination/destination.js';
import { examineDestination } from '../../src/delivery/destination/examine.js';
import { openSession } from '../../src/delivery/destination/session.js';
import { MemoryOutbox } from '../../src/delivery/outbox/memory-outbox.js';
import { digestOf } from '../../src/delivery/request/submission.js';
import { drain } from '../../src/delivery/worker/worker.js';
import { checkCase } from '../../src/pipeline/check.js';
import { prepareCase } from '../../src/pipeline/prepare.js';
import { readCaseBack } from '../../src/pipeline/read-case-back.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { loadTools } from '../../src/pipeline/tools.js';
import { siteSchema } from '../../src/site/site.js';
import { deliver, deps, destination, SYSTEM, submissionText } from '../delivery/samples.js';
import { examplesFolder } from '../support/examples.js';
import { type OtherServer, startOtherServer } from './server/start.js';

/*
 * Delivery against a FHIR server of another make: HAPI FHIR's JPA server 8.8.0 with its own defaults. It needs
 * Java 17, Maven and some 300 MB from the registry, so it runs when asked for: npm run test:servers.
 */
/** A site whose organisation has a number of its own, as a real one has. */
const site = siteSchema.parse({
  casetallySite: 1,
  name: 'test site',
  namespace: '3f0b9d0e-6a55-4f0c-9d53-0f1f6b1f7c21',
  organization: { name: 'Test site', identifier: { system: SYSTEM, value: 'site' } },
  references: { patient: 'include', encounter: 'include', order: 'include', practitioner: 'include' },
});

const asked = process.env['CASETALLY_TEST_SERVERS'] === '1';
const title = asked ? 'HAPI FHIR 8.8.0' : 'HAPI FHIR 8.8.0 (skipped: npm run test:servers runs it)';

describe.skipIf(!asked)(title, () => {
  let server: OtherServer;
  let losses = 0;
  let doubles = 0;
  let sent = 0;
  beforeAll(async () => {
    server = await startOtherServer();
  }, 900_000);
  afterAll(async () => {
    console.log(`${sent} cases sent, ${losses} losses, ${doubles} doubles`);
    await server?.close();
  });

  const to = (more: Partial<Destination> = {}) => destination(server.baseUrl, { timeoutMs: 60_000, ...more });
  const real = () => deps({ clock: Date.now, newId: randomUUID });

  const found = async (type: string, identifier: string): Promise<number> => {
    const headers = { 'cache-control': 'no-cache' };
    const query = new URLSearchParams({ identifier: `${SYSTEM}|${identifier}` });
    const answer = await fetch(`${server.baseUrl}/${type}?${query}`, { headers });
    const bundle: { entry?: unknown[] } = JSON.parse(await answer.text());
    return bundle.entry?.length ?? 0;
  };
  /** Counts what the server holds of a sample case, for the tally of losses and doubles. */
  const held = async (caseId: string): Promise<number[]> => {
    const counts = [
      await found('Patient', `${caseId}-patient`),
      await found('Procedure', `${caseId}-procedure`),
      await found('Device', `${caseId}-drain`),
      await found('Observation', `${caseId}-dose`),
    ];
    sent += 1;
    losses += counts.filter(n => n === 0).length;
    doubles += counts.filter(n => n > 1).length;
    return counts;
  };
  const put = (type: string, id: string, more: object) =>
    fetch(`${server.baseUrl}/${type}/${id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({ resourceType: type, id, ...more }),
    });

  const prepare = (name: string, softwareVersion: string) => {
    const { parsed, assessment } = checkCase(readFileSync(join(examplesFolder, name)), site);
    if (!parsed.record || !assessment) throw new Error('not a case');
    return prepareCase(parsed.record, assessment, site, loadTools(softwareVersion));
  };

  it('passes the examination', async () => {
    const { checks } = await examineDestination(openSession(to(), real()));
    expect(checks.filter(c => c.verdict === 'fail')).toEqual([]);
  });

  it('takes a case once, however often it is sent', async () => {
    const first = await deliver(submissionText('once'), to({ readBack: true }), real());
    if (!isDelivered(first)) throw new Error(JSON.stringify(first, null, 1));
    expect(first.state).toBe('delivered');
    expect(first.receipt.differences).toBeUndefined();
    expect(first.receipt.entries.every(e => e.id && e.version === '1' && e.found === 'answer')).toBe(true);
    expect((await deliver(submissionText('once'), to(), real())).state).toBe('delivered-already');
    expect(await held('once')).toEqual([1, 1, 1, 1]);
  });

  it.each([
    'abscess-drain.yaml',
    'biliary-drainage-and-stent.yaml',
    'caval-filter-retrieval-failed.yaml',
    'dialysis-circuit-angioplasty.yaml',
    'embolisation.yaml',
    'ureteric-stent-tumour.yaml',
  ])(
    'takes the example %s and gives it back as sent',
    async name => {
      // A software of its own for each, so that no example leans on what another has left there.
      const prepared = prepare(name, name);
      const outcome = await submitCase(prepared, to(), real());
      if (!isDelivered(outcome)) throw new Error(JSON.stringify(outcome.findings, null, 1));
      const again = await readCaseBack(prepared, outcome.receipt, to(), real());
      expect(again.complete).toBe(true);
      expect(again.differences).toEqual([]);
      const second = await submitCase(prepared, to(), real());
      expect(second.state).toBe('delivered-already');
    },
    120_000,
  );

  it('takes two cases of one site, one after the other', async () => {
    for (const name of ['liver-biopsy.yaml', 'nephrostomy-exchange-transplant.yaml']) {
      const outcome = await submitCase(prepare(name, 'both'), to(), real());
      if (!isDelivered(outcome)) throw new Error(JSON.stringify(outcome.findings, null, 1));
    }
  }, 120_000);

  it('finds the case when the answer was lost', async () => {
    const drop: typeof fetch = async (url, init) => {
      const answer = await fetch(url, init);
      if (init?.method === 'POST') throw new TypeError('x', { cause: { code: 'ECONNRESET' } });
      return answer;
    };
    const outcome = await deliver(submissionText('lost'), to(), { ...real(), fetch: drop });
    expect(outcome).toMatchObject({ state: 'delivered-already', receipt: { how: 'reconciled' } });
    expect(await held('lost')).toEqual([1, 1, 1, 1]);
  });

  it('six workers with the same case at once: once in the end', async () => {
    const text = submissionText('race');
    const workers = Array.from({ length: 6 }, async () => {
      const outbox = new MemoryOutbox(randomUUID);
      const { id } = await outbox.put(
        {
          destination: 'test server',
          caseKey: 'race',
          patientKey: 'race',
          payload: text,
          digest: digestOf(text),
        },
        Date.now(),
      );
      const worker = {
        outbox,
        targets: [{ destination: to() }],
        clock: Date.now,
        newId: randomUUID,
        random: Math.random,
        policy: {
          backoff: { baseMs: 20, capMs: 200 },
          breakerAfter: 50,
          breaker: { baseMs: 20, capMs: 200 },
          maxAgeMs: 60_000,
        },
      };
      for (let i = 0; i < 50 && (await outbox.get(id))?.state === 'waiting'; i += 1) {
        await drain(worker);
        await new Promise(resolve => setTimeout(resolve, 50));
      }
      return (await outbox.get(id))?.state;
    });
    expect(await Promise.all(workers)).toEqual(Array.from({ length: 6 }, () => 'delivered'));
    expect(await held('race')).toEqual([1, 1, 1, 1]);
  }, 60_000);

  it('refuses a code that a required binding does not have, and nothing of the case remains', async () => {
    const text = submissionText('code', t => t.replace('"status": "final"', '"status": "finished"'));
    const outcome = await deliver(text, to(), real());
    expect(outcome.state).toBe('refused');
    expect(await found('Procedure', 'code-procedure')).toBe(0);
  });

  it('never takes a changed case for delivered; as an update it is', async () => {
    await deliver(submissionText('changed'), to(), real());
    const change = (t: string) => t.replace('L-17', 'L-18');
    const created = await deliver(submissionText('changed', change), to(), real());
    if (isDelivered(created)) throw new Error('a changed case passed for delivered');
    expect(created.differences).toMatchObject([{ path: 'Device.lotNumber', sent: 'L-18', held: 'L-17' }]);
    const asUpdate = (t: string) =>
      change(t).replace(
        /"method": "POST", "url": "(Device|Procedure|Observation)", "ifNoneExist": "([^"]+)"/g,
        '"method": "PUT", "url": "$1?$2"',
      );
    const updated = await deliver(submissionText('changed', asUpdate), to({ readBack: true }), real());
    if (!isDelivered(updated)) throw new Error(JSON.stringify(updated.findings));
    expect(updated.receipt.entries[2]).toMatchObject({ type: 'Device', status: 200, version: '2' });
    expect(await held('changed')).toEqual([1, 1, 1, 1]);
  });

  it('shows the addresses when several stand under one identifier', async () => {
    for (const id of ['many-a', 'many-b'])
      await put('Device', id, { identifier: [{ system: SYSTEM, value: 'many-drain' }] });
    const outcome = await deliver(submissionText('many'), to(), real());
    expect(outcome.state).toBe('conflict');
    const said = outcome.findings.find(f => f.code === 'delivery.several-held');
    expect(String(said?.params['addresses']).split(', ').sort()).toEqual(['Device/many-a', 'Device/many-b']);
    expect(await found('Procedure', 'many-procedure')).toBe(0);
  });

  it.each([
    [0, 'not-sent'],
    [1, 'delivered'],
    [2, 'not-sent'],
  ])('conditional reference with %d matches: %s', async (copies, state) => {
    const value = `known-${copies}`;
    for (let i = 0; i < copies; i += 1)
      await put('Patient', `known-${copies}-${i}`, { identifier: [{ system: SYSTEM, value }] });
    const reference = `Patient?identifier=${encodeURIComponent(`${SYSTEM}|${value}`)}`;
    const text = submissionText(`cond${copies}`, t =>
      t.replaceAll(
        /"(subject|patient)": \{ "reference": "[^"]+" \}/g,
        `"$1": { "reference": "${reference}" }`,
      ),
    );
    expect((await deliver(text, to(), real())).state).toBe(state);
    expect(await found('Procedure', `cond${copies}-procedure`)).toBe(copies === 1 ? 1 : 0);
  });

  it('takes it one resource after the other too', async () => {
    const text = submissionText('single');
    const first = await deliver(text, to({ mode: 'single', readBack: true }), real());
    if (!isDelivered(first)) throw new Error(JSON.stringify(first.findings, null, 1));
    expect(first.receipt.differences).toBeUndefined();
    expect((await deliver(text, to({ mode: 'single' }), real())).state).toBe('delivered-already');
    expect(await held('single')).toEqual([1, 1, 1, 1]);
  });
});
