import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Bundle, CapabilityStatement, OperationOutcome, Parameters, Resource } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createValidator, loadDefinitions } from '../../../src/conformance/index.js';
import { examplesFolder } from '../../support/examples.js';
import { type Running, startServe } from '../../support/serve.js';

/*
 * The service as a FHIR server, asked as a hostile or careless program would. Sources: FHIR R4, http.html, operations.html,
 * resource-operation-validate.html. What is answered is held against our own conformance.
 */

const folder = mkdtempSync(join(tmpdir(), 'service-fhir-'));
const record = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8');
const validator = createValidator(loadDefinitions());
const TOKEN = 'a-token-of-the-tests-0123456789';
const fhirJson = 'application/fhir+json';
let service: Running;

beforeAll(async () => {
  const site = join(folder, 'site.yaml');
  writeFileSync(
    site,
    `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a04
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations: { records: { url: "http://127.0.0.1:9/fhir" } }
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
  rmSync(folder, { recursive: true });
});

interface Seen {
  readonly status: number;
  readonly headers: Headers;
  readonly body: Resource;
}

/** Asks, and holds whatever is answered against conformance. */
async function ask(path: string, init: RequestInit = {}): Promise<Seen> {
  const response = await fetch(`${service.url}/fhir${path}`, {
    ...init,
    headers: { authorization: `Bearer ${TOKEN}`, ...init.headers },
  });
  const text = await response.text();
  const { status, headers } = response;
  expect(headers.get('content-type')).toBe('application/fhir+json; charset=utf-8');
  const { issues } = validator.validateText(text);
  expect(issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')).toEqual([]);
  const body = JSON.parse(text) as Resource;
  if (status >= 400) expect(body.resourceType).toBe('OperationOutcome');
  return { status, headers, body };
}
const post = (path: string, body: unknown, type = fhirJson) =>
  ask(path, {
    method: 'POST',
    body: typeof body === 'string' ? body : JSON.stringify(body),
    headers: { 'content-type': type },
  });
const issuesIn = (body: Resource | undefined) => (body as OperationOutcome).issue;
const parameters = (...parameter: object[]) => ({ resourceType: 'Parameters', parameter });
const patient = { resourceType: 'Patient', active: true };
const binary = (text: string, contentType = 'application/yaml') => ({
  ...{ resourceType: 'Binary', contentType },
  data: Buffer.from(text).toString('base64'),
});

describe('what the service says of itself', () => {
  it('is a CapabilityStatement with version, formats and operations', async () => {
    const { status, body } = await ask('/metadata');
    expect(status).toBe(200);
    const { software, fhirVersion, format, rest } = body as CapabilityStatement;
    expect(software?.version).toMatch(/^\d+\.\d+\.\d+/);
    expect([fhirVersion, format]).toEqual(['4.0.1', [fhirJson]]);
    expect(rest?.[0]?.operation?.map(({ name }) => name)).toEqual(['validate', 'process-case']);
    const definition = await ask('/OperationDefinition/process-case');
    expect(definition.body).toMatchObject({ url: rest?.[0]?.operation?.[1]?.definition });
    const names = (definition.body as { parameter?: { name: string; use: string }[] }).parameter;
    expect(names?.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['record', 'language', 'output', 'submission', 'document', 'outcome']),
    );
  });

  // http.html: _format goes before Accept, 406 for what is not written.
  it.each([
    [200, 'application/fhir+json', ''],
    [200, 'application/json', ''],
    [200, 'text/html, */*;q=0.1', ''],
    [200, 'application/fhir+json; fhirVersion=4.0', ''],
    [200, 'application/fhir+xml', '?_format=json'],
    [200, 'application/fhir+xml', '?_format=application/fhir+json'],
    [406, 'application/fhir+xml', ''],
    [406, 'application/fhir+json;q=0', ''],
    [406, 'application/fhir+json; fhirVersion=5.0', ''],
    [406, '*/*', '?_format=xml'],
    [406, '*/*', '?_format=json&_format=json'],
  ])('%i for %s %s', async (status, accept, query) => {
    for (const path of ['/metadata', '/OperationDefinition/process-case'])
      expect((await ask(path + query, { headers: { accept } })).status).toBe(status);
    const method = { method: 'POST', body: JSON.stringify(patient) };
    const seen = await ask(`/$validate${query}`, {
      ...method,
      headers: { accept, 'content-type': fhirJson },
    });
    expect(seen.status).toBe(status);
  });
});

describe('$validate', () => {
  it('says what conformance says, as body and in Parameters, with the lines of the body', async () => {
    const wrong = '{\n "resourceType": "Patient",\n "gender": "unknwn"\n}';
    const plain = await post('/Patient/$validate', wrong);
    const wrapped = await post(
      '/$validate',
      `{"resourceType": "Parameters", "parameter": [\n{"name": "resource", "resource": ${wrong}}]}`,
    );
    for (const [seen, line] of [
      [plain, 3],
      [wrapped, 4],
    ] as const) {
      expect(seen.status).toBe(200);
      expect(issuesIn(seen.body)).toContainEqual(
        expect.objectContaining({
          ...{ severity: 'error', code: 'code-invalid', expression: ['Patient.gender'] },
          extension: expect.arrayContaining([expect.objectContaining({ valueInteger: line })]),
        }),
      );
    }
  });

  it('has nothing to say of what conforms, nor of Parameters within Parameters', async () => {
    for (const [path, body] of [
      ['/$validate', patient],
      ['/Patient/$validate?mode=create', patient],
      ['/Patient/$validate', parameters({ name: 'resource', resource: patient })],
      [
        '/Parameters/$validate',
        parameters({
          name: 'resource',
          resource: parameters({ name: 'text', valueString: '}{"' }),
        }),
      ],
    ] as const) {
      const seen = await post(path, body);
      expect([path, seen.status]).toEqual([path, 200]);
      expect(issuesIn(seen.body).filter(({ severity }) => severity === 'error')).toEqual([]);
    }
  });

  it('goes by profiles of meta and of the request, and says which it does not know', async () => {
    const ips = 'http://hl7.org/fhir/uv/ips/StructureDefinition/Patient-uv-ips';
    const nowhere = 'http://example.org/StructureDefinition/nowhere';
    const told = async (path: string, body: object) =>
      JSON.stringify(issuesIn((await post(path, body)).body));
    const profile = (valueUri: string) => ({ name: 'profile', valueUri });
    expect(await told(`/Patient/$validate?profile=${ips}`, patient)).toContain(ips);
    for (const [path, body] of [
      [`/Patient/$validate?profile=${nowhere}`, patient],
      ['/$validate', { ...patient, meta: { profile: [nowhere] } }],
      ['/$validate', parameters({ name: 'resource', resource: patient }, profile(nowhere))],
    ] as const) {
      const said = await told(path, body);
      expect(said).toContain('"not-found"');
      expect(said).toContain(nowhere);
    }
  });

  it('tells what is wrong in a narrative and gives none of it back as markup', async () => {
    const div = '<div xmlns="http://www.w3.org/1999/xhtml"><script>alert(1)</script></div>';
    const { status, headers, body } = await post('/$validate', {
      ...patient,
      text: { status: 'generated', div },
    });
    expect([status, headers.get('x-content-type-options')]).toEqual([200, 'nosniff']);
    expect(issuesIn(body).some(({ severity }) => severity === 'error')).toBe(true);
    expect(body).not.toHaveProperty('text');
  });

  const resource = { name: 'resource', resource: patient };
  it.each<[string, number, string, unknown]>([
    ['no body', 400, '/$validate', ''],
    ['no JSON', 400, '/$validate', '{"resourceType": "Patient",'],
    ['a list', 400, '/$validate', '[]'],
    ['no resourceType', 400, '/$validate', { active: true }],
    ['bytes that are no text', 400, '/$validate', '\u{d800}{'],
    ['deep JSON', 400, '/$validate', `${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}`],
    ['deep lists', 400, '/$validate', '['.repeat(1_000_000)],
    ['Parameters without resource', 400, '/$validate', parameters()],
    ['two resources', 400, '/$validate', parameters(resource, resource)],
    ['nested Parameters', 400, '/$validate', parameters({ name: 'resource', part: [resource] })],
    ['an unknown name', 400, '/$validate', parameters(resource, { name: '__proto__', valueCode: 'x' })],
    [
      'a mode that is no code',
      400,
      '/$validate',
      parameters(resource, { name: 'mode', valueString: 'create' }),
    ],
    ['a mode that is a number', 400, '/$validate', parameters(resource, { name: 'mode', valueCode: 1 })],
    ['parameter that is no list', 400, '/$validate', { resourceType: 'Parameters', parameter: {} }],
    ['parameter of nothing', 400, '/$validate', { resourceType: 'Parameters', parameter: [null] }],
    ['another type than the address', 400, '/Observation/$validate', patient],
    ['another type in Parameters', 400, '/Observation/$validate', parameters(resource)],
    ['an unknown mode', 400, '/$validate?mode=destroy', patient],
    ['a mode for what is stored', 400, '/$validate?mode=update', patient],
    ['to delete', 400, '/$validate', parameters({ name: 'mode', valueCode: 'delete' })],
    ['a profile that is not named', 400, '/$validate?mode=profile', patient],
    ['two modes', 400, '/$validate?mode=create&mode=create', patient],
    ['a type that there is not', 404, '/Person%20X/$validate', patient],
    ['one resource by its id', 404, '/Patient/1/$validate', patient],
    ['another operation', 404, '/$everything', patient],
    ['20 MB', 413, '/$validate', `{"resourceType":"Patient","id":"${'x'.repeat(20_000_000)}"}`],
  ])('refuses %s with %i', async (_, status, path, body) => {
    const seen = await post(path, body);
    expect(seen.status).toBe(status);
    expect(issuesIn(seen.body)[0]?.details?.text).toMatch(/^[^\n]{20,300}$/);
    expect(JSON.stringify(seen.body)).not.toMatch(/ at .*\.[jt]s:/);
  });

  it.each([
    'application/fhir+xml',
    'text/plain',
    'application/fhir+json; charset=latin1',
    'application/fhir+json; fhirVersion=3.0',
  ])('refuses %s', async type => {
    for (const path of ['/$validate', '/Patient/$validate', '/$process-case'])
      expect((await post(path, '<Patient xmlns="http://hl7.org/fhir"/>', type)).status).toBe(415);
  });

  it('tells an unknown type of a resource as an issue', async () => {
    const { status, body } = await post('/$validate', { resourceType: 'Paitent' });
    expect([status, JSON.stringify(body)]).toEqual([200, expect.stringContaining('Patient')]);
  });
});

describe('$process-case', () => {
  const withRecord = (text = record, ...more: object[]) =>
    parameters({ name: 'record', resource: binary(text) }, ...more);
  const names = (body: Resource) => (body as Parameters).parameter?.map(({ name }) => name);

  it('gives submission, document and outcome: the same as /cases/prepare', async () => {
    const { status, body } = await post('/$process-case', withRecord());
    expect([status, names(body)]).toEqual([200, ['submission', 'document', 'outcome']]);
    const prepared = await fetch(`${service.url}/cases/prepare`, {
      ...{ method: 'POST', body: record },
      headers: { authorization: `Bearer ${TOKEN}`, 'content-type': 'application/yaml' },
    });
    const { submission, document } = (await prepared.json()) as { submission: Bundle; document: Bundle };
    const of = (name: string) => (body as Parameters).parameter?.find(one => one.name === name)?.resource;
    expect(of('submission')).toEqual(submission);
    expect(of('document')).toEqual(document);
    expect(issuesIn(of('outcome')).every(({ severity }) => severity !== 'error')).toBe(true);
  });

  it('gives what is asked for, in a language', async () => {
    const { body } = await post(
      '/$process-case',
      withRecord(record, { name: 'output', valueCode: 'document' }, { name: 'language', valueCode: 'de' }),
    );
    expect(names(body)).toEqual(['document', 'outcome']);
    expect(JSON.stringify(body)).toContain('"language":"de"');
  });

  it('gives the outcome alone while an error stands', async () => {
    const broken = record.replace(/.*do: remove, device: wire.*\n/, '');
    expect(broken).not.toBe(record);
    const { status, body } = await post('/$process-case', withRecord(broken));
    expect([status, names(body)]).toEqual([200, ['outcome']]);
    const issues = issuesIn((body as Parameters).parameter?.[0]?.resource);
    expect(issues[0]).toMatchObject({ severity: 'error', code: 'invalid' });
  });

  const no = { resourceType: 'Binary', contentType: 'application/yaml' };
  const given = (resource: object, ...more: object[]) => parameters({ name: 'record', resource }, ...more);
  it.each<[string, number, unknown]>([
    ['no Parameters', 400, patient],
    ['the record itself', 400, binary(record)],
    ['no record', 400, parameters()],
    ['an earlier record alone', 400, parameters({ name: 'previous', resource: binary(record) })],
    ['a record that is no Binary', 400, given(patient)],
    ['a Binary without data', 400, given(no)],
    ['data that is no base64', 400, given({ ...no, data: '%%%%' })],
    ['a Binary of another type', 415, given({ ...binary(record), contentType: 'application/pdf' })],
    ['a language that there is not', 400, withRecord(record, { name: 'language', valueCode: 'xx' })],
    ['an output that there is not', 400, withRecord(record, { name: 'output', valueCode: 'pdf' })],
    ['a record that is no YAML', 400, withRecord('x: [')],
    ['a record that is not whole', 422, withRecord('casetally: 1\ncase: {}\n')],
    ['a record of more than a case', 413, withRecord('x'.repeat(1_100_000))],
  ])('refuses %s with %i', async (_, status, body) => {
    const seen = await post('/$process-case', body);
    expect(seen.status).toBe(status);
    expect(issuesIn(seen.body)[0]?.details?.text).toMatch(/^[^\n]{20,300}$/);
  });
});

describe('the addresses', () => {
  it.each([
    ['/metadata', 'GET, HEAD', ['PUT', 'DELETE', 'POST']],
    ['/OperationDefinition/process-case', 'GET, HEAD', ['PUT', 'DELETE']],
    ['/$validate', 'POST', ['HEAD', 'GET', 'PUT', 'DELETE']],
    ['/Patient/$validate', 'POST', ['HEAD', 'GET', 'DELETE']],
    ['/$process-case', 'POST', ['HEAD', 'GET', 'PUT']],
  ])('%s allow %s alone', async (path, allow, methods) => {
    for (const method of methods) {
      if (method === 'HEAD') {
        const headers = { authorization: `Bearer ${TOKEN}` };
        const response = await fetch(`${service.url}/fhir${path}`, { method, headers });
        expect([response.status, response.headers.get('allow')]).toEqual([405, allow]);
      } else {
        const seen = await ask(path, { method });
        expect([method, seen.status, seen.headers.get('allow')]).toEqual([method, 405, allow]);
      }
    }
  });

  it('know nobody without a token, and nothing else', async () => {
    for (const path of ['/metadata', '/$validate', '/nothing', ''])
      expect((await ask(path, { headers: { authorization: '' } })).status).toBe(401);
    expect((await ask('/Patient/1')).status).toBe(404);
    expect((await ask('/../fhir')).status).toBe(404);
  });

  it('stand in the log by their route, without anything of the resource', async () => {
    await post('/Patient/$validate', { ...patient, id: 'Vela-1950' });
    const lines = service.log.filter(line => line.includes('$validate'));
    expect(lines.at(-1)).toContain('"route":"/fhir/:type/$validate"');
    expect(service.log.join('\n')).not.toContain('Vela');
  });

  it('answer others while somebody is slow', async () => {
    const { port } = new URL(service.url);
    const socket = connect(Number(port), '127.0.0.1');
    socket.write(
      `POST /fhir/$validate HTTP/1.1\r\nHost: 127.0.0.1\r\nAuthorization: Bearer ${TOKEN}\r\nContent-Type: ${fhirJson}\r\nContent-Length: 9000000\r\n\r\n{"resource`,
    );
    expect((await post('/$validate', patient)).status).toBe(200);
    socket.destroy();
  });
});
