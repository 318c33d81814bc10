import type { CaseResource, ResourceSet } from '../fhir/set.js';

/** A submission as it was sent. */
interface Sent {
  readonly entry?: readonly { readonly fullUrl?: string; readonly resource?: CaseResource }[];
}

/** Reads the submission of an earlier version; one that is not at hand sent nothing that is known. */
export function readSent({ sent }: { readonly sent?: string }): Sent {
  return sent === undefined ? {} : JSON.parse(sent);
}

/** Addresses of all that was sent. */
export function sentAddresses(all: readonly Sent[]): ReadonlySet<string> {
  return new Set(all.flatMap(({ entry = [] }) => entry.flatMap(({ fullUrl }) => fullUrl ?? [])));
}

/** A document of an entry as it was sent. */
function documentIn({ entry = [] }: Sent, fullUrl: string): CaseResource | undefined {
  const there = entry.find(one => one.fullUrl === fullUrl)?.resource;
  return there?.resourceType === 'DocumentReference' && there.masterIdentifier ? there : undefined;
}

/** Whether every rendered report that a set carries is among what was sent, so that it need not be rendered again. */
export const isDocumentIn = (set: ResourceSet, sent: Sent): boolean =>
  set.entries.every(
    ({ resource, fullUrl }) =>
      resource.resourceType !== 'DiagnosticReport' &&
      (resource.resourceType !== 'DocumentReference' || documentIn(sent, fullUrl) !== undefined),
  );

/**
 * A set made again from a record, with its document as it was sent: the pictures in it may not be at hand any more.
 * In another release of FHIR the document has another form, and the one made again stands.
 */
export function withSentDocument(set: ResourceSet, sent: Sent): ResourceSet {
  const entries = set.entries.map(entry => ({
    ...entry,
    resource: documentIn(sent, entry.fullUrl) ?? entry.resource,
  }));
  return { ...set, entries };
}
