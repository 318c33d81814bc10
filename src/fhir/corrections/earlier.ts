import type { DocumentReference, Task } from 'fhir/r4.js';
import { v5 } from 'uuid';
import { type Replacement, referencesIn, withReferences } from '../bundles/references.js';
import type { MappingContext } from '../context.js';
import type { ResourceEntry, ResourceSet } from '../set.js';
import { inError } from './in-error.js';

/**
 * Takes into the set what earlier versions sent and this one must retire: their DocumentReferences become superseded
 * (with an addendum they stay current, with a withdrawal they are entered in error), and resources that this version no
 * longer has become entered in error. Comes after everything of this version's own, before the account of origin.
 */
export function addEarlier(context: MappingContext): void {
  const { status, change } = context.record.report;
  markAsked(context);
  const reason = change?.why ?? 'Not in the later version of the record';
  // Newest first: where several versions had a resource, the last word on it counts.
  for (const set of context.earlier.toReversed()) {
    const known = new Set(context.entries.map(({ fullUrl }) => fullUrl));
    for (const entry of set.entries) {
      const { resource } = entry;
      if (resource.resourceType === 'DocumentReference') {
        if (entry.role === DOCUMENT && status !== 'appended')
          retire(context, set, retiredDocument(context, set, entry, resource, reason));
      } else if (isOwn(entry) && !known.has(entry.fullUrl))
        // What an earlier version retired already is in that state.
        retire(context, set, entry.earlier ? entry : { ...entry, resource: inError(resource, reason) });
    }
  }
}

/** Marks everything that is the case's own as entered in error, for a withdrawn report. */
export function withdrawAll(context: MappingContext): void {
  const reason = context.record.report.change?.why ?? 'Report withdrawn';
  for (const [index, entry] of context.entries.entries())
    if (isOwn(entry)) context.entries[index] = { ...entry, resource: inError(entry.resource, reason) };
}

const DOCUMENT = 'document-reference';

/** Role of the DocumentReference of one version: each is a resource of its own. */
export function documentRole(version: string): string {
  return `${DOCUMENT}/v${version}`;
}

/** Of this case alone: not kept by other systems, not the software, not an account of what once was. */
function isOwn({ shared, role, resource }: ResourceEntry): boolean {
  return !shared && role !== 'software' && resource.resourceType !== 'Provenance';
}

/** Tasks that the version before this one had in the same words stay as they were first asked for. */
function markAsked(context: MappingContext): void {
  const words = (task: Task) => JSON.stringify({ ...task, authoredOn: undefined });
  for (const [index, entry] of context.entries.entries()) {
    const { resource } = entry;
    if (resource.resourceType !== 'Task') continue;
    let first: Task | undefined;
    for (const set of context.earlier.toReversed()) {
      const before = set.entries.find(({ fullUrl }) => fullUrl === entry.fullUrl)?.resource;
      if (before?.resourceType !== 'Task' || words(before) !== words(resource)) break;
      first = before;
    }
    if (first) context.entries[index] = { ...entry, resource: first, asked: true };
  }
}

function retiredDocument(
  context: MappingContext,
  set: ResourceSet,
  entry: ResourceEntry,
  resource: DocumentReference,
  reason: string,
): ResourceEntry {
  const withdrawn = context.record.report.status === 'withdrawn' || resource.status === 'entered-in-error';
  const role = documentRole(set.version);
  return {
    ...entry,
    role,
    fullUrl: `${context.ref(role).reference}`,
    resource: withdrawn ? inError(resource, reason) : { ...resource, status: 'superseded' },
  };
}

/** Adds an entry of an earlier set, with the shared resources that it points at where this version has not the same. */
function retire(context: MappingContext, set: ResourceSet, entry: ResourceEntry): void {
  const replace = new Map<string, Replacement>();
  for (const address of new Set(referencesIn(entry.resource))) {
    const target = set.entries.find(({ fullUrl }) => fullUrl === address);
    if (!target?.shared) continue;
    const here = context.entries.find(({ fullUrl }) => fullUrl === address);
    if (here && isSame(here, target)) continue;
    // The same role in another hand: the old resource keeps pointing at who it was about.
    const fullUrl = here ? `urn:uuid:${v5(set.version, address.slice('urn:uuid:'.length))}` : address;
    if (!context.entries.some(known => known.fullUrl === fullUrl))
      retire(context, set, { ...target, fullUrl });
    if (fullUrl !== address) replace.set(address, { reference: fullUrl });
  }
  // To be retired, a Task is written again, whoever took it up.
  const { asked: _asked, ...rest } = entry;
  context.entries.push({
    ...rest,
    resource: withReferences(entry.resource, replace),
    sources: { [entry.resource.resourceType]: 'report.change' },
    earlier: true,
  });
}

function isSame(a: ResourceEntry, b: ResourceEntry): boolean {
  return a.identifier?.system === b.identifier?.system && a.identifier?.value === b.identifier?.value;
}
