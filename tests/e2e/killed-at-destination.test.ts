import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Task } from 'fhir/r4.js';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { openRegister } from '../../src/cli/process.js';
import { run } from '../../src/cli/program.js';
import { carryOut } from '../../src/pipeline/register/destination/carry-out.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { parseSite } from '../../src/site/parse.js';
import { destination } from '../delivery/samples.js';
import { program } from '../support/built.js';
import { drainCase } from '../support/drain-life.js';

/* The program is killed while it brings a destination up to date; another process takes over when the lease has run out. */
const folder = mkdtempSync(join(tmpdir(), 'killed-at-destination-'));
afterAll(() => rmSync(folder, { recursive: true }));
const SYSTEM = 'https://ids.tawhai-inlet.example/cases';

let round = 0;
let data = '';
let site = '';
let text = '';
let sandbox: RunningSandbox;
let door: Server;
/** Called at each update with its number, before it reaches the server and after; true when the program was killed. */
let atUpdate: (n: number, when: 'before' | 'after') => Promise<boolean>;

beforeEach(async () => {
  round += 1;
  sandbox = await startSandbox();
  let updates = 0;
  atUpdate = async () => false;
  door = createServer(async (request, response) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk);
    const isUpdate = request.method === 'PUT';
    if (isUpdate) updates += 1;
    if (isUpdate && (await atUpdate(updates, 'before'))) {
      // It never arrived.
      response.destroy();
      return;
    }
    const { host: _host, connection: _connection, 'content-length': _length, ...headers } = request.headers;
    const answer = await fetch(`${new URL(sandbox.baseUrl).origin}${request.url}`, {
      method: request.method ?? 'GET',
      headers: Object.entries(headers).map(([name, value]): [string, string] => [name, String(value)]),
      ...(chunks.length > 0 && { body: Buffer.concat(chunks) }),
    });
    const body = await answer.text();
    if (isUpdate) await atUpdate(updates, 'after');
    const etag = answer.headers.get('etag');
    response.writeHead(answer.status, {
      'content-type': 'application/fhir+json',
      ...(etag !== null && { etag }),
    });
    response.end(body);
  });
  door.listen(0, '127.0.0.1');
  await once(door, 'listening');
  data = join(folder, `data-${round}`);
  site = join(folder, `site-${round}.yaml`);
  text = `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "${SYSTEM}" }
references: { patient: include, encounter: include, order: include, practitioner: include }
fhir: { groups: { tasks: true } }
register: {}
destinations: { records: { url: "${baseUrl()}", searchLag: 0 } }
`;
  writeFileSync(site, text);
  return async () => {
    door.closeAllConnections();
    door.close();
    await sandbox.close();
  };
});

function baseUrl(): string {
  const at = door.address();
  return `http://127.0.0.1:${typeof at === 'object' && at ? at.port : 0}/fhir`;
}

const casetally = (...args: string[]) =>
  run([...args, '--data', data, '--site', site], {
    out: () => undefined,
    err: () => undefined,
    color: false,
  });
const statuses = () =>
  sandbox.repository.all().flatMap(one => {
    const of = /^(?:Device|DeviceUseStatement|ServiceRequest|Task)$/.test(one.resourceType);
    return of ? [`${one.resourceType} ${(one as unknown as Task).status}`] : [];
  });
const versions = () =>
  sandbox.repository
    .all()
    .flatMap(({ resourceType, meta }) =>
      /^(?:Device|DeviceUseStatement|ServiceRequest|Task)$/.test(resourceType) ? Number(meta?.versionId) : [],
    );

/** Starts the command as a process of its own and kills it at an update. */
async function killedAt(update: number, when: 'before' | 'after'): Promise<void> {
  const args = ['register', 'update-destinations', '--data', data, '--site', site];
  const child = spawn(process.execPath, [program, ...args], { stdio: 'ignore' });
  const dead = once(child, 'exit');
  atUpdate = async (n, at) => {
    if (n !== update || at !== when) return false;
    child.kill('SIGKILL');
    await dead;
    return true;
  };
  const [code, signal] = await dead;
  expect([code, signal]).toEqual([null, 'SIGKILL']);
  atUpdate = async () => false;
}

/** Another process, once the lease of the dead one has run out. */
async function takesOver(): Promise<void> {
  const { site: settings } = parseSite(text);
  const { register } = await openRegister(data, SYSTEM);
  const target = destination(baseUrl(), { name: 'records' });
  await carryOut({
    owed: register.owed,
    site: settings ?? expect.fail('no site'),
    targets: [{ destination: target }],
    clock: () => Date.now() + 3_600_000,
    newId: () => 'one',
    random: () => 0.5,
  });
  expect(await register.owed.list()).toEqual([]);
  await register.close();
}

describe('killed in the middle', () => {
  it.each([
    [1, 'before'],
    [1, 'after'],
    [3, 'before'],
    [4, 'after'],
  ] as const)('at update %i, %s it arrives: nothing is lost or done twice', async (update, when) => {
    const file = join(folder, `case-${round}.yaml`);
    writeFileSync(file, drainCase({ id: 'A', date: '2024-01-10', placed: 'L1' }));
    expect(await casetally('send', file, '--to', 'records')).toBe(0);
    const before = statuses();
    const removed = { id: 'C', date: '2024-02-01', before: 'L1' };
    writeFileSync(file, drainCase(removed));
    await casetally('register', 'take', file);
    await killedAt(update, when);
    await takesOver();
    expect(statuses().sort()).toEqual([
      'Device inactive',
      'DeviceUseStatement completed',
      'ServiceRequest completed',
      'Task completed',
    ]);
    expect(versions()).toEqual([2, 2, 2, 2]);
    const change = '{ why: Wrong patient, by: ir, at: "11:00" }';
    const report = `{ status: withdrawn, author: ir, version: 2, signedAt: "10:00", change: ${change} }`;
    writeFileSync(file, drainCase({ ...removed, report }));
    await casetally('register', 'take', file);
    await takesOver();
    expect(statuses()).toEqual(before);
    expect(versions()).toEqual([3, 3, 3, 3]);
  });
});
