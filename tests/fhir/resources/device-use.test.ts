import { describe, expect, it } from 'vitest';
import { submissionBundle } from '../../../src/fhir/bundles/submission.js';
import { toR5 } from '../../../src/fhir/r5/versions.js';
import type { CaseResource } from '../../../src/fhir/set.js';
import { caseText, mapped, resourceOf } from '../cases.js';

const SNOMED = 'http://snomed.info/sct';

const coded = (code: string) => [{ system: SNOMED, code, display: expect.any(String) }];

/** A ureteric stent that stays, with what a test is about. */
const stented = (left: string, more = '', site = 'Left ureter', side = 'left') =>
  caseText(
    `targets: { way: { what: ${site}, side: ${side} } }
devices: { stent: { kind: double-J stent, size: 7 Fr x 26 cm } }
events: [{ at: "09:10", do: deploy, device: stent, across: way }]
left: [{ device: stent${left} }]
${more}`,
  ).replace('indication: { text: Jaundice }', 'indication: { text: Blocked ureter, conditions: [Tumour] }');

const useOf = (text: string) => resourceOf(mapped(text).set, 'use/stent', 'DeviceUseStatement');

describe('planned end of a use', () => {
  const TEMPORARY = ', purpose: temporary';

  it('is the end of the period: R4, Period.end, an end in the future is planned', () => {
    const use = useOf(stented(`${TEMPORARY}, until: { date: 6 weeks }, latest: 12 weeks`));
    expect(use.status).toBe('active');
    expect(use.timingPeriod).toEqual({ start: '2024-03-14T09:10:00+00:00', end: '2024-04-25' });
  });

  it('is that of the item of aftercare that takes the device out or changes it', () => {
    const aftercare = `aftercare: [{ do: Exchange the stent, device: stent, due: 2024-05-02, by: referrer }]`;
    expect(useOf(stented(TEMPORARY, aftercare)).timingPeriod?.end).toBe('2024-05-02');
  });

  it.each([
    [
      'a look at the device',
      TEMPORARY,
      'aftercare: [{ do: Ultrasound, device: stent, due: 2024-05-02, by: referrer }]',
    ],
    ['a condition without a day', `${TEMPORARY}, until: { condition: when it passes freely }`, ''],
    ['a limit alone', `${TEMPORARY}, latest: 12 weeks`, ''],
    ['a day on which an implant is looked at', ', purpose: intended, until: { date: 3 months }', ''],
    ['what stays for good', ', until: { condition: stays for good, date: 3 months }', ''],
  ])('is not %s', (_, left, aftercare) => {
    const use = useOf(stented(left, aftercare));
    expect(use.timingPeriod).toEqual({ start: '2024-03-14T09:10:00+00:00' });
  });
});

describe('reason of a use', () => {
  it('is the indication in words, and the conditions by reference', () => {
    const use = useOf(stented(''));
    expect(use.reasonCode).toEqual([{ text: 'Blocked ureter' }]);
    const { set } = mapped(stented(''));
    const condition = set.entries.find(({ role }) => role === 'condition/1');
    expect(use.reasonReference).toEqual([{ reference: condition?.fullUrl }]);
  });

  it('names the conditions where they are not sent', () => {
    const { set } = mapped(stented(''));
    const bundle = submissionBundle(set, {
      references: { ...NAMES },
      wanted: { contents: 'core' },
    });
    const use = bundle.entry?.find(({ resource }) => resource?.resourceType === 'DeviceUseStatement');
    expect(use?.resource).toMatchObject({ reasonCode: [{ text: 'Blocked ureter' }, { text: 'Tumour' }] });
    expect(use?.resource).not.toHaveProperty('reasonReference');
  });

  it('keeps both in R5', () => {
    expect(toR5(useOf(stented('')))?.resource).toMatchObject({
      reason: [{ concept: { text: 'Blocked ureter' } }, { reference: { reference: expect.any(String) } }],
    });
  });
});

const NAMES = {
  patient: 'match',
  encounter: 'match',
  order: 'match',
  practitioner: 'name',
  organization: 'name',
  location: 'name',
} as const;

