import { describe, expect, it } from 'vitest';
import { parseExact } from '../../../src/delivery/answer/exact-json.js';
import { comparePatients } from '../../../src/delivery/patient/compare.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleText, preparedExample } from '../../support/examples.js';

const file = 'liver-biopsy.yaml';
const text = exampleText(file);
const inParts = text.replace(
  /^ {2}name: .*$/m,
  '  name: { family: Amagiri-Wells, given: [Kotone, Mei], prefix: Dr }',
);
const asText = text.replace(/^ {2}name: .*$/m, '  name: Dr Kotone Mei Amagiri-Wells');
const prepared = (record: string) => preparedExample(file, unconfiguredSite, record);
const patientOf = (record: string) =>
  JSON.parse(prepared(record).submission).entry.find(
    (e: { resource: { resourceType: string } }) => e.resource.resourceType === 'Patient',
  ).resource;

describe('a name in parts', () => {
  it('is sent in parts, with the text that is shown', () => {
    expect(patientOf(inParts).name).toEqual([
      {
        text: 'Dr Kotone Mei Amagiri-Wells',
        family: 'Amagiri-Wells',
        given: ['Kotone', 'Mei'],
        prefix: ['Dr'],
      },
    ]);
    expect(patientOf(asText).name).toEqual([{ text: 'Dr Kotone Mei Amagiri-Wells' }]);
  });

  it('reads in reports as the same name in one text', () => {
    const shown = (record: string) => prepared(record).record.patient.name;
    expect(shown(inParts)).toBe(shown(asText));
  });

  it('is compared by part with the patient that a destination has', () => {
    const compared = (name: object) => {
      const [ours, theirs] = [patientOf(inParts), { resourceType: 'Patient', name: [name] }].map(one =>
        parseExact(JSON.stringify(one)),
      );
      return comparePatients(ours as never, theirs as never, undefined)
        .filter(({ field }) => field === 'name')
        .map(({ agreement }) => agreement);
    };
    expect(compared({ family: 'Amagiri-Wells', given: ['Kotone', 'Mei'] })).toEqual([]);
    expect(compared({ text: 'Amagiri-Wells, Kotone' })).toEqual([]);
    // The same words, but each in the other's place: a person looks.
    expect(compared({ family: 'Kotone Mei', given: ['Amagiri-Wells'] })).toEqual(['near']);
    expect(compared({ family: 'Amagiri-Wells', given: ['Kotone', 'Mai'] })).toEqual(['near']);
    expect(compared({ family: 'Underhill', given: ['Tom'] })).toEqual(['differs']);
  });
});
