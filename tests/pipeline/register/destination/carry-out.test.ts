import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { statementsInMemory } from '../../../../src/delivery/destination/capability-cache.js';
import type { Outbox } from '../../../../src/delivery/outbox/outbox.js';
import { messageOf } from '../../../../src/findings/finding.js';
import type { CarriedOut } from '../../../../src/pipeline/register/destination/carry-out.js';
import { caseOf, device } from '../../../register/facts.js';
import { fhir } from '../../../support/small-server.js';
import {
  ACCEPTED,
  drain,
  idOf,
  NOW,
  placed,
  plan,
  RESOURCES,
  removed,
  type World,
  withdrawn,
  world,
} from './world.js';

let w: World;
beforeEach(async () => {
  w = await world();
});
afterEach(() => w.close());

const codes = (done: readonly CarriedOut[]) =>
  done.flatMap(({ findings }) => findings.map(({ code }) => code));
const states = () =>
  Object.keys(RESOURCES).map(address =>
    w.server.text(address) === '' ? 'gone' : w.server.at(address, 'status'),
  );
const open = ['active', 'active', 'active', 'requested', 'active', 'accepted'];
const closed = ['inactive', 'completed', 'completed', 'completed', 'revoked', 'cancelled'];
const asSent = () => Object.keys(RESOURCES).map(address => w.server.text(address));

describe('a device that came out', () => {
  it('is out at the destination: only what says so is changed, under the version that was read', async () => {
    expect(await w.take(removed)).toEqual(['A']);
    const done = await w.carry();
    expect(done).toMatchObject([{ case: 'A', destination: 'records', came: 'done', findings: [] }]);
    expect(states()).toEqual(closed);
    const expected = Object.values(RESOURCES).map((text, n) =>
      text
        .replace(/"status":"\w+"/, `"status":"${closed[n]}"`)
        .replace('"end":"2024-04-03"', '"end":"2024-03-01"'),
    );
    expect(asSent()).toEqual(expected);
    expect(w.server.writes.map(({ ifMatch }) => ifMatch)).toEqual(closed.map(() => 'W/"1"'));
    expect(await w.register.owed.list()).toEqual([]);
  });

  it('is written once, however often it is asked for', async () => {
    await w.take(removed);
    await w.carry();
    const { length } = w.server.writes;
    await w.register.owed.askAll('records');
    expect(await w.carry()).toMatchObject([{ came: 'done', updated: [] }]);
    await w.take(removed, { destination: 'records' });
    await w.carry();
    expect(w.server.writes).toHaveLength(length);
  });

  it('is as it was, letter for letter, when the removal is withdrawn', async () => {
    await w.take(removed);
    await w.carry();
    expect(await w.take(withdrawn)).toEqual(['A']);
    await w.carry();
    expect(asSent()).toEqual(Object.values(RESOURCES));
    expect(await w.register.owed.list()).toEqual([]);
    expect(await w.register.owed.changed('records', [idOf('device/drain'), idOf('task/out')])).toEqual(
      new Map(),
    );
  });

  it('has its new last day when the removal is corrected', async () => {
    await w.take(removed);
    await w.carry();
    const [fact] = removed.devices;
    await w.take({
      ...removed,
      version: 2,
      digest: 'B2',
      status: 'amended',
      devices: [{ ...fact!, outOn: '2024-03-02' }],
    });
    await w.carry();
    expect(w.server.text('DeviceUseStatement/2')).toContain('"end":"2024-03-02"');
    await w.take({ ...withdrawn, version: 3, digest: 'B3' });
    await w.carry();
    expect(asSent()).toEqual(Object.values(RESOURCES));
  });

  it('keeps the one day that a use without a beginning tells', async () => {
    w.server.put(
      'DeviceUseStatement/2',
      RESOURCES['DeviceUseStatement/2'].replace(/"timingPeriod":\{[^}]*\}/, '"timingDateTime":"2024-01-10"'),
    );
    await w.take(removed);
    await w.carry();
    expect(w.server.at('DeviceUseStatement/2', 'timingDateTime')).toBe('2024-01-10');
    expect(w.server.at('DeviceUseStatement/2', 'status')).toBe('completed');
    expect(w.server.text('DeviceUseStatement/2')).not.toContain('timingPeriod');
  });

  it('is not changed on a link that is only proposed, and is once a person decides', async () => {
    const [{ di: _di, lot: _lot, ...bare } = device('old')] = removed.devices;
    expect(await w.take({ ...removed, devices: [bare] })).toEqual([]);
    expect(await w.carry()).toEqual([]);
    expect(w.server.requests).toEqual([]);
    const said = { case: 'B', device: 'old', by: 'Dr Okonjo', why: 'Seen on the film', at: 5 };
    await w.register.decide({ kind: 'link', use: 'A/drain', ...said });
    await w.carry();
    expect(states()).toEqual(closed);
    await w.register.decide({ kind: 'unlink', ...said, at: 6 });
    await w.carry();
    expect(asSent()).toEqual(Object.values(RESOURCES));
  });
});

