import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { sendExitCode } from '../../../src/delivery/answer/outcome.js';
import {
  type StatementStore,
  statementsInFile,
  statementsInMemory,
} from '../../../src/delivery/destination/capability-cache.js';
import type { Destination } from '../../../src/delivery/destination/destination.js';
import { MemoryOutbox } from '../../../src/delivery/outbox/memory-outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { answerReads } from '../../support/reads.js';
import { deliver, deps, destination, submissionText } from '../samples.js';

let server: RunningSandbox;
const folder = mkdtempSync(join(tmpdir(), 'casetally-statements-'));
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await server.close();
});

let asked = 0;
let said: Record<string, unknown> | number | undefined;
beforeEach(() => {
  asked = 0;
  said = undefined;
  answerReads(answer);
});
afterEach(() => void vi.unstubAllGlobals());
const answer: typeof fetch = async (url, init) => {
  if (!new URL(String(url)).pathname.endsWith('/metadata')) return fetch(url, init);
  asked += 1;
  if (typeof said === 'number') return new Response('', { status: said });
  const own = (await (await fetch(url, init)).json()) as Record<string, unknown>;
  return Response.json({ ...own, ...said });
};

let cases = 0;
const sendOne = (statements: StatementStore, more: Partial<Destination> = {}, d = deps()) => {
  cases += 1;
  const text = submissionText(`fits ${cases}`);
  return deliver(text, destination(server.baseUrl, more), { ...d, statements });
};

describe('what a server says of itself', () => {
  it('is asked once, believed for its age, and then asked again', async () => {
    const d = deps();
    const statements = statementsInMemory();
    expect((await sendOne(statements, {}, d)).state).toBe('delivered');
    expect((await sendOne(statements, {}, d)).state).toBe('delivered');
    expect(asked).toBe(1);
    await d.sleep?.(25 * 3_600_000);
    await sendOne(statements, {}, d);
    expect(asked).toBe(2);
    await sendOne(statements, { metadataAgeMs: 0 }, d);
    expect(asked).toBe(3);
  });

  it.each([
    ['5.0.0', '4.0.1', 'destination-paused'],
    ['4.0.1', '5.0.0', 'destination-paused'],
    ['4.3.0', '4.0.1', 'destination-paused'],
    ['4.0.0', '4.0.1', 'delivered'],
    ['5.0.0-ballot', '5.0.0', 'delivered'],
  ] as const)('FHIR %s where %s is set: %s', async (theirs, ours, state) => {
    said = { fhirVersion: theirs };
    const before = server.repository.all().length;
    const outcome = await sendOne(statementsInMemory(), { fhirVersion: ours });
    expect(outcome.state).toBe(state);
    const refused = state !== 'delivered';
    expect(outcome.findings.map(f => f.code).includes('delivery.other-version')).toBe(refused);
    expect(server.repository.all().length === before).toBe(refused);
    expect(sendExitCode(outcome)).toBe(refused ? 3 : 0);
  });

  it('is read anew before it stops anything: the server may have changed since', async () => {
    const statements = statementsInMemory();
    said = { fhirVersion: '5.0.0' };
    expect((await sendOne(statements)).state).toBe('destination-paused');
    said = {};
    expect((await sendOne(statements)).state).toBe('delivered');
  });

  it.each([
    [{}, 'destination-paused'],
    [{ undeclaredTransaction: true }, 'delivered'],
    [{ mode: 'single' }, 'delivered'],
  ] as const)('no transaction declared, with %j: %s', async (more, state) => {
    said = { rest: [{ mode: 'server', interaction: [{ code: 'batch' }] }] };
    expect((await sendOne(statementsInMemory(), more)).state).toBe(state);
  });

  it('stops nothing when the server says nothing', async () => {
    said = 404;
    expect((await sendOne(statementsInMemory())).state).toBe('delivered');
  });

  it('pauses the destination in the outbox and parks no record', async () => {
    said = { fhirVersion: '5.0.0' };
    const d = deps();
    const outbox = new MemoryOutbox(d.newId);
    const payload = submissionText('paused by version');
    const item = { destination: 'test server', caseKey: 'c', patientKey: 'p', payload };
    const put = await outbox.put({ ...item, digest: digestOf(payload) }, d.clock());
    await drain({
      outbox,
      targets: [{ destination: destination(server.baseUrl) }],
      clock: d.clock,
      newId: d.newId,
      random: () => 0.5,
      statements: statementsInMemory(),
    });
    expect((await outbox.get(put.id))?.state).toBe('waiting');
    expect((await outbox.gate('test server')).paused).toBe('other-version');
  });
});

describe('statements in a file', () => {
  it('are found by the next process, readable by their owner only', async () => {
    const path = join(folder, 'metadata.json');
    await sendOne(statementsInFile(path));
    await sendOne(statementsInFile(path));
    expect(asked).toBe(1);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(Object.keys(JSON.parse(readFileSync(path, 'utf8')))).toEqual([server.baseUrl]);
  });

  it.each([
    ['nonsense', 'not JSON'],
    ['another shape', '{"x": 1, "y": {"readAt": "now"}}'],
  ])('cost a question and nothing else when the file holds %s', async (_what, text) => {
    const path = join(folder, 'broken.json');
    writeFileSync(path, text);
    expect((await sendOne(statementsInFile(path))).state).toBe('delivered');
    expect(asked).toBe(1);
  });

  it('cost a question and nothing else when the folder is not there', async () => {
    expect((await sendOne(statementsInFile(join(folder, 'no', 'such', 'folder.json')))).state).toBe(
      'delivered',
    );
  });
});
