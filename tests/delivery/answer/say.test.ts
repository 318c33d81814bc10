import { describe, expect, it } from 'vitest';
import {
  sayDifferences,
  sayEdits,
  sayIssues,
  saySeveral,
  sayVerdict,
  type Voice,
  voiceOf,
} from '../../../src/delivery/answer/say.js';
import type { Verdict } from '../../../src/delivery/answer/verdict.js';
import { openSession } from '../../../src/delivery/destination/session.js';
import type { EntryDifference } from '../../../src/delivery/held/compare.js';
import { readSubmission } from '../../../src/delivery/request/submission.js';
import type { Finding } from '../../../src/findings/finding.js';
import { deps, destination, SYSTEM, submissionText, urn } from '../samples.js';

const BASE = 'https://fhir.example.org/r4';
const submission = readSubmission(submissionText());
if (!submission) throw new Error('the sample is no submission');
const sent = submission.entries;
/** A record whose lines are known for the procedure alone. */
const voice: Voice = {
  ...{ destination: 'test server', baseUrl: BASE, sent },
  sourceOf: (entry, path) => (entry === 1 ? `line of ${path}` : undefined),
};
const told = (findings: readonly Finding[]) =>
  findings.map(({ code, severity, path, params }) => ({ code, severity, path, ...params }));

const verdict = (
  state: Verdict['state'],
  reason: Verdict['reason'],
  more: Partial<Verdict> = {},
): Verdict => ({
  ...{ state, reason, processed: 'no', next: 'person', scope: 'record' },
  ...more,
});

it('the voice is that of a submission and of where it goes', () => {
  const session = openSession(destination(BASE), deps());
  expect(voiceOf(submission, session)).toEqual({ ...voice, sourceOf: submission.sourceOf });
});

describe('a verdict', () => {
  it.each<[Verdict['state'], Verdict['reason'], code: string, severity?: 'warning']>([
    ['partial', 'entry-failed', 'delivery.partial'],
    ['outcome-unknown', 'echoed', 'delivery.echoed'],
    ['outcome-unknown', 'server-error', 'delivery.outcome-unknown'],
    ['refused', 'invalid', 'delivery.refused'],
    ['refused', 'redirect', 'delivery.redirected'],
    ['refused', 'too-large', 'delivery.too-large'],
    ['refused', 'reference-not-found', 'delivery.reference-not-found'],
    ['conflict', 'version-conflict', 'delivery.conflict'],
    ['conflict', 'conflict-on-create', 'delivery.conflict'],
    ['conflict', 'several-matches', 'delivery.several-matches'],
    ['conflict', 'gone', 'delivery.gone'],
    ['conflict', 'written-at-once', 'delivery.written-at-once', 'warning'],
    ['destination-paused', 'unauthorised', 'delivery.unauthorised'],
    ['destination-paused', 'forbidden', 'delivery.forbidden'],
    ['destination-paused', 'not-a-transaction-address', 'delivery.no-transaction'],
    ['destination-paused', 'media-type', 'delivery.media-type'],
    ['destination-paused', 'certificate', 'delivery.certificate'],
    ['destination-paused', 'token-refused', 'delivery.token-refused'],
    ['destination-paused', 'redirect', 'delivery.refused'],
  ])('%s because of %s is said as %s', (state, reason, code, severity = undefined) => {
    const said = { code, severity: severity ?? 'error', path: 'destination', destination: 'test server' };
    expect(told(sayVerdict(voice, verdict(state, reason, { status: 500 })))).toEqual([
      { ...said, status: 'HTTP 500' },
    ]);
    expect(told(sayVerdict(voice, verdict(state, reason)))).toEqual([{ ...said, status: 'no answer' }]);
  });

  it('says nothing of what was accepted', () => {
    expect(sayVerdict(voice, verdict('delivered', 'accepted', { status: 200 }))).toEqual([]);
  });

  it.each([
    [undefined, 'a while'],
    [0, '0 s'],
    [1, '1 s'],
    [1_000, '1 s'],
    [1_001, '2 s'],
    [120_000, '120 s'],
  ])('tells a wait of %s ms as %s', (waitMs, wait) => {
    const throttled = verdict('throttled', 'rate-limit', {
      status: 429,
      ...(waitMs !== undefined && { waitMs }),
    });
    expect(told(sayVerdict(voice, throttled))).toEqual([
      {
        ...{ code: 'delivery.throttled', severity: 'error', path: 'destination' },
        ...{ destination: 'test server', status: 'HTTP 429', wait },
      },
    ]);
  });

  it.each<[Verdict['reason'], cause: string]>([
    ['name-not-found', 'its name is not known to the network'],
    ['not-connected', 'nothing takes connections there'],
    ['tls', 'no secure connection could be made'],
    ['token-unavailable', 'its authorisation server gives no token for now'],
    ['connection-lost', 'connection-lost'],
  ])('names the cause of %s', (reason, cause) => {
    expect(told(sayVerdict(voice, verdict('unreachable', reason)))).toEqual([
      {
        ...{ code: 'delivery.unreachable', severity: 'error', path: 'destination' },
        ...{ destination: 'test server', cause },
      },
    ]);
  });
});

