import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { doctor } from '../../../src/cli/commands/doctor.js';
import { startSandbox } from '../../../src/service/sandbox/server.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-doctor-'));
const sandbox = await startSandbox();
let scope: string | undefined;
const tokens = createServer((_request, response) => {
  response.writeHead(200, { 'content-type': 'application/json' });
  response.end(JSON.stringify({ access_token: 't', token_type: 'bearer', expires_in: 300, scope }));
});
await new Promise<void>(resolve => void tokens.listen(0, '127.0.0.1', resolve));
const address = tokens.address();
const tokenUrl = `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}/token`;
afterAll(async () => {
  tokens.close();
  tokens.closeAllConnections();
  await sandbox.close();
  rmSync(folder, { recursive: true });
});

mkdirSync(join(folder, 'settings', 'keys'), { recursive: true });
const site = join(folder, 'settings', 'site.yaml');
writeFileSync(
  site,
  `casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include }
destinations:
  records:
    url: "${sandbox.baseUrl}"
    auth: { kind: client credentials, tokenUrl: "${tokenUrl}", clientId: c, secret: "file:keys/secret.txt" }
`,
);
async function run() {
  const [text, errors]: [string[], string[]] = [[], []];
  const code = await doctor(
    { to: 'records', site, json: true },
    { out: line => void text.push(line), err: line => void errors.push(line), color: false },
  );
  return { code, json: text.length > 0 ? JSON.parse(text.join('')) : undefined, said: errors.join('') };
}

describe('a secret in a file', () => {
  it('is looked for in the folder of the site file, and a miss says where', async () => {
    const { code, said } = await run();
    expect(code).toBe(2);
    expect(said).toContain('delivery.secret-missing');
    expect(said).toContain(join(folder, 'settings', 'keys', 'secret.txt'));
  });
});

describe('the scopes of a token', () => {
  const scopes = async (granted: string | undefined) => {
    writeFileSync(join(folder, 'settings', 'keys', 'secret.txt'), 'invented\n');
    scope = granted;
    const { code, json } = await run();
    const check = json.checks.find((c: { name: string }) => c.name === 'scopes');
    return {
      code,
      verdict: check?.verdict,
      codes: json.proposals.map((p: { code: string }) => p.code),
      json,
    };
  };

  it('are held against what the contents need', async () => {
    expect(await scopes('system/*.cruds')).toMatchObject({ code: 0, verdict: 'pass' });
    const few = await scopes('system/*.rs system/Procedure.cruds');
    expect([few.code, few.verdict]).toEqual([3, 'fail']);
    expect(few.codes).toContain('delivery.scopes-missing');
    expect(few.json.proposals[0].message).toMatch(/system\/Device\.cu .*system\/Provenance\.cu/);
    expect(few.json.proposals[0].message).not.toContain('Procedure');
  });

  it('are not told of where the server names none and none was asked for', async () => {
    expect((await scopes(undefined)).verdict).toBeUndefined();
  });
});
