import { describe, expect, it } from 'vitest';
import { caseOf } from '../../src/pipeline/outbox-case.js';
import { recordOf } from '../support/case-text.js';
import { exampleFiles, exampleText } from '../support/examples.js';

const of = (record: string) => caseOf({ context: JSON.stringify({ record }) });

describe('what a list names a case by', () => {
  it.each(exampleFiles.filter(file => file !== 'mistaken.yaml'))('%s: its number and initials', file => {
    const { case: head, patient } = recordOf(exampleText(file));
    const { id, initials } = of(exampleText(file));
    expect(id).toBe(head.id);
    expect(initials?.[0]).toBe(patient.name?.[0]);
    expect(initials).toMatch(/^(?:\p{L}\.){1,3}$/u);
  });

  it.each([
    ['case: { id: A-1 }\npatient: { name: Orla Finnwick }', { id: 'A-1', initials: 'O.F.' }],
    [
      'patient:\n  name: { family: Finnwick, given: [Orla, Mae], prefix: Dr }\ncase:\n  id: 0417\n',
      { id: '0417', initials: 'O.M.F.' },
    ],
    ['{"case":{"id":"J-2"},"patient":{"name":"\u4e2d\u6587"}}', { id: 'J-2', initials: '\u4e2d.' }],
    ['case:\n# a remark\n  id: B-1\nevents: [{ at: "09:00" }]\n', { id: 'B-1' }],
    ['case: [', {}],
    ['', {}],
  ])('%j', (record, named) => {
    expect(of(record)).toEqual(named);
  });

  it('is nothing where no record is kept or it cannot be opened', () => {
    expect(caseOf({})).toEqual({});
    expect(caseOf({ context: '{}' })).toEqual({});
  });
});
