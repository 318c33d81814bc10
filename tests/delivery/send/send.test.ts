import nock from 'nock';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sendExitCode } from '../../../src/delivery/answer/outcome.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { messageOf } from '../../../src/findings/finding.js';
import { english } from '../../support/english.js';
import {
  accepted,
  deps,
  destination,
  SYSTEM,
  sendSubmission,
  submissionText,
  TYPES,
  urn,
} from '../samples.js';

const HOST = 'https://fhir.example.org';
const BASE = `${HOST}/base/r4`;

beforeEach(() => nock.disableNetConnect());
afterEach(() => {
  nock.abortPendingRequests();
  nock.cleanAll();
  nock.enableNetConnect();
});

const json = { 'content-type': 'application/fhir+json' };
const outcomeOf = (...issue: unknown[]) => ({ resourceType: 'OperationOutcome', issue });

describe('what is sent', () => {
  it('posts the exact text to the base address, with our request id and media type', async () => {
    let body = '';
    let headers: Record<string, unknown> = {};
    nock(HOST)
      .post('/base/r4')
      .reply(function (_uri, sent) {
        body = typeof sent === 'string' ? sent : JSON.stringify(sent);
        headers = this.req.headers;
        return [200, accepted(), { ...json, 'x-request-id': 'server-9' }];
      });
    let raw = '';
    const spy: typeof fetch = (url, init) => {
      raw = String(init?.body);
      return fetch(url, init);
    };
    const text = submissionText();
    const outcome = await sendSubmission(text, destination(`${BASE}/`), deps({ fetch: spy }));
    expect(raw).toBe(text);
    expect(raw).toContain('4.20');
    expect(JSON.parse(body).type).toBe('transaction');
    expect(headers).toMatchObject({
      'content-type': 'application/fhir+json',
      accept: 'application/fhir+json',
      'x-request-id': 'request-1',
    });
    if (outcome.state !== 'delivered') throw new Error(outcome.state);
    expect(outcome.receipt).toMatchObject({
      destination: 'test server',
      requestId: 'request-1',
      serverRequestId: 'server-9',
      sentAt: '2024-03-14T10:00:00.000Z',
      digest: digestOf(text),
      how: 'answered',
    });
    expect(outcome.receipt.entries).toEqual(
      TYPES.map((type, i) => ({
        fullUrl: urn(i + 1),
        type,
        status: 201,
        location: `${type}/${i + 1}/_history/1`,
        id: String(i + 1),
        version: '1',
        etag: 'W/"1"',
        found: 'answer',
      })),
    );
  });

  it('is delivered-already when every entry matched', async () => {
    nock(HOST).post('/base/r4').reply(200, accepted('200 OK'), json);
    expect((await sendSubmission(submissionText(), destination(BASE), deps())).state).toBe(
      'delivered-already',
    );
  });

  it.each([
    ['entries', { maxEntries: 3 }, '4 entries'],
    ['bytes', { maxBytes: 100 }, 'bytes'],
  ])('sends nothing over the limit of %s', async (_what, limits, said) => {
    const outcome = await sendSubmission(submissionText(), destination(BASE, limits), deps());
    expect([outcome.state, sendExitCode(outcome)]).toEqual(['not-sent', 1]);
    expect(outcome.findings.map(f => messageOf(f))[0]).toContain(said);
  });

  it.each([
    ['no JSON', '{'],
    ['another Bundle', '{"resourceType":"Bundle","type":"document"}'],
    ['a list', '[]'],
  ])('sends nothing that is %s', async (_what, text) => {
    expect((await sendSubmission(text, destination(BASE), deps())).state).toBe('not-sent');
  });
});

describe('entries that the answer does not place', () => {
  it('are looked up by identifier, past caches', async () => {
    const wrongOrder = accepted();
    const [patient, procedure, ...rest] = wrongOrder['entry'] as unknown[];
    nock(HOST)
      .post('/base/r4')
      .reply(200, { ...wrongOrder, entry: [procedure, patient, ...rest] }, json);
    const search = (type: string, part: string, id: string) =>
      nock(HOST, { reqheaders: { 'cache-control': 'no-cache' } })
        .get(`/base/r4/${type}`)
        .query({ identifier: `${SYSTEM}|c1-${part}` })
        .reply(200, {
          resourceType: 'Bundle',
          type: 'searchset',
          entry: [{ resource: { resourceType: type, id, meta: { versionId: '3' } } }],
        });
    search('Patient', 'patient', 'p9');
    search('Procedure', 'procedure', 'x9');
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    if (outcome.state !== 'delivered') throw new Error(outcome.state);
    expect(outcome.receipt.entries.slice(0, 2)).toMatchObject([
      { type: 'Patient', id: 'p9', version: '3', found: 'search' },
      { type: 'Procedure', id: 'x9', version: '3', found: 'search' },
    ]);
    expect(outcome.receipt.entries[2]).toMatchObject({ id: '3', found: 'answer' });
  });
});

