import type { BundleIndex, IndexedEntry } from './bundle-index.js';
import { isAbsolute, restful } from './bundle-index.js';
import { entryPlace, referencesIn } from './entries.js';
import type { Place, Scope } from './place.js';
import type { Run } from './run.js';
import { checkRequests } from './transaction.js';

const OPTIONAL_FULL_URL = new Set(['batch', 'transaction', 'batch-response', 'transaction-response']);

/** Checks what holds between the entries of a Bundle, beyond the structure of each. */
export function checkBundle(run: Run, index: BundleIndex, place: Place, scope: Scope): void {
  run.rules.add('bundle-full-url');
  for (const entry of index.entries)
    checkFullUrl(run, index, entry, entryPlace(place, scope.resource, entry.index));
  if (index.type === 'transaction' || index.type === 'batch') checkRequests(run, index, place, scope);
  if (index.type === 'document') checkDocument(run, index, place, scope);
}

function checkFullUrl(run: Run, index: BundleIndex, entry: IndexedEntry, place: Place): void {
  const { fullUrl, resource } = entry;
  if (fullUrl === undefined) {
    if (resource && !OPTIONAL_FULL_URL.has(index.type))
      run.report('conformance.bundle-full-url-missing', place, {});
    return;
  }
  if (!isAbsolute(fullUrl)) {
    run.report('conformance.bundle-full-url', place, { fullUrl, problem: 'it is not absolute' });
    return;
  }
  const parts = restful(fullUrl);
  const id = resource?.['id'];
  // A POST may carry any temporary address; an identity is promised by the others only.
  if (!parts || !resource || index.type === 'transaction' || index.type === 'batch') return;
  const found = `${String(resource['resourceType'])}/${typeof id === 'string' ? id : '(no id)'}`;
  const tail = `${parts.type}/${parts.id}`;
  if (tail !== found && run.planner.kindOf(parts.type) === 'resource') {
    run.report('conformance.bundle-id-mismatch', place, { tail, found });
  }
}

/** A document: what the Composition refers to is inside, and what is inside is referred to. */
function checkDocument(run: Run, index: BundleIndex, place: Place, scope: Scope): void {
  run.rules.add('bundle-unreachable');
  const [first] = index.entries;
  const composition = first?.resource;
  if (!first || composition?.['resourceType'] !== 'Composition') return;
  for (const reference of new Set(referencesIn(composition))) {
    if (reference.startsWith('#') || /^urn:(uuid|oid):/.test(reference)) continue;
    if (index.find(reference, first.fullUrl)) continue;
    const at = entryPlace(place, scope.resource, 0);
    run.report('conformance.bundle-missing-entry', at, { reference, from: 'Composition' });
  }
  for (const entry of unreachable(index, first)) {
    const at = entryPlace(place, scope.resource, entry.index);
    const name = entry.fullUrl ?? `number ${entry.index + 1}`;
    run.report('conformance.bundle-unreachable', at, { entry: name });
  }
}

/** Entries that no chain of references joins to the first one, whichever way the references point. */
function unreachable(index: BundleIndex, first: IndexedEntry): IndexedEntry[] {
  const near = new Map<IndexedEntry, Set<IndexedEntry>>(index.entries.map(e => [e, new Set()]));
  for (const entry of index.entries) {
    if (!entry.resource) continue;
    for (const reference of referencesIn(entry.resource)) {
      const target = index.find(reference, entry.fullUrl);
      if (!target) continue;
      near.get(entry)?.add(target);
      near.get(target)?.add(entry);
    }
  }
  const reached = new Set([first]);
  const queue = [first];
  for (let next = queue.pop(); next; next = queue.pop()) {
    for (const neighbour of near.get(next) ?? []) {
      if (reached.has(neighbour)) continue;
      reached.add(neighbour);
      queue.push(neighbour);
    }
  }
  return index.entries.filter(e => !reached.has(e) && e.resource);
}
