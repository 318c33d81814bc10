import type { Resource } from 'fhir/r4.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { destinationAt } from '../../src/delivery/destination/destination.js';
import { stops } from '../../src/findings/finding.js';
import type { PreparedCase } from '../../src/pipeline/prepare.js';
import { readCaseBack } from '../../src/pipeline/read-case-back.js';
import { submitCase } from '../../src/pipeline/send-case.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import {
  addendumText,
  firstText,
  knownVersion,
  laterText,
  secondText,
  withdrawnText,
} from '../support/corrected.js';

let server: RunningSandbox;
let ids = 0;
const deps = { clock: () => Date.parse('2024-09-18T08:00:00Z'), newId: () => `request-${++ids}` };

beforeEach(async () => {
  server = await startSandbox();
});
afterEach(() => server.close());

async function send(prepared: PreparedCase) {
  const { destination } = destinationAt(server.baseUrl);
  if (!destination) throw new Error('no destination');
  const outcome = await submitCase(prepared, destination, deps);
  if (!('receipt' in outcome))
    throw new Error(JSON.stringify([outcome.state, outcome.issues, outcome.findings]));
  const again = await readCaseBack(prepared, outcome.receipt, destination, deps);
  expect(again.complete).toBe(true);
  expect(again.differences).toEqual([]);
  return outcome;
}

async function search<T extends Resource>(query: string): Promise<T[]> {
  const answer = await fetch(`${server.baseUrl}/${query}${query.includes('?') ? '&' : '?'}_count=200`);
  expect(answer.status).toBe(200);
  const bundle = (await answer.json()) as { entry?: { resource: T }[] };
  return (bundle.entry ?? []).map(entry => entry.resource);
}

type Held = Resource & Record<string, unknown>;
const all = () => JSON.parse(JSON.stringify(server.repository.all())) as Held[];
const count = () => all().length;
const stateOf = (resource: Held) => resource['status'];

describe('an amended report', () => {
  const first = knownVersion(firstText);
  const second = knownVersion(secondText, firstText);

  it('can be sent: no finding is an error, and nothing is left to say about the earlier one', () => {
    expect(second.findings.filter(stops)).toEqual([]);
    expect(second.findings.map(f => f.code)).not.toContain('correction.earlier-not-given');
  });

  // FHIR R4 DocumentReference.relatesTo and status: the replaced document is superseded, one is current.
  it('supersedes the first document, which stays reachable', async () => {
    await send(first);
    const [before] = await search<Held>('DocumentReference?status=current');
    await send(second);
    const current = await search<Held>('DocumentReference?status=current');
    const superseded = await search<Held>('DocumentReference?status=superseded');
    expect(current).toHaveLength(1);
    expect(superseded.map(r => r.id)).toEqual([before?.id]);
    expect(current[0]?.['relatesTo']).toMatchObject([
      { code: 'replaces', target: { reference: `DocumentReference/${before?.id}` } },
    ]);
    // Everything but the status is as it was.
    const content = ({ meta: _meta, status: _status, ...rest }: Held) => rest;
    expect(superseded.map(content)).toEqual([before].map(r => r && content(r)));
  });

  it('leaves no device of the first version in use', async () => {
    await send(first);
    expect(await search('DeviceUseStatement')).toHaveLength(2);
    await send(second);
    const states = (await search<Held>('DeviceUseStatement')).map(stateOf).sort();
    expect(states).toEqual(['active', 'entered-in-error']);
    const devices = (await search<Held>('Device')).filter(r => r['lotNumber'] === 'MC1025B');
    expect(devices.map(stateOf)).toEqual(['entered-in-error']);
  });

  it('keeps one Composition, with both versions in its history', async () => {
    await send(first);
    await send(second);
    const [composition, ...others] = await search<Held>('Composition');
    expect(others).toEqual([]);
    expect(composition?.['status']).toBe('amended');
    const history = await fetch(`${server.baseUrl}/Composition/${composition?.id}/_history`);
    expect(((await history.json()) as { entry: unknown[] }).entry).toHaveLength(2);
  });

  it('doubles nothing when it is sent twice', async () => {
    await send(first);
    await send(second);
    const held = count();
    await send(second);
    expect(count()).toBe(held);
    expect(await search('DocumentReference?status=current')).toHaveLength(1);
  });

  it('says who changed it and why, and names everything that it touched', async () => {
    await send(first);
    await send(second);
    const [account] = (await search<Held>('Provenance')).filter(r => r['reason'] !== undefined);
    expect(account?.['reason']).toMatchObject([{ text: expect.stringContaining('scanned into this one') }]);
    const targets = JSON.stringify(account?.['target']);
    const gone = all().filter(r => stateOf(r) === 'entered-in-error');
    expect(gone.map(r => r.resourceType)).toEqual(expect.arrayContaining(['Device', 'DeviceUseStatement']));
    for (const retired of gone) expect(targets).toContain(`${retired.resourceType}/${retired.id}`);
  });

  it('without the earlier one is not sent, so that there are never two current reports', async () => {
    const alone = knownVersion(secondText);
    expect(alone.findings.filter(stops)).toEqual([]);
    await send(first);
    const { destination } = destinationAt(server.baseUrl);
    if (!destination) throw new Error('no destination');
    const outcome = await submitCase(alone, destination, deps);
    expect([outcome.state, outcome.findings.map(f => f.code)]).toEqual([
      'not-sent',
      ['correction.earlier-not-given'],
    ]);
    expect(await search('DocumentReference?status=current')).toHaveLength(1);
  });
});

