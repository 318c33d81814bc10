import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { examplesFolder } from '../../support/examples.js';
import { type Running, startServe } from '../../support/serve.js';

/* The form and responses to it, over HTTP, as `casetally serve` answers them. */

const TOKEN = 'a-token-of-the-tests-0123456789';
const folder = mkdtempSync(join(tmpdir(), 'service-form-'));
const response = readFileSync(join(examplesFolder, 'forms', 'liver-biopsy.response.json'), 'utf8');

let service: Running;
beforeAll(async () => {
  const site = join(folder, 'site.yaml');
  writeFileSync(
    site,
    `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
service: { token: env:SERVICE_TOKEN, work: { threads: 1 } }
`,
  );
  service = await startServe(['--site', site], {
    CASETALLY_DATA: join(folder, 'data'),
    SERVICE_TOKEN: TOKEN,
  });
});
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

const ask = (path: string, init: RequestInit = {}) =>
  fetch(service.url + path, { ...init, headers: { authorization: `Bearer ${TOKEN}`, ...init.headers } });
const post = (path: string, body: string, type = 'application/fhir+json') =>
  ask(path, { method: 'POST', body, headers: { 'content-type': type } });

describe('the form over HTTP', () => {
  it('is given as FHIR JSON, for a token', async () => {
    const answer = await ask('/questionnaire');
    expect(answer.headers.get('content-type')).toContain('application/fhir+json');
    expect(await answer.json()).toMatchObject({ resourceType: 'Questionnaire', status: 'active' });
    expect((await fetch(`${service.url}/questionnaire`)).status).toBe(401);
    expect((await ask('/v1/questionnaire')).status).toBe(200);
  });

  it('a response gives a record that the service checks as it is', async () => {
    const answer = await post('/cases/from-response', response);
    expect(answer.status).toBe(200);
    const { record, findings, leftOut, contribution } = (await answer.json()) as Record<string, string>;
    expect([findings, leftOut]).toEqual([[], []]);
    expect(contribution).toMatchObject({ from: 'form', at: '2024-04-16T15:30:00+09:00' });
    const checked = await post('/cases/check', `${record}`, 'application/yaml');
    expect(await checked.json()).toMatchObject({ whole: true });
  });

  it('is refused with findings where it is no response, of another form, or of another type', async () => {
    const no = await post('/cases/from-response', '<QuestionnaireResponse/>');
    expect(no.status).toBe(400);
    expect(await no.json()).toMatchObject({ findings: [{ code: 'form.not-json' }] });
    const other = await post(
      '/cases/from-response',
      response.replace('Questionnaire/case-record', 'Questionnaire/x'),
    );
    expect(other.status).toBe(422);
    expect((await post('/cases/from-response', response, 'application/yaml')).status).toBe(415);
    expect((await post('/cases/from-response', `${response}${' '.repeat(2_000_000)}`)).status).toBe(413);
  });
});