describe('what comes back', () => {
  it.each<[number, string, 0 | 1 | 3 | 4, string]>([
    [400, 'refused', 3, 'delivery.refused'],
    [413, 'refused', 3, 'delivery.too-large'],
    [422, 'refused', 3, 'delivery.refused'],
    [404, 'destination-paused', 3, 'delivery.no-transaction'],
    [415, 'destination-paused', 3, 'delivery.media-type'],
    [401, 'destination-paused', 3, 'delivery.unauthorised'],
    [403, 'destination-paused', 3, 'delivery.forbidden'],
    [409, 'conflict', 3, 'delivery.conflict'],
    [410, 'conflict', 3, 'delivery.gone'],
    [412, 'conflict', 3, 'delivery.several-matches'],
    [429, 'throttled', 4, 'delivery.throttled'],
    [500, 'outcome-unknown', 4, 'delivery.outcome-unknown'],
    [502, 'outcome-unknown', 4, 'delivery.outcome-unknown'],
    [503, 'outcome-unknown', 4, 'delivery.outcome-unknown'],
    [504, 'outcome-unknown', 4, 'delivery.outcome-unknown'],
  ])('%d is %s, exit %d, said as %s', async (status, state, exit, code) => {
    nock(HOST).post('/base/r4').reply(status, '<html>no</html>', { 'content-type': 'text/html' });
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    expect([outcome.state, sendExitCode(outcome), outcome.findings[0]?.code]).toEqual([state, exit, code]);
    expect(outcome.attempts).toHaveLength(1);
    expect(outcome.attempts[0]).toMatchObject({ status, requestId: 'request-1' });
  });

  it('does not follow a redirect', async () => {
    const elsewhere = nock('https://other.example.org').post('/').reply(200, accepted());
    nock(HOST).post('/base/r4').reply(307, '', { location: 'https://other.example.org/' });
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    expect(outcome.findings[0]?.code).toBe('delivery.redirected');
    expect(elsewhere.isDone()).toBe(false);
  });

  it.each([
    ['ENOTFOUND', 'unreachable', 4],
    ['ECONNREFUSED', 'unreachable', 4],
    ['ERR_TLS_CERT_ALTNAME_INVALID', 'destination-paused', 3],
    ['ECONNRESET', 'outcome-unknown', 4],
  ])('%s is %s', async (code, state, exit) => {
    nock(HOST)
      .post('/base/r4')
      .replyWithError(Object.assign(new Error('no'), { code }));
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    expect([outcome.state, sendExitCode(outcome)]).toEqual([state, exit]);
  });

  it('counts no answer in time as unknown', async () => {
    nock(HOST).post('/base/r4').delay(3_000).reply(200, accepted());
    const outcome = await sendSubmission(submissionText(), destination(BASE, { timeoutMs: 50 }), deps());
    expect(outcome).toMatchObject({ state: 'outcome-unknown', verdict: { reason: 'time-out' } });
  });

  it('cuts an endless error body and keeps the status', async () => {
    nock(HOST).post('/base/r4').reply(422, 'x'.repeat(1_000_000));
    expect(await sendSubmission(submissionText(), destination(BASE), deps())).toMatchObject({
      state: 'refused',
      issues: [],
    });
  });
});

describe('what the server says', () => {
  const sourceOf = (entry: number, path: string) =>
    entry === 2 && path === 'Device.lotNumber' ? 'devices.drain.label' : undefined;

  it.each([
    ['FHIRPath into the Bundle', { expression: ['Bundle.entry[2].resource.ofType(Device).lotNumber'] }],
    ['FHIRPath without the type', { expression: ['Bundle.entry[2].resource.lotNumber'] }],
    ['a type that occurs once', { expression: ['Device.lotNumber'] }],
    ['XPath, which counts from 1', { location: ['/f:Bundle/f:entry[3]/f:resource/f:Device/f:lotNumber'] }],
  ])('is placed on the record by %s', async (_what, place) => {
    const issue = { severity: 'error', code: 'value', diagnostics: 'lot\u001b[31m not known', ...place };
    nock(HOST).post('/base/r4').reply(422, outcomeOf(issue), json);
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps({ sourceOf }));
    expect(outcome.findings[1]).toMatchObject({
      code: 'delivery.server-says',
      path: 'devices.drain.label',
      severity: 'error',
    });
    // A terminal would obey the escape character.
    expect(outcome.findings.map(f => messageOf(f))[1]).toBe(
      'test server says of Device.lotNumber: lot [31m not known',
    );
  });

  it('is placed on the resource when the record is not known, and nowhere when the server does not tell', async () => {
    const issues = [
      {
        severity: 'error',
        code: 'value',
        details: { text: 'a' },
        expression: ['Bundle.entry[1].resource.status'],
      },
      { severity: 'mystery', code: 'exception' },
    ];
    nock(HOST)
      .post('/base/r4')
      .reply(400, outcomeOf(...issues), json);
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    expect(outcome.findings.slice(1).map(f => [f.path, english(f.params['text']), f.severity])).toEqual([
      ['Procedure.status', 'a', 'error'],
      ['Bundle', 'exception', 'error'],
    ]);
  });

  it('is kept on the receipt as a warning when the case was taken', async () => {
    const answer = accepted();
    const entry = answer['entry'] as { response: Record<string, unknown> }[];
    entry[1]!.response['outcome'] = outcomeOf({
      severity: 'warning',
      code: 'business-rule',
      diagnostics: 'no body site',
    });
    nock(HOST).post('/base/r4').reply(200, answer, json);
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    if (outcome.state !== 'delivered') throw new Error(outcome.state);
    expect(outcome.receipt.warnings).toEqual([
      { severity: 'warning', code: 'business-rule', text: 'no body site', entry: 1 },
    ]);
    expect(outcome.findings[0]).toMatchObject({ severity: 'warning', path: 'Procedure' });
  });
});

