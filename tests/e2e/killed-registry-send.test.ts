import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { parse } from 'csv-parse/sync';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { program } from '../support/built.js';
import { drainCase } from '../support/drain-life.js';
import { examplePath } from '../support/examples.js';
import { casetally, flat } from '../support/run.js';
import { sampled } from '../support/sampled.js';

/* The program is killed while it gives a registry its entries. The next run sends what did not arrive, and nothing twice. */
const folder = mkdtempSync(join(tmpdir(), 'killed-registry-'));
afterAll(() => rmSync(folder, { recursive: true }));

const ENTRIES = 7;
let at = '';
let rounds = 0;
beforeEach(() => {
  rounds += 1;
  at = join(folder, `${rounds}`);
  for (const name of ['cases', 'answers', 'out']) mkdirSync(join(at, name), { recursive: true });
  writeFileSync(join(at, 'key'), 'an invented secret of the test');
  for (let k = 0; k < ENTRIES; k += 1)
    writeFileSync(
      join(at, 'cases', `${k}.yaml`),
      drainCase({ id: `C-${k}`, date: '2024-01-10', placed: `L${k}`, patient: `PT-${k}` }),
    );
});

const settings = (registry: string, more = '') =>
  writeFileSync(
    join(at, 'site.yaml'),
    `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "https://ids.tawhai-inlet.example/cases" }
${more}registries: { drains: { name: Drains, key: "file:key", ${registry} } }
`,
  );
const args = () => [
  ...['registry', 'send', join(at, 'cases')],
  ...['--data', join(at, 'data'), '--site', join(at, 'site.yaml')],
];
const again = async () => flat(await casetally(args()));
/** Starts the command as a process of its own; `kill` ends it at once. */
function started() {
  const child = spawn(process.execPath, [program, ...args()], { stdio: 'ignore' });
  const dead = once(child, 'exit') as Promise<[number | null, string | null]>;
  const kill = async () => {
    child.kill('SIGKILL');
    await dead;
  };
  return { dead, kill };
}

describe('killed while batches go over HTTPS', () => {
  let server: Server;
  /** Batches by their address, each with how often it came and its lines. */
  const taken = new Map<string, { times: Set<string>; lines: string[] }>();
  /** Called at each request with its number, before it is taken and after; true when the program was killed. */
  let atRequest: (n: number, when: 'before' | 'after') => Promise<boolean>;
  let requests = 0;

  beforeEach(async () => {
    taken.clear();
    requests = 0;
    atRequest = async () => false;
    server = createServer(async (request, response) => {
      const { method, url = '' } = request;
      const body = await text(request);
      requests += 1;
      const number = requests;
      if (await atRequest(number, 'before')) return void response.destroy();
      if (method === 'PUT') {
        const before = taken.get(url);
        taken.set(url, {
          times: (before?.times ?? new Set<string>()).add(body),
          lines: body.trim().split('\n'),
        });
      }
      if (await atRequest(number, 'after')) return void response.destroy();
      const lines = taken.get(url)?.lines;
      if (!lines) return void response.writeHead(404).end();
      const answers = lines.map(line => {
        const { identifier, extension } = JSON.parse(line) as {
          identifier: { value: string }[];
          extension: { url: string; valuePositiveInt?: number }[];
        };
        const v = extension.find(one => one.url.endsWith('/entry-version'))?.valuePositiveInt;
        return JSON.stringify({ id: identifier[0]?.value, v: `${v}`, r: 'in' });
      });
      const end = JSON.stringify({ lines: lines.length });
      response
        .writeHead(200, { 'content-type': 'application/x-ndjson' })
        .end(`${[...answers, end].join('\n')}\n`);
    });
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    const definition = join(at, 'definition.json');
    writeFileSync(
      definition,
      JSON.stringify({
        ...{ registryDefinition: 1, name: 'Invented', version: '1', format: { kind: 'fhir ndjson' } },
        maxEntries: 3,
        transport: { kind: 'https', path: 'batches/{batch}', mediaType: 'application/fhir+ndjson' },
        answers: {
          ...{ kind: 'ndjson', fields: { entry: 'id', version: 'v', result: 'r' }, end: 'lines' },
          results: { accepted: ['in'], refused: ['out'] },
        },
      }),
    );
    settings(
      `definition: "${definition}", destination: there`,
      `destinations: { there: { url: "http://127.0.0.1:${(server.address() as AddressInfo).port}", timeout: 5 } }\n`,
    );
  });
  afterEach(async () => {
    server.closeAllConnections();
    server.close();
    await once(server, 'close');
  });

  const moments = [
    [1, 'before'],
    [1, 'after'],
    [2, 'before'],
    [2, 'after'],
    [3, 'after'],
  ] as const;
  it.each(sampled('requests at which a send is killed', moments, 2))(
    'at request %i, %s it is taken',
    async (number, when) => {
      const { dead, kill } = started();
      atRequest = async (n, then) => {
        if (n !== number || then !== when) return false;
        await kill();
        return true;
      };
      expect(await dead).toEqual([null, 'SIGKILL']);
      atRequest = async () => false;
      // Settles what may have arrived first, then sends the rest.
      const second = await again();
      const third = await again();
      expect([second.code, third.code, third.out]).toEqual([0, 0, expect.stringContaining('Nothing new')]);
      expect(third.out).toContain(
        `${ENTRIES} entries accepted, 0 refused, 0 left out of an answer, 0 not answered yet`,
      );
      const lines = [...taken.values()].flatMap(batch => batch.lines);
      expect([lines.length, new Set(lines).size]).toEqual([ENTRIES, ENTRIES]);
      // Whatever came twice was the same batch with the same bytes.
      expect([...taken.values()].map(({ times }) => times.size)).toEqual([1, 1, 1]);
    },
  );
});

describe('killed while batches are put into a folder', () => {
  beforeEach(() =>
    settings(
      `definition: "${examplePath('registries/implant-returns.yaml')}", folder: out, answers: answers`,
    ),
  );

  // Each change in the folder is a moment to be killed at; the last is after everything was written.
  it.each(sampled('changes at which a send is killed', [1, 2, 3, 50], 2))(
    'at change %i of the folder',
    async number => {
      const watcher = watch(join(at, 'out'));
      const { dead, kill } = started();
      let changes = 0;
      watcher.on('change', () => {
        changes += 1;
        if (changes === number) void kill();
      });
      const [code, signal] = await dead;
      watcher.close();
      expect(number === 50 || changes >= number ? [0, 'SIGKILL'] : []).toContain(signal ?? code);
      expect([0, 4]).toContain((await again()).code);
      const files = readdirSync(join(at, 'out')).filter(name => name.endsWith('.csv'));
      const rows = files.flatMap(
        name =>
          parse(readFileSync(join(at, 'out', name)), { columns: true, delimiter: ';' }) as {
            entry: string;
          }[],
      );
      expect([rows.length, new Set(rows.map(({ entry }) => entry)).size]).toEqual([ENTRIES, ENTRIES]);
      expect(existsSync(join(at, 'data'))).toBe(true);
      expect((await again()).out).toContain('Nothing new');
      expect(readdirSync(join(at, 'out')).filter(name => name.endsWith('.csv'))).toEqual(files);
    },
  );
});
