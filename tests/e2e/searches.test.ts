import type { Bundle, Device, DeviceUseStatement, Procedure, Resource, Task } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownSearches } from '../../scripts/mapping-page.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { destination } from '../delivery/samples.js';
import { fullSite, knownExample } from '../support/examples.js';
import { searchesAt } from '../support/searches.js';

describe('searches of docs/mapping.md', () => searchesAt(startSandbox));

describe('searches of docs/mapping.md with parameters of ours', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
    for (const file of ['biliary-drainage-and-stent.yaml', 'caval-filter-retrieval-failed.yaml']) {
      const prepared = knownExample(file, fullSite);
      const deps = { clock: () => Date.now(), newId: () => 'one' };
      expect((await submitCase(prepared, destination(server.baseUrl), deps)).state).toBe('delivered');
    }
  });
  afterAll(() => server.close());

  const all = <T extends Resource>(type: T['resourceType']) =>
    server.repository.all().filter(({ resourceType }) => resourceType === type) as unknown as T[];
  const find = async (what: string, fill: Readonly<Record<string, string>>): Promise<string[]> => {
    const { query } = ownSearches.find(search => search.for === what) ?? expect.fail(what);
    const url = query.replace(/\{(\w+)\}/g, (_, name: string) =>
      encodeURIComponent(fill[name] ?? expect.fail(name)),
    );
    const answer = await fetch(`${server.baseUrl}/${url}&_count=200`);
    expect(answer.status, url).toBe(200);
    const { entry = [] } = (await answer.json()) as Bundle;
    return entry.map(({ resource }) => resource?.id ?? '').sort();
  };
  /** Ids of those of which something holds: some, but not all of them. */
  const ids = <T extends Resource>(type: T['resourceType'], has: (one: T) => boolean) => {
    const found = all<T>(type).filter(has);
    expect(found.length, type).toBeGreaterThan(0);
    expect(found.length, type).toBeLessThan(all(type).length);
    return found.map(({ id }) => id ?? '').sort();
  };

  it('find uses by status and by case', async () => {
    const use = all<DeviceUseStatement>('DeviceUseStatement').find(({ status }) => status === 'active');
    const patient = use?.subject.reference ?? '';
    expect(await find('devices in use in a patient', { patient })).toEqual(
      ids<DeviceUseStatement>(
        'DeviceUseStatement',
        one => one.status === 'active' && one.subject.reference === patient,
      ),
    );
    const procedure = use?.derivedFrom?.[0]?.reference ?? '';
    expect(await find('uses that a case told of', { procedure })).toEqual(
      ids<DeviceUseStatement>('DeviceUseStatement', one => one.derivedFrom?.[0]?.reference === procedure),
    );
  });

  it('find devices by lot and by serial number, and what was done with one', async () => {
    const { lotNumber: lot = '' } = all<Device>('Device').find(({ lotNumber }) => lotNumber) ?? {};
    expect(await find('devices of a lot, and of lots that begin with it', { lot })).toEqual(
      ids<Device>('Device', ({ lotNumber }) => lotNumber?.startsWith(lot) === true),
    );
    const { serialNumber: serial = '' } = all<Device>('Device').find(one => one.serialNumber) ?? {};
    expect(serial).not.toBe('');
    expect(await find('devices by serial number, or its beginning', { serial })).toEqual(
      ids<Device>('Device', ({ serialNumber }) => serialNumber?.startsWith(serial) === true),
    );
    const focal = (one: Procedure) => one.focalDevice?.map(({ manipulated }) => manipulated.reference) ?? [];
    const device = all<Procedure>('Procedure').flatMap(focal)[0] ?? '';
    expect(await find('cases that placed or took out a device', { device })).toEqual(
      ids<Procedure>('Procedure', one => focal(one).includes(device)),
    );
  });

  it('find tasks by the time in which they are to be done', async () => {
    const ends = all<Task>('Task').flatMap(({ restriction }) => restriction?.period?.end?.slice(0, 10) ?? []);
    const day = ends.sort()[Math.floor(ends.length / 2)] ?? '';
    const period = ({ restriction }: Task) => restriction?.period;
    expect(await find('tasks whose last day is before a day', { day })).toEqual(
      ids<Task>('Task', one => (period(one)?.end?.slice(0, 10) ?? day) < day),
    );
    expect(await find('tasks whose time begins by a day', { day: '2000-01-01' })).toEqual(
      all<Task>('Task')
        .filter(one => period(one) && period(one)?.start === undefined)
        .map(({ id }) => id)
        .sort(),
    );
  });

  it('of every parameter of ours are among them', () => {
    expect(
      ownSearches.flatMap(({ query }) => [...query.matchAll(/[?&]([\w-]+)[=:]/g)].map(([, name]) => name)),
    ).toEqual(
      expect.arrayContaining([
        'status',
        'derived-from',
        'focal-device',
        'lot-number',
        'serial-number',
        'restriction-period',
      ]),
    );
  });
});
