import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { examplesFolder } from '../../support/examples.js';

/* The service as it is run: `casetally serve` in a process of its own, asked over HTTP. */

const TOKEN = 'a-token-of-the-tests-0123456789';
const folder = mkdtempSync(join(tmpdir(), 'service-'));
const main = fileURLToPath(new URL('../../../src/cli/main.ts', import.meta.url));
const siteText = `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "http://127.0.0.1:9/fhir" }
service: { token: env:SERVICE_TOKEN }
`;
const site = join(folder, 'site.yaml');
const caseText = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8');

interface Running {
  readonly url: string;
  readonly log: string[];
  stop(): Promise<number | null>;
}

function serve(args: readonly string[], env: Record<string, string> = {}): Promise<Running> {
  const child = spawn(process.execPath, ['--import', 'tsx', main, 'serve', ...args], {
    env: { ...process.env, CASETALLY_DATA: join(folder, 'data'), ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const log: string[] = [];
  const ended = new Promise<number | null>(resolve => child.once('close', resolve));
  createInterface({ input: child.stderr }).on('line', line => log.push(line));
  return new Promise((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', line => {
      log.push(line);
      const url = /^Serving at (http:\/\/[\d.]+:\d+)/.exec(line)?.[1];
      if (url)
        resolve({
          url,
          log,
          stop: () => {
            child.kill('SIGTERM');
            return ended;
          },
        });
    });
    void ended.then(code => reject(new Error(`exit ${code}: ${log.join('\n')}`)));
  });
}

let service: Running;
beforeAll(async () => {
  writeFileSync(site, siteText);
  service = await serve(['--site', site], { SERVICE_TOKEN: TOKEN });
}, 60_000);
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

const ask = (path: string, init: RequestInit = {}, token: string | undefined = TOKEN) =>
  fetch(service.url + path, {
    ...init,
    headers: { ...(token && { authorization: `Bearer ${token}` }), ...init.headers },
  });
const post = (path: string, body: string, type = 'application/yaml') =>
  ask(path, { method: 'POST', body, headers: { 'content-type': type } });

describe('the service', () => {
  it('says that it is healthy without a token, and nothing else', async () => {
    const health = await ask('/healthz', {}, '');
    expect([health.status, await health.json()]).toEqual([200, { status: 'ok' }]);
    for (const path of ['/schema', '/outbox/x', '/cases/check', '/nothing']) {
      const answer = await ask(path, {}, '');
      expect(answer.status).toBe(401);
      expect(answer.headers.get('www-authenticate')).toBe('Bearer');
      expect(await answer.json()).toMatchObject({
        resourceType: 'OperationOutcome',
        issue: [{ code: 'login' }],
      });
    }
    expect((await ask('/schema', {}, `${TOKEN}x`)).status).toBe(401);
  });

  it('sends headers that keep answers from being run, framed, guessed or kept', async () => {
    const { headers } = await ask('/healthz');
    expect(headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('cache-control')).toBe('no-store');
    expect(headers.get('x-powered-by')).toBeNull();
    expect(headers.get('access-control-allow-origin')).toBeNull();
    expect(headers.get('content-type')).toMatch(/^application\/json/);
  });

  it('checks a case', async () => {
    const answer = await post('/cases/check', caseText);
    const body = (await answer.json()) as { findings: { severity: string }[]; tally: unknown[] };
    expect(answer.status).toBe(200);
    expect(body.findings.filter(f => f.severity === 'error')).toEqual([]);
    expect(body.tally.length).toBeGreaterThan(3);
  });

  it('prepares a case: document with the digits as recorded, and a report for each reader', async () => {
    const answer = await post('/cases/prepare', caseText, 'text/plain');
    const text = await answer.text();
    const body = JSON.parse(text);
    expect(answer.status).toBe(200);
    expect(body).toMatchObject({
      sendable: true,
      document: { resourceType: 'Bundle', type: 'document' },
      submission: { type: 'transaction' },
    });
    expect(Object.keys(body.reports).sort()).toEqual(['patient', 'record', 'referrer', 'ward']);
    // The filter case records 64.0 Gy·cm2; a parse and a second writing would drop the closing zero.
    const filter = readFileSync(join(examplesFolder, 'caval-filter-retrieval-failed.yaml'), 'utf8');
    expect(filter).toContain('64.0 Gy·cm2');
    expect(await (await post('/cases/prepare', filter)).text()).toMatch(/"value": ?64\.0\b/);
  });

  it('says that a case came without its pictures, and goes on', async () => {
    const withPicture = readFileSync(join(examplesFolder, 'pictures', 'drain-check.yaml'), 'utf8');
    const line = 1 + withPicture.split('\n').findIndex(text => text.includes('file: check.png'));
    const told = {
      code: 'picture.not-given',
      severity: 'warning',
      path: 'images[0].file',
      line,
      params: { file: 'check.png' },
    };
    const answer = await post('/cases/prepare', withPicture);
    const body = (await answer.json()) as { findings: object[]; reports: { record: { html: string } } };
    expect(answer.status).toBe(200);
    expect(body).toMatchObject({
      sendable: true,
      findings: expect.arrayContaining([expect.objectContaining(told)]),
    });
    expect(body.reports.record.html).toContain('File check.png');
    expect(body.reports.record.html).not.toContain('<img');
    const taken = await post('/cases?to=records', withPicture);
    expect(taken.status).toBe(202);
    expect(await taken.json()).toMatchObject({
      findings: expect.arrayContaining([expect.objectContaining(told)]),
    });
  });

  it('takes a case in once, durably, and tells where it stands', async () => {
    const first = await post('/cases?to=records', caseText);
    expect([first.status, first.status === 202 ? '' : await first.text()]).toEqual([202, '']);
    const { items } = (await first.json()) as { items: { id: string; state: string; destination: string }[] };
    expect(items).toMatchObject([{ state: 'waiting', destination: 'records' }]);
    expect(first.headers.get('location')).toBe(`/outbox/${items[0]!.id}`);
    const again = (await (await post('/cases', caseText)).json()) as { items: { id: string }[] };
    expect(again.items[0]!.id).toBe(items[0]!.id);
    const shown = await ask(`/outbox/${items[0]!.id}`);
    const text = await shown.text();
    expect(JSON.parse(text)).toMatchObject({ id: items[0]!.id, state: 'waiting', attempts: 0 });
    expect(text).not.toContain('resourceType');
    expect((await ask('/outbox/no-such')).status).toBe(404);
  });

  it('refuses with what is wrong: no case, half a case, another destination, type, size, method', async () => {
    const rows: [Promise<Response>, number, string][] = [
      [post('/cases/check', '\u0000\u0001'), 400, 'structure'],
      [post('/cases/check', ''), 400, 'structure'],
      [post('/cases', 'casetally: 1\n'), 422, 'invalid'],
      [post('/cases/prepare', '{"casetally": 1}', 'application/json'), 422, 'invalid'],
      [post('/cases?to=http://127.0.0.1:9/elsewhere', caseText), 400, 'invalid'],
      [post('/cases/check', caseText, 'application/xml'), 415, 'not-supported'],
      [post('/cases/check', `# ${'x'.repeat(1_000_001)}`), 413, 'too-long'],
      [ask('/cases'), 405, 'not-supported'],
      [ask('/nothing'), 404, 'not-found'],
    ];
    for (const [asked, status, code] of rows) {
      const answer = await asked;
      const body = (await answer.json()) as { findings: unknown[]; issue: { code: string }[] };
      expect([answer.status, body.issue[0]?.code]).toEqual([status, code]);
      if (status === 422) expect(body.findings.length).toBeGreaterThan(0);
    }
  });

  it('logs requests and nothing of a case', async () => {
    const canary = 'Canary-Quintanar-4711';
    await post('/cases/check', `casetally: 1\npatient: { name: ${canary} }\n`);
    await ask(`/outbox/${canary}`);
    await ask(`/${canary}`);
    const events = () => service.log.filter(line => line.startsWith('{')).map(line => JSON.parse(line));
    await expect.poll(() => events().at(-1)).toMatchObject({ method: 'GET', route: 'none', status: 404 });
    expect(events().length).toBeGreaterThan(10);
    expect(events().at(-2)).toMatchObject({ route: '/outbox/:id', status: 404 });
    expect(service.log.join('\n')).not.toMatch(new RegExp(`${canary}|${TOKEN}`));
  });

  it('starts without a token only when told to, and then only for programs on this machine', async () => {
    const bare = join(folder, 'bare.yaml');
    writeFileSync(bare, siteText.replace(/service:.*\n/, ''));
    await expect(serve(['--site', bare])).rejects.toThrow(/exit 2.*needs a token/s);
    await expect(serve(['--site', bare, '--no-auth', '--host', '0.0.0.0'])).rejects.toThrow(/exit 2/);
    await expect(serve(['--site', site], { SERVICE_TOKEN: 'short' })).rejects.toThrow(/fewer than 20/);
    const open = await serve(['--site', bare, '--no-auth']);
    expect((await fetch(`${open.url}/schema`)).status).toBe(200);
    const page = await fetch(`${open.url}/schema`, { headers: { origin: 'https://page.example.org' } });
    expect(page.status).toBe(403);
    expect(await statusUnderName(`${open.url}/schema`, 'rebound.example.org')).toBe(403);
    expect(await open.stop()).toBe(0);
  }, 60_000);
});

/** The status when the same address is asked by another name, as a page does whose name was pointed here. */
function statusUnderName(url: string, host: string): Promise<number | undefined> {
  return new Promise((resolve, reject) => {
    httpRequest(url, { headers: { host } }, response => {
      response.resume();
      resolve(response.statusCode);
    })
      .on('error', reject)
      .end();
  });
}
