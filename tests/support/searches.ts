import type { Bundle, Device, DocumentReference, Resource, ServiceRequest } from 'fhir/r4.js';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { searches } from '../../scripts/mapping-page.js';
import { isInside } from '../../src/devices/types.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { destination } from '../delivery/samples.js';
import { knownExample } from './examples.js';

/** A FHIR server that was started for a test. */
interface Server {
  readonly baseUrl: string;
  close(): Promise<void>;
}

/** Tries the searches that docs/mapping.md promises a receiver at a server that holds two cases sent with core contents. */
export function searchesAt(start: () => Promise<Server>): void {
  const prepared = knownExample('biliary-drainage-and-stent.yaml');
  const other = knownExample('caval-filter-retrieval-failed.yaml');
  let server: Server;
  let held: Resource[] = [];

  const read = async (url: string): Promise<Resource[]> => {
    const answer = await fetch(`${server.baseUrl}/${url}`, { headers: { 'cache-control': 'no-cache' } });
    expect(answer.status, url).toBe(200);
    return ((await answer.json()) as Bundle).entry?.flatMap(({ resource }) => resource ?? []) ?? [];
  };

  beforeAll(async () => {
    server = await start();
    const to = destination(server.baseUrl, { timeoutMs: 60_000 });
    for (const one of [prepared, other]) {
      const sent = await submitCase(one, to, { clock: () => Date.now(), newId: () => 'one' });
      expect(sent.state).toBe('delivered');
    }
    const types = ['Patient', 'Device', 'ServiceRequest', 'Encounter', 'Procedure'];
    held = (await Promise.all(types.map(type => read(`${type}?_count=200`)))).flat();
  }, 900_000);
  afterAll(() => server?.close());

  const holds = (type: string, has: (resource: Resource) => boolean = () => true) =>
    held.find(resource => resource.resourceType === type && has(resource));
  const found = (what: string, fill: Readonly<Record<string, string>>): Promise<Resource[]> => {
    const { query } = searches.find(search => search.for === what) ?? expect.fail(what);
    return read(
      query.replace(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(fill[name] ?? expect.fail(name))),
    );
  };
  const address = (resource: Resource | undefined) => `${resource?.resourceType}/${resource?.id}`;
  const patient = () =>
    address(
      holds('Patient', p => JSON.stringify(p).includes(String(prepared.record.patient.birthDate?.iso))),
    );

  it('find what is in a patient, and nothing of another', async () => {
    const devices = (await found('devices in a patient', { patient: patient() })) as Device[];
    const inside = prepared.assessment.tally.entries.filter(({ state }) => isInside(state));
    expect(devices).toHaveLength(new Set(inside.map(({ device, part }) => `${device}/${part}`)).size);
    // Parts stay as long as their device.
    const whole = new Set(inside.filter(({ part }) => part === undefined).map(({ device }) => device));
    expect(await found('when each is to come out', { patient: patient() })).toHaveLength(whole.size);
  });

  it('find every device of an identifier, with its lot', async () => {
    const labelled = holds('Device', r => 'udiCarrier' in r && 'lotNumber' in r) as Device;
    const identifier = labelled.udiCarrier?.[0]?.deviceIdentifier ?? expect.fail('no identifier');
    const hits = (await found('every device of an identifier; its lot is in `lotNumber`', {
      identifier,
    })) as Device[];
    expect(hits.map(address)).toContain(address(labelled));
    expect(hits.map(({ lotNumber }) => lotNumber)).toContain(labelled.lotNumber);
    for (const { udiCarrier } of hits) expect(udiCarrier?.[0]?.deviceIdentifier).toBe(identifier);
  });

  it('find the report that stands, and the case of an order or an encounter', async () => {
    const reports = (await found('reports of a patient that stand', {
      patient: patient(),
    })) as DocumentReference[];
    expect(reports).toHaveLength(1);
    for (const [what, type] of [
      ['the case of an order', 'order'],
      ['the case of an encounter', 'encounter'],
    ] as const) {
      const entry = prepared.resources.entries.find(({ role }) => role === type)?.identifier;
      const held = holds(
        type === 'order' ? 'ServiceRequest' : 'Encounter',
        r => JSON.stringify(r).includes(`"${entry?.value}"`) && !JSON.stringify(r).includes('"basedOn"'),
      );
      expect(await found(what, { [type]: address(held) }), what).toHaveLength(1);
    }
  });

  it('find what is due by a day and not what is due later', async () => {
    const by = async (day: string) =>
      (await found('what is due by a day', { patient: patient(), day })) as ServiceRequest[];
    const late = await by('2099-01-01');
    expect(late.length).toBeGreaterThan(2);
    expect((await by(prepared.record.case.date)).length).toBeLessThan(late.length);
  });

  it('find dose and drugs', async () => {
    const procedure = address(
      holds('Procedure', p => JSON.stringify(p).includes(`"${prepared.record.case.id}"`)),
    );
    expect((await found('the dose of a case', { procedure })).length).toBeGreaterThan(2);
    expect((await found('drugs and contrast of a patient', { patient: patient() })).length).toBe(
      prepared.resources.entries.filter(
        ({ resource }) => resource.resourceType === 'MedicationAdministration',
      ).length,
    );
  });
}
