import type { Attachment, DiagnosticReport, Reference } from 'fhir/r4.js';
import { diagnosticCategories } from '../codes/document.js';
import { documentType, knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { some } from '../tidy.js';
import { attachmentOf, imagingStudies } from './document-reference.js';
import { personRef } from './people.js';

const STATUS = {
  preliminary: 'preliminary',
  final: 'final',
  amended: 'amended',
  appended: 'appended',
  withdrawn: 'entered-in-error',
} as const;

/**
 * The report once more as a DiagnosticReport, for receivers that file reports of imaging as such, where the site asks
 * for it. Its identifier stays the same through all versions, so that a receiver shows one report and not two.
 */
export function addDiagnosticReport(context: MappingContext): void {
  const { record, narrative, options, times } = context;
  if (!options.diagnosticReport) return;
  const author = personRef(context, record.report.author);
  const resource: DiagnosticReport = {
    resourceType: 'DiagnosticReport',
    identifier: [context.identifier('diagnostic-report')],
    basedOn: record.case.order && [context.ref('order')],
    status: STATUS[record.report.status],
    category: [knownConcept(diagnosticCategories.radiology)],
    code: documentType(options, narrative.title),
    subject: context.ref('patient', record.patient.name),
    encounter: record.case.encounter && context.ref('encounter'),
    ...(times.start
      ? { effectivePeriod: { start: times.start, end: times.end } }
      : { effectiveDateTime: record.case.date }),
    issued: times.timestamp,
    performer: [context.ref('organization')],
    resultsInterpreter: author && [author],
    specimen: some(refsTo(context, 'Specimen')),
    result: some(observed(context)),
    imagingStudy: some(imagingStudies(context)),
    conclusion: record.conclusion,
    presentedForm: some(forms(context)),
  };
  context.add('diagnostic-report', resource, {
    from: 'report',
    sources: {
      status: 'report.status',
      resultsInterpreter: 'report.author',
      basedOn: 'case.order',
      conclusion: 'conclusion',
      imagingStudy: 'images',
    },
    summary: [narrative.title],
  });
}

/** What was observed in the case itself; the state before and values of a laboratory are no result of it. */
function observed(context: MappingContext): Reference[] {
  return context.entries.flatMap(({ role, resource }) =>
    resource.resourceType === 'Observation' && resource.partOf ? [context.ref(role)] : [],
  );
}

function refsTo(context: MappingContext, type: string): Reference[] {
  return context.entries.flatMap(({ role, resource }) =>
    resource.resourceType === type ? [context.ref(role)] : [],
  );
}

/** One form, the PDF where there is one: every form in full is in the DocumentReference. */
function forms(context: MappingContext): Attachment[] {
  const { attachments } = context.narrative;
  const one = attachments.find(({ contentType }) => contentType === 'application/pdf') ?? attachments[0];
  return one ? [attachmentOf(context, one)] : [];
}
