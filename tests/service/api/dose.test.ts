import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bytesOf } from '../../intake/dose/objects.js';
import { examplesFolder } from '../../support/examples.js';
import { type Running, startServe } from '../../support/serve.js';

const TOKEN = 'a-token-of-the-tests-0123456789';
const folder = mkdtempSync(join(tmpdir(), 'service-dose-'));
const site = join(folder, 'site.yaml');

let service: Running;
beforeAll(async () => {
  writeFileSync(
    site,
    `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a05
organization: { name: Test site }
contact: Interventional radiology, extension 4410
service: { token: env:SERVICE_TOKEN, work: { threads: 1 } }
`,
  );
  service = await startServe(['--site', site], {
    ...{ CASETALLY_DATA: join(folder, 'data'), SERVICE_TOKEN: TOKEN },
  });
}, 300_000);
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  rmSync(folder, { recursive: true });
});

async function ask(body: Uint8Array<ArrayBuffer> | FormData, type?: string, token = TOKEN) {
  const answer = await fetch(`${service.url}/v1/dose/check`, {
    ...{ method: 'POST', body },
    headers: { authorization: `Bearer ${token}`, ...(type !== undefined && { 'content-type': type }) },
  });
  return { status: answer.status, body: (await answer.json()) as Record<string, never> };
}
const object = (name: string) => new Uint8Array(bytesOf(name));
const part = (name: string) => new Blob([object(name)]);
const codesOf = (findings: readonly { code: string }[] = []) => findings.map(({ code }) => code);

describe('POST /dose/check', () => {
  it('reads one report', async () => {
    const { status, body } = await ask(object('biplane'), 'application/dicom');
    expect(status).toBe(200);
    expect(body['figures']).toMatchObject({ kermaAreaProduct: { value: '72.0000', unit: 'Gy.cm2' } });
    expect(body['contribution']).toMatchObject({ from: 'dose report' });
  });

  it('holds several against the record that comes with them', async () => {
    const form = new FormData();
    form.append('dose', part('sent-early'), 'early.dcm');
    form.append('dose', part('sent-again'), 'again.dcm');
    const record = readFileSync(join(examplesFolder, 'biliary-drainage-and-stent.yaml'));
    form.append('case', new Blob([new Uint8Array(record)]), 'case.yaml');
    const { status, body } = await ask(form);
    expect(status).toBe(200);
    expect(body['counted']).toEqual(['again.dcm']);
    expect(codesOf(body['findings'])).toContain('dose-report.superseded');
  });

  it.each([
    ['image', 400],
    ['truncated', 400],
  ])('%s is refused', async (name, status) => {
    expect((await ask(object(name), 'application/dicom')).status).toBe(status);
  });

  it('refuses another type, too many bytes, other parts and a caller without token', async () => {
    expect((await ask(object('single'), 'application/yaml')).status).toBe(415);
    expect((await ask(new Uint8Array(17 * 1024 * 1024), 'application/dicom')).status).toBe(413);
    const form = new FormData();
    form.append('report', part('single'), 'a.dcm');
    expect((await ask(form)).status).toBe(400);
    expect((await ask(object('single'), 'application/dicom', 'another-token-0123456789')).status).toBe(401);
  });
});
