import { describe, expect, it } from 'vitest';
import type { ExactJson } from '../../../src/delivery/answer/exact-json.js';
import { foldIssues, issuesOf, type ServerIssue } from '../../../src/delivery/answer/issues.js';

/*
 * An OperationOutcome as servers fill it: severities and codes are those of FHIR R4,
 * https://hl7.org/fhir/R4/operationoutcome.html; what odd servers leave out is common practice, no source.
 */

const read = (issue: ExactJson) => issuesOf({ resourceType: 'OperationOutcome', issue: [issue] }, [])[0];
const wordsOf = (issue: ExactJson) => read(issue)?.text;

describe('the words of a server', () => {
  it.each<[what: string, issue: ExactJson, read: ServerIssue]>([
    [
      'all that it may hold',
      { severity: 'warning', code: 'value', details: { text: 'Refused' }, diagnostics: 'no such unit' },
      { severity: 'warning', code: 'value', text: 'Refused (no such unit)' },
    ],
    [
      'a severity that is none',
      { severity: 'success', code: 'x' },
      { severity: 'error', code: 'x', text: 'x' },
    ],
    ['no severity', { code: 'x' }, { severity: 'error', code: 'x', text: 'x' }],
    ['a fatal one', { severity: 'fatal', code: 'x' }, { severity: 'fatal', code: 'x', text: 'x' }],
    ['an error', { severity: 'error', code: 'x' }, { severity: 'error', code: 'x', text: 'x' }],
    ['mere news', { severity: 'information', code: 'x' }, { severity: 'information', code: 'x', text: 'x' }],
    ['nothing', {}, { severity: 'error', code: 'unknown', text: 'unknown' }],
    ['null', null, { severity: 'error', code: 'unknown', text: 'unknown' }],
  ])('are read from an issue with %s', (_what, issue, expected) => {
    expect(read(issue)).toStrictEqual(expected);
  });

  it.each<[text: string | null, diagnostics: string | null, words: string]>([
    ['Refused', null, 'Refused'],
    [null, 'no such unit', 'no such unit'],
    ['Refused: no such unit', 'no such unit', 'Refused: no such unit'],
    ['no such unit', 'Refused: no such unit', 'Refused: no such unit'],
    ['same', 'same', 'same'],
    ['Refused', 'no such unit', 'Refused (no such unit)'],
    [null, null, 'invalid'],
  ])('say the text %j and the diagnostics %j once', (text, diagnostics, words) => {
    expect(wordsOf({ code: 'invalid', details: { text }, diagnostics })).toBe(words);
  });

  // Terminals obey U+001B, and U+202E turns the order of what follows: https://www.unicode.org/reports/tr36/
  it.each([
    ['\u001b[31mred', '[31mred'],
    ['a\u0000\u0007\u200bb', 'a b'],
    ['a\r\n\tb\u202ec', 'a b c'],
    ['  padded\n', 'padded'],
    ['x'.repeat(1000), 'x'.repeat(1000)],
    ['x'.repeat(1001), `${'x'.repeat(1000)}…`],
    [` ${'x'.repeat(1000)} `, 'x'.repeat(1000)],
  ])('come without what a terminal would obey, and bounded', (diagnostics, words) => {
    expect(wordsOf({ diagnostics })).toBe(words);
  });

  it.each<ExactJson | undefined>([
    undefined,
    null,
    'OperationOutcome',
    { issue: [{}] },
    { resourceType: 'Parameters', issue: [{}] },
    { resourceType: 'OperationOutcome', issue: 'x' },
    { resourceType: 'OperationOutcome' },
  ])('are none in %j', outcome => {
    expect(issuesOf(outcome, [])).toEqual([]);
  });
});

describe('one cause', () => {
  const issue = (text: string, more: Partial<ServerIssue> = {}): ServerIssue => ({
    severity: 'error',
    code: 'value',
    text,
    ...more,
  });

  it.each([
    ['at entry[1]', 'at entry[12]'],
    ['line 4, column 17', 'line 12, column 3'],
    ['Line: 4', 'line: 127'],
    ['col 1', 'col #22'],
    ['row=7', 'row 10'],
    ['[1] [2] [3]', '[4] [5] [6]'],
  ])('is %j and %j', (one, other) => {
    expect(foldIssues([issue(one), issue(other)])).toEqual([issue(one, { more: 1 })]);
  });

  it.each([
    ['dose 4', 'dose 5'],
    ['entry[a]', 'entry[b]'],
    ['deadline 4', 'deadline 5'],
    ['line     4', 'line     5'],
    ['line four 4', 'line four 5'],
    ['entry', 'entry[1]'],
  ])('is not %j and %j', (one, other) => {
    expect(foldIssues([issue(one), issue(other)])).toEqual([issue(one), issue(other)]);
  });

  it('differs by severity and code, keeps its first place, and counts what was counted before', () => {
    expect(
      foldIssues([
        issue('a', { more: 2, entry: 1 }),
        issue('b'),
        issue('a', { entry: 2 }),
        issue('a', { severity: 'fatal' }),
        issue('a', { code: 'invalid' }),
        issue('a', { more: 3 }),
        issue('b', { more: 1 }),
      ]),
    ).toEqual([
      issue('a', { more: 7, entry: 1 }),
      issue('b', { more: 2 }),
      issue('a', { severity: 'fatal' }),
      issue('a', { code: 'invalid' }),
    ]);
  });
});
