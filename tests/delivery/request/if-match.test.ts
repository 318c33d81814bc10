import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { versionsTaken, withVersions } from '../../../src/delivery/request/if-match.js';
import { digestOf, readSubmission } from '../../../src/delivery/request/submission.js';
import { sendDurably } from '../../../src/delivery/worker/send-durably.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { messageOf, remedyOf } from '../../../src/findings/finding.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { deps, destination, SYSTEM, submissionText, urn } from '../samples.js';

let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(() => server.close());

/** The sample as an amendment: everything but the patient is an update by identifier. */
const amendment = (caseId: string, change = (text: string) => text) =>
  submissionText(caseId, text =>
    change(
      text.replace(
        /"method": "POST", "url": "(Procedure|Device|Observation)", "ifNoneExist": "([^"]+)"/g,
        '"method": "PUT", "url": "$1?$2"',
      ),
    ),
  );
const otherLot = (text: string) => text.replace('L-17', 'L-18');

/** A server that does not look at `If-Match`, as many do in conditional updates. */
const deaf: typeof fetch = (url, init) => {
  const body =
    typeof init?.body === 'string'
      ? init.body.replace(/,?\s*"ifMatch":\s*"(?:[^"\\]|\\.)*"/g, '')
      : init?.body;
  return fetch(url, { ...init, ...(body !== undefined && { body }) });
};

function setUp(caseId: string, way: typeof globalThis.fetch = globalThis.fetch) {
  const d = deps();
  const bodies: string[] = [];
  const fetch: typeof globalThis.fetch = (url, init) => {
    if (init?.method === 'POST') bodies.push(String(init.body));
    return way(url, init);
  };
  const outbox = new MemoryOutbox(d.newId);
  const worker = {
    outbox,
    targets: [{ destination: destination(server.baseUrl), fetch }],
    clock: d.clock,
    newId: d.newId,
    random: () => 0.5,
    ...(d.sleep && { sleep: d.sleep }),
  };
  const item = (payload: string) => ({
    destination: 'test server',
    caseKey: caseId,
    patientKey: 'p',
    payload,
    digest: digestOf(payload),
  });
  const send = (text: string, overwrite = false) => sendDurably(item(text), worker, overwrite);
  /** What the newest transaction asked for. */
  const asked = () => readSubmission(bodies.at(-1) ?? '')?.entries.map(e => [e.type, e.ifMatch]);
  const again = () => drain(worker);
  return { outbox, send, again, asked, bodies };
}

const held = async (caseId: string, type: string, part: string) => {
  const criteria = encodeURIComponent(`${SYSTEM}|${caseId}-${part}`);
  const found = (await (await fetch(`${server.baseUrl}/${type}?identifier=${criteria}`)).json()) as {
    entry: { resource: { id: string; lotNumber?: string; meta: { versionId: string } } }[];
  };
  expect(found.entry).toHaveLength(1);
  const [only] = found.entry;
  if (!only) throw new Error('nothing held');
  return only.resource;
};

