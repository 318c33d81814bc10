import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DeviceUseStatement, Task } from 'fhir/r4.js';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSite } from '../../../../src/cli/commands/open-site.js';
import { registerFeed } from '../../../../src/cli/feeding.js';
import { openOutbox } from '../../../../src/cli/process.js';
import { run } from '../../../../src/cli/program.js';
import type { CarriedOut } from '../../../../src/pipeline/register/destination/carry-out.js';
import { type RunningSandbox, startSandbox } from '../../../../src/service/sandbox/server.js';
import { type DrainCase, drainCase } from '../../../support/drain-life.js';

const folder = mkdtempSync(join(tmpdir(), 'cli-update-destinations-'));
afterAll(() => rmSync(folder, { recursive: true }));
let n = 0;
let data = '';
let site = '';
let server: RunningSandbox;
beforeEach(async () => {
  n += 1;
  data = join(folder, `data-${n}`);
  server = await startSandbox();
  settings('{}');
});
afterEach(() => server.close());

function settings(register: string): void {
  site = join(folder, `site-${n}.yaml`);
  writeFileSync(
    site,
    `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "https://ids.tawhai-inlet.example/cases" }
references: { patient: include, encounter: include, order: include, practitioner: include }
fhir: { groups: { tasks: true } }
register: ${register}
destinations: { records: { url: "${server.baseUrl}", searchLag: 0, timeout: 5 } }
`,
  );
}

const output = (out: string[], err: string[]) => ({
  out: (text: string) => void out.push(text),
  err: (text: string) => void err.push(text),
  color: false,
  columns: 1_000,
});
async function casetally(...args: string[]) {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await run([...args, '--data', data, '--site', site], output(out, err));
  return { code, out: out.join(''), err: err.join('') };
}
const update = (...args: string[]) => casetally('register', 'update-destinations', ...args);
function file(one: DrainCase): string {
  const path = join(folder, `${n}-${one.id}.yaml`);
  writeFileSync(path, drainCase(one));
  return path;
}
const send = (one: DrainCase, ...args: string[]) => casetally('send', file(one), '--to', 'records', ...args);

const all = <T>(type: string) =>
  server.repository.all().filter(({ resourceType }) => resourceType === type) as unknown as T[];
const uses = () => all<DeviceUseStatement>('DeviceUseStatement').map(({ status }) => status);
const tasks = () => all<Task>('Task').map(({ status }) => status);

const placed = { id: 'A', date: '2024-01-10', placed: 'L1' };
const removed = { id: 'C', date: '2024-02-01', before: 'L1' };

