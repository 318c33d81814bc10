import type { DocumentReference } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { parseSite } from '../../../src/site/parse.js';
import { exampleFiles, exampleText, knownExample, preparedExample } from '../../support/examples.js';

/** 1296925008: insertion of stent; the others as in the tables of codes. Source: marked `licensed` there. */
const LICENSED =
  /"(?:118377000|47528002|44959004|30968007|32712000|257867005|129303008|360146007|129426002|129415008|241031001|1296925008|385669000|385670004|385671000|408455009)"/g;

function siteWith(fhir: string) {
  const { site, findings } = parseSite(exampleText('site.yaml').replace('\nfhir:\n', `\nfhir:\n${fhir}\n`));
  if (!site) throw new Error(JSON.stringify(findings));
  return site;
}

const documentIn = (text: string): DocumentReference | undefined =>
  JSON.parse(text).entry.find(
    (e: { resource: { resourceType: string } }) => e.resource.resourceType === 'DocumentReference',
  )?.resource;

describe('SNOMED CT codes outside the free set', () => {
  it.each(exampleFiles)('of %s are left out, and the words stay', file => {
    const { submission, document } = knownExample(file);
    // A code that the record itself gives is the record's.
    const ofRecord = exampleText(file);
    const codes = [...`${submission}${document}`.matchAll(LICENSED)].map(([code]) => code.slice(1, -1));
    expect(codes.filter(code => !ofRecord.includes(code))).toEqual([]);
  });

  it('are sent where the site has a licence', () => {
    const [file = ''] = exampleFiles;
    const { submission, findings } = preparedExample(file, siteWith('  snomedLicence: true'));
    expect(submission).toMatch(LICENSED);
    expect(documentIn(submission)?.context?.practiceSetting?.coding?.[0]?.code).toBe('408455009');
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

describe('the reference to the report', () => {
  it('says what those who share documents sort by', () => {
    const [file = ''] = exampleFiles;
    const place = 'facilityType: { system: "https://ids.example.org/places", code: H1, display: Hospital }';
    const type = 'documentType: { system: "https://ids.example.org/types", code: IR, display: Report }';
    const sent = documentIn(preparedExample(file, siteWith(`  ${place}\n  ${type}`)).submission);
    expect(sent).toMatchObject({
      type: { coding: [{ code: 'IR' }] },
      category: [{ coding: [{ code: '34121-4' }] }],
      context: {
        facilityType: { coding: [{ code: 'H1' }] },
        practiceSetting: { text: 'Interventional radiology' },
        period: expect.anything(),
      },
    });
    for (const { format } of sent?.content ?? [])
      expect(format?.code).toBe('urn:ihe:iti:xds:2017:mimeTypeSufficient');
  });
});
