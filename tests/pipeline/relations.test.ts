import { describe, expect, it } from 'vitest';
import { submissionFor } from '../../src/pipeline/in-version.js';
import { destination } from '../delivery/samples.js';
import { firstText, preparedVersion, secondText } from '../support/corrected.js';

const relations = (submission = '') => submission.match(/"relatesTo"/g)?.length ?? 0;
const leavingOut = destination('http://127.0.0.1:1/fhir', { relatesTo: 'leave out' });

describe('a destination that takes no relatesTo', () => {
  const corrected = preparedVersion(secondText, firstText);

  it('gets documents without it, the one before superseded all the same, and that is said', () => {
    expect(relations(corrected.submission)).toBe(2);
    const { submission = '', findings } = submissionFor(corrected, leavingOut);
    expect(relations(submission)).toBe(0);
    expect(findings.map(f => f.code)).toEqual(['delivery.relations-left-out', 'delivery.reserved-host']);
    expect(submission).toMatch(/"status":\s*"superseded"/);
    // The report that both carry still says what it replaces.
    expect(corrected.reports.record.text).toMatch(/version 1/i);
  });

  it('gets the rest letter for letter', () => {
    const { submission = '' } = submissionFor(corrected, leavingOut);
    const without = (text: string) =>
      JSON.stringify(JSON.parse(text), (key, value) => (key === 'relatesTo' ? undefined : value));
    expect(without(submission)).toBe(without(corrected.submission));
  });

  it('hears nothing of it where there is no version before', () => {
    const first = preparedVersion(firstText);
    const { submission, findings } = submissionFor(first, leavingOut);
    expect(submission).toBe(first.submission);
    expect(findings.map(f => f.code)).toEqual(['delivery.reserved-host']);
  });

  it('others get it', () => {
    expect(submissionFor(corrected, destination('http://127.0.0.1:1/fhir')).submission).toBe(
      corrected.submission,
    );
  });
});