/** Somebody else changes the device at the server. */
async function changeThere(caseId: string): Promise<void> {
  const device = await held(caseId, 'Device', 'drain');
  const answer = await fetch(`${server.baseUrl}/Device/${device.id}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/fhir+json' },
    body: JSON.stringify({ ...device, lotNumber: 'changed by others' }),
  });
  expect(answer.status).toBe(200);
}

describe('an amendment after a receipt', () => {
  it('asks for the versions that the receipt tells of, and is taken', async () => {
    const { send, asked } = setUp('amend');
    const first = await send(submissionText('amend'));
    expect(first.item.receipt?.entries.map(e => e.version)).toEqual(['1', '1', '1', '1']);
    const second = await send(amendment('amend', otherLot));
    expect(second.item.state).toBe('delivered');
    const sent = asked();
    expect(sent).toEqual([
      ['Patient', undefined],
      ['Procedure', first.item.receipt?.entries[1]?.etag],
      ['Device', first.item.receipt?.entries[2]?.etag],
      ['Observation', first.item.receipt?.entries[3]?.etag],
    ]);
    expect(sent?.[2]?.[1]).toMatch(/^W\/"1"$/);
    expect(await held('amend', 'Device', 'drain')).toMatchObject({ lotNumber: 'L-18' });
    // What is kept is what was taken in, and the receipt is about that.
    expect(second.item.payload).toBe(amendment('amend', otherLot));
    expect([second.item.digest, second.item.receipt?.digest]).toEqual([
      digestOf(second.item.payload),
      digestOf(second.item.payload),
    ]);
  });

  it('keeps the digits of its numbers', async () => {
    const { send, bodies } = setUp('digits');
    await send(submissionText('digits'));
    await send(amendment('digits', otherLot));
    expect(bodies.at(-1)).toContain('"ifMatch"');
    expect(bodies.at(-1)).toContain('"value":4.20');
  });

  it('goes on where a server counted a version on and changed nothing', async () => {
    const { send, asked } = setUp('counted');
    await send(submissionText('counted'));
    const device = await held('counted', 'Device', 'drain');
    const answer = await fetch(`${server.baseUrl}/Device/${device.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({
        ...device,
        meta: { tag: [{ system: 'https://tags.example', code: 'indexed' }] },
      }),
    });
    expect(answer.status).toBe(200);
    expect((await held('counted', 'Device', 'drain')).meta.versionId).toBe('2');
    const second = await send(amendment('counted', otherLot));
    expect(second.item.state).toBe('delivered');
    expect(asked()?.[2]).toEqual(['Device', 'W/"2"']);
    expect(await held('counted', 'Device', 'drain')).toMatchObject({ lotNumber: 'L-18' });
    expect(second.item.receipt?.digest).toBe(digestOf(second.item.payload));
  });

  it('overwrites nothing that was changed there since: a person sees both', async () => {
    const { send } = setUp('clash');
    await send(submissionText('clash'));
    await changeThere('clash');
    const { item, findings } = await send(amendment('clash', otherLot));
    expect([item.state, item.parked?.reason]).toEqual(['parked', 'version-conflict']);
    expect(findings.map(f => f.code)).toContain('delivery.conflict');
    expect(await held('clash', 'Device', 'drain')).toMatchObject({ lotNumber: 'changed by others' });
  });

  it('takes theirs or overwrites it, as a person says', async () => {
    const { send, outbox, again } = setUp('choose');
    await send(submissionText('choose'));
    await changeThere('choose');
    const { item } = await send(amendment('choose', otherLot));
    expect(item.parked?.findings.map(f => remedyOf(f)).join('\n')).toMatch(
      /outbox discard ITEM.*outbox retry ITEM --overwrite/,
    );
    const by = { field: 'overwrite', sent: '', held: '', by: 'Sefa Marquand', why: 'wrong lot there', at: 1 };
    expect(await outbox.retry(item.id, 0, { overwrite: true, accepted: [by] })).toBe(true);
    await again();
    expect(await outbox.get(item.id)).toMatchObject({ state: 'delivered', accepted: [by] });
    expect(await held('choose', 'Device', 'drain')).toMatchObject({ lotNumber: 'L-18' });
  });

  it('overwrites nothing at a server that does not look at If-Match either', async () => {
    const { send } = setUp('deaf', deaf);
    await send(submissionText('deaf'));
    await changeThere('deaf');
    const { item, findings } = await send(amendment('deaf', otherLot));
    expect([item.state, item.parked?.reason, item.attempts]).toEqual(['parked', 'version-conflict', 1]);
    const said = findings.map(f => messageOf(f)).join('\n');
    const { id } = await held('deaf', 'Device', 'drain');
    // The observation that this version changes itself is no edit of others.
    expect(said).toContain(
      `${server.baseUrl}/Device/${id} was edited there: Device.lotNumber is changed by others; this version of the record has L-18.`,
    );
    expect(findings.filter(f => f.code === 'delivery.edited-there')).toHaveLength(1);
    expect(await held('deaf', 'Device', 'drain')).toMatchObject({ lotNumber: 'changed by others' });
  });

  it('is taken by such a server when nobody changed anything', async () => {
    const { send } = setUp('deaf-2', deaf);
    await send(submissionText('deaf-2'));
    expect((await send(amendment('deaf-2', otherLot))).item.state).toBe('delivered');
    expect(await held('deaf-2', 'Device', 'drain')).toMatchObject({ lotNumber: 'L-18' });
  });

  it('is sent over it when a person says so, after discarding the one that clashed', async () => {
    const { outbox, send } = setUp('forced');
    await send(submissionText('forced'));
    await changeThere('forced');
    const clashed = await send(amendment('forced', otherLot));
    await outbox.discard(clashed.item.id, { reason: 'ours is right', by: 'a person', at: 1, findings: [] });
    const forced = await send(amendment('forced', otherLot), true);
    expect(forced.item.state).toBe('delivered');
    expect(await held('forced', 'Device', 'drain')).toMatchObject({ lotNumber: 'L-18' });
  });

  it('is one item however often it is sent, and a third version asks for the versions of the second', async () => {
    const { outbox, send, asked } = setUp('often');
    await send(submissionText('often'));
    const second = await send(amendment('often', otherLot));
    const again = await send(amendment('often', otherLot));
    expect(again.item.id).toBe(second.item.id);
    const third = await send(amendment('often', text => text.replace('L-17', 'L-19')));
    expect(third.item.state).toBe('delivered');
    expect(await outbox.list()).toHaveLength(3);
    expect(asked()?.[2]).toEqual(['Device', second.item.receipt?.entries[2]?.etag]);
    expect((await held('often', 'Device', 'drain')).meta.versionId).toBe('3');
  });
});