describe('401', () => {
  it('gets a fresh token and sends once more, not twice', async () => {
    const tokens: string[] = [];
    nock(HOST)
      .post('/base/r4')
      .reply(function () {
        tokens.push(String(this.req.headers['authorization']));
        return [401, ''];
      });
    nock(HOST)
      .post('/base/r4')
      .reply(function () {
        tokens.push(String(this.req.headers['authorization']));
        return [200, accepted(), json];
      });
    const authorize = async (_d: unknown, renew: boolean) => (renew ? 'Bearer new' : 'Bearer old');
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps({ authorize }));
    expect(outcome.state).toBe('delivered');
    expect(tokens).toEqual(['Bearer old', 'Bearer new']);
    expect(outcome.attempts).toHaveLength(2);
  });

  it('pauses the destination after the second', async () => {
    nock(HOST).post('/base/r4').twice().reply(401, '');
    const outcome = await sendSubmission(
      submissionText(),
      destination(BASE),
      deps({ authorize: async () => 'Bearer x' }),
    );
    expect(outcome).toMatchObject({ state: 'destination-paused', verdict: { next: 'pause' } });
    expect(outcome.attempts).toHaveLength(2);
  });
});

describe('202', () => {
  it('asks at Content-Location until the answer is there', async () => {
    nock(HOST)
      .post('/base/r4')
      .reply(202, '', { 'content-location': `${HOST}/base/r4/job/1`, 'retry-after': '1' });
    nock(HOST).get('/base/r4/job/1').reply(202, '');
    nock(HOST).get('/base/r4/job/1').reply(200, accepted(), json);
    const d = deps();
    const outcome = await sendSubmission(submissionText(), destination(BASE), d);
    expect(outcome.state).toBe('delivered');
    expect(d.slept).toEqual([1000, 2000]);
  });

  it('does not ask on another host', async () => {
    nock(HOST).post('/base/r4').reply(202, '', { 'content-location': 'https://other.example.org/job/1' });
    const outcome = await sendSubmission(submissionText(), destination(BASE), deps());
    expect(outcome).toMatchObject({ state: 'outcome-unknown', verdict: { next: 'reconcile' } });
  });
});

describe('a conditional reference that matches nothing', () => {
  it("is the record's matter, not the destination's", async () => {
    const text = submissionText('c1', t =>
      t.replace(
        `"subject": { "reference": "${urn(1)}" }`,
        '"subject": { "reference": "Patient?identifier=a|b" }',
      ),
    );
    nock(HOST)
      .post('/base/r4')
      .reply(404, outcomeOf({ severity: 'error', code: 'not-found', diagnostics: 'no match' }), json);
    const outcome = await sendSubmission(text, destination(BASE), deps());
    expect([outcome.state, outcome.findings[0]?.code]).toEqual(['refused', 'delivery.reference-not-found']);
  });
});

describe('what must not leak', () => {
  it('no token, patient value or header stands in an outcome', async () => {
    const canaries = ['CANARY-TOKEN', 'CANARY-HEADER', 'CANARY-PATIENT'];
    const text = submissionText('CANARY-PATIENT');
    for (const status of [200, 401, 409, 422, 500]) {
      nock(HOST).post('/base/r4').times(2).reply(status, accepted(), json);
      const outcome = await sendSubmission(
        text,
        destination(BASE, { headers: { 'x-api-key': 'CANARY-HEADER' } }),
        deps({ authorize: async () => 'Bearer CANARY-TOKEN' }),
      );
      const shown = JSON.stringify(outcome);
      expect(canaries.filter(c => shown.includes(c))).toEqual([]);
      nock.cleanAll();
    }
  });
});
