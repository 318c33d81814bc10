import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AdverseEvent, AllergyIntolerance, Bundle, Condition, Resource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { languages } from '../../src/findings/languages.js';
import { unconfiguredSite } from '../../src/site/site.js';
import { fullSite, preparedExample } from '../support/examples.js';

const text = readFileSync(
  join(import.meta.dirname, '..', 'support', 'born', 'contrast-reaction.yaml'),
  'utf8',
);
const prepare = (source = text, site = unconfiguredSite) =>
  preparedExample('contrast-reaction', site, source);

const resources = (json: string) =>
  (JSON.parse(json) as Bundle).entry?.flatMap(({ resource }) => resource ?? []) ?? [];
const ofType = <T extends Resource>(json: string, type: T['resourceType']) =>
  resources(json).filter((one): one is T & Resource & typeof one => one.resourceType === type);
const whole = prepare();

/** SNOMED CT 716186003 No known allergy (situation), 409137002 No known drug allergy (situation). */
const NEGATIVE = /no known (?:drug )?allerg|716186003|409137002/i;

describe('a contrast reaction in the case', () => {
  it('leaves no error and no warning', () => {
    expect(whole.findings.filter(({ severity }) => severity !== 'information')).toEqual([]);
  });

  it.each(
    languages.flatMap(language =>
      (['record', 'referrer', 'ward', 'patient'] as const).map(reader => [language, reader] as const),
    ),
  )('is the first thing that the report in %s tells the %s', (language, reader) => {
    const report = { ...unconfiguredSite.report, unreviewedLetters: true };
    const { reports } = prepare(text, { ...unconfiguredSite, language, report });
    const [, first = ''] = /\*\*\* ([\s\S]*?)\n\n/.exec(reports[reader]?.text ?? '') ?? [];
    expect(first.split('***')[0]).toMatch(/iopamidol/i);
    expect(reports[reader]?.text).not.toMatch(NEGATIVE);
  });

  it('comes before the other notices of a preliminary report', () => {
    const { reports } = prepare(text.replace('status: final', 'status: preliminary'));
    const { text: page } = reports.ward;
    expect(page.indexOf('NEW ALLERGY')).toBeGreaterThan(0);
    expect(page.indexOf('NEW ALLERGY')).toBeLessThan(page.toLowerCase().indexOf('preliminary'));
  });

  it('makes none read as none known before the case, and never as we know of no allergies', () => {
    for (const reader of ['record', 'referrer', 'ward'] as const)
      expect(whole.reports[reader]?.text.replace(/\s+/g, ' ')).toContain('None known before the case');
    expect(whole.reports.patient?.text).not.toContain('We know of no allergies');
  });

  it.each(['submission', 'document'] as const)('is an allergy and an adverse event of the %s', which => {
    const json = whole[which];
    const [allergy, ...others] = ofType<AllergyIntolerance>(json, 'AllergyIntolerance');
    expect(others).toEqual([]);
    expect(allergy).toMatchObject({
      code: { text: 'iopamidol' },
      verificationStatus: { coding: [{ code: 'unconfirmed' }] },
      recordedDate: '2024-06-11T11:20:00+01:00',
      recorder: { display: 'Dr Ivo Calder' },
      reaction: [
        {
          manifestation: [{ text: 'wheals on the trunk' }, { text: 'urticaria' }],
          severity: 'mild',
          onset: '2024-06-11T10:31:00+01:00',
        },
      ],
    });
    const [event] = ofType<AdverseEvent>(json, 'AdverseEvent');
    const suspect = event?.suspectEntity?.[0]?.instance.reference;
    const given = (JSON.parse(json) as Bundle).entry?.find(({ fullUrl }) => fullUrl === suspect)?.resource;
    expect(given).toMatchObject({
      resourceType: 'MedicationAdministration',
      medicationReference: { display: 'iopamidol' },
    });
    expect(json).not.toMatch(NEGATIVE);
  });

  it('is confirmed where the record says so', () => {
    const { submission } = prepare(text.replace('certainty: unconfirmed', 'certainty: confirmed'));
    const [allergy] = ofType<AllergyIntolerance>(submission, 'AllergyIntolerance');
    expect(allergy?.verificationStatus?.coding?.[0]?.code).toBe('confirmed');
  });

  it('outranks none where the site sends negative statements', () => {
    const site = { ...unconfiguredSite, fhir: { ...unconfiguredSite.fhir, negativeStatements: true } };
    const { submission } = prepare(text, site);
    expect(submission).not.toMatch(NEGATIVE);
    expect(submission).toContain('not-taken');
  });
});

