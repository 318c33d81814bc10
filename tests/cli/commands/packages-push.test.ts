import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Output } from '../../../src/cli/output.js';
import { run } from '../../../src/cli/program.js';
import { addPackage } from '../../../src/conformance/packages/cache.js';
import { isDelivered } from '../../../src/delivery/answer/outcome.js';
import { PROFILE_CLAIMS } from '../../../src/delivery/destination/destination.js';
import { messageOf } from '../../../src/findings/finding.js';
import type { PreparedCase } from '../../../src/pipeline/prepare.js';
import { submitCase } from '../../../src/pipeline/send-case.js';
import {
  type RunningSandbox,
  type SandboxOptions,
  startSandbox,
} from '../../../src/service/sandbox/server.js';
import { deps, destination } from '../../delivery/samples.js';
import { exampleFiles, knownExample } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-push-'));
const cache = join(folder, 'packages');
const ipsFolder = join(import.meta.dirname, '..', '..', '..', 'node_modules', 'hl7.fhir.uv.ips');
let server: RunningSandbox;
beforeAll(() => void addPackage(ipsFolder, cache));
afterEach(() => server.close());
afterAll(() => rmSync(folder, { recursive: true }));

/** What the administrators of a server load of the patient summary guide. */
const ips = (): object[] =>
  readdirSync(ipsFolder)
    .filter(name => name.startsWith('StructureDefinition-'))
    .map(name => JSON.parse(readFileSync(join(ipsFolder, name), 'utf8')));

let sites = 0;
function siteFile(more = ''): string {
  sites += 1;
  const path = join(folder, `site-${sites}.yaml`);
  writeFileSync(
    path,
    `casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include, practitioner: name }
destinations:
  records: { url: "${server.baseUrl}", timeout: 60${more} }
`,
  );
  return path;
}

async function cli(...args: string[]): Promise<{ code: number; text: string; errors: string }> {
  const text: string[] = [];
  const errors: string[] = [];
  const output: Output = {
    out: line => void text.push(line),
    err: line => void errors.push(line),
    color: false,
  };
  const code = await run(args, output);
  return { code, text: text.join(''), errors: errors.join('') };
}

interface Proposal {
  readonly code: string;
  readonly params: Readonly<Record<string, string>>;
}

const doctor = async (site: string): Promise<{ code: number; proposals: Proposal[]; verdict: string }> => {
  const { code, text } = await cli('doctor', '--to', 'records', '--site', site, '--json');
  const { checks, proposals } = JSON.parse(text);
  const [seen] = checks.filter((c: { name: string }) => c.name === 'profiles');
  return { code, proposals, verdict: seen.verdict };
};

let prepared: { readonly name: string; readonly of: PreparedCase }[];
beforeAll(() => {
  prepared = exampleFiles.map(name => ({ name, of: knownExample(name) }));
});

/** Sends examples, and gives those that the server did not take, with its reasons. */
const notTaken = async (profiles: string, cases = prepared): Promise<string[]> => {
  const which = PROFILE_CLAIMS.find(one => one === profiles) ?? 'ours';
  const to = destination(server.baseUrl, { profiles: which, timeoutMs: 60_000 });
  const bad: string[] = [];
  for (const { name, of } of cases) {
    const outcome = await submitCase(of, to, deps({ clock: Date.now }));
    if (!isDelivered(outcome)) bad.push(`${name}: ${outcome.findings.map(f => messageOf(f)).join('; ')}`);
  }
  return bad;
};

