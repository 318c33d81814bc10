import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { packageFiles } from '../../src/conformance/packages/read.js';
import { isDelivered } from '../../src/delivery/answer/outcome.js';
import type { Destination } from '../../src/delivery/destination/destination.js';
import { examineDestination } from '../../src/delivery/destination/examine.js';
import { examineProfiles } from '../../src/delivery/destination/examine-profiles.js';
import { planPush, push } from '../../src/delivery/destination/push.js';
import { openSession } from '../../src/delivery/destination/session.js';
import { messageOf } from '../../src/findings/finding.js';
import { conformanceResources, ownPackage } from '../../src/pipeline/own-package.js';
import { profileProbe } from '../../src/pipeline/probe.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { deps, destination } from '../delivery/samples.js';
import { exampleFiles, preparedExample } from '../support/examples.js';
import { type OtherServer, startOtherServer } from './server/start.js';

const asked = process.env['CASETALLY_TEST_SERVERS'] === '1';
const title = asked ? 'profiles at HAPI FHIR 8.8.0' : 'profiles (skipped: npm run test:servers runs it)';
const ipsFolder = join(import.meta.dirname, '..', '..', 'node_modules', 'hl7.fhir.uv.ips');

describe.skipIf(!asked)(title, () => {
  let server: OtherServer;
  beforeAll(async () => {
    server = await startOtherServer();
  }, 900_000);
  afterAll(() => server?.close());

  const to = (more: Partial<Destination> = {}) =>
    destination(server.baseUrl, { name: 'records', timeoutMs: 120_000, ...more });
  const open = (more: Partial<Destination> = {}) =>
    openSession(to(more), deps({ clock: Date.now, newId: randomUUID }));
  const examine = async (more: Partial<Destination> = {}) => {
    const session = open(more);
    const { capabilities } = await examineDestination(session);
    const { check, findings } = await examineProfiles(
      session,
      profileProbe(unconfiguredSite, to(), '0.1.0'),
      capabilities,
    );
    console.log(
      `${check.verdict} ${check.detail} ${findings.map(f => `${f.code}: ${messageOf(f)}`).join('; ')}`,
    );
    return { check, findings };
  };

  it('are loaded once, ours and those that they stand on', async () => {
    await examine();
    const all = [...conformanceResources(packageFiles(ipsFolder)), ...ownPackage('0.1.0')];
    const first = await push(await planPush(all, open()), open());
    expect(first.filter(({ result }) => result !== 'created' && result !== 'there')).toEqual([]);
    const again = await planPush(all, open());
    expect(again.filter(({ now }) => now !== 'same')).toEqual([]);
  }, 600_000);

  it('every example is taken by what doctor proposes', async () => {
    const { check, findings } = await examine();
    const setting = findings[0]?.params['setting'];
    const profiles =
      check.verdict === 'fail' && (setting === 'base' || setting === 'none') ? setting : 'ours';
    if (profiles !== 'ours') expect((await examine({ profiles })).check.verdict).toBe('pass');
    for (const file of exampleFiles) {
      const outcome = await submitCase(
        preparedExample(file),
        to({ profiles }),
        deps({ clock: Date.now, newId: randomUUID }),
      );
      if (!isDelivered(outcome))
        throw new Error(`${file}: ${outcome.findings.map(f => messageOf(f)).join('; ')}`);
    }
  }, 600_000);
});
