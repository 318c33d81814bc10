import type { CodeableConcept, Composition } from 'fhir/r4.js';
import { urgencyCodes } from '../codes/procedures.js';
import { concept, documentType, knownConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { some } from '../tidy.js';
import { personRef } from './people.js';
import { sectionsOf } from './sections.js';

/** R4 has neither 'appended' nor 'corrected' for a Composition, and 'withdrawn' is 'entered-in-error'. */
const STATUS = {
  preliminary: 'preliminary',
  final: 'final',
  amended: 'amended',
  appended: 'amended',
  withdrawn: 'entered-in-error',
} as const;

const VERSION_NUMBER = 'http://hl7.org/fhir/StructureDefinition/composition-clinicaldocument-versionNumber';

/** The report: type, author, attestation, sections. Its identifier stays the same through all versions. */
export function addComposition(context: MappingContext): void {
  const { record, narrative, options, times } = context;
  const { version } = context;
  const author = personRef(context, record.report.author) ?? context.ref('organization');
  const resource: Composition = {
    resourceType: 'Composition',
    language: options.language,
    text: { status: 'additional', div: narrative.div },
    extension: [{ url: VERSION_NUMBER, valueString: version.number }],
    identifier: context.identifier('composition'),
    status: STATUS[record.report.status],
    type: documentType(options, narrative.title),
    subject: context.ref('patient', record.patient.name),
    encounter: record.case.encounter && context.ref('encounter'),
    date: times.date,
    author: [author],
    title: narrative.title,
    attester: record.report.signedAt && [
      { mode: 'professional', time: record.report.signedAt.iso, party: author },
    ],
    custodian: context.ref('organization'),
    relatesTo: some(
      version.follows.map(follows => ({
        code: record.report.status === 'appended' ? 'appends' : 'replaces',
        targetIdentifier: context.identifier(`document/v${follows}`),
      })),
    ),
    event: [
      {
        code: eventCodes(context),
        period: times.start || times.end ? { start: times.start, end: times.end } : undefined,
        detail: [context.ref('procedure')],
      },
    ],
    section: some(sectionsOf(context)),
  };
  context.add('composition', resource, {
    from: 'report',
    sources: {
      status: 'report.status',
      author: 'report.author',
      date: record.report.signedAt && 'report.signedAt',
      attester: 'report.signedAt',
      relatesTo: 'report.change',
      subject: 'patient',
      event: 'case',
    },
  });
}

function eventCodes(context: MappingContext): CodeableConcept[] {
  const { kind, urgency } = context.record.case;
  return [
    concept(context.options, kind, undefined, 'case'),
    ...(urgency ? [knownConcept(urgencyCodes[urgency], urgency)] : []),
  ];
}
