import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import type { DeviceUseStatement } from 'fhir/r4.js';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type RunningSandbox, startSandbox } from '../../../../src/service/sandbox/server.js';
import { type DrainCase, drainCase } from '../../../support/drain-life.js';
import { examplePath } from '../../../support/examples.js';
import { casetally, flat } from '../../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'cli-registry-server-'));
afterAll(() => rmSync(folder, { recursive: true }));
let n = 0;
let at = '';
beforeEach(() => {
  n += 1;
  at = join(folder, `${n}`);
  mkdirSync(join(at, 'cases'), { recursive: true });
  writeFileSync(join(at, 'key'), 'an invented secret of the test');
});
const write = (...all: DrainCase[]) => {
  for (const one of all) writeFileSync(join(at, 'cases', `${one.id}.yaml`), drainCase(one));
};
function settings(url: string, definition: string, more = ''): void {
  writeFileSync(
    join(at, 'site.yaml'),
    `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "https://ids.tawhai-inlet.example/cases" }
destinations: { there: { url: "${url}", timeout: 1, ${more} } }
registries:
  drains: { name: Drains, key: "file:key", definition: "${definition}", destination: there, dates: day }
`,
  );
}
async function registry(command: string, ...args: string[]) {
  const settled = ['--data', join(at, 'data'), '--site', join(at, 'site.yaml')];
  return flat(await casetally(['registry', command, ...args, ...settled]));
}
const send = () => registry('send', join(at, 'cases'));

const placed = { id: 'A', date: '2024-01-10', placed: 'L1' };
const exchanged = { id: 'B', date: '2024-04-02', before: 'L1', placed: 'L2', carried: 'date: 2024-01-10' };

describe('a registry that is a FHIR server', () => {
  let server: RunningSandbox;
  beforeEach(async () => {
    server = await startSandbox();
    settings(server.baseUrl, examplePath('registries/drain-watch.yaml'), 'searchLag: 0');
  });
  afterEach(() => server.close());
  const held = () =>
    (server.repository.all() as unknown as DeviceUseStatement[]).filter(
      one => one.resourceType === 'DeviceUseStatement',
    );
  const versions = () =>
    held()
      .flatMap(({ extension = [] }) => extension.filter(({ url }) => url.endsWith('/entry-version')))
      .map(one => one.valuePositiveInt);

  it('holds each entry once, in its newest version', async () => {
    write(placed, exchanged);
    const first = await send();
    expect([first.code, first.out]).toEqual([0, expect.stringContaining('3 accepted')]);
    expect(versions()).toEqual([1, 1, 1]);
    expect((await send()).out).toContain('Nothing new');
    write({ ...exchanged, placed: 'L3' });
    expect((await send()).out).toContain('1 accepted');
    expect([held().length, versions().sort()]).toEqual([3, [1, 1, 2]]);
    // It names nobody, and no maker, which the definition leaves out.
    expect(JSON.stringify(held())).not.toMatch(/Tolmachev|Pekwell|Tawhai|700112|manufacturer/i);
  });

  it('is told when a case is withdrawn', async () => {
    write(placed);
    await send();
    const report =
      '{ status: withdrawn, author: ir, signedAt: "11:00", version: 2, change: { why: Other patient } }';
    write({ ...placed, report });
    await send();
    expect(held().map(({ status }) => status)).toEqual(['entered-in-error']);
  });
});

/** What the invented registry over HTTPS does with the next request. */
type Trick =
  | 'obey'
  | 'hang after taking'
  | 'hang before taking'
  | 'break'
  | 'fail'
  | 'refuse'
  | 'say nothing';

