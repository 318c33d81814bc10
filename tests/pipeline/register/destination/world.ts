import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Destination } from '../../../../src/delivery/destination/destination.js';
import { unsealed } from '../../../../src/delivery/outbox/sealing.js';
import { caseUuid } from '../../../../src/fhir/ids.js';
import {
  type CarriedOut,
  type CarryDeps,
  carryOut,
} from '../../../../src/pipeline/register/destination/carry-out.js';
import { resourceSystemOf } from '../../../../src/pipeline/settings.js';
import type { CaseFacts } from '../../../../src/register/facts.js';
import { openSqliteRegister } from '../../../../src/register/store/open.js';
import type { Register } from '../../../../src/register/store/register.js';
import { unconfiguredSite } from '../../../../src/site/site.js';
import { destination } from '../../../delivery/samples.js';
import { caseOf, device, SYSTEM } from '../../../register/facts.js';
import { SmallServer } from '../../../support/small-server.js';

export const drain = { di: '09506000117843', lot: 'L1', side: 'left', site: 'Left kidney' } as const;
export const plan = (key: string, what: string) => ({ key, what, by: 'ward', due: '2024-04-03' });
export const placed = caseOf('A', '2024-01-10', [
  device('drain', {
    ...drain,
    inOn: '2024-01-10',
    purpose: 'temporary',
    plans: [plan('out', 'Remove the drain'), plan('check', 'Ultrasound of the kidney')],
  }),
]);
export const removed = caseOf('B', '2024-03-01', [
  device('old', { ...drain, carried: {}, out: 1, outOn: '2024-03-01' }),
]);
export const withdrawn: CaseFacts = { ...removed, version: 2, digest: 'B2', status: 'withdrawn' };

const { namespace } = unconfiguredSite;
export const idOf = (role: string, of = 'A') => caseUuid(namespace, of, role);
const identifier = (role: string, of?: string) =>
  `"identifier":[{"system":"${resourceSystemOf(unconfiguredSite)}","value":"${idOf(role, of)}"}]`;

/** The resources of the placing case, with elements and digits that only others know. */
export const RESOURCES = {
  'Device/1': `{"resourceType":"Device","id":"1",${identifier('device/drain')},"status":"active","patient":{"reference":"Patient/p"},"property":[{"type":{"text":"Size"},"valueQuantity":[{"value":8.50,"unit":"Fr"}]}],"extension":[{"url":"https://ward.example/shelf","valueDecimal":1.0}]}`,
  'DeviceUseStatement/2': `{"resourceType":"DeviceUseStatement","id":"2",${identifier('use/drain')},"status":"active","_status":{"id":"s"},"subject":{"reference":"Patient/p"},"timingPeriod":{"start":"2024-01-10T09:25:00+13:00","end":"2024-04-03"},"device":{"reference":"Device/1"},"odd":{"value":1e2}}`,
  'ServiceRequest/3': `{"resourceType":"ServiceRequest","id":"3",${identifier('aftercare/out')},"status":"active","subject":{"reference":"Patient/p"}}`,
  'Task/4': `{"resourceType":"Task","id":"4",${identifier('task/out')},"status":"requested","for":{"reference":"Patient/p"}}`,
  'ServiceRequest/5': `{"resourceType":"ServiceRequest","id":"5",${identifier('aftercare/check')},"status":"active","subject":{"reference":"Patient/p"}}`,
  'Task/6': `{"resourceType":"Task","id":"6",${identifier('task/check')},"status":"accepted","for":{"reference":"Patient/p"}}`,
} as const;
export const PATIENT =
  '{"resourceType":"Patient","id":"p","identifier":[{"system":"https://ids.harbour.example/mrn","value":"4711"}]}';
const OTHER =
  '{"resourceType":"Patient","id":"q","identifier":[{"system":"https://ids.harbour.example/mrn","value":"9"}]}';

/** When the placing case was accepted, and the time at which tests begin. */
export const ACCEPTED = Date.UTC(2024, 0, 10);
export const NOW = Date.UTC(2024, 2, 2);

/** A register, a server that has the placing case, and a clock. */
export interface World {
  readonly server: SmallServer;
  readonly register: Register;
  now: number;
  take(facts: CaseFacts, more?: { readonly destination?: string }): Promise<readonly string[]>;
  carry(more?: Partial<CarryDeps>, settings?: Partial<Destination>): Promise<CarriedOut[]>;
  /** Another process on the same register. */
  reopened(): Promise<Register>;
  close(): Promise<void>;
}

export async function world(resources: Readonly<Record<string, string>> = RESOURCES): Promise<World> {
  const folder = mkdtempSync(join(tmpdir(), 'carry-out-'));
  const opened: Register[] = [];
  const reopened = async () => {
    const one = await openSqliteRegister(join(folder, 'register.db'), {
      sealing: unsealed,
      ownSystem: SYSTEM,
    });
    opened.push(one);
    return one;
  };
  const server = new SmallServer();
  for (const [address, text] of Object.entries({ ...resources, 'Patient/p': PATIENT, 'Patient/q': OTHER }))
    server.put(address, text);
  const register = await reopened();
  const made: World = {
    server,
    register,
    now: NOW,
    take: async (facts, more = {}) =>
      (await register.take({ facts, record: '', ...more }, more.destination ? ACCEPTED : made.now)).changed,
    carry: (more = {}, settings = {}) => {
      const to = destination('http://127.0.0.1/fhir', { name: 'records', ...settings });
      return carryOut({
        owed: register.owed,
        site: unconfiguredSite,
        targets: [{ destination: to, fetch: server.fetch }],
        clock: () => made.now,
        newId: () => 'one',
        random: () => 0.5,
        sleep: async () => undefined,
        ...more,
      });
    },
    reopened,
    close: async () => {
      for (const one of opened) await one.close();
      rmSync(folder, { recursive: true });
    },
  };
  await made.take(placed, { destination: 'records' });
  await made.carry();
  server.requests.length = 0;
  return made;
}
