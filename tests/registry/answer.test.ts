import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/findings/finding.js';
import { readAnswer } from '../../src/registry/answer/read.js';
import { reconcile } from '../../src/registry/answer/reconcile.js';
import type { AnswersDefinition } from '../../src/registry/definition/schema.js';
import { lineOf } from './made.js';

const results = { accepted: ['OK'], duplicate: ['AGAIN'], refused: ['NO'] };
const fields = { entry: 'ID', version: 'V', result: 'RESULT', code: 'CODE', text: 'TEXT', digest: 'SHA' };
const csv: AnswersDefinition = { kind: 'csv', delimiter: ';', fields, results, end: 'END' };
const ndjson: AnswersDefinition = { kind: 'ndjson', fields, results, end: 'end' };
const lines = ['a', 'b', 'c'].map((device, n) => lineOf(device, { line: n + 1, state: 'open' }));
const sha256 = 'a'.repeat(64);
const codes = { R1: { says: 'The lot is missing', element: 'lot' as const, remedy: 'Scan the label.' } };

function reconciled(text: string, answers: AnswersDefinition) {
  const sent = lines.map(({ elements, version }) => ({ entry: elements.entry, version }));
  const { verdicts, findings, cases } = reconcile(
    readAnswer(text, answers, sent),
    { id: 'b-1', sha256, lines },
    { codes },
  );
  const code = (one: Finding) => one.code;
  return {
    states: Object.fromEntries(verdicts.map(({ name, state }) => [name.device, state])),
    findings: findings.map(code),
    cases: cases.map(one => [code(one.finding), one.finding.path]),
    verdicts,
    all: [...findings, ...cases.map(one => one.finding)],
  };
}
const HEAD = 'ID;V;RESULT;CODE;TEXT;SHA\n';
const row = (device: string, result: string, more = ';;') => `k1.entry-${device};1;${result};${more}\n`;
const whole = `${HEAD}${row('a', 'OK')}${row('b', 'AGAIN')}${row('c', 'NO', 'R1;;')}END;;;;;\n`;

describe('an answer in CSV', () => {
  it('is matched line by line', () => {
    const { states, findings, cases, verdicts } = reconciled(whole, csv);
    expect(states).toEqual({ a: 'accepted', b: 'duplicate', c: 'refused' });
    expect([findings, cases]).toEqual([[], [['registry.refused', 'devices.c.lot']]]);
    expect(verdicts[2]).toMatchObject({ code: 'R1', says: 'The lot is missing' });
  });

  it('says what the registry says where the definition does not know the code', () => {
    const { all, verdicts } = reconciled(whole.replace('R1;;', 'R9;Not\u001b[31m today;'), csv);
    expect(verdicts[2]).toMatchObject({ code: 'R9', says: 'Not [31m today' });
    expect(all[0]?.path).toBe('devices.c');
  });

  it('names what a whole answer leaves out', () => {
    const { states, cases } = reconciled(whole.replace(row('b', 'AGAIN'), ''), csv);
    expect(states['b']).toBe('missing');
    expect(cases.map(([code]) => code)).toContain('registry.not-answered');
  });

  it.each([
    ['without its last line', whole.slice(0, whole.indexOf('END'))],
    ['in the middle of a line', whole.slice(0, whole.indexOf(row('c', 'NO', 'R1;;')) + 12)],
    ['in a quotation', `${HEAD}${row('a', 'OK')}${row('b', 'AGAIN')}k1.entry-c;1;"NO`],
  ])('that was cut %s: what stands in it counts, the rest stays open', (_, text) => {
    const { states, findings } = reconciled(text, csv);
    expect(states).toMatchObject({ a: 'accepted', b: 'duplicate' });
    expect(Object.values(states)).not.toContain('missing');
    expect(findings).toContain('registry.answer-incomplete');
  });

  it('about another batch, entry or version changes nothing', () => {
    const other = reconciled(
      whole.replaceAll(';;\n', `;;${'b'.repeat(64)}\n`).replace('END;;;;;', 'END'),
      csv,
    );
    const named = whole.split('\n').map(line => (line.startsWith('k1') ? `${line}${'b'.repeat(64)}` : line));
    expect(reconciled(named.join('\n'), csv)).toMatchObject({
      states: {},
      findings: ['registry.answer-other-digest'],
    });
    expect(other.findings).not.toContain('registry.refused');
    const wrong = reconciled(whole.replace('k1.entry-a;1', 'k1.entry-z;1').replace('b;1', 'b;4'), csv);
    expect(wrong.findings).toEqual(['registry.answer-unknown-entry', 'registry.answer-other-version']);
    expect(wrong.states).toEqual({ a: 'missing', b: 'missing', c: 'refused' });
  });

  it.each([
    ['a result that nobody knows', whole.replace('AGAIN', 'PERHAPS')],
    ['a line without an entry', whole.replace('k1.entry-b', '')],
    ['a line with too many columns', whole.replace('AGAIN;;;', 'AGAIN;;;;;')],
    ['a version that is none', whole.replace('b;1', 'b;first')],
  ])('with %s: that line is named, the rest counts', (_, text) => {
    const { states, findings } = reconciled(text, csv);
    // The line may have been about b: it stays open.
    expect(states).toEqual({ a: 'accepted', c: 'refused' });
    expect(findings).toContain('registry.answer-unreadable');
  });

  it.each([
    ['nothing', ''],
    ['a picture', '\u0089PNG\r\n\u001a\n\u0000\u0000'],
    ['a page', '<!doctype html><title>Sign in</title>'],
  ])('that is %s takes nothing for answered', (_, text) => {
    const { end: _end, ...endless } = csv;
    for (const answers of [csv, endless, ndjson, { ...ndjson, end: undefined }] as AnswersDefinition[]) {
      const { states, findings } = reconciled(text, answers);
      expect(states).toEqual({});
      expect(findings.length).toBeGreaterThan(0);
    }
  });
});