describe('plans', () => {
  it('of a device that was exchanged are done where the exchange was planned, and the others over', async () => {
    const [fact] = removed.devices;
    await w.take({
      ...removed,
      devices: [{ ...fact!, replacedBy: 'new' }, device('new', { ...drain, lot: 'L2' })],
    });
    await w.carry();
    expect(states()).toEqual(closed);
  });

  it('are over when a later case plans anew, and the device stays in use', async () => {
    const seen = device('old', { ...drain, carried: {}, plans: [plan('out', 'Remove the drain')] });
    await w.take(caseOf('B', '2024-03-01', [seen]));
    await w.carry();
    expect(states()).toEqual(['active', 'active', 'revoked', 'cancelled', 'revoked', 'cancelled']);
  });

  it('are over when the patient died', async () => {
    await w.take(caseOf('B', '2024-03-01', [], { died: '2024-03-01' }));
    await w.carry();
    expect(states()).toEqual(['active', 'active', 'revoked', 'cancelled', 'revoked', 'cancelled']);
  });

  it('that somebody has settled are left as they are, also when all is opened again', async () => {
    w.server.put('Task/4', RESOURCES['Task/4'].replace('requested', 'failed'));
    await w.take(removed);
    await w.carry();
    expect(w.server.at('Task/4', 'status')).toBe('failed');
    w.server.put('Task/6', RESOURCES['Task/6'].replace('accepted', 'completed'));
    await w.take(withdrawn);
    await w.carry();
    expect(states()).toEqual(['active', 'active', 'active', 'failed', 'active', 'completed']);
  });
});

