import { createHash } from 'node:crypto';
import type { NewItem } from '../delivery/outbox/outbox.js';
import { digestOf, readSubmission, type SourceOf } from '../delivery/request/submission.js';
import { nearestSource } from '../fhir/set.js';
import type { PreparedCase } from './prepare.js';

/**
 * One item for the outbox. Keys are digests: the patient's number is not written down a second time.
 *
 * @param submission the case as the destination wants it, byte for byte.
 * @param namespace of the site: cases of two sites never share a key.
 */
export function outboxItem(
  prepared: PreparedCase,
  submission: string,
  destination: string,
  namespace: string,
): NewItem {
  const { record } = prepared;
  const first = record.patient.identifiers[0];
  const short = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex').slice(0, 32);
  return {
    destination,
    caseKey: short(`${namespace} ${record.case.id}`),
    patientKey: short(`${first?.system}|${first?.value}`),
    payload: submission,
    digest: digestOf(submission),
    context: sourceMap(prepared),
  };
}

/** The map from the resources of a case to the paths of its record, as text to keep beside the submission. */
export function sourceMap(prepared: PreparedCase): string {
  const entries = prepared.resources.entries.map(({ fullUrl, resource, sources }) => [
    fullUrl,
    { type: resource.resourceType, sources },
  ]);
  return JSON.stringify(Object.fromEntries(entries));
}

type SourceMap = Record<string, { type?: string; sources?: Record<string, string> } | undefined>;

/** Leads a place in a submission (entry and element path) back to the case record, by the map kept beside it. */
export function sourceFrom({ payload, context }: Pick<NewItem, 'payload' | 'context'>): SourceOf {
  if (context === undefined) return () => undefined;
  // Read when it is first asked for: most submissions are accepted without a word.
  let read: { readonly map: SourceMap; readonly urls: readonly string[] } | undefined;
  return (index, path) => {
    read ??= {
      map: JSON.parse(context),
      urls: readSubmission(payload)?.entries.map(({ fullUrl }) => fullUrl) ?? [],
    };
    const entry = read.map[read.urls[index] ?? ''];
    // In another release of FHIR a resource may have another name; its elements keep theirs for the most part.
    return entry?.sources && nearestSource(entry.sources, path.replace(/^[A-Z]\w*/, entry.type ?? '$&'));
  };
}