describe('withVersions', () => {
  const taken = (payload: string, entries: object[]) => ({
    payload,
    receipt: { entries: entries.map(e => ({ type: 'Device', status: 200, found: 'answer', ...e })) } as never,
  });

  it('takes the tag of the server letter for letter, makes one of a version, and prefers the latest', () => {
    const text = amendment('tags');
    const made = withVersions(
      text,
      versionsTaken([
        taken(submissionText('tags'), [
          { fullUrl: urn(2), etag: '"strong"', version: '1' },
          { fullUrl: urn(3), version: '7' },
        ]),
        taken(text, [{ fullUrl: urn(3), version: '8' }]),
      ]),
    );
    expect(readSubmission(made)?.entries.map(e => e.ifMatch)).toEqual([
      undefined,
      '"strong"',
      'W/"8"',
      undefined,
    ]);
  });

  it('asks for no version, whatever was asked for before, where the newest receipt tells none', () => {
    const text = withVersions(
      amendment('none'),
      new Map([[`Device?identifier=${encodeURIComponent(`${SYSTEM}|none-drain`)}`, 'W/"3"']]),
    );
    expect(readSubmission(text)?.entries[2]?.ifMatch).toBe('W/"3"');
    const newest = versionsTaken([taken(amendment('none'), [{ fullUrl: urn(3) }])]);
    expect(readSubmission(withVersions(text, newest))?.entries[2]?.ifMatch).toBeUndefined();
  });

  it('leaves creates, and what no receipt knows, byte for byte as they are', () => {
    const known = taken(submissionText(), [{ fullUrl: urn(3), version: '7' }]);
    expect(withVersions(submissionText(), versionsTaken([known]))).toBe(submissionText());
    expect(withVersions(amendment('x'), new Map())).toBe(amendment('x'));
  });

  it('asks for no version of another resource in the same place of the case', () => {
    const before = taken(submissionText('old'), [{ fullUrl: urn(3), version: '7' }]);
    expect(withVersions(amendment('new'), versionsTaken([before]))).toBe(amendment('new'));
  });
});
