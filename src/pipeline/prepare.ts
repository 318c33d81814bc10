import type { Bundle } from 'fhir/r4.js';
import type { Assessment } from '../clinical/assessment.js';
import { toFinding } from '../conformance/outcome.js';
import type { Validator } from '../conformance/result.js';
import { documentBundle } from '../fhir/bundles/document.js';
import { submissionBundle } from '../fhir/bundles/submission.js';
import { mapCase } from '../fhir/map-case.js';
import type { NarrativeAttachment } from '../fhir/narrative.js';
import { type ResourceSet, recordPathOf } from '../fhir/set.js';
import { type Finding, messageOf, stops } from '../findings/finding.js';
import { writeFhirJson } from '../json/write.js';
import type { ChangedFact } from '../record/changes/compare.js';
import { recordDigest } from '../record/digest.js';
import type { CaseRecord } from '../record/schema/record.js';
import { characterFindings } from '../report/characters.js';
import type { Audience } from '../report/options.js';
import { createdAt } from '../report/pdf/created.js';
import type { PdfMaker } from '../report/pdf/options.js';
import { pictureFindings, type ReadPictures } from '../report/pictures/stored.js';
import { whyNoReport } from '../report/refusal.js';
import { renderNarrative, renderReport } from '../report/render/render.js';
import type { Templates } from '../report/render/templates.js';
import { documentOf } from '../report/view/document.js';
import type { ReportDocument } from '../report/view/nodes.js';
import { buildView } from '../report/view/view.js';
import type { Site } from '../site/site.js';
import { drawingsOf } from './drawings.js';
import { lazily } from './lazily.js';
import { isDocumentIn, readSent, sentAddresses, withSentDocument } from './sent-document.js';
import { canonicalOf, lettersOf, mappingOptions, reportOptions, submissionOptions } from './settings.js';
import { changesSince, type EarlierVersion, inOrder, versionFindings } from './versions.js';

/** What preparing needs besides record and site; loaded once at the edge (see `loadTools`). */
export interface Tools {
  readonly templates: Templates;
  readonly validator: Validator;
  readonly softwareVersion: string;
  /** Makes the reports as PDF too (see `loadPdf`). */
  readonly pdf?: PdfMaker;
}

/** One report in the forms that people read. */
export interface RenderedReport {
  readonly html: string;
  readonly text: string;
  /** Where the tools make PDF. */
  readonly pdf?: Uint8Array;
}

/**
 * The report for each reader. While an error stands each is marked as a draft and there is none for the patient, nor
 * is there where the patient died.
 */
export type CaseReports = Readonly<Record<Exclude<Audience, 'patient'>, RenderedReport>> & {
  readonly patient?: RenderedReport;
};

/** What else preparing may be told. */
export interface PrepareOptions {
  /** `sha256:…` of the text that the record was read from. */
  readonly sourceDigest?: string;
  /** Earlier versions of the report that were sent, in any order: this one retires what they left behind. */
  readonly previous?: readonly EarlierVersion[];
  /** Pictures that the record names, as `readPictures` gives them. */
  readonly pictures?: ReadPictures;
}

/** A case ready to leave: reports, resources and bundles, with everything that was found on the way. */
export interface PreparedCase {
  readonly record: CaseRecord;
  readonly assessment: Assessment;
  readonly reports: CaseReports;
  /** The device timeline as SVG. */
  readonly timeline: string;
  readonly resources: ResourceSet;
  /** Document Bundle as FHIR JSON text. */
  readonly document: string;
  /** Transaction Bundle as FHIR JSON text: exactly what is sent. */
  readonly submission: string;
  /** Under which our profiles are published, where the site says so. */
  readonly canonical?: string;
  /** Addresses of what earlier versions sent, which goes again whatever the destination wants now. */
  readonly sentBefore: ReadonlySet<string>;
  /** What this version tells otherwise than the one before it; empty where none was given. */
  readonly changes: readonly ChangedFact[];
  /** Digest of what the record says, however its file was written (see `recordDigest`). */
  readonly digest: string;
  /** Findings of reading, assessment and conformance; those of conformance lead back to the record where they can. */
  readonly findings: readonly Finding[];
  /** False when any finding is an error: the case must then not be sent. */
  readonly sendable: boolean;
}

/**
 * Prepares one case: report, resources, bundles, conformance. Pure: the same record, assessment, site and tools give
 * the same bytes.
 */
