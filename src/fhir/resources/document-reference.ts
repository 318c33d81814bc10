import type { Attachment, DocumentReference, Reference } from 'fhir/r4.js';
import { documentClass, formatByMimeType, practiceSetting } from '../codes/document.js';
import { codingOf } from '../codes/types.js';
import { documentType, knownConcept, licensedConcept } from '../concept.js';
import type { MappingContext } from '../context.js';
import { documentRole } from '../corrections/earlier.js';
import { sha1Base64 } from '../ids.js';
import type { NarrativeAttachment } from '../narrative.js';
import { some } from '../tidy.js';
import { personRef } from './people.js';

const DOC_STATUS = {
  preliminary: 'preliminary',
  final: 'final',
  amended: 'amended',
  // R4 has no status of its own for these two.
  appended: 'amended',
  withdrawn: 'entered-in-error',
} as const;

/** The rendered report with size and hash of each form. A later version replaces the one before. */
export function addDocumentReference(context: MappingContext): void {
  const { record, narrative, options, times } = context;
  if (narrative.attachments.length === 0) return;
  const { version } = context;
  const resource: DocumentReference = {
    resourceType: 'DocumentReference',
    masterIdentifier: context.identifier(`document/v${version.number}`),
    identifier: [context.identifier(documentRole(version.number))],
    status: record.report.status === 'withdrawn' ? 'entered-in-error' : 'current',
    docStatus: DOC_STATUS[record.report.status],
    type: documentType(options, narrative.title),
    category: [knownConcept(documentClass)],
    subject: context.ref('patient'),
    date: times.timestamp,
    author: some([personRef(context, record.report.author)].filter(ref => ref !== undefined)),
    custodian: context.ref('organization'),
    relatesTo: some(
      version.follows.map(follows => ({
        code: record.report.status === 'appended' ? 'appends' : 'replaces',
        target: documentOf(context, follows),
      })),
    ),
    description: narrative.title,
    content: narrative.attachments.map(attachment => ({
      attachment: attachmentOf(context, attachment),
      format: codingOf(formatByMimeType),
    })),
    context: {
      encounter: record.case.encounter && [context.ref('encounter')],
      period: times.start || times.end ? { start: times.start, end: times.end } : undefined,
      facilityType: options.facilityType && { coding: [{ ...options.facilityType }] },
      practiceSetting: licensedConcept(options, practiceSetting, 'Interventional radiology'),
      related: [
        context.ref('procedure'),
        ...(options.diagnosticReport ? [context.ref('diagnostic-report')] : []),
        ...imagingStudies(context),
      ],
    },
  };
  context.add('document-reference', resource, {
    from: 'report',
    sources: { docStatus: 'report.status', author: 'report.author', relatesTo: 'report.change' },
    summary: [narrative.title],
  });
}

/**
 * The DocumentReference of an earlier version, by its identifier; by address as well where the set retires it and so
 * holds it. One that an addendum leaves as it is need not be known to every receiver.
 */
export function documentOf(context: MappingContext, version: string): Reference {
  const role = documentRole(version);
  const held =
    context.record.report.status !== 'appended' && context.earlier.some(set => set.version === version);
  return {
    ...(held && context.ref(role)),
    type: 'DocumentReference',
    identifier: context.identifier(role),
  };
}

/** Bytes in base64 with their size and SHA-1, both of the bytes before encoding. */
export function attachmentOf(context: MappingContext, attachment: NarrativeAttachment): Attachment {
  const { data } = attachment;
  const bytes = Buffer.from(typeof data === 'string' ? Buffer.from(data, 'utf8') : data);
  return {
    contentType: attachment.contentType,
    language: attachment.language ?? context.options.language,
    data: bytes.toString('base64'),
    size: bytes.length,
    hash: sha1Base64(bytes),
    title: attachment.title,
    creation: context.times.date,
  };
}

/** Studies by their DICOM UID; the archive keeps the ImagingStudy itself. */
export function imagingStudies(context: MappingContext): Reference[] {
  const uids = [...new Set((context.record.images ?? []).map(image => image.study))];
  return uids.map(uid => ({
    type: 'ImagingStudy',
    identifier: { system: 'urn:dicom:uid', value: `urn:oid:${uid}` },
    display: context.record.images?.find(image => image.study === uid)?.description,
  }));
}
