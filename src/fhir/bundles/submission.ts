import type { Bundle, BundleEntry, BundleEntryRequest } from 'fhir/r4.js';
import { type Contents, wantedOf } from '../contents.js';
import type { ReferenceMode, SharedKind } from '../options.js';
import type { CaseResource, ResourceEntry, ResourceSet } from '../set.js';
import { type Replacement, withReferences } from './references.js';
import { withStandIns } from './stand-ins.js';

/** How a submission is written. */
export interface SubmissionOptions {
  readonly references: Readonly<Record<SharedKind, ReferenceMode>>;
  /** What the destination wants; everything when absent. */
  readonly wanted?: Contents;
  /** Addresses of what an earlier version of the case sent there: it goes again. */
  readonly sent?: ReadonlySet<string>;
  /**
   * `create`: POST, ignored where the identifier is known already. `update`: PUT by identifier, which replaces what is
   * known. A changed report needs `update`; that is the default for it.
   */
  readonly writes?: 'create' | 'update';
}

/**
 * The transaction that carries the set to a server. No entry has an id: POST with ifNoneExist on the business
 * identifier, so that sending twice creates nothing twice.
 */
export function submissionBundle(set: ResourceSet, options: SubmissionOptions): Bundle {
  const writes = options.writes ?? (set.revision ? 'update' : 'create');
  const wanted = wantedOf(set, options.wanted ?? { contents: 'full' }, options.sent);
  const replace = new Map<string, Replacement>();
  const left = new Map<string, CaseResource>();
  const sent = set.entries.filter(entry => {
    const isWanted = wanted.has(entry);
    if (!isWanted) left.set(entry.fullUrl, entry.resource);
    const replacement = isWanted ? replacementOf(entry, options) : leftOut(entry);
    if (replacement) replace.set(entry.fullUrl, replacement);
    return !replacement;
  });
  return {
    resourceType: 'Bundle',
    type: 'transaction',
    entry: sent.map(
      (entry): BundleEntry => ({
        fullUrl: entry.fullUrl,
        resource: withReferences(withStandIns(entry.resource, left), replace),
        request: requestOf(entry, writes),
      }),
    ),
  };
}

/** What stands in for a shared resource that is not sent; undefined when it is sent. */
function replacementOf(entry: ResourceEntry, options: SubmissionOptions): Replacement | undefined {
  const { shared, identifier } = entry;
  if (!shared) return undefined;
  const mode = options.references[shared];
  const type = entry.resource.resourceType;
  if (typeof mode === 'object') return { reference: `${type}/${mode.id}` };
  if (mode === 'include') return undefined;
  // Found by a number of its own only: one made from this case is known to nobody else. Whoever has none is named.
  if (mode === 'name' || !identifier || entry.caseOnly) {
    const display = STAFF.has(shared) ? nameOf(entry.resource) : undefined;
    return display === undefined ? undefined : { type, display };
  }
  const { system, value } = identifier;
  return mode === 'match'
    ? { reference: `${type}?${identifierQuery(system, value)}` }
    : { type, identifier: { system, value } };
}

/** What stands in for a resource that the destination does not want: the name of who did something, else nothing. */
function leftOut({ role, resource }: ResourceEntry): Replacement {
  const agent = resource.resourceType === 'PractitionerRole' || role === 'software';
  const display = agent ? nameOf(resource) : undefined;
  return display === undefined ? 'nothing' : { type: resource.resourceType, display };
}

/** Kinds that are of no use to a receiver without a number: it has its own list of staff and rooms. */
const STAFF: ReadonlySet<SharedKind> = new Set(['practitioner', 'organization', 'location']);

function nameOf(resource: CaseResource): string | undefined {
  if (resource.resourceType === 'Practitioner') return resource.name?.[0]?.text;
  if (resource.resourceType === 'PractitionerRole') return resource.practitioner?.display;
  if (resource.resourceType === 'Device') return resource.deviceName?.[0]?.name;
  return resource.resourceType === 'Organization' || resource.resourceType === 'Location'
    ? resource.name
    : undefined;
}

/** `identifier=<system>|<value>` with both sides percent-encoded; the bar stays, as in the standard's example. */
export function identifierQuery(system: string, value: string): string {
  return `identifier=${encodeURIComponent(system)}|${encodeURIComponent(value)}`;
}

function requestOf(entry: ResourceEntry, writes: 'create' | 'update'): BundleEntryRequest {
  const type = entry.resource.resourceType;
  const query = entry.identifier
    ? identifierQuery(entry.identifier.system, entry.identifier.value)
    : tagQuery(entry);
  // Shared resources are other systems' to change, and so is a Task from the moment that it was asked for.
  return writes === 'update' && !entry.shared && !entry.asked
    ? { method: 'PUT', url: `${type}?${query}` }
    : { method: 'POST', url: type, ifNoneExist: query };
}

/** What no identifier finds, its tag does. */
function tagQuery(entry: ResourceEntry): string {
  const tag = entry.resource.meta?.tag?.[0];
  return `_tag=${encodeURIComponent(tag?.system ?? '')}|${encodeURIComponent(tag?.code ?? '')}`;
}
