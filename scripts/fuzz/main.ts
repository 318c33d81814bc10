/**
 * Asks the built service what its OpenAPI document allows, and what it does not, with schemathesis (PyPI, from a virtual
 * environment on the path): no fault, and answers as the document says. The same seed makes the same requests.
 *
 * `npm run test:fuzz -- --max-examples 100` and whatever else schemathesis takes.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startServe } from '../../tests/support/serve.js';

const checks = [
  'no_fault',
  'status_code_conformance',
  'content_type_conformance',
  'response_headers_conformance',
  'response_schema_conformance',
  'unsupported_method',
  'allow_header_conformance',
];

if (spawnSync('schemathesis', ['--version']).error) {
  console.error(
    'schemathesis is not on the path: python3 -m venv ENV && ENV/bin/pip install schemathesis, then PATH=ENV/bin:$PATH',
  );
  process.exit(2);
}

const folder = mkdtempSync(join(tmpdir(), 'fuzz-'));
const site = join(folder, 'site.yaml');
writeFileSync(
  site,
  `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a05
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations: { records: { url: "http://127.0.0.1:9/fhir" } }
register: {}
service: { work: { threads: 1 } }
`,
);
const service = await startServe(['--no-auth', '--site', site], { CASETALLY_DATA: join(folder, 'data') });
/** Something that there is, for requests to be about. */
const record = fileURLToPath(new URL('../../examples/abscess-drain.yaml', import.meta.url));
const made = async (path: string): Promise<{ id?: string; items?: { id: string }[] }> => {
  const headers = { 'content-type': 'application/yaml', 'casetally-by': 'Ana' };
  const answer = await fetch(service.url + path, { method: 'POST', body: readFileSync(record), headers });
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
  return answer.json() as Promise<{ id?: string; items?: { id: string }[] }>;
};
const draft = (await made('/v1/drafts')).id ?? '';
const item = (await made('/v1/cases?to=records')).items?.[0]?.id ?? '';

const asked = spawn(
  'schemathesis',
  [
    'run',
    `${service.url}/openapi.json`,
    ...['--checks', checks.join(','), '--phases', 'coverage,fuzzing', '--workers', '1'],
    ...['--seed', '20240613', '--max-examples', '15'],
    // Changes of a draft are told for as long as somebody listens.
    ...['--request-timeout', '60', '--exclude-path', '/v1/drafts/{id}/changes', '--continue-on-failure'],
    ...process.argv.slice(2),
  ],
  {
    cwd: folder,
    stdio: 'inherit',
    env: {
      ...process.env,
      ...{ FUZZ_RECORD: record, FUZZ_DRAFT: draft, FUZZ_ITEM: item },
      SCHEMATHESIS_HOOKS: 'checks',
      PYTHONPATH: fileURLToPath(new URL('.', import.meta.url)),
      PYTHONDONTWRITEBYTECODE: '1',
    },
  },
);
const code = await new Promise<number | null>(resolve => asked.once('close', resolve));
const ended = await service.stop();
rmSync(folder, { recursive: true });

/** How far the requests came: a route that turned all of them away was not tried. */
const statuses = new Map<string, Map<number, number>>();
for (const text of service.log.filter(one => one.startsWith('{"'))) {
  const { route, method, status } = JSON.parse(text) as Partial<Record<string, string>> & { status?: number };
  if (route === undefined || status === undefined) continue;
  const key = `${method} ${route}`;
  const row = statuses.get(key) ?? new Map<number, number>();
  statuses.set(key, row.set(status, (row.get(status) ?? 0) + 1));
}
for (const [key, row] of [...statuses].sort())
  console.log(
    `${key}: ${[...row]
      .sort()
      .map(([status, count]) => `${count} × ${status}`)
      .join(', ')}`,
  );
if (ended !== 0) console.error(`The service ended with ${ended}.`);
process.exitCode = code === 0 && ended === 0 ? 0 : 1;
