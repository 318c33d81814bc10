import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { exampleFiles, fullSite, knownExample } from '../../support/examples.js';

/*
 * What the embedded server must do is what FHIR R4 says of the RESTful API:
 * https://hl7.org/fhir/R4/http.html (create, conditional create, update, transaction processing rules).
 */

let server: RunningSandbox;

beforeAll(async () => {
  server = await startSandbox({ maxBytes: 200_000 });
});
afterAll(() => server.close());

let run = 0;
beforeEach(() => {
  run += 1;
});

interface Json {
  readonly [key: string]: unknown;
}

async function call(method: string, path: string, body?: unknown, headers: Record<string, string> = {}) {
  const response = await fetch(`${server.baseUrl}${path}`, {
    method,
    headers: { 'content-type': 'application/fhir+json', ...headers },
    ...(body !== undefined && { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  });
  const text = await response.text();
  return { status: response.status, headers: response.headers, body: text ? JSON.parse(text) : undefined };
}

const id = (value: string) => [{ system: 'urn:oid:2.16.840.1.113883.19.5', value: `${value}-${run}` }];
const token = (value: string) =>
  `identifier=${encodeURIComponent(`urn:oid:2.16.840.1.113883.19.5|${value}-${run}`)}`;
const patient = (value: string) => ({ resourceType: 'Patient', identifier: id(value) });
const procedure = (value: string, subject: string) => ({
  resourceType: 'Procedure',
  identifier: id(value),
  status: 'completed',
  subject: { reference: subject },
});
const uuid = (n: number) => `urn:uuid:00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;
const post = (resource: Json & { resourceType: string }, n?: number, ifNoneExist?: string) => ({
  ...(n !== undefined && { fullUrl: uuid(n) }),
  resource,
  request: { method: 'POST', url: resource.resourceType, ...(ifNoneExist && { ifNoneExist }) },
});
const transaction = (...entry: unknown[]) => ({ resourceType: 'Bundle', type: 'transaction', entry });
const count = () => server.repository.all().length;

describe('single interactions', () => {
  it('creates with Location, ETag and version 1, and reads back', async () => {
    const made = await call('POST', '/Patient', patient('a'));
    expect(made.status).toBe(201);
    expect(made.headers.get('location')).toBe(`${server.baseUrl}/Patient/${made.body.id}/_history/1`);
    expect(made.headers.get('etag')).toBe('W/"1"');
    const read = await call('GET', `/Patient/${made.body.id}`);
    expect(read.body.identifier).toEqual(id('a'));
  });

  it('answers a conditional create with 201, then 200, and 412 on several matches', async () => {
    const headers = { 'if-none-exist': token('b') };
    expect((await call('POST', '/Patient', patient('b'), headers)).status).toBe(201);
    expect((await call('POST', '/Patient', patient('b'), headers)).status).toBe(200);
    await call('POST', '/Patient', patient('b'));
    const many = await call('POST', '/Patient', patient('b'), headers);
    expect(many.status).toBe(412);
    expect(many.body.issue[0].code).toBe('multiple-matches');
  });

  it('looks a tag up as it looks an identifier up, and no longer finds one that was taken away', async () => {
    const tagged = (code: string) => ({ ...patient('tag'), meta: { tag: [{ system: 'urn:x', code }] } });
    const made = (code: string) =>
      call('POST', '/Patient', tagged(code), { 'if-none-exist': `_tag=urn:x|${code}` });
    const first = await made(`one-${run}`);
    expect([first.status, (await made(`one-${run}`)).status]).toEqual([201, 200]);
    expect((await made(`two-${run}`)).status).toBe(201);
    await call('PUT', `/Patient/${first.body.id}`, { ...tagged(`two-${run}`), id: first.body.id });
    expect([(await made(`one-${run}`)).status, (await made(`two-${run}`)).status]).toEqual([201, 412]);
  });

  it.each([
    ['empty', ''],
    ['with an unknown parameter', 'identifer=x'],
  ])('refuses an ifNoneExist that is %s', async (_what, criteria) => {
    const before = count();
    const answer = await call('POST', '/', transaction(post(patient('c'), 1, `Patient?${criteria}`)));
    expect(answer.status).toBe(400);
    expect(count()).toBe(before);
  });

  it('updates by id with If-Match, refuses a stale version, and creates by update with 201', async () => {
    const put = (body: Json, headers = {}) =>
      call('PUT', `/Patient/p${run}`, { ...body, id: `p${run}` }, headers);
    expect((await put(patient('d'))).status).toBe(201);
    const second = await put({ ...patient('d'), active: true }, { 'if-match': 'W/"1"' });
    expect([second.status, second.headers.get('etag')]).toEqual([200, 'W/"2"']);
    expect((await put(patient('d'), { 'if-match': 'W/"1"' })).status).toBe(412);
    const history = await call('GET', `/Patient/p${run}/_history`);
    const again = await call('GET', `/Patient/p${run}/_history`);
    const versions = (bundle: { entry: { resource: { meta: { versionId: string } } }[] }) =>
      bundle.entry.map(e => e.resource.meta.versionId);
    expect(versions(history.body)).toEqual(['2', '1']);
    expect(versions(again.body)).toEqual(['2', '1']);
  });

  it('updates by criteria: none creates, one updates, several 412', async () => {
    const path = `/Patient?${token('e')}`;
    expect((await call('PUT', path, patient('e'))).status).toBe(201);
    expect((await call('PUT', path, { ...patient('e'), active: true })).status).toBe(200);
    expect((await call('PUT', path, patient('e'), { 'if-match': 'W/"1"' })).status).toBe(412);
    await call('POST', '/Patient', patient('e'));
    expect((await call('PUT', path, patient('e'))).status).toBe(412);
  });

  it('answers 410 after a delete and 404 for what never was', async () => {
    const { body } = await call('POST', '/Patient', patient('f'));
    expect((await call('DELETE', `/Patient/${body.id}`)).status).toBe(204);
    expect((await call('GET', `/Patient/${body.id}`)).status).toBe(410);
    expect((await call('GET', '/Patient/never')).status).toBe(404);
  });

  it('patches', async () => {
    const { body } = await call('POST', '/Patient', patient('g'));
    const patch = [{ op: 'add', path: '/active', value: true }];
    const patched = await call('PATCH', `/Patient/${body.id}`, patch, {
      'content-type': 'application/json-patch+json',
    });
    expect([patched.status, patched.body.active, patched.body.meta.versionId]).toEqual([200, true, '2']);
  });

  it('pages a search with next links', async () => {
    for (let i = 0; i < 3; i += 1) await call('POST', '/Patient', patient('page'));
    const first = await call('GET', `/Patient?${token('page')}&_count=2`);
    expect([first.body.total, first.body.entry.length]).toEqual([3, 2]);
    const next = first.body.link.find((l: { relation: string }) => l.relation === 'next').url;
    const second = await call('GET', next.slice(server.baseUrl.length));
    expect(second.body.entry).toHaveLength(1);
  });
});

describe('what it refuses', () => {
  it.each<[string, Json, number, string | undefined]>([
    [
      'a required element missing',
      { resourceType: 'Procedure', status: 'completed' },
      422,
      'Procedure.subject',
    ],
    ['an unknown element', { resourceType: 'Patient', colour: 'green' }, 422, 'Patient.colour'],
    ['a wrong primitive type', { resourceType: 'Patient', active: 'yes' }, 422, 'Patient.active'],
    ['another type than the address', { resourceType: 'Device' }, 400, undefined],
  ])('%s', async (_what, resource, status, expression) => {
    const before = count();
    const path = status === 400 ? '/Patient' : `/${String(resource['resourceType'])}`;
    const answer = await call('POST', path, resource);
    expect(answer.status).toBe(status);
    expect(answer.body.issue[0].expression?.[0]).toBe(expression);
    expect(count()).toBe(before);
  });

  it.each([
    ['text that is not JSON', '{"resourceType":', {}, 400],
    ['another media type', '<Patient/>', { 'content-type': 'application/fhir+xml' }, 415],
    ['a body over the limit', JSON.stringify({ resourceType: 'Binary', data: 'A'.repeat(300_000) }), {}, 413],
  ])('%s', async (_what, body, headers, status) => {
    const answer = await call('POST', '/Patient', body, headers);
    expect(answer.status).toBe(status);
    expect(answer.body.resourceType).toBe('OperationOutcome');
  });

  it('a type that R4 does not have', async () => {
    expect((await call('GET', '/Nonsense/1')).status).toBe(404);
  });
});

describe('transactions', () => {
  it('rewrites placeholders, and answers each entry with status, location and etag', async () => {
    const answer = await call(
      'POST',
      '/',
      transaction(post(procedure('t1', uuid(1)), 2, token('t1')), post(patient('t1'), 1, token('t1'))),
    );
    expect(answer.status).toBe(200);
    expect(answer.body.type).toBe('transaction-response');
    expect(answer.body.entry.map((e: { response: { status: string } }) => e.response.status)).toEqual([
      '201 Created',
      '201 Created',
    ]);
    type Entry = { response: { location: string } };
    const [first, second]: [Entry, Entry] = answer.body.entry;
    expect(first.response).toMatchObject({
      etag: 'W/"1"',
      location: expect.stringMatching(/^Procedure\/.+\/_history\/1$/),
    });
    const read = await call('GET', `/${first.response.location.replace(/\/_history.*/, '')}`);
    expect(read.body.subject.reference).toBe(second.response.location.replace(/\/_history.*/, ''));
  });

  it('creates nothing twice when sent twice, with more than eight conditional creates', async () => {
    const bundle = transaction(
      ...Array.from({ length: 20 }, (_, i) =>
        post({ resourceType: 'Device', identifier: id(`d${i}`) }, i, token(`d${i}`)),
      ),
    );
    await call('POST', '/', bundle);
    const before = count();
    const again = await call('POST', '/', bundle);
    expect(
      again.body.entry.every((e: { response: { status: string } }) => e.response.status === '200 OK'),
    ).toBe(true);
    expect(count()).toBe(before);
  });

  it('undoes everything when one entry fails, and says which', async () => {
    const { body: kept } = await call('POST', '/Patient', patient('u'));
    const before = count();
    const answer = await call(
      'POST',
      '/',
      transaction(
        post(patient('u2'), 1),
        {
          resource: { ...patient('u'), id: kept.id, active: true },
          request: { method: 'PUT', url: `Patient/${kept.id}` },
        },
        post({ resourceType: 'Procedure', status: 'completed' }, 2),
      ),
    );
    expect(answer.status).toBe(422);
    expect(answer.body.issue[0].expression).toEqual(['Bundle.entry[2].resource.subject']);
    expect(count()).toBe(before);
    const read = await call('GET', `/Patient/${kept.id}`);
    expect([read.body.active, read.body.meta.versionId]).toEqual([undefined, '1']);
    const history = await call('GET', `/Patient/${kept.id}/_history`);
    expect(history.body.entry).toHaveLength(1);
  });

  it('undoes a delete too', async () => {
    const { body } = await call('POST', '/Patient', patient('v'));
    const answer = await call(
      'POST',
      '/',
      transaction(
        { request: { method: 'DELETE', url: `Patient/${body.id}` } },
        post({ resourceType: 'Procedure' }, 2),
      ),
    );
    expect(answer.status).toBe(422);
    expect((await call('GET', `/Patient/${body.id}`)).status).toBe(200);
  });

  it.each([
    ['one match', 1, 200],
    ['no match', 0, 404],
    ['several matches', 2, 412],
  ])('conditional reference with %s', async (_what, copies, status) => {
    for (let i = 0; i < copies; i += 1) await call('POST', '/Patient', patient('w'));
    const before = count();
    const answer = await call(
      'POST',
      '/',
      transaction(post(procedure('w', `Patient?${token('w')}`), 1, token('w'))),
    );
    expect(answer.status).toBe(status);
    expect(count()).toBe(before + (status === 200 ? 1 : 0));
  });

  it.each([
    ['a placeholder that nothing has', uuid(99)],
    ['a literal target that is not there', 'Patient/nobody'],
  ])('refuses %s', async (_what, reference) => {
    const before = count();
    const answer = await call('POST', '/', transaction(post(procedure('x', reference), 1)));
    expect(answer.status).toBe(400);
    expect(answer.body.issue[0].expression).toEqual(['Bundle.entry[0].resource.subject.reference']);
    expect(count()).toBe(before);
  });

  it('refuses two entries with one fullUrl or one ifNoneExist', async () => {
    const twice = transaction(post(patient('y'), 1), post(patient('y2'), 1));
    expect((await call('POST', '/', twice)).status).toBe(400);
    const same = transaction(post(patient('z'), 1, token('z')), post(patient('z'), 2, token('z')));
    expect((await call('POST', '/', same)).status).toBe(400);
  });

  it('leaves the inside of a document Bundle as it was sent', async () => {
    const document = {
      resourceType: 'Bundle',
      type: 'document',
      identifier: id('doc')[0],
      timestamp: '2024-03-14T10:00:00+00:00',
      entry: [
        {
          fullUrl: uuid(3),
          resource: {
            resourceType: 'Composition',
            status: 'final',
            type: { text: 'report' },
            date: '2024-03-14',
            author: [{ reference: uuid(1) }],
            title: 'report',
          },
        },
        { fullUrl: uuid(1), resource: patient('doc') },
      ],
    };
    const answer = await call('POST', '/', transaction(post(patient('doc'), 1), post(document, 2)));
    expect(answer.status).toBe(200);
    const place = answer.body.entry[1].response.location.replace(/\/_history.*/, '');
    expect((await call('GET', `/${place}`)).body).toMatchObject({ entry: document.entry });
  });

  it('serialises: six equal transactions at once make one resource', async () => {
    const before = count();
    const bundle = transaction(post(patient('race'), 1, token('race')));
    const answers = await Promise.all(Array.from({ length: 6 }, () => call('POST', '/', bundle)));
    expect(answers.map(a => a.status)).toEqual([200, 200, 200, 200, 200, 200]);
    expect(count()).toBe(before + 1);
  });

  it('runs a batch entry by entry', async () => {
    const bundle = {
      ...transaction(post(patient('ba')), post({ resourceType: 'Procedure' })),
      type: 'batch',
    };
    const answer = await call('POST', '/', bundle);
    expect(answer.body.type).toBe('batch-response');
    expect(answer.body.entry.map((e: { response: { status: string } }) => e.response.status)).toEqual([
      '201 Created',
      '422',
    ]);
  });
});

describe('start', () => {
  it('says in /metadata what it is for', async () => {
    const { body } = await call('GET', '/metadata');
    expect(body.implementation.description).toMatch(/for trying out and for tests only/);
    expect(body.fhirVersion).toBe('4.0.1');
  });

  it('refuses a taken port with a plain error', async () => {
    const port = Number(new URL(server.baseUrl).port);
    await expect(startSandbox({ port })).rejects.toMatchObject({ code: 'port-in-use' });
  });

  it('holds preloaded resources', async () => {
    const other = await startSandbox({ preload: [{ resourceType: 'Patient', id: 'known' }] });
    try {
      expect((await fetch(`${other.baseUrl}/Patient/known`)).status).toBe(200);
    } finally {
      await other.close();
    }
  });
});

describe('what it says of itself', () => {
  it('lists every type that a case has, each once', async () => {
    const { body } = await call('GET', '/metadata');
    const declared: string[] = body.rest[0].resource.map(({ type }: { type: string }) => type);
    expect(new Set(declared).size).toBe(declared.length);
    const sent = exampleFiles.flatMap(file =>
      JSON.parse(knownExample(file, fullSite).submission).entry.map(
        ({ resource }: { resource: { resourceType: string } }) => resource.resourceType,
      ),
    );
    expect([...new Set(sent)].filter(type => !declared.includes(type))).toEqual([]);
  });
});