describe('a registry that takes batches over HTTPS', () => {
  let server: Server;
  let tricks: Trick[] = [];
  const taken = new Map<string, string[]>();
  let requests: string[] = [];
  beforeEach(async () => {
    [tricks, requests] = [[], []];
    taken.clear();
    server = createServer((request, response) => void serve(request, response));
    await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
    const definition = join(at, 'definition.json');
    writeFileSync(
      definition,
      JSON.stringify({
        ...{ registryDefinition: 1, name: 'Invented', version: '1', format: { kind: 'fhir ndjson' } },
        transport: { kind: 'https', path: 'batches/{batch}', mediaType: 'application/fhir+ndjson' },
        answers: {
          ...{ kind: 'ndjson', fields: { entry: 'id', version: 'v', result: 'r' }, end: 'lines' },
          results: { accepted: ['in'], refused: ['out'] },
        },
      }),
    );
    settings(`http://127.0.0.1:${(server.address() as AddressInfo).port}`, definition);
  });
  afterEach(async () => {
    server.closeAllConnections();
    await new Promise(resolve => server.close(resolve));
  });

  async function serve(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { method, url = '' } = request;
    requests.push(`${method} ${url.slice(0, 9)}`);
    const body = await text(request);
    const trick = tricks.shift() ?? 'obey';
    if (trick === 'hang before taking') return;
    if (trick === 'break') return void request.socket.destroy();
    if (trick === 'fail' || trick === 'refuse') {
      response.writeHead(trick === 'fail' ? 503 : 422).end();
      return;
    }
    if (method === 'PUT') taken.set(url, body.trim().split('\n'));
    if (trick === 'hang after taking') return;
    const lines = taken.get(url);
    if (!lines) return void response.writeHead(404).end();
    if (trick === 'say nothing') return void response.writeHead(202).end();
    const answers = lines.map(line => {
      const { identifier, extension } = JSON.parse(line) as DeviceUseStatement;
      const v = extension?.find(one => one.url.endsWith('/entry-version'))?.valuePositiveInt;
      return JSON.stringify({ id: identifier?.[0]?.value, v, r: 'in' });
    });
    response.writeHead(200).end(`${[...answers, JSON.stringify({ lines: lines.length })].join('\n')}\n`);
  }

  it('answers at once', async () => {
    write(placed, exchanged);
    const first = await send();
    expect([first.code, first.out]).toEqual([0, expect.stringContaining('3 accepted')]);
    expect((await send()).out).toContain('Nothing new');
    expect(requests).toEqual(['PUT /batches/']);
  });

  it('answers later', async () => {
    tricks = ['say nothing'];
    write(placed);
    expect((await send()).out).toContain('not answered yet');
    expect((await registry('reconcile')).out).toContain('1 accepted');
    expect(requests).toEqual(['PUT /batches/', 'GET /batches/']);
  });

  it.each([
    ['hang after taking', ['PUT', 'GET']],
    ['hang before taking', ['PUT', 'GET', 'PUT']],
    ['break', ['PUT', 'GET', 'PUT']],
    ['fail', ['PUT', 'GET', 'PUT']],
  ] as const)('is asked before anything goes again: %s', async (trick, wanted) => {
    tricks = [trick];
    write(placed);
    const first = await send();
    expect([first.code, first.out]).toEqual([4, expect.stringContaining('not known whether it arrived')]);
    const second = await send();
    expect([second.code, second.out]).toEqual([0, expect.stringContaining('1 entry accepted')]);
    expect(requests.map(one => one.slice(0, 3))).toEqual(wanted);
    expect([...taken.values()].flat()).toHaveLength(1);
  });

  it('is not sent anything again while it cannot be asked', async () => {
    tricks = ['hang after taking', 'fail', 'break'];
    write(placed);
    await send();
    for (const _ of ['fail', 'break']) expect((await send()).code).toBe(4);
    expect((await send()).code).toBe(0);
    expect(requests.filter(one => one.startsWith('PUT'))).toHaveLength(1);
  });

  it('refuses a whole batch, which is tried again with the next send', async () => {
    tricks = ['refuse'];
    write(placed);
    const refused = await send();
    expect([refused.code, refused.out]).toEqual([3, expect.stringContaining('refused it as a whole')]);
    expect((await send()).code).toBe(0);
  });

  it('is not there at all', async () => {
    const { port } = server.address() as AddressInfo;
    await new Promise(resolve => server.close(resolve));
    write(placed);
    const first = await send();
    expect([first.code, first.out]).toEqual([4, expect.stringContaining('no connection to it can be made')]);
    server = createServer((request, response) => void serve(request, response));
    await new Promise<void>(resolve => server.listen(port, '127.0.0.1', resolve));
    expect((await send()).code).toBe(0);
    expect(requests).toEqual(['PUT /batches/']);
  });
});
