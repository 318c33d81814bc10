import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { parseExact } from '../../../src/delivery/answer/exact-json.js';
import { lacks, readCapabilities } from '../../../src/delivery/destination/capability.js';
import { examineDestination } from '../../../src/delivery/destination/examine.js';
import { openSession } from '../../../src/delivery/destination/session.js';
import { previewSend } from '../../../src/delivery/held/preview.js';
import { readSubmission } from '../../../src/delivery/request/submission.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { answerReads } from '../../support/reads.js';
import { deliver, deps, destination, submissionText, TYPES } from '../samples.js';

let server: RunningSandbox;
beforeAll(async () => {
  server = await startSandbox();
});
afterAll(() => server.close());
afterEach(() => void vi.unstubAllGlobals());

const verdicts = async (answer: typeof fetch, more = {}) => {
  answerReads(answer);
  const { checks } = await examineDestination(
    openSession(destination('https://fhir.example.org'), deps(more)),
  );
  return Object.fromEntries(checks.map(c => [c.name, c.verdict]));
};
const json = (body: unknown, headers = {}) =>
  new Response(JSON.stringify(body), { headers: { 'content-type': 'application/fhir+json', ...headers } });
const statement = (more: object = {}) => ({
  resourceType: 'CapabilityStatement',
  fhirVersion: '4.0.1',
  format: ['json'],
  rest: [
    {
      mode: 'server',
      interaction: [{ code: 'transaction' }, { code: 'something-new' }],
      resource: TYPES.map(type => ({ type, interaction: [{ code: 'create' }, { code: 'read' }] })),
    },
  ],
  ...more,
});

describe('examineDestination', () => {
  it('passes the embedded server, with reads only', async () => {
    const methods = new Set<string | undefined>();
    const spy: typeof fetch = (url, init) => {
      methods.add(init?.method);
      return fetch(url, init);
    };
    answerReads(spy);
    const { checks, capabilities } = await examineDestination(
      openSession(destination(server.baseUrl), deps({ clock: Date.now })),
    );
    expect(checks.filter(c => c.verdict !== 'pass')).toEqual([]);
    expect(checks.map(c => c.name)).toEqual([
      'reachable',
      'metadata',
      'version',
      'transaction',
      'search',
      'clock',
      'limits',
    ]);
    expect(capabilities?.types.get('Procedure')?.conditionalCreate).toBe(true);
    expect([...methods]).toEqual(['GET']);
  });

  it.each<[string, typeof fetch, object, Record<string, string>]>([
    ['R5', async () => json(statement({ fhirVersion: '5.0.0' })), {}, { version: 'fail', metadata: 'pass' }],
    [
      'no statement',
      async () => new Response('<html>'),
      {},
      { reachable: 'pass', metadata: 'fail', search: 'fail' },
    ],
    ['no transactions', async () => json(statement({ rest: [] })), {}, { transaction: 'fail' }],
    [
      'a clock ten minutes off',
      async () => json(statement(), { date: 'Thu, 14 Mar 2024 10:10:00 GMT' }),
      {},
      { clock: 'fail' },
    ],
    [
      'a right clock',
      async () => json(statement(), { date: 'Thu, 14 Mar 2024 10:00:30 GMT' }),
      {},
      { clock: 'pass' },
    ],
    [
      'not there',
      () => Promise.reject(new TypeError('x', { cause: { code: 'ECONNREFUSED' } })),
      {},
      { reachable: 'fail', metadata: 'not-told' },
    ],
    [
      'credentials refused',
      async () => new Response('', { status: 401 }),
      { authorize: async () => 'Bearer x' },
      { token: 'fail', reachable: 'pass' },
    ],
    [
      'no token to be had',
      async () => json(statement()),
      {
        authorize: async () => ({
          kind: 'fault',
          reason: 'token-refused',
          sent: 'no',
          code: 'invalid_client',
          durationMs: 0,
        }),
      },
      { token: 'fail', reachable: 'not-told' },
    ],
  ])('%s', async (_what, answer, more, expected) => {
    expect(await verdicts(answer, more)).toMatchObject(expected);
  });
});

describe('lacks', () => {
  const submission = readSubmission(submissionText());
  const codes = (body: object) => {
    const read = readCapabilities(parseExact(JSON.stringify(body)));
    if (!read || !submission) throw new Error('not readable');
    return lacks(read, submission, destination('http://127.0.0.1/fhir')).map(f => f.code);
  };

  it.each<[string, object, string[]]>([
    ['nothing', statement(), []],
    ['R4, by version', statement({ fhirVersion: '5.0.0' }), ['delivery.other-version']],
    ['a version', statement({ fhirVersion: undefined }), ['delivery.other-version']],
    ['transactions', statement({ rest: [{ mode: 'server' }] }), ['delivery.transaction-not-declared']],
    [
      'a type, and writing another',
      statement({
        rest: [
          {
            interaction: [{ code: 'transaction' }],
            resource: [
              { type: 'Patient', interaction: [{ code: 'create' }] },
              { type: 'Procedure' },
              { type: 'Device', interaction: [{ code: 'create' }] },
            ],
          },
        ],
      }),
      ['delivery.type-not-declared', 'delivery.type-not-declared'],
    ],
  ])('%s', (_what, body, expected) => {
    expect(codes(body)).toEqual(expected);
  });

  it('cannot be read from anything else', () => {
    expect(readCapabilities(parseExact('{"resourceType":"Patient"}'))).toBeUndefined();
    expect(readCapabilities(undefined)).toBeUndefined();
  });
});

describe('previewSend', () => {
  it('tells new, same and different, with reads only', async () => {
    const methods = new Set<string | undefined>();
    const spy: typeof fetch = (url, init) => {
      methods.add(init?.method);
      return fetch(url, init);
    };
    const to = destination(server.baseUrl);
    const preview = async (text: string) => {
      const submission = readSubmission(text);
      return submission && previewSend(submission, openSession(to, deps({ fetch: spy })));
    };
    const text = submissionText('preview');
    const before = server.repository.all().length;
    expect((await preview(text))?.map(e => e.now)).toEqual(['new', 'new', 'new', 'new']);
    expect(server.repository.all()).toHaveLength(before);
    expect([...methods]).toEqual(['GET']);
    await deliver(text, to, deps());
    expect((await preview(text))?.map(e => e.now)).toEqual(['same', 'same', 'same', 'same']);
    const changed = await preview(submissionText('preview', t => t.replace('L-17', 'L-18')));
    expect(changed?.map(e => e.now)).toEqual(['same', 'same', 'differs', 'same']);
    expect(changed?.[2]?.differences).toMatchObject([
      { path: 'Device.lotNumber', sent: 'L-18', held: 'L-17' },
    ]);
    expect(await preview('{}')).toBeUndefined();
  });
});
