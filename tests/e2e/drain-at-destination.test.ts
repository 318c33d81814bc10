import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Device, DeviceUseStatement, Resource, ServiceRequest, Task } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createValidator, loadDefinitions } from '../../src/conformance/index.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { type DrainCase, drainCase } from '../support/drain-life.js';
import { casetally as runIn } from '../support/run.js';

/*
 * The life of one drain at a destination, through the command line: placed, exchanged, removed, the removal withdrawn,
 * the first case corrected.
 */
const folder = mkdtempSync(join(tmpdir(), 'drain-at-destination-'));
const data = join(folder, 'data');
const site = join(folder, 'site.yaml');
let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
  writeFileSync(
    site,
    `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "https://ids.tawhai-inlet.example/cases" }
references: { patient: include, encounter: include, order: include, practitioner: include }
fhir: { contents: full }
register: {}
destinations: { records: { url: "${server.baseUrl}", searchLag: 0 } }
`,
  );
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

const casetally = (...args: string[]) => runIn([...args, '--data', data, '--site', site], 1_000);

let files = 0;
async function send(one: DrainCase) {
  files += 1;
  const file = join(folder, `${one.id}-${files}.yaml`);
  writeFileSync(file, drainCase(one));
  const sent = await casetally('send', file, '--to', 'records');
  expect(sent.code, sent.err).toBe(0);
  return sent;
}

const all = <T extends Resource>(type: T['resourceType']) =>
  server.repository.all().filter(resource => resource.resourceType === type) as unknown as T[];
const uses = () =>
  all<DeviceUseStatement>('DeviceUseStatement')
    .map(({ status, timingPeriod, device }) => [
      lotOf(device.reference),
      status,
      timingPeriod?.end?.slice(0, 10),
    ])
    .sort();
const lotOf = (reference = '') =>
  all<Device>('Device').find(({ id }) => reference === `Device/${id}`)?.lotNumber;
const devices = () =>
  all<Device>('Device')
    .flatMap(({ lotNumber, status }) => (lotNumber ? [[lotNumber, status]] : []))
    .sort();
const tasks = () => all<Task>('Task').map(({ status }) => status);
const requests = () => all<ServiceRequest>('ServiceRequest').map(({ status }) => status);
const versions = () =>
  server.repository
    .all()
    .map(({ resourceType, id, meta }) => `${resourceType}/${id} ${meta?.versionId}`)
    .sort();

const placed = { id: 'A', date: '2024-01-10', placed: 'L1' };
const exchanged = { id: 'B', date: '2024-04-02', before: 'L1', placed: 'L2' };
const removed = { id: 'C', date: '2024-06-30', before: 'L2' };
const change = '{ why: Wrong patient, by: ir, at: "11:00" }';

describe('one drain at a destination', () => {
  it('is in use, and its exchange asked for, after it was placed', async () => {
    await send(placed);
    // Twelve weeks from 10 January 2024 are 3 April.
    expect(devices()).toEqual([['L1', 'active']]);
    expect(uses()).toEqual([['L1', 'active', undefined]]);
    expect([tasks(), requests()]).toEqual([['requested'], ['active']]);
  });

  it('is out after the exchange, whose drain is in its place', async () => {
    const sent = await send(exchanged);
    expect(sent.out).toContain(
      'records: A brought up to date: Device inactive, DeviceUseStatement completed, ServiceRequest completed, Task completed.',
    );
    expect(devices()).toEqual([
      ['L1', 'inactive'],
      ['L1', 'inactive'],
      ['L2', 'active'],
    ]);
    expect(uses()).toEqual([
      ['L1', 'completed', '2024-04-02'],
      ['L1', 'completed', '2024-04-02'],
      ['L2', 'active', undefined],
    ]);
    expect([tasks(), requests()]).toEqual([
      ['completed', 'requested'],
      ['completed', 'active'],
    ]);
  });

  it('leaves nothing active and nothing to do after the removal', async () => {
    await send(removed);
    expect(uses().map(([, status]) => status)).not.toContain('active');
    expect(devices().map(([, status]) => status)).not.toContain('active');
    expect([...tasks(), ...requests()].filter(status => status !== 'completed')).toEqual([]);
    expect((await casetally('register', 'doctor')).out).not.toContain('brought up to date');
    // What was changed still is what its profiles ask for.
    const validator = createValidator(loadDefinitions());
    const faults = server.repository
      .all()
      .filter(({ resourceType }) => /^(?:Device|DeviceUseStatement|Task|ServiceRequest)$/.test(resourceType))
      .flatMap(resource => validator.validateResource(resource).issues)
      .filter(({ severity }) => severity === 'error' || severity === 'fatal');
    expect(faults).toEqual([]);
  });

  it('changes nothing when it is asked for again', async () => {
    const before = versions();
    const again = await casetally('register', 'update-destinations', '--to', 'records', '--all');
    expect([again.code, again.out]).toEqual([0, '0 resources brought up to date; nothing is left to do.\n']);
    expect(versions()).toEqual(before);
  });

  it('takes a correction of the first case, and is out all the same', async () => {
    const report = `{ status: amended, author: ir, version: 2, signedAt: "10:00", change: ${change} }`;
    await send({ ...placed, latest: '10 weeks', report });
    expect(devices()).toContainEqual(['L1', 'inactive']);
    expect(devices()).not.toContainEqual(['L1', 'active']);
    expect(uses().map(([lot, status]) => [lot, status])).not.toContainEqual(['L1', 'active']);
    expect(tasks()).not.toContain('requested');
    expect(requests()).not.toContain('active');
  });

  it('is inside again, as the cases before said, when the removal is withdrawn', async () => {
    const report = `{ status: withdrawn, author: ir, version: 2, signedAt: "10:00", change: ${change} }`;
    const sent = await send({ ...removed, report });
    expect(sent.out).toMatch(/records: B brought up to date: .*requested/);
    expect(devices()).toContainEqual(['L2', 'active']);
    expect(uses()).toContainEqual(['L2', 'active', undefined]);
    expect(tasks().sort()).toEqual(['completed', 'requested']);
    expect(requests().sort()).toEqual(['active', 'completed']);
    expect((await casetally('register', 'doctor')).out).not.toContain('brought up to date');
  });

  it('holds back a correction for what others changed, and not for what the register did', async () => {
    const use = all<DeviceUseStatement>('DeviceUseStatement').find(
      ({ status, derivedFrom }) => status === 'completed' && derivedFrom?.length === 2,
    );
    const edited = await fetch(`${server.baseUrl}/DeviceUseStatement/${use?.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({ ...use, note: [{ text: 'Leaked on 2 February' }] }),
    });
    expect(edited.status).toBe(200);
    const report = `{ status: amended, author: ir, version: 3, signedAt: "10:00", change: ${change} }`;
    const file = join(folder, 'A-3.yaml');
    writeFileSync(file, drainCase({ ...placed, latest: '8 weeks', report }));
    const sent = await casetally('send', file, '--to', 'records');
    expect(sent.code).toBe(3);
    expect(sent.err).toContain('Leaked on 2 February');
    expect(sent.err).not.toMatch(/DeviceUseStatement\.(?:status|timingPeriod)|Device\.status|'?completed'?,/);
  });
});
