import { createHash } from 'node:crypto';
import type { NewItem } from '../delivery/outbox/outbox.js';
import { digestOf, readSubmission, type SourceOf } from '../delivery/request/submission.js';
import { nearestSource, type ResourceEntry } from '../fhir/set.js';
import type { CaseRecord } from '../record/schema/record.js';
import type { PreparedCase } from './prepare.js';

/**
 * One item for the outbox. Keys are digests: the patient's number is not written down a second time in the open.
 *
 * @param submission the case as the destination wants it, byte for byte.
 * @param namespace of the site: cases of two sites never share a key.
 * @param text of the record, which a later version of the report needs.
 */
export function outboxItem(
  prepared: PreparedCase,
  submission: string,
  destination: string,
  namespace: string,
  text?: string,
): NewItem {
  const { record } = prepared;
  const first = record.patient.identifiers[0];
  return {
    destination,
    caseKey: caseKey(record, namespace),
    patientKey: short(`${first?.system}|${first?.value}`),
    payload: submission,
    digest: digestOf(submission),
    context: besideSubmission(prepared, text),
  };
}

const short = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex').slice(0, 32);

/** What all items of a case have in common. */
export function caseKey(record: CaseRecord, namespace: string): string {
  return caseKeyOf(record.case.id, namespace);
}

/** The same by the number of the case. */
export const caseKeyOf = (id: string, namespace: string): string => short(`${namespace} ${id}`);

/**
 * What is kept beside a submission: the map from its resources to the paths of the record, what the record says of
 * patient and order, and the record itself. It is sealed like the submission.
 */
export function besideSubmission({ resources: { entries } }: PreparedCase, text?: string): string {
  const sources = entries.map(({ fullUrl, resource, sources }) => [
    fullUrl,
    { type: resource.resourceType, sources },
  ]);
  const patient = said(entries, 'patient');
  const order = said(entries, 'order');
  return JSON.stringify({
    ...Object.fromEntries(sources),
    expected: { ...(patient && { patient }), ...(order && { order }) },
    ...(text !== undefined && { record: text }),
  });
}

/** The resource of a role without its narrative, for comparing. */
function said(entries: readonly ResourceEntry[], role: string): object | undefined {
  const resource = entries.find(entry => entry.role === role && entry.shared)?.resource;
  if (!resource) return undefined;
  const { text: _text, ...rest } = resource;
  return rest;
}

interface Beside {
  readonly record?: string;
  readonly [fullUrl: string]: { type?: string; sources?: Record<string, string> } | string | undefined;
}

/** Leads a place in a submission (entry and element path) back to the case record, by the map kept beside it. */
export function sourceFrom({ payload, context }: Pick<NewItem, 'payload' | 'context'>): SourceOf {
  if (context === undefined) return () => undefined;
  // Read when it is first asked for: most submissions are accepted without a word.
  let read: { readonly map: Beside; readonly urls: readonly string[] } | undefined;
  return (index, path) => {
    read ??= {
      map: JSON.parse(context),
      urls: readSubmission(payload)?.entries.map(({ fullUrl }) => fullUrl) ?? [],
    };
    const entry = read.map[read.urls[index] ?? ''];
    if (typeof entry !== 'object' || !entry.sources) return undefined;
    // In another release of FHIR a resource may have another name; its elements keep theirs for the most part.
    return nearestSource(entry.sources, path.replace(/^[A-Z]\w*/, entry.type ?? '$&'));
  };
}

/** The text of the record that an item was made of; undefined for one of an earlier release. */
export function recordOf({ context }: Pick<NewItem, 'context'>): string | undefined {
  if (context === undefined) return undefined;
  const { record }: Beside = JSON.parse(context);
  return record;
}
