import type { Bundle, BundleEntry } from 'fhir/r4.js';
import { ownProfile } from '../profiles.js';
import type { ResourceEntry, ResourceSet } from '../set.js';
import { referencesIn } from './references.js';

/**
 * The document: Composition first, then everything that can be reached from it, shared resources included, so that
 * it can be read alone. The rendered report and the account of origin stay out: nothing in a document points at them.
 * @param canonical under which our profiles are published, where that is not the default
 */
export function documentBundle(set: ResourceSet, canonical?: string): Bundle {
  const composition = set.entries.find(({ role }) => role === 'composition');
  const reached = reachable(set, composition);
  const rest = set.entries.filter(entry => entry !== composition && reached.has(entry));
  return {
    resourceType: 'Bundle',
    meta: { profile: [ownProfile('procedure-report-document', canonical)] },
    identifier: { system: set.document.system, value: set.document.value },
    type: 'document',
    timestamp: set.timestamp,
    entry: [...(composition ? [composition] : []), ...rest].map(
      ({ fullUrl, resource }): BundleEntry => ({ fullUrl, resource }),
    ),
  };
}

function reachable(set: ResourceSet, start: ResourceEntry | undefined): Set<ResourceEntry> {
  const byUrl = new Map(set.entries.map(entry => [entry.fullUrl, entry]));
  const found = new Set<ResourceEntry>();
  const waiting = start ? [start] : [];
  for (let entry = waiting.pop(); entry; entry = waiting.pop()) {
    if (found.has(entry)) continue;
    found.add(entry);
    for (const address of referencesIn(entry.resource)) {
      const target = byUrl.get(address);
      if (target) waiting.push(target);
    }
  }
  return found;
}
