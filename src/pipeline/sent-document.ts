import type { CaseResource, ResourceSet } from '../fhir/set.js';

/**
 * A set made again from a record, with its document as it was sent: the pictures in it may not be at hand any more.
 * In another release of FHIR the document has another form, and the one made again stands.
 */
export function withSentDocument(set: ResourceSet, sent: string | undefined): ResourceSet {
  if (sent === undefined) return set;
  const bundle: { entry?: readonly { fullUrl?: string; resource?: CaseResource }[] } = JSON.parse(sent);
  const entries = set.entries.map(entry => {
    const there = bundle.entry?.find(({ fullUrl }) => fullUrl === entry.fullUrl)?.resource;
    return there?.resourceType === 'DocumentReference' && there.masterIdentifier
      ? { ...entry, resource: there }
      : entry;
  });
  return { ...set, entries };
}