describe('a destination', () => {
  it('that never got the case that placed it has nothing changed', async () => {
    const [fact] = removed.devices;
    await w.take(
      {
        ...placed,
        case: { ...placed.case, value: 'N' },
        digest: 'N',
        devices: [device('drain', { ...drain, lot: 'L7' })],
      },
      { destination: 'records' },
    );
    await w.take({ ...removed, devices: [{ ...fact!, lot: 'L7' }] });
    expect(await w.carry()).toMatchObject([{ case: 'N', came: 'done', updated: [], findings: [] }]);
    expect(w.server.writes).toEqual([]);
    expect(states()).toEqual(open);
  });

  it('is not asked about cases that it did not accept', async () => {
    await w.take(removed);
    expect(await w.carry({}, { name: 'archive' })).toEqual([]);
    expect(w.server.requests).toEqual([]);
  });

  it('whose search lags is asked again once it surely finds what it accepted', async () => {
    await w.take(placed, { destination: 'records' });
    await w.take(removed);
    w.now = ACCEPTED + 1_000;
    w.server.before = ({ address }) =>
      address.includes('?') && w.now < ACCEPTED + 50_000
        ? fhir(200, '{"resourceType":"Bundle","type":"searchset"}')
        : undefined;
    expect(await w.carry({}, { searchLagMs: 60_000 })).toMatchObject([
      { came: 'later', reason: 'not-found-yet' },
    ]);
    expect(await w.register.owed.list()).toMatchObject([{ dueAt: ACCEPTED + 60_000, held: false }]);
    w.now = ACCEPTED + 60_000;
    expect(await w.carry({}, { searchLagMs: 60_000 })).toMatchObject([{ came: 'done' }]);
    expect(states()).toEqual(closed);
  });

  it('whose search answers out of date is believed about nothing but the address', async () => {
    await w.take(removed);
    const stale = RESOURCES['DeviceUseStatement/2'];
    w.server.put('DeviceUseStatement/2', stale.replace('"odd"', '"note":[{"text":"Flushes well"}],"odd"'));
    w.server.before = ({ address }) =>
      address.startsWith('DeviceUseStatement?')
        ? fhir(200, `{"resourceType":"Bundle","type":"searchset","entry":[{"resource":${stale}}]}`)
        : undefined;
    await w.carry();
    expect(w.server.text('DeviceUseStatement/2')).toContain('Flushes well');
    expect(states()).toEqual(closed);
  });

  it.each([409, 412])('where somebody writes in between (%i) keeps what they wrote', async status => {
    await w.take(removed);
    let first = true;
    w.server.before = ({ method, address }) => {
      if (method !== 'PUT' || address !== 'Task/4' || !first) return undefined;
      first = false;
      w.server.put(
        'Task/4',
        RESOURCES['Task/4'].replace('"requested"', '"accepted","owner":{"display":"Ward 5"}'),
      );
      return fhir(status, '');
    };
    expect(await w.carry()).toMatchObject([{ came: 'done' }]);
    expect(w.server.text('Task/4')).toContain('Ward 5');
    expect(states()).toEqual(closed);
    await w.take(withdrawn);
    await w.carry();
    expect(w.server.at('Task/4', 'status')).toBe('accepted');
  });

  it('where somebody writes all the time is tried again later', async () => {
    await w.take(removed);
    w.server.before = ({ method }) => (method === 'PUT' ? fhir(412, '') : undefined);
    expect(await w.carry()).toMatchObject([{ came: 'later', reason: 'written-at-once', updated: [] }]);
    expect(await w.register.owed.list()).toMatchObject([{ held: false }]);
    w.server.before = () => undefined;
    w.now += 3_600_000;
    await w.carry();
    expect(states()).toEqual(closed);
  });

  it('that has lost something has the rest changed, and nothing made again', async () => {
    await w.take(removed);
    w.server.before = ({ method, address }) =>
      method === 'GET' && address === 'Device/1' ? fhir(410, '') : undefined;
    const done = await w.carry();
    expect(codes(done)).toEqual(['register.gone']);
    expect(done.flatMap(({ findings }) => findings.map(one => messageOf(one)))).toEqual([
      'records no longer has Device/1 of case A. It was not created again.',
    ]);
    expect(states()).toEqual(['active', ...closed.slice(1)]);
    expect(await w.register.owed.list()).toEqual([]);
  });

  it('that deletes something between reading and writing has it stay deleted', async () => {
    await w.take(removed);
    w.server.before = ({ method, address }) => {
      if (method === 'PUT' && address === 'Device/1') w.server.delete('Device/1');
      return undefined;
    };
    expect(codes(await w.carry())).toEqual(['register.gone']);
    expect(w.server.text('Device/1')).toBe('');
    expect(states()).toEqual(['gone', ...closed.slice(1)]);
  });

  it('where one resource is of another patient has nothing of the case changed', async () => {
    await w.take(removed);
    w.server.put('Task/6', RESOURCES['Task/6'].replace('Patient/p', 'Patient/q'));
    const done = await w.carry();
    expect(codes(done)).toEqual(['register.not-ours']);
    expect(w.server.writes).toEqual([]);
    expect(await w.register.owed.list()).toMatchObject([{ held: true, reason: 'register.not-ours' }]);
    // Nothing happens by itself, and all of it once a person has put it right.
    w.server.put('Task/6', RESOURCES['Task/6']);
    w.now += 86_400_000;
    expect(await w.carry()).toEqual([]);
    await w.register.owed.retry(w.now);
    await w.carry();
    expect(states()).toEqual(closed);
  });

  it.each([
    ['of another device', RESOURCES['DeviceUseStatement/2'].replace('Device/1', 'Device/11')],
    ['of nobody', RESOURCES['DeviceUseStatement/2'].replace(/"subject":\{[^}]*\},/, '')],
    [
      'of a number that is another one',
      RESOURCES['DeviceUseStatement/2'].replace(
        '{"reference":"Patient/p"}',
        '{"identifier":{"system":"https://ids.harbour.example/mrn","value":"9"}}',
      ),
    ],
  ])('where the use is %s has nothing of the case changed', async (_what, text) => {
    await w.take(removed);
    w.server.put('DeviceUseStatement/2', text);
    expect(codes(await w.carry())).toEqual(['register.not-ours']);
    expect(w.server.writes).toEqual([]);
  });

  it('whose address of the patient is absolute, or a number, is about the same one', async () => {
    w.server.put('Device/1', RESOURCES['Device/1'].replace('Patient/p', 'http://127.0.0.1/fhir/Patient/p'));
    w.server.put(
      'Task/4',
      RESOURCES['Task/4'].replace(
        '{"reference":"Patient/p"}',
        '{"identifier":{"system":"https://ids.harbour.example/mrn","value":"4711"}}',
      ),
    );
    await w.take(removed);
    await w.carry();
    expect(states()).toEqual(closed);
  });

  it('with two under one identifier has neither changed', async () => {
    await w.take(removed);
    w.server.put('Device/7', RESOURCES['Device/1'].replace('"id":"1"', '"id":"7"'));
    expect(codes(await w.carry())).toEqual(['register.several-there']);
    expect(w.server.writes).toEqual([]);
  });

  it('that gives a part of a resource has it left whole', async () => {
    await w.take(removed);
    w.server.before = ({ method, address }) =>
      method === 'GET' && address === 'Device/1'
        ? fhir(
            200,
            RESOURCES['Device/1'].replace('{', '{"meta":{"versionId":"1","tag":[{"code":"SUBSETTED"}]},'),
          )
        : undefined;
    expect(codes(await w.carry())).toEqual(['register.not-whole']);
    expect(w.server.writes).toEqual([]);
  });

  it('without versions is written to only when a person says so', async () => {
    await w.take(removed);
    w.server.versions = false;
    expect(codes(await w.carry())).toEqual(['register.no-versions']);
    expect(w.server.writes).toEqual([]);
    await w.register.owed.retry(w.now);
    expect(await w.carry({ withoutVersions: true })).toMatchObject([{ came: 'done' }]);
    expect(states()).toEqual(closed);
    expect(w.server.writes.every(({ ifMatch }) => ifMatch === undefined)).toBe(true);
  });

  it('that says it keeps no versions is believed, whatever tag it gives', async () => {
    await w.take(removed);
    const statements = statementsInMemory();
    const resource = ['Device', 'Task'].map(type => ({ type, versioning: 'no-version' }));
    const statement = {
      resourceType: 'CapabilityStatement',
      fhirVersion: '4.0.1',
      rest: [{ mode: 'server', resource }],
    };
    await statements.put('http://127.0.0.1/fhir', { readAt: NOW, text: JSON.stringify(statement) });
    expect(codes(await w.carry({ statements }))).toEqual(['register.no-versions']);
    expect(w.server.writes).toEqual([]);
  });

  it('that speaks another release of FHIR is left alone', async () => {
    await w.take(removed);
    const statements = statementsInMemory();
    const statement = { resourceType: 'CapabilityStatement', fhirVersion: '5.0.0' };
    await statements.put('http://127.0.0.1/fhir', { readAt: NOW, text: JSON.stringify(statement) });
    expect(await w.carry({ statements })).toMatchObject([{ came: 'later', reason: 'other-version' }]);
    expect(w.server.requests).toEqual([]);
  });

  it('that refuses is a matter for a person; one that is busy is tried again when it said', async () => {
    await w.take(removed);
    w.server.before = ({ method }) => (method === 'PUT' ? fhir(422, '') : undefined);
    expect(codes(await w.carry())).toEqual(['register.update-refused']);
    await w.register.owed.retry(w.now);
    w.server.before = ({ method }) => (method === 'PUT' ? fhir(429, '', { 'retry-after': '70' }) : undefined);
    expect(await w.carry()).toMatchObject([{ came: 'later', reason: 'rate-limit' }]);
    const asked = [{ dueAt: NOW + 70_000, held: false, reason: 'rate-limit' }];
    expect(await w.register.owed.list()).toMatchObject(asked);
    // Nor is it asked before that when a person is impatient.
    await w.register.owed.retry(NOW + 60_000);
    expect(await w.register.owed.list()).toMatchObject(asked);
    await w.register.owed.retry(NOW + 70_000);
    expect(await w.register.owed.list()).toMatchObject([{ dueAt: 0 }]);
  });

  it('that lets nobody read the patient is a matter for a person, and named so', async () => {
    await w.take(removed);
    w.server.before = ({ address }) => (address === 'Patient/p' ? fhir(403, '') : undefined);
    const done = await w.carry();
    expect(codes(done)).toEqual(['register.update-refused']);
    expect(JSON.stringify(done)).toContain('Patient/p');
    expect(w.server.writes).toEqual([]);
  });

  it.each([503, 500, 200])('that answers a read with %i and nothing is tried again', async status => {
    await w.take(removed);
    w.server.before = ({ method, address }) =>
      method === 'GET' && address === 'Device/1' ? fhir(status, '') : undefined;
    expect(await w.carry()).toMatchObject([{ came: 'later', findings: [] }]);
    w.server.before = () => undefined;
    w.now += 3_600_000;
    await w.carry();
    expect(states()).toEqual(closed);
  });

  it('without tasks has the rest changed', async () => {
    await w.take(removed);
    w.server.before = ({ address }) => (address.startsWith('Task') ? fhir(404, '') : undefined);
    expect(await w.carry()).toMatchObject([{ came: 'done', findings: [] }]);
    expect(states()).toEqual(['inactive', 'completed', 'completed', 'requested', 'revoked', 'accepted']);
  });

  it('that is closed, or has something of the case on its way, is left for now', async () => {
    await w.take(removed);
    const gate = { destination: 'records', closedUntil: NOW + 5_000, failures: 1 };
    const outbox = (one: object, coming: number): Pick<Outbox, 'gate' | 'list'> => ({
      gate: async () => ({ ...gate, ...one }),
      list: async () => Array.from({ length: coming }, () => ({})) as Awaited<ReturnType<Outbox['list']>>,
    });
    expect(await w.carry({ outbox: outbox({}, 0) })).toMatchObject([{ came: 'later' }]);
    w.now += 5_000;
    expect(await w.carry({ outbox: outbox({}, 1) })).toMatchObject([{ came: 'later', reason: 'on-its-way' }]);
    expect(w.server.requests).toEqual([]);
    w.now += 60_000;
    await w.carry({ outbox: outbox({}, 0) });
    expect(states()).toEqual(closed);
  });

  it('in R5 has its own names of the same', async () => {
    await w.close();
    const { 'DeviceUseStatement/2': use, ...others } = RESOURCES;
    w = await world({
      ...others,
      'Device/1': RESOURCES['Device/1'].replace('"patient":{"reference":"Patient/p"},', ''),
      'DeviceUsage/2': use
        .replaceAll('DeviceUseStatement', 'DeviceUsage')
        .replace('"subject"', '"patient"')
        .replace('"device":{"reference":"Device/1"}', '"device":{"reference":{"reference":"Device/1"}}'),
    });
    await w.take(removed);
    expect(await w.carry({}, { fhirVersion: '5.0.0' })).toMatchObject([{ came: 'done', findings: [] }]);
    expect(w.server.at('DeviceUsage/2', 'status')).toBe('completed');
    expect(w.server.at('Device/1', 'status')).toBe('inactive');
  });
});

