import { describe, expect, it } from 'vitest';
import { matchEntries, receiptLine } from '../../../src/delivery/answer/entries.js';
import type { ExactJson } from '../../../src/delivery/answer/exact-json.js';
import { readSubmission } from '../../../src/delivery/request/submission.js';
import { submissionText, TYPES, urn } from '../samples.js';

const sent = readSubmission(submissionText())?.entries ?? [];
const procedures = sent.filter(({ type }) => type === 'Procedure');
const line = { fullUrl: urn(2), type: 'Procedure' };

const refusal = {
  resourceType: 'OperationOutcome',
  issue: [{ severity: 'error', code: 'value', diagnostics: 'no such status' }],
};

/** What is made of one answer to the procedure alone. */
const answered = (answer: ExactJson) => matchEntries({ entry: [answer] }, procedures);

// What an entry of the answer holds: https://hl7.org/fhir/R4/bundle-definitions.html#Bundle.entry.response
const rows: [what: string, answer: ExactJson, expected: object][] = [
  [
    'its place with a version, and an etag',
    { response: { status: '201 Created', location: 'Procedure/7/_history/3', etag: 'W/"4"' } },
    {
      status: 201,
      found: 'answer',
      location: 'Procedure/7/_history/3',
      id: '7',
      version: '3',
      etag: 'W/"4"',
    },
  ],
  [
    'the whole address, without version and etag',
    { response: { status: '200', location: 'https://fhir.example.org/r4/Procedure/7' } },
    { status: 200, found: 'answer', location: 'https://fhir.example.org/r4/Procedure/7', id: '7' },
  ],
  ...(
    [
      ['W/"12"', '12'],
      ['"12"', '12'],
      ['12', '12'],
      ['"a"b', '"a"b'],
      ['x"12"', 'x"12"'],
    ] as const
  ).map(([etag, version]): (typeof rows)[number] => [
    `the version in the etag ${etag} alone`,
    { response: { status: '200', location: 'Procedure/7', etag } },
    { status: 200, found: 'answer', location: 'Procedure/7', id: '7', version, etag },
  ]),
  [
    'a place of another type',
    { response: { status: '201', location: 'Device/7' } },
    { status: 201, found: 'not-found' },
  ],
  ['no place', { response: { status: '201', etag: '"1"' } }, { status: 201, found: 'not-found' }],
  ['no words at all', {}, { status: 0, found: 'not-found' }],
  ['null', null, { status: 0, found: 'not-found' }],
  [
    'what is wrong with it',
    { response: { status: '422', outcome: refusal } },
    {
      status: 422,
      found: 'not-found',
      outcome: [{ severity: 'error', code: 'value', text: 'no such status', entry: 1 }],
    },
  ],
  [
    'an outcome without issues',
    { response: { status: '201', location: 'Procedure/7', outcome: { ...refusal, issue: [] } } },
    { status: 201, found: 'answer', location: 'Procedure/7', id: '7' },
  ],
];

describe('the line of a receipt', () => {
  it.each(rows)('for an entry answered with %s', (_what, answer, expected) => {
    expect(answered(answer)).toStrictEqual([{ ...line, ...expected }]);
  });

  it('takes its place from the body where the answer names none', () => {
    const [entry] = procedures;
    if (!entry) throw new Error('no procedure in the sample');
    const said = { status: 201, location: undefined, etag: undefined, idInBody: '7' };
    const found = { ...line, status: 201, found: 'answer', location: 'Procedure/7', id: '7' };
    expect(receiptLine(entry, said)).toStrictEqual(found);
    expect(receiptLine(entry, { ...said, etag: 'W/"2"' })).toStrictEqual({
      ...found,
      etag: 'W/"2"',
      version: '2',
    });
    // A place of something else tells neither the address nor the version of this.
    for (const location of ['nowhere', 'Device/9/_history/5'])
      expect(receiptLine(entry, { ...said, location })).toStrictEqual(found);
  });
});

describe('the entries of an answer', () => {
  it('are no guide to places when there are fewer or more of them than were sent', () => {
    const answer = (type: string) => ({ response: { status: '201', location: `${type}/9` } });
    const found = (answers: readonly ExactJson[]) => matchEntries({ entry: answers }, sent).map(e => e.found);
    const all = TYPES.map(answer);
    expect(found(all)).toEqual(TYPES.map(() => 'answer'));
    expect(found(all.slice(0, 3))).toEqual(TYPES.map(() => 'not-found'));
    expect(found([...all, {}])).toEqual(TYPES.map(() => 'not-found'));
    expect(matchEntries(undefined, sent).map(e => e.status)).toEqual([0, 0, 0, 0]);
  });
});