describe('a Task that a ward took up', () => {
  const dated = (due: string) => (text: string) =>
    text.replace(/^aftercare:$/m, `aftercare:\n  - { key: look, do: Look at it, by: ward, due: ${due} }`);
  const original = dated('2024-09-20')(firstText);
  const taskNamed = async (text: string) =>
    (await search<Held & { code: { text: string } }>('Task')).filter(task => task.code.text === text);
  const held = async () => (await taskNamed('Look at it'))[0];

  beforeEach(async () => {
    await send(knownVersion(original));
    const [task] = await taskNamed('Look at it');
    await fetch(`${server.baseUrl}/Task/${task?.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({ ...task, status: 'accepted' }),
    });
    expect((await held())?.['status']).toBe('accepted');
  });

  async function sendCorrection(text: string) {
    const { destination } = destinationAt(server.baseUrl);
    if (!destination) throw new Error('no destination');
    const outcome = await submitCase(knownVersion(text, original), destination, deps);
    expect(outcome.state).toBe('delivered');
    expect(await taskNamed('Look at it')).toHaveLength(1);
  }

  it('stays taken up when the report is corrected elsewhere', async () => {
    await sendCorrection(dated('2024-09-20')(secondText));
    expect(await held()).toMatchObject({ status: 'accepted', authoredOn: '2024-09-17T14:20:00+03:00' });
    // The Task of the drain that is out of the record is retired.
    expect((await taskNamed('Remove or change')).map(stateOf).sort()).toEqual([
      'entered-in-error',
      'requested',
    ]);
  });

  it('is asked for anew when its day was corrected', async () => {
    await sendCorrection(dated('2024-09-23')(secondText));
    expect(await held()).toMatchObject({
      status: 'requested',
      restriction: { period: { end: '2024-09-23' } },
    });
  });

  it('is entered in error, with the reason, when the item is gone or the report withdrawn', async () => {
    await sendCorrection(secondText);
    expect(await held()).toMatchObject({
      status: 'entered-in-error',
      statusReason: { text: expect.stringContaining('scanned into this one') },
    });
    await sendCorrection(dated('2024-09-20')(withdrawnText));
    expect(await held()).toMatchObject({
      status: 'entered-in-error',
      statusReason: { text: 'Recorded under the wrong patient' },
    });
  });
});

describe('a preliminary report that becomes final', () => {
  it('is superseded by it', async () => {
    const preliminary = laterText('{ status: preliminary, version: 1, author: op }');
    const final = laterText('{ status: final, version: 2, author: op, signedAt: "14:20" }');
    await send(knownVersion(preliminary));
    await send(knownVersion(final, preliminary));
    const documents = await search<Held>('DocumentReference');
    expect(documents.map(r => `${r['status']} ${r['docStatus']}`).sort()).toEqual([
      'current final',
      'superseded preliminary',
    ]);
  });
});

describe('an addendum', () => {
  it('leaves the original current beside it', async () => {
    await send(knownVersion(firstText));
    const addendum = knownVersion(addendumText, firstText);
    expect(addendum.findings.filter(f => f.code.startsWith('correction.'))).toEqual([]);
    await send(addendum);
    const documents = await search<Held>('DocumentReference');
    expect(documents.map(stateOf)).toEqual(['current', 'current']);
    expect(documents.flatMap(r => r['relatesTo'] ?? [])).toMatchObject([{ code: 'appends' }]);
    expect((await search<Held>('DeviceUseStatement')).map(stateOf)).toEqual(['active', 'active']);
  });

  it('is superseded together with the original by a later correction', async () => {
    const third = secondText
      .replace('version: 2', 'version: 3')
      .replace('of: "1"', 'of: "2"')
      .replaceAll('2024-09-17T1', '2024-09-19T1');
    const prepared = knownVersion(
      third.replace(/2024-09-19T1(2:20|[0-2]:)/g, '2024-09-17T1$1'),
      addendumText,
      firstText,
    );
    expect(prepared.findings.filter(stops)).toEqual([]);
    await send(knownVersion(firstText));
    await send(knownVersion(addendumText, firstText));
    await send(prepared);
    const states = (await search<Held>('DocumentReference')).map(stateOf).sort();
    expect(states).toEqual(['current', 'superseded', 'superseded']);
  });
});

describe('a withdrawn report', () => {
  const shared = ['Patient', 'Practitioner', 'Organization', 'Location', 'Encounter'];

  it('marks all that the case sent as entered in error, and leaves the patient alone', async () => {
    await send(knownVersion(firstText));
    const before = all().filter(r => shared.includes(r.resourceType));
    const withdrawn = knownVersion(withdrawnText, firstText);
    expect(withdrawn.findings.filter(stops)).toEqual([]);
    const held = count();
    await send(withdrawn);
    // The new document, and the account of why.
    expect(count()).toBe(held + 2);
    expect(all().filter(r => shared.includes(r.resourceType))).toEqual(before);
    const own = all().filter(
      r =>
        !shared.includes(r.resourceType) &&
        r.resourceType !== 'Provenance' &&
        !JSON.stringify(r).includes('"name":"Casetally"'),
    );
    expect(own.length).toBeGreaterThan(20);
    const marks = own.map(r => {
      const mark = r['status'] ?? r['verificationStatus'] ?? r['active'];
      return `${r.resourceType} ${JSON.stringify(mark)}`;
    });
    expect(marks.filter(mark => !/entered-in-error|BodyStructure false/.test(mark))).toEqual([]);
    expect(await search('DocumentReference?status=current')).toEqual([]);
    const accounts = await search<Held>('Provenance');
    expect(JSON.stringify(accounts)).toContain('Recorded under the wrong patient');
    expect(JSON.stringify(accounts)).toContain('NULLIFY');
  });

  it('never deletes, and doubles nothing when it is sent twice', async () => {
    const withdrawn = knownVersion(withdrawnText, firstText);
    expect(withdrawn.submission).not.toContain('"DELETE"');
    await send(knownVersion(firstText));
    await send(withdrawn);
    const held = count();
    await send(withdrawn);
    expect(count()).toBe(held);
  });
});
