import type { Assessment } from '../clinical/assessment.js';
import { toFinding } from '../conformance/outcome.js';
import type { Validator } from '../conformance/result.js';
import { timelineSvg } from '../devices/timeline/svg.js';
import { timelineOf } from '../devices/timeline/timeline.js';
import { documentBundle } from '../fhir/bundles/document.js';
import { submissionBundle } from '../fhir/bundles/submission.js';
import { writeFhirJson } from '../fhir/json.js';
import { mapCase } from '../fhir/map-case.js';
import type { NarrativeAttachment } from '../fhir/narrative.js';
import { type ResourceSet, recordPathOf } from '../fhir/set.js';
import { type Finding, stops } from '../findings/finding.js';
import type { CaseRecord } from '../record/schema/record.js';
import { characterFindings } from '../report/characters.js';
import { type Audience, audiences } from '../report/options.js';
import { renderNarrative } from '../report/render/narrative.js';
import { renderReport } from '../report/render/render.js';
import type { Templates } from '../report/render/templates.js';
import type { ReportView } from '../report/view/model.js';
import { buildView } from '../report/view/view.js';
import type { Site } from '../site/site.js';
import { mappingOptions, reportOptions } from './settings.js';

/** What preparing needs besides record and site; loaded once at the edge (see `loadTools`). */
export interface Tools {
  readonly templates: Templates;
  readonly validator: Validator;
  readonly softwareVersion: string;
}

/** One report in the forms that people read. */
export interface RenderedReport {
  readonly html: string;
  readonly text: string;
}

/** A case ready to leave: reports, resources and bundles, with everything that was found on the way. */
export interface PreparedCase {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  readonly reports: Readonly<Record<Audience, RenderedReport>>;
  /** The device timeline as SVG. */
  readonly timeline: string;
  readonly resources: ResourceSet;
  /** Document Bundle as FHIR JSON text. */
  readonly document: string;
  /** Transaction Bundle as FHIR JSON text: exactly what is sent. */
  readonly submission: string;
  /** Findings of reading, assessment and conformance; those of conformance lead back to the record where they can. */
  readonly findings: readonly Finding[];
  /** False when any finding is an error: the case must then not be sent. */
  readonly sendable: boolean;
}

/**
 * Prepares one case: report, resources, bundles, conformance. Pure: the same record, assessment, site and tools give
 * the same bytes.
 * @param sourceDigest `sha256:…` of the text that the record was read from
 */
export function prepareCase(
  record: CaseRecord,
  assessment: Assessment,
  site: Site,
  tools: Tools,
  sourceDigest?: string,
): PreparedCase {
  const view = buildView(record, assessment, reportOptions(site));
  const timeline = timelineSvg(timelineOf(record, assessment.devices, assessment.tally));
  const reports = reportsOf(view, tools.templates, timeline);
  const narrative = renderNarrative(view, tools.templates);
  const attachments: NarrativeAttachment[] = [
    { contentType: 'text/html', language: site.language, title: narrative.title, data: reports.record.html },
  ];
  const resources = mapCase(
    record,
    assessment,
    { title: narrative.title, div: narrative.header, sections: narrative.sections, attachments },
    mappingOptions(site, tools.softwareVersion, sourceDigest),
  );
  const document = documentBundle(resources);
  const submission = submissionBundle(resources, { references: site.references });
  const documentText = `${writeFhirJson(document)}\n`;
  const submissionText = `${writeFhirJson(submission)}\n`;
  const conformance = [
    ...conformanceFindings(documentText, path => recordPathOf(resources, document, path), tools.validator),
    ...conformanceFindings(
      submissionText,
      path => recordPathOf(resources, submission, path),
      tools.validator,
    ),
  ];
  const findings = [...assessment.findings, ...characterFindings(record), ...once(conformance)];
  return {
    record,
    assessment,
    reports,
    timeline,
    resources,
    document: documentText,
    submission: submissionText,
    findings,
    sendable: !findings.some(stops),
  };
}

/** All reports of a view. */
export function reportsOf(
  view: ReportView,
  templates: Templates,
  timeline: string,
): Record<Audience, RenderedReport> {
  const render = (audience: Audience): RenderedReport => ({
    html: renderReport(view, templates, { audience, format: 'html', timelineSvg: timeline }),
    text: renderReport(view, templates, { audience, format: 'text' }),
  });
  return Object.fromEntries(audiences.map(audience => [audience, render(audience)])) as Record<
    Audience,
    RenderedReport
  >;
}

/** What conformance says, with the path in the record that caused it where one is known. */
function conformanceFindings(
  text: string,
  sourceOf: (path: string) => string | undefined,
  validator: Validator,
): Finding[] {
  return validator.validateText(text).issues.map(issue => {
    const found = toFinding(issue);
    const { line: _line, column: _column, ...rest } = found;
    const source = sourceOf(issue.path);
    return source === undefined
      ? rest
      : { ...rest, path: source, params: { ...rest.params, element: issue.path } };
  });
}

/** Document and submission hold the same resources, so that most is said twice. */
function once(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter(f => {
    const key = `${f.code} ${f.path} ${f.message}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