describe('what a server says', () => {
  it('is led to the record where its line is known, else to the resource, and said once for each cause', () => {
    const issue = { severity: 'error', code: 'value', text: 'no' } as const;
    const said = { code: 'delivery.server-says', severity: 'error', destination: 'test server', text: 'no' };
    const all = [
      { ...issue, entry: 1, elementPath: 'Procedure.status' },
      { ...issue, code: 'b', entry: 1 },
      { ...issue, code: 'c', entry: 3, elementPath: 'Observation.status' },
      { ...issue, code: 'd', entry: 3 },
      { ...issue, code: 'e', entry: 9 },
      { ...issue, code: 'f', severity: 'information' as const },
      { ...issue, code: 'g', text: 'once' },
      { ...issue, code: 'g', text: 'once' },
      { ...issue, code: 'h', text: 'thrice', more: 1 },
      { ...issue, code: 'h', text: 'thrice' },
    ];
    expect(told(sayIssues(voice, all))).toEqual([
      { ...said, path: 'line of Procedure.status', resource: 'Procedure.status' },
      { ...said, path: 'line of Procedure', resource: 'Procedure' },
      { ...said, path: 'Observation.status', resource: 'Observation.status' },
      { ...said, path: 'Observation', resource: 'Observation' },
      { ...said, path: 'Bundle', resource: 'Bundle' },
      { ...said, severity: 'information', path: 'Bundle', resource: 'Bundle' },
      { ...said, path: 'Bundle', resource: 'Bundle', text: 'once (and at 1 more place)' },
      { ...said, path: 'Bundle', resource: 'Bundle', text: 'thrice (and at 2 more places)' },
    ]);
  });

  it('is led to no line of the record when it names no entry', () => {
    const anywhere: Voice = { ...voice, sourceOf: () => 'some line' };
    const said = sayIssues(anywhere, [{ severity: 'error', code: 'value', text: 'no' }]);
    expect(said.map(f => f.path)).toEqual(['Bundle']);
  });
});

describe('several resources under one identifier', () => {
  it('are said with their addresses, and nothing is said of what is there once', () => {
    const [patient, procedure, device] = sent;
    if (!patient || !procedure || !device) throw new Error('the sample has three entries and more');
    const { criteria: _none, ...without } = device;
    const held = (...ids: string[]) => ids.map(id => ({ id, resource: {} }));
    const said = { code: 'delivery.several-held', severity: 'error', destination: 'test server' };
    expect(
      told(
        saySeveral(voice, [
          { entry: patient, state: 'equal', held: held('1') },
          { entry: procedure, state: 'several', held: held('7', '8', '9') },
          { entry: device, state: 'several', held: held('4', '5') },
          { entry: without, state: 'several', held: held('4', '5') },
        ]),
      ),
    ).toEqual([
      {
        ...{ ...said, path: 'line of Procedure', resource: 'Procedure', system: SYSTEM, count: '3' },
        addresses: 'Procedure/7, Procedure/8, Procedure/9',
      },
      {
        ...{ ...said, path: 'Device', resource: 'Device', system: SYSTEM, count: '2' },
        addresses: 'Device/4, Device/5',
      },
      {
        ...{ ...said, path: 'Device', resource: 'Device', system: '', count: '2' },
        addresses: 'Device/4, Device/5',
      },
    ]);
  });
});

const differs = (kind: EntryDifference['kind'], more: Partial<EntryDifference> = {}): EntryDifference => ({
  ...{ kind, path: 'Procedure.status', alarm: false, fullUrl: urn(2) },
  ...more,
});
const all: EntryDifference[] = [
  differs('changed', { sent: 'a', held: 'b', alarm: true }),
  differs('changed', { sent: 'a', held: 'b', address: 'Procedure/7' }),
  differs('dropped', { sent: 'a', fullUrl: urn(4), path: 'Observation.note' }),
  differs('added', { held: 'b' }),
  differs('digits', { sent: '1.50', held: '1.5', fullUrl: 'urn:uuid:of-nothing-sent' }),
  differs('digits', { alarm: true }),
];
const values = all.map(d => ({ element: d.path, sent: d.sent ?? 'nothing', held: d.held ?? 'nothing' }));
const paths = [
  ...['line of Procedure.status', 'line of Procedure.status', 'Observation.note'],
  ...['line of Procedure.status', 'Procedure.status', 'line of Procedure.status'],
];

describe('what is held otherwise', () => {
  it('than sent is an error where it is alarming, and news where only digits or additions differ', () => {
    const severities = ['error', 'warning', 'warning', 'information', 'information', 'error'];
    expect(told(sayDifferences(voice, all))).toEqual(
      all.map((_d, i) => ({
        ...{ code: 'delivery.held-differs', severity: severities[i], path: paths[i] },
        ...{ destination: 'test server', ...values[i] },
      })),
    );
  });

  it.each([
    ['edited', 'delivery.edited-there', ['error', 'error', 'error', 'error', 'error', 'error']],
    [
      'otherwise',
      'delivery.held-otherwise',
      ['error', 'error', 'error', 'information', 'information', 'information'],
    ],
  ] as const)('than in the record, as %s, is said with the address', (how, code, severities) => {
    expect(told(sayEdits(voice, all, how))).toEqual(
      all.map((d, i) => ({
        ...{ code, severity: severities[i], path: paths[i], destination: 'test server', ...values[i] },
        address: d.address === undefined ? BASE : `${BASE}/Procedure/7`,
      })),
    );
  });
});