describe('none', () => {
  const without = text
    .replace(/, reaction: wheals on the trunk/, '')
    .replace(/complications:\n.*\n/, 'complications: none\n')
    .replace(/sedation: .*\n/, 'sedation: none\n');

  it('is a resource only where the site asks', () => {
    const site = { ...unconfiguredSite, fhir: { ...unconfiguredSite.fhir, negativeStatements: true } };
    const silent = prepare(without).submission;
    const said = prepare(without, site);
    expect(ofType(silent, 'AllergyIntolerance')).toEqual([]);
    expect(ofType(silent, 'MedicationStatement')).toEqual([]);
    expect(silent).not.toMatch(NEGATIVE);
    expect(silent).toContain('None known');
    expect(ofType(said.submission, 'AllergyIntolerance')).toHaveLength(1);
    expect(said.submission).toContain('716186003');
    expect(said.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

describe('conditions before the case', () => {
  const find = (name: string) =>
    ofType<Condition>(prepare(text, fullSite).submission, 'Condition').find(({ code }) =>
      code?.text?.includes(name),
    );

  it('are sent as the record says that they stand', () => {
    expect(find('kidney')).toMatchObject({
      clinicalStatus: { coding: [{ code: 'active' }] },
      onsetDateTime: '2019',
    });
    expect(find('tuberculosis')).toMatchObject({
      clinicalStatus: { coding: [{ code: 'resolved' }] },
      onsetDateTime: '2001',
      abatementDateTime: '2002',
    });
  });

  it('claim no status where none is written', () => {
    expect(find('infarction')?.clinicalStatus).toBeUndefined();
    const history = text.replace(
      '- myocardial infarction',
      '- { what: myocardial infarction, status: history, since: 2019 }',
    );
    const [past] = ofType<Condition>(prepare(history, fullSite).submission, 'Condition').filter(
      ({ code }) => code?.text === 'myocardial infarction',
    );
    expect(past).toMatchObject({ clinicalStatus: { coding: [{ code: 'inactive' }] }, onsetDateTime: '2019' });
  });
});

describe('keys of the record', () => {
  it('stand in no report, note or other text of a resource', () => {
    const keys = ['needle', 'wire', 'sheath', 'balloon', 'outflow', 'vein'];
    const renamed = keys.reduce(
      (now, key) =>
        now
          .replaceAll(new RegExp(`^( +)${key}:`, 'gm'), `$1zq${key}:`)
          .replaceAll(
            new RegExp(`\\b(key|device|through|over|across|target|about|access): ${key}\\b`, 'g'),
            `$1: zq${key}`,
          ),
      text,
    );
    expect(renamed.match(/zq\w+/g)?.length).toBeGreaterThan(20);
    const twin = renamed.replace(/^( +)zqwire: (.*)$/m, '$1zqwire: $2\n$1zqtwin: $2');
    const { submission, reports } = prepare(twin);
    expect(submission).toContain('guidewire');
    const texts = resources(submission)
      // The pages inside are looked at as reports.
      .filter(({ resourceType }) => resourceType !== 'DocumentReference' && resourceType !== 'Composition')
      .map(one => JSON.stringify(one));
    expect(texts.filter(one => /zq/.test(one))).toEqual([]);
    const plain = prepare(renamed).reports;
    expect(plain.record.text).not.toContain('zq');
    expect(reports.record.text).toContain('guidewire');
    expect(plain.patient?.text).toMatch(/\w/);
    expect(plain.patient?.text).not.toContain('zq');
  });
});