export function prepareCase(
  record: CaseRecord,
  assessment: Assessment,
  site: Site,
  tools: Tools,
  options: PrepareOptions = {},
): PreparedCase {
  const earlier = inOrder(options.previous ?? []);
  const changes = changesSince(record, earlier);
  // Each earlier version is made again as it was sent, with those before it.
  const sets: ResourceSet[] = [];
  const sent = earlier.map(readSent);
  earlier.forEach((old, index) => {
    const since = changesSince(old.record, earlier.slice(0, index));
    const made = (by: Tools) => reportAndMap(old, site, by, [...sets], since).resources;
    const there = sent[index] ?? {};
    // Where what was sent is at hand, its PDF is not made again only to be put aside.
    const { pdf, ...plain } = tools;
    const quick = pdf && there.entry ? made(plain) : undefined;
    sets.push(withSentDocument(quick && isDocumentIn(quick, there) ? quick : made(tools), there));
  });
  const version = { record, assessment, ...(options.pictures && { pictures: options.pictures }) };
  const made = reportAndMap(version, site, tools, sets, changes, options.sourceDigest);
  const { timeline, digest, resources } = made;
  const document = documentBundle(resources, site.fhir.canonical);
  const sentBefore = sentAddresses(sent);
  const submission = submissionBundle(resources, submissionOptions(site, sentBefore));
  const documentText = `${writeFhirJson(document)}\n`;
  const submissionText = `${writeFhirJson(submission)}\n`;
  const conformance = [
    ...conformanceFindings(documentText, document, resources, tools.validator),
    ...conformanceFindings(submissionText, submission, resources, tools.validator),
  ];
  const findings = [
    ...assessment.findings,
    ...versionFindings(record, earlier, changes),
    ...characterFindings(record),
    ...(tools.pdf?.findings(record, made.document) ?? []),
    ...pictureFindings(record, options.pictures),
    ...once(conformance),
  ];
  const reports = reportsOf(made, record, findings.filter(stops).length, site);
  return {
    record,
    assessment,
    reports,
    timeline,
    resources,
    document: documentText,
    submission: submissionText,
    ...canonicalOf(site),
    sentBefore,
    changes,
    digest,
    findings,
    sendable: !findings.some(stops),
  };
}

/** One version of a case: its resources with the full report in them, and the means to print the other reports. */
interface MappedVersion {
  readonly record: RenderedReport;
  /** The full report. */
  readonly document: ReportDocument;
  render(audience: Audience, errors: number): RenderedReport;
  readonly timeline: string;
  readonly digest: string;
  readonly resources: ResourceSet;
}

function reportAndMap(
  { record, assessment, pictures }: EarlierVersion,
  site: Site,
  { templates, softwareVersion, pdf }: Tools,
  earlier: readonly ResourceSet[],
  changes: readonly ChangedFact[],
  sourceDigest?: string,
): MappedVersion {
  const { language } = site;
  const digest = recordDigest(record);
  const view = buildView(record, assessment, { ...reportOptions(site), changes, digest });
  const drawings = drawingsOf(record, assessment, site, language, pictures);
  const created = createdAt(record);
  const documentFor = (audience: Audience, errors = 0) =>
    documentOf(view, { audience, errors, layout: templates.layouts[audience], ...drawings });
  const rendered = (report: () => ReportDocument): RenderedReport => {
    const made = lazily({ document: report });
    return lazily<RenderedReport>({
      html: () => renderReport(made.document, templates, 'html'),
      text: () => renderReport(made.document, templates, 'text'),
      ...(pdf && { pdf: () => pdf.render(made.document, { created }) }),
    });
  };
  const whole = documentFor('record');
  const full = rendered(() => whole);
  const narrative = renderNarrative(whole, templates);
  const { title } = narrative;
  const attachments: NarrativeAttachment[] = [
    { contentType: 'text/html', language, title, data: full.html },
    ...(full.pdf ? [{ contentType: 'application/pdf', language, title, data: full.pdf }] : []),
  ];
  const resources = mapCase(
    record,
    assessment,
    { title, div: narrative.header, sections: narrative.sections, attachments },
    mappingOptions(site, softwareVersion, sourceDigest),
    earlier,
  );
  return {
    record: full,
    document: whole,
    render: (audience, errors) => rendered(() => documentFor(audience, errors)),
    timeline: drawings.timelineSvg,
    digest,
    resources,
  };
}

/** The reports of a version; that of the whole record is made already, but for the marks of a draft. */
function reportsOf(made: MappedVersion, record: CaseRecord, errors: number, site: Site): CaseReports {
  const letter = whyNoReport(record, 'patient', errors, true, lettersOf(site)) === undefined;
  return {
    record: errors === 0 ? made.record : made.render('record', errors),
    referrer: made.render('referrer', errors),
    ward: made.render('ward', errors),
    ...(letter && { patient: made.render('patient', errors) }),
  };
}

/**
 * What conformance says of a bundle as it was written, with the path in the record that caused it where one is known.
 * Its lines say nothing to anybody, and the digits of a number matter to integers alone, which are written plainly: it
 * need not be read with the places and digits of its text.
 */
function conformanceFindings(
  text: string,
  bundle: Bundle,
  resources: ResourceSet,
  validator: Validator,
): Finding[] {
  return validator.validateResource(JSON.parse(text)).issues.map(issue => {
    const found = toFinding(issue);
    const source = recordPathOf(resources, bundle, issue.path);
    return source === undefined
      ? found
      : { ...found, path: source, params: { ...found.params, element: issue.path } };
  });
}

/** Document and submission hold the same resources, so that most is said twice. */
function once(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter(f => {
    const key = `${f.code} ${f.path} ${messageOf(f)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