describe('a server that validates what it stores takes all examples by what doctor proposes', () => {
  const servers: [string, () => SandboxOptions, string][] = [
    ['knows nothing, and may be loaded', () => ({ validating: 'open' }), 'delivery.profiles-to-push'],
    [
      'knows the patient summary, and may be loaded',
      () => ({ validating: 'open', preload: ips() }),
      'delivery.profiles-to-push',
    ],
    ['knows nothing, and is closed', () => ({ validating: 'closed' }), 'delivery.profiles-to-ask-for'],
    [
      'knows the patient summary, and is closed',
      () => ({ validating: 'closed', preload: ips() }),
      'delivery.profiles-to-ask-for',
    ],
  ];

  it.each(servers)('%s', async (_title, options, code) => {
    server = await startSandbox(options());
    const before = siteFile();
    expect(await notTaken('ours', prepared.slice(0, 1))).toHaveLength(1);

    const { code: exit, proposals, verdict } = await doctor(before);
    expect([exit, verdict, proposals.map(p => p.code)]).toEqual([3, 'fail', [code]]);
    const params = proposals[0]?.params ?? {};
    let after = before;
    if (code === 'delivery.profiles-to-push') {
      const [, ...args] = (params['command'] ?? '').split(' ');
      const pushed = await cli(...args, '--yes', '--cache', cache, '--site', before);
      expect([pushed.code, pushed.text]).toEqual([
        0,
        expect.not.stringMatching(/^(?:refused|several|not-told)/m),
      ]);
    } else after = siteFile(`, profiles: ${params['setting']}`);

    expect(await doctor(after)).toMatchObject({ code: 0, verdict: 'pass', proposals: [] });
    expect(await notTaken(after === before ? 'ours' : (params['setting'] ?? ''))).toEqual([]);
  });

  it('proposes the most that is taken: claims of the patient summary stay where it is known', async () => {
    server = await startSandbox({ validating: 'closed', preload: ips() });
    const { proposals } = await doctor(siteFile());
    expect(proposals[0]?.params).toMatchObject({
      setting: 'base',
      packages: expect.stringMatching(/^casetally\.profiles#\d+\.\d+\.\d+$/),
    });
  });

  it('tells that a server does not validate, and changes nothing', async () => {
    server = await startSandbox();
    const { code, proposals, verdict } = await doctor(siteFile());
    expect([code, verdict]).toEqual([0, 'not-told']);
    expect(proposals.map(p => p.code)).toEqual(['delivery.profiles-not-told']);
    expect(server.repository.all()).toEqual([]);
  });
});

describe('packages push', () => {
  const push = (...args: string[]) =>
    cli('packages', 'push', '--to', 'records', '--site', siteFile(), ...args);

  it('shows what it would load, and loads nothing without a yes', async () => {
    server = await startSandbox();
    const dry = await push('--dry-run');
    expect(dry.code).toBe(0);
    expect(dry.text).toMatch(
      /^new {2,}StructureDefinition {2,}https:\/\/casetally\.example\S+case-procedure$/m,
    );
    const unasked = await push();
    expect([unasked.code, unasked.errors]).toEqual([2, expect.stringContaining('--yes')]);
    expect(server.repository.all()).toEqual([]);
  });

  it('loads once, and again only what was changed there', async () => {
    server = await startSandbox();
    const first = await push('--yes');
    expect(first.code).toBe(0);
    const loaded = server.repository.all();
    expect(loaded.length).toBeGreaterThan(40);
    expect((await push('--yes', '--json')).text).not.toMatch(/"result": "(?!there)/);
    expect(server.repository.all()).toEqual(loaded);

    const profile = loaded.find(
      r => r.resourceType === 'StructureDefinition' && r.name === 'CasetallyCaseDevice',
    );
    const edited = await fetch(`${server.baseUrl}/StructureDefinition/${profile?.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/fhir+json' },
      body: JSON.stringify({ ...profile, title: 'Something else' }),
    });
    expect(edited.status).toBe(200);
    const again = JSON.parse((await push('--yes', '--json')).text);
    expect(again.filter((p: { result: string }) => p.result !== 'there')).toEqual([
      expect.objectContaining({ result: 'updated', type: 'StructureDefinition' }),
    ]);
  });

  it('says what the server refuses, and that it cannot be reached', async () => {
    server = await startSandbox({ validating: 'closed' });
    const refused = await push('--yes');
    expect([refused.code, refused.text]).toEqual([3, expect.stringContaining('HTTP 403')]);
    await server.close();
    expect((await push('--dry-run')).code).toBe(4);
    server = await startSandbox();
  });

  it('names the packages at hand for one that is not', async () => {
    server = await startSandbox();
    const missing = await push('--yes', '--package', 'invented.guide#1.0.0', '--cache', cache);
    expect([missing.code, missing.errors]).toEqual([2, expect.stringContaining('hl7.fhir.uv.ips#2.0.0')]);
  });
});