describe('an answer in JSON lines', () => {
  const line = (device: string, RESULT: string, more: object = {}) =>
    `${JSON.stringify({ ID: `k1.entry-${device}`, V: 1, RESULT, ...more })}\n`;
  const text = `${line('a', 'OK')}${line('b', 'AGAIN')}${line('c', 'NO', { CODE: 'R1' })}{"end":3}\n`;

  it('is matched line by line, and says where it was cut', () => {
    expect(reconciled(text, ndjson).states).toEqual({ a: 'accepted', b: 'duplicate', c: 'refused' });
    const cut = reconciled(text.slice(0, text.indexOf('{"end"') - 9), ndjson);
    expect(cut.states).toEqual({ a: 'accepted', b: 'duplicate' });
    expect(cut.findings).toEqual(['registry.answer-incomplete']);
    expect(reconciled(text.replace('{"ID":"k1.entry-b"', '["'), ndjson).findings).toEqual([
      'registry.answer-unreadable',
    ]);
  });
});

describe('an answer of a FHIR server', () => {
  const bundle: AnswersDefinition = { kind: 'fhir bundle' };
  const response = (...status: string[]) =>
    JSON.stringify({
      ...{ resourceType: 'Bundle', type: 'batch-response' },
      entry: status.map(one => ({
        response: {
          status: one,
          ...(one.startsWith('4') && {
            outcome: { issue: [{ code: 'business-rule', diagnostics: 'not this kind' }] },
          }),
        },
      })),
    });

  it('goes by the order of the batch (FHIR R4, http.html: batch/transaction response)', () => {
    const { states, verdicts } = reconciled(response('201 Created', '200', '422 Unprocessable'), bundle);
    expect(states).toEqual({ a: 'accepted', b: 'accepted', c: 'refused' });
    expect(verdicts[2]).toMatchObject({ code: 'business-rule', says: 'not this kind' });
  });

  it('that is short leaves the rest open; one that is too long is named', () => {
    const short = reconciled(response('201'), bundle);
    expect(short).toMatchObject({ states: { a: 'accepted' }, findings: ['registry.answer-incomplete'] });
    const long = reconciled(response('200', '200', '200', '200'), bundle);
    expect(long.findings).toEqual(['registry.answer-unreadable']);
  });

  it.each(['', 'null', '[]', '{"resourceType":"OperationOutcome"}', '{"resourceType":"Bundle"}'])(
    'that is %j is none',
    text => {
      const said = reconciled(text, bundle);
      expect(said.states).toEqual({});
      expect(said.findings).toContain('registry.answer-unreadable');
    },
  );
});