describe('body site of a use', () => {
  const siteOf = (site: string, side: string) => useOf(stented('', '', site, side)).bodySite;

  it('has the side in its words where the target has it in a field', () => {
    expect(siteOf('ureter', 'left')).toMatchObject({ text: 'left ureter', coding: coded('87953007') });
  });

  it('is coded where its words begin with the side', () => {
    expect(siteOf('Left ureter', 'left')).toMatchObject({ text: 'Left ureter', coding: coded('87953007') });
  });

  it('has the code with the side in it where a free one is known', () => {
    expect(siteOf('ureter', 'both')?.coding).toEqual(coded('65364008'));
    expect(siteOf('femoral artery', 'left')?.coding).toEqual(coded('113270003'));
    expect(siteOf('Right femoral artery', 'right')?.coding).toEqual(coded('69833005'));
  });

  it('has no code where words and field name two sides', () => {
    expect(siteOf('Left femoral artery', 'right')?.coding).toBeUndefined();
  });

  it('is not guessed from words that say more', () => {
    expect(siteOf('ureter of the transplant kidney', 'right')?.coding).toBeUndefined();
  });
});

describe('side of what was treated', () => {
  it('is coded in core as well, in a structure that the procedure contains', () => {
    const { set } = mapped(stented(''));
    const bundle = submissionBundle(set, { references: NAMES, wanted: { contents: 'core' } });
    const resources = (bundle.entry ?? []).map(({ resource }) => resource as CaseResource);
    expect(resources.map(({ resourceType }) => resourceType)).not.toContain('BodyStructure');
    const procedure = resources.find(({ resourceType }) => resourceType === 'Procedure');
    expect(procedure).toMatchObject({
      contained: [
        {
          resourceType: 'BodyStructure',
          id: 'site-1',
          locationQualifier: [{ coding: coded('7771000') }],
        },
      ],
      extension: [
        {
          url: 'http://hl7.org/fhir/StructureDefinition/procedure-targetBodyStructure',
          valueReference: { reference: '#site-1' },
        },
      ],
    });
    // What is contained has no text of its own (R4, dom-6) and is no record of its own.
    expect(JSON.stringify(procedure)).not.toContain('"contained":[{"text"');
    expect(toR5(procedure ?? expect.fail('no procedure'))).toMatchObject({
      unknown: [],
      resource: {
        contained: [
          {
            resourceType: 'BodyStructure',
            includedStructure: [{ qualifier: [{ coding: coded('7771000') }] }],
          },
        ],
      },
    });
  });

  it('stands in resources of its own in full', () => {
    const { set } = mapped(stented(''));
    const bundle = submissionBundle(set, { references: NAMES, wanted: { contents: 'full' } });
    const types = (bundle.entry ?? []).map(({ resource }) => resource?.resourceType);
    expect(types).toContain('BodyStructure');
    expect(JSON.stringify(bundle)).not.toContain('"contained"');
  });
});

describe('the case that placed what was carried in', () => {
  const earlier = (carried: string) => {
    const text =
      caseText(`devices: { stent: { kind: double-J stent, size: 7 Fr x 26 cm, carried: { site: Left ureter, side: left${carried} } } }
events: [{ at: "09:10", do: remove, device: stent, state: intact }]
left: none
`);
    return useOf(text).derivedFrom?.flatMap(({ type, identifier }) =>
      identifier ? [{ type, ...identifier }] : [],
    );
  };
  const own = 'https://ids.example.org/cases';
  const elsewhere = 'https://ids.hilltop.example/cases';

  it.each([
    [
      'as the record names it',
      `, case: { system: "${elsewhere}", value: H-7 }, use: T-1/stent`,
      elsewhere,
      'H-7',
    ],
    ['as its use in the register names it', ', use: T-1/stent', own, 'T-1'],
    ['as the use of a case from elsewhere names it', `, use: "${elsewhere}|H-7/stent"`, elsewhere, 'H-7'],
  ])('is pointed at by its number, %s', (_, carried, system, value) => {
    expect(earlier(carried)).toEqual([{ type: 'Procedure', system, value }]);
  });

  it.each([
    ['nothing names it', ''],
    ['it may be a part, or a case number with a stroke', ', use: T/1/stent'],
  ])('is not pointed at where %s', (_, carried) => expect(earlier(carried)).toEqual([]));
});
