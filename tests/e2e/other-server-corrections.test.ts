import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isDelivered } from '../../src/delivery/answer/outcome.js';
import type { PreparedCase } from '../../src/pipeline/prepare.js';
import { readCaseBack } from '../../src/pipeline/read-case-back.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { deps, destination } from '../delivery/samples.js';
import { addendumText, firstText, preparedVersion, secondText, withdrawnText } from '../support/corrected.js';
import { type OtherServer, startOtherServer } from './server/start.js';

/*
 * Corrections against a FHIR server of another make, HAPI FHIR's JPA server: its own reading of conditional updates,
 * of references inside a transaction and of search. Runs when asked for: npm run test:servers.
 */
const asked = process.env['CASETALLY_TEST_SERVERS'] === '1';

describe.skipIf(!asked)('corrections at HAPI FHIR 8.8.0', () => {
  let server: OtherServer;
  beforeAll(async () => {
    server = await startOtherServer();
  }, 900_000);
  afterAll(() => server?.close());

  const to = () => destination(server.baseUrl, { timeoutMs: 60_000 });
  const real = () => deps({ clock: Date.now, newId: randomUUID });

  async function send(prepared: PreparedCase): Promise<void> {
    const outcome = await submitCase(prepared, to(), real());
    if (!isDelivered(outcome)) throw new Error(JSON.stringify(outcome, null, 1));
    const again = await readCaseBack(prepared, outcome.receipt, to(), real());
    expect(again.complete).toBe(true);
    expect(again.differences).toEqual([]);
  }

  async function statuses(type: string): Promise<string[]> {
    const answer = await fetch(`${server.baseUrl}/${type}?_count=200`, {
      headers: { 'cache-control': 'no-cache' },
    });
    const bundle = (await answer.json()) as { entry?: { resource: { status: string } }[] };
    return (bundle.entry ?? []).map(({ resource }) => resource.status).sort();
  }

  it('supersedes, adds and withdraws as the embedded server does', async () => {
    await send(preparedVersion(firstText));
    await send(preparedVersion(addendumText, firstText));
    expect(await statuses('DocumentReference')).toEqual(['current', 'current']);
    const third = secondText.replace('version: 2', 'version: 3').replace('of: "1"', 'of: "2"');
    const corrected = preparedVersion(third, firstText, addendumText);
    await send(corrected);
    await send(corrected);
    expect(await statuses('DocumentReference')).toEqual(['current', 'superseded', 'superseded']);
    expect(await statuses('DeviceUseStatement')).toEqual(['active', 'entered-in-error']);
    expect(await statuses('Composition')).toEqual(['amended']);
    const fourth = withdrawnText.replace('version: 2', 'version: 4').replace('of: "1"', 'of: "3"');
    await send(preparedVersion(fourth, firstText, addendumText, third));
    expect(new Set(await statuses('DocumentReference'))).toEqual(new Set(['entered-in-error']));
    expect(await statuses('DeviceUseStatement')).toEqual(['entered-in-error', 'entered-in-error']);
    expect(new Set(await statuses('Procedure'))).toEqual(new Set(['entered-in-error']));
  }, 300_000);
});