describe('casetally register update-destinations', () => {
  it('does what a case taken in by hand has left to do, which doctor names', async () => {
    await send(placed);
    await casetally('register', 'take', file(removed));
    expect(uses()).toEqual(['active']);
    const doctor = await casetally('register', 'doctor');
    expect([doctor.code, doctor.out]).toEqual([
      0,
      expect.stringContaining('Still to be brought up to date: 1 case at records.'),
    ]);
    const done = await update();
    expect([done.code, done.out]).toEqual([
      0,
      expect.stringMatching(/4 resources brought up to date; nothing is left to do\.\n$/),
    ]);
    expect([uses(), tasks()]).toEqual([['completed'], ['completed']]);
    const again = await update('--json');
    expect(JSON.parse(again.out)).toEqual({ cases: [], left: [] });
  });

  it('says what waits while the destination is away, and does it when that is back', async () => {
    await send(placed);
    await casetally('register', 'take', file(removed));
    const port = Number(new URL(server.baseUrl).port);
    const held = server.repository.all();
    await server.close();
    const away = await update();
    expect([away.code, away.out, away.err]).toEqual([
      4,
      '0 resources brought up to date; still to be done: 1 case at records.\n',
      expect.stringContaining('A not brought up to date yet: the server is not available.'),
    ]);
    server = await startSandbox({ port, preload: held });
    expect((await update()).code).toBe(0);
    expect(uses()).toEqual(['completed']);
  });

  it('leaves to a person what is of another patient', async () => {
    await send(placed);
    const [use] = all<DeviceUseStatement & { id: string }>('DeviceUseStatement');
    const patient = { resourceType: 'Patient', id: 'other', identifier: [{ system: 'urn:x', value: '9' }] };
    for (const resource of [patient, { ...use, subject: { reference: 'Patient/other' } }])
      await fetch(`${server.baseUrl}/${resource.resourceType}/${resource.id}`, {
        method: 'PUT',
        headers: { 'content-type': 'application/fhir+json' },
        body: JSON.stringify(resource),
      });
    const sent = await send(removed);
    // The case itself arrived.
    expect([sent.code, sent.err]).toEqual([
      0,
      expect.stringContaining(`DeviceUseStatement/${use?.id}, made for case A, is now about another patient`),
    ]);
    expect(uses().sort()).toEqual(['active', 'completed']);
    expect(tasks()).toEqual(['requested']);
    expect((await casetally('register', 'doctor')).out).toContain('A person must look at 1 case at records.');
    expect((await update()).code).toBe(3);
  });

  it('changes nothing by itself where the site leaves destinations alone', async () => {
    settings('{ updateDestinations: false }');
    await send(placed);
    await send(removed);
    expect(uses().sort()).toEqual(['active', 'completed']);
    expect((await update()).code).toBe(0);
    expect(uses()).toEqual(['completed', 'completed']);
  });

  it('needs to know where to look at everything', async () => {
    expect((await update('--all')).code).toBe(2);
    expect((await update('--to', 'nowhere')).code).toBe(2);
  });

  it('knows again from the outbox what went where when the register was lost', async () => {
    await send(placed);
    rmSync(join(data, 'register.db'));
    await casetally('register', 'take', file(removed));
    expect((await update()).code).toBe(0);
    expect(uses()).toEqual(['completed']);
  });
});

describe('what goes out', () => {
  it('directly is followed by what it changes as well', async () => {
    await send(placed, '--direct');
    const sent = await send(removed, '--direct', '--json');
    expect(JSON.parse(sent.out)).toMatchObject({ state: 'delivered' });
    expect([uses(), tasks()]).toEqual([['completed', 'completed'], ['completed']]);
  });

  it('to a destination that never got the first case changes nothing there', async () => {
    await casetally('register', 'take', file(placed));
    expect((await send(removed)).code).toBe(0);
    expect(uses()).toEqual(['completed']);
    expect((await update('--to', 'records', '--all')).out).toBe(
      '0 resources brought up to date; nothing is left to do.\n',
    );
  });

  it('follows what a person decides about the link, and takes back', async () => {
    await send(placed);
    await send(removed);
    await casetally('register', 'unlink', 'C', 'old', '--by', 'Dr Pekwell', '--why', 'Another drain');
    await update();
    expect(uses().sort()).toEqual(['active', 'completed']);
    expect(tasks()).toEqual(['requested']);
    await casetally('register', 'link', 'C', 'old', 'A/new', '--by', 'Dr Pekwell', '--why', 'The same');
    await update();
    expect(uses()).toEqual(['completed', 'completed']);
  });

  it('is followed by the worker', async () => {
    await send(placed);
    await casetally('register', 'take', file(removed));
    const opened = await openSite(site, output([], []));
    const feed = registerFeed(opened!, data, output([], []));
    const { outbox } = await openOutbox(data);
    const stop = new AbortController();
    const done: CarriedOut[] = [];
    await feed.keepCarryingOut(outbox, stop.signal, one => {
      done.push(one);
      stop.abort();
    });
    await outbox.close();
    await feed.close();
    expect(done).toMatchObject([{ case: 'A', came: 'done' }]);
    expect(uses()).toEqual(['completed']);
  });
});
