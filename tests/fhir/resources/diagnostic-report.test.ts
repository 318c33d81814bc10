import type { Bundle, DiagnosticReport, Resource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/clinical/assess.js';
import { documentBundle } from '../../../src/fhir/bundles/document.js';
import { submissionBundle } from '../../../src/fhir/bundles/submission.js';
import { mapCase } from '../../../src/fhir/map-case.js';
import { toR5 } from '../../../src/fhir/r5/versions.js';
import type { ResourceSet } from '../../../src/fhir/set.js';
import { parseCase } from '../../../src/record/parse.js';
import { parseSite } from '../../../src/site/parse.js';
import type { Site } from '../../../src/site/site.js';
import {
  exampleFiles,
  exampleText,
  knownExample,
  preparedExample,
  testTools,
} from '../../support/examples.js';
import { caseText, mapped, narrative, options, resourceOf } from '../cases.js';

const ROLE = 'diagnostic-report';
const over = { diagnosticReport: true } as const;
const reportStatuses = ['preliminary', 'final', 'amended', 'appended', 'withdrawn'] as const;

function siteWithReport(): Site {
  const { site, findings } = parseSite(
    exampleText('site.yaml').replace(
      '\ncasetallySite',
      '\nreport: { diagnosticReport: true }\ncasetallySite',
    ),
  );
  if (!site?.report.diagnosticReport) throw new Error(JSON.stringify(findings));
  return site;
}

const isReport = (resource: Resource | undefined): resource is DiagnosticReport =>
  resource?.resourceType === 'DiagnosticReport';

const reportsOf = (bundle: Bundle): DiagnosticReport[] =>
  (bundle.entry ?? []).map(({ resource }) => resource).filter(isReport);

/** Those in a bundle as it is sent. */
const reportIn = (text: string): DiagnosticReport[] => reportsOf(JSON.parse(text));

describe('a DiagnosticReport', () => {
  it('is sent where the site asks for it, and nowhere else', () => {
    const [file = ''] = exampleFiles;
    expect(reportIn(knownExample(file).submission)).toEqual([]);
    expect(reportIn(preparedExample(file, siteWithReport()).submission)).toHaveLength(1);
  });

  it.each(exampleFiles)(
    'of %s agrees with R4 and with the patient summary, and stays out of the document',
    file => {
      const { submission, document, findings } = preparedExample(file, siteWithReport());
      expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(reportIn(document)).toEqual([]);
      // Source: profile DiagnosticReport-uv-ips of hl7.fhir.uv.ips 2.0.0.
      const asked = 'http://hl7.org/fhir/uv/ips/StructureDefinition/DiagnosticReport-uv-ips';
      const bundle: Bundle = JSON.parse(submission);
      for (const { resource } of bundle.entry ?? [])
        if (resource?.resourceType === 'DiagnosticReport') resource.meta = { profile: [asked] };
      const { issues, evaluated } = testTools().validator.validateText(JSON.stringify(bundle));
      expect(evaluated.profiles.some(profile => profile.startsWith(asked))).toBe(true);
      expect(issues.filter(({ severity }) => severity === 'error')).toEqual([]);
    },
  );

  it('lists what was observed in the case, and neither the laboratory nor the state before', () => {
    const { set } = mapped(
      caseText(`
before: { labs: [{ what: creatinine, value: 90 µmol/L, at: 2024-03-13 }] }
images: [{ study: 2.25.4711, description: Cholangiogram }]
radiation: { kermaAreaProduct: 4.2 Gy·cm2 }
conclusion: Drained`),
      over,
    );
    const report = resourceOf(set, ROLE, 'DiagnosticReport');
    const roleOf = (reference: string | undefined) =>
      set.entries.find(({ fullUrl }) => fullUrl === reference)?.role;
    const results = report.result?.map(({ reference }) => roleOf(reference)) ?? [];
    expect(results).toEqual(
      expect.arrayContaining(['observation/kerma-area-product', 'observation/conclusion']),
    );
    expect(results.filter(role => role === undefined || /lab|creatinine/.test(role))).toEqual([]);
    expect(report.conclusion).toBe('Drained');
    expect(report.imagingStudy?.[0]?.identifier?.value).toBe('urn:oid:2.25.4711');
    expect(report.presentedForm?.map(({ contentType }) => contentType)).toEqual(['application/pdf']);
    const reference = resourceOf(set, 'document-reference', 'DocumentReference');
    expect(reference.context?.related?.map(({ reference: to }) => roleOf(to))).toContain(ROLE);
  });

  // Source: value set diagnostic-report-status of FHIR R4 4.0.1, which has a code for each but 'withdrawn'.
  it('has a status for each status of a report', () => {
    const statuses = reportStatuses.map(status => {
      const change = /amended|appended|withdrawn/.test(status)
        ? ', version: 2, change: { of: "1", by: op, at: "10:20", why: Put right }'
        : '';
      const { set } = mapped(caseText().replace('status: final', `status: ${status}${change}`), over);
      return [status, resourceOf(set, ROLE, 'DiagnosticReport').status];
    });
    expect(Object.fromEntries(statuses)).toEqual({
      preliminary: 'preliminary',
      final: 'final',
      amended: 'amended',
      appended: 'appended',
      withdrawn: 'entered-in-error',
    });
  });

  it('is the same resource in every version', () => {
    const map = (text: string, ...earlier: readonly ResourceSet[]) => {
      const { record } = parseCase(text);
      if (!record) throw new Error('not readable');
      return mapCase(record, assess(record), narrative, { ...options, ...over }, earlier);
    };
    const first = map(caseText());
    const second = map(
      caseText().replace(
        'status: final',
        'status: amended, version: 2, change: { of: "1", by: op, at: "10:20", why: Put right }',
      ),
      first,
    );
    const all = (set: ResourceSet) =>
      set.entries.filter(({ resource }) => resource.resourceType === 'DiagnosticReport');
    expect(all(second).map(({ fullUrl }) => fullUrl)).toEqual(all(first).map(({ fullUrl }) => fullUrl));
    expect(
      documentBundle(second).entry?.some(({ resource }) => resource?.resourceType === 'DiagnosticReport'),
    ).toBe(false);
    expect(reportsOf(submissionBundle(second, options))).toHaveLength(1);
  });

  it('names its studies as R5 does', () => {
    const { set } = mapped(caseText('images: [{ study: 2.25.4711 }]'), over);
    const report: DiagnosticReport = resourceOf(set, ROLE, 'DiagnosticReport');
    expect(toR5(report)).toMatchObject({ resource: { study: report.imagingStudy } });
  });
});