describe('stopped at any moment', () => {
  /** Requests of one closing and one reopening: far fewer than this. */
  const most = 120;

  async function dies(atRequest: number, when: 'before' | 'after'): Promise<boolean> {
    let seen = 0;
    let died: () => void = () => undefined;
    const dead = new Promise<'died'>(resolve => {
      died = () => resolve('died');
    });
    const stop = async () => {
      seen += 1;
      if (seen !== atRequest) return;
      died();
      await new Promise(() => undefined);
    };
    w.server.before = () =>
      when === 'before' ? stop().then(() => undefined as unknown as Response) : undefined;
    w.server.after = () => (when === 'after' ? stop() : undefined);
    const came = await Promise.race([w.carry(), dead]);
    w.server.before = () => undefined;
    w.server.after = () => undefined;
    return came === 'died';
  }

  it.each(['before', 'after'] as const)(
    '%s a request, it is brought to the end by whoever comes next',
    async when => {
      let points = 0;
      for (let n = 1; n < most; n += 1) {
        await w.close();
        w = await world();
        await w.take(removed);
        const first = await dies(n, when);
        if (!first) break;
        points += 1;
        // Held by the dead one until its lease has run out.
        expect(await w.carry()).toEqual([]);
        w.now += 600_000;
        await w.carry();
        expect(states()).toEqual(closed);
        await w.take(withdrawn);
        await dies(n, when);
        w.now += 600_000;
        await w.carry();
        expect(asSent()).toEqual(Object.values(RESOURCES));
        expect(await w.register.owed.list()).toEqual([]);
      }
      // Six resources are searched for, read and written, and the patient is read once.
      expect(points).toBe(6 * 3 + 1);
    },
  );

  it('what is asked for meanwhile is not lost to one that comes too late', async () => {
    await w.take(removed);
    let inTheMiddle = true;
    w.server.after = async ({ address, method }) => {
      if (!inTheMiddle || method !== 'GET' || address !== 'Task/6') return;
      inTheMiddle = false;
      await w.take(withdrawn);
    };
    await w.carry();
    expect(asSent()).toEqual(Object.values(RESOURCES));
    expect(await w.register.owed.list()).toEqual([]);
  });

  it('writes nothing after its lease, and the next one does', async () => {
    await w.take(removed);
    w.server.after = async ({ address }) => {
      if (address === 'Patient/p') w.now += 900_000;
    };
    expect(await w.carry()).toMatchObject([{ came: 'later', updated: [] }]);
    expect(w.server.writes).toEqual([]);
    w.server.after = () => undefined;
    w.now += 900_000;
    await w.carry();
    expect(states()).toEqual(closed);
  });
});
