import type { Bundle } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { hasErrors } from '../../src/conformance/result.js';
import { messageOf, remedyOf, stops } from '../../src/findings/finding.js';
import { checkCase } from '../../src/pipeline/check.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { exampleFiles, exampleText, preparedExample, testTools } from '../support/examples.js';

const parse = (text: string): Bundle => JSON.parse(text) as Bundle;

function references(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(references);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, field]) =>
    key === 'reference' && typeof field === 'string' ? [field] : references(field),
  );
}

describe.each(exampleFiles)('%s', file => {
  const prepared = preparedExample(file);

  it('has no error', () => {
    expect(prepared.findings.filter(stops).map(f => `${f.code} ${f.path}: ${messageOf(f)}`)).toEqual([]);
  });

  // FHIR R4 Bundle, invariants bdl-9, bdl-10 and bdl-11: identifier, timestamp, Composition first.
  it('makes a document whose first entry is a Composition', () => {
    const document = parse(prepared.document);
    expect(document.type).toBe('document');
    expect(document.entry?.[0]?.resource?.resourceType).toBe('Composition');
    expect(document.identifier?.system).toBeTruthy();
    expect(document.identifier?.value).toBeTruthy();
    expect(document.timestamp).toBeTruthy();
  });

  it('leaves no reference in the document open', () => {
    const document = parse(prepared.document);
    const known = new Set(document.entry?.map(entry => entry.fullUrl));
    const open = references(document).filter(
      reference => !known.has(reference) && !reference.startsWith('#'),
    );
    expect(open).toEqual([]);
  });

  it('sends every reference of the submission along, or points by search', () => {
    const submission = parse(prepared.submission);
    const known = new Set(submission.entry?.map(entry => entry.fullUrl));
    const open = references(submission).filter(
      reference =>
        !known.has(reference) && !reference.startsWith('#') && !/^[A-Z]\w+\?identifier=/.test(reference),
    );
    expect(open).toEqual([]);
  });

  // FHIR R4 http.html, conditional create: ifNoneExist holds search parameters; no id on what is created.
  it('creates each resource on the condition that it is not known', () => {
    for (const entry of parse(prepared.submission).entry ?? []) {
      expect(entry.request?.method).toBe('POST');
      expect(entry.request?.ifNoneExist).toMatch(/^(?:identifier|_tag)=[^&|]+\|[^&]+$/);
      expect(entry.resource?.id).toBeUndefined();
    }
  });

  it('validates without an error, standing alone', () => {
    const { validator } = testTools();
    expect(hasErrors(validator.validateText(prepared.document))).toBe(false);
    expect(hasErrors(validator.validateText(prepared.submission))).toBe(false);
  });

  it('is told the same by the validator read without the places and digits of its text', () => {
    const { validator } = testTools();
    for (const text of [prepared.document, prepared.submission]) {
      const read = JSON.parse(text) as { entry?: { resource?: { status?: string; gender?: string } }[] };
      // As it is, and with a mistake in each resource.
      for (const { resource } of read.entry ?? []) if (resource) resource.gender = resource.status = 'odd';
      for (const one of [text, JSON.stringify(read)])
        expect(validator.validateResource(JSON.parse(one)).issues).toEqual(
          validator.validateText(one).issues.map(({ line: _line, column: _column, ...rest }) => rest),
        );
    }
  });

  it('gives the same bytes again', () => {
    const again = preparedExample(file);
    expect(again.submission).toBe(prepared.submission);
    expect(again.document).toBe(prepared.document);
    expect(again.reports).toEqual(prepared.reports);
    expect(again.timeline).toBe(prepared.timeline);
  });

  it('keeps identifiers apart: no two entries can match the same resource', () => {
    const keys = (parse(prepared.submission).entry ?? []).map(
      entry => `${entry.resource?.resourceType} ${entry.request?.ifNoneExist}`,
    );
    expect(new Set(keys).size).toBe(keys.length);
  });
});

describe('the example with planted mistakes', () => {
  const text = exampleText('mistaken.yaml');
  const { findings, record } = checkCase(text, unconfiguredSite);
  const planted = text
    .split('\n')
    .flatMap((line, index) => (/^\s*# planted:/.test(line) ? [{ what: line.trim(), line: index + 2 }] : []));

  it('plants at least twelve', () => {
    expect(planted.length).toBeGreaterThanOrEqual(12);
  });

  it.each(planted)('$what', ({ line }) => {
    // Other comments may stand between the mark and the line that is wrong.
    const near = findings.filter(
      f => f.line !== undefined && f.line >= line && f.line <= line + 1 && f.severity !== 'information',
    );
    expect(near.map(f => f.code)).not.toEqual([]);
    for (const f of near) expect(remedyOf(f).length).toBeGreaterThan(5);
  });

  it('is held back', () => {
    expect(record).toBeUndefined();
    expect(findings.some(stops)).toBe(true);
  });
});
