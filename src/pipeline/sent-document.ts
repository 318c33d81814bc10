import type { CaseResource, ResourceSet } from '../fhir/set.js';

interface Sent {
  readonly entry?: readonly { readonly fullUrl?: string; readonly resource?: CaseResource }[];
}

/** Addresses of all that earlier versions sent, as far as the outbox has them. */
export function sentAddresses(earlier: readonly { readonly sent?: string }[]): ReadonlySet<string> {
  const all = earlier.flatMap(({ sent }) => {
    const bundle: Sent = sent === undefined ? {} : JSON.parse(sent);
    return (bundle.entry ?? []).flatMap(({ fullUrl }) => fullUrl ?? []);
  });
  return new Set(all);
}

/**
 * A set made again from a record, with its document as it was sent: the pictures in it may not be at hand any more.
 * In another release of FHIR the document has another form, and the one made again stands.
 */
export function withSentDocument(set: ResourceSet, sent: string | undefined): ResourceSet {
  if (sent === undefined) return set;
  const bundle: Sent = JSON.parse(sent);
  const entries = set.entries.map(entry => {
    const there = bundle.entry?.find(({ fullUrl }) => fullUrl === entry.fullUrl)?.resource;
    return there?.resourceType === 'DocumentReference' && there.masterIdentifier
      ? { ...entry, resource: there }
      : entry;
  });
  return { ...set, entries };
}
