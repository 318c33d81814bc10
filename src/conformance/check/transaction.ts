import type { JsonObject } from '../../json/parse.js';
import type { BundleIndex, IndexedEntry } from './bundle-index.js';
import { entryPlace, referencesIn } from './entries.js';
import { isObject } from './equal.js';
import type { Place, Scope } from './place.js';
import type { Run } from './run.js';

/** Checks the requests of a transaction or batch. Source: R4 http page, batch and transaction. */
export function checkRequests(run: Run, index: BundleIndex, place: Place, scope: Scope): void {
  run.rules.add('bundle-request');
  const written = new Map<string, number>();
  for (const entry of index.entries) {
    const at = entryPlace(place, scope.resource, entry.index);
    const request = requestOf(scope.resource, entry.index);
    if (!request) continue;
    const method = String(request['method'] ?? '');
    const url = String(request['url'] ?? '');
    const problem = requestProblem(method, url, request, entry);
    if (problem !== undefined) run.report('conformance.bundle-request', at, { method, url, problem });
    const identity = identityOf(method, url);
    const created = method === 'POST' ? conditionOf(url, request) : undefined;
    const key = identity ?? created;
    if (index.type === 'transaction' && key !== undefined) {
      const other = written.get(key);
      if (other === undefined) written.set(key, entry.index);
      else if (identity !== undefined)
        run.report('conformance.bundle-identity-twice', at, { identity, other: String(other) });
      else run.report('conformance.bundle-create-twice', at, { criteria: key, other: String(other) });
    }
    if (index.type === 'batch') checkBatch(run, index, entry, at);
  }
}

function requestOf(bundle: JsonObject, index: number): Readonly<Record<string, unknown>> | undefined {
  const entries = bundle['entry'];
  const entry: unknown = Array.isArray(entries) ? entries[index] : undefined;
  const request = isObject(entry) ? entry['request'] : undefined;
  return isObject(request) ? request : undefined;
}

function requestProblem(
  method: string,
  url: string,
  request: Readonly<Record<string, unknown>>,
  { resource }: IndexedEntry,
): string | undefined {
  const type = /^\/?([A-Z][A-Za-z]+)(?=[/?]|$)/.exec(url)?.[1];
  const resourceType = resource?.['resourceType'];
  if (request['ifNoneExist'] !== undefined) {
    if (method !== 'POST') return 'ifNoneExist belongs to POST';
    if (/^\?|^[A-Z][A-Za-z]+\?/.test(String(request['ifNoneExist'])))
      return 'ifNoneExist holds the search part only';
  }
  if (method === 'POST') {
    if (/\$[a-z]/.test(url) || url === '') return undefined;
    if (!resource) return 'POST needs a resource';
    if (type === undefined || url.replace(/^\//, '') !== type)
      return url.includes('_search') ? undefined : 'POST goes to the type';
    return type === resourceType ? undefined : `the resource is a ${String(resourceType)}`;
  }
  if (method === 'PUT') {
    if (!resource) return 'PUT needs a resource';
    if (type === undefined || !/[/?]/.test(url.replace(/^\//, '')))
      return 'PUT goes to Type/id or Type?search';
    if (type !== resourceType) return `the resource is a ${String(resourceType)}`;
    const id = /^\/?[A-Z][A-Za-z]+\/([A-Za-z0-9\-.]+)$/.exec(url)?.[1];
    if (id !== undefined && resource['id'] !== id)
      return `the resource has the id ${String(resource['id'] ?? '(none)')}`;
    return undefined;
  }
  if (method === 'DELETE' && resource) return 'DELETE carries no resource';
  return undefined;
}

/** `Type?criteria` of a conditional create. */
function conditionOf(url: string, { ifNoneExist }: Readonly<Record<string, unknown>>): string | undefined {
  return typeof ifNoneExist === 'string' ? `${url.replace(/^\//, '')}?${ifNoneExist}` : undefined;
}

/** The address of what is written, or the criteria that find it. */
function identityOf(method: string, url: string): string | undefined {
  if (method !== 'PUT' && method !== 'DELETE' && method !== 'PATCH') return undefined;
  return /^\/?([A-Z][A-Za-z]+(?:\/[A-Za-z0-9\-.]+|\?.+))$/.exec(url)?.[1];
}

function checkBatch(run: Run, index: BundleIndex, entry: IndexedEntry, at: Place): void {
  for (const reference of new Set(referencesIn(entry.resource))) {
    const target = reference.startsWith('urn:') ? index.find(reference, entry.fullUrl) : undefined;
    if (!target || target === entry) continue;
    run.report('conformance.bundle-batch-reference', at, { other: String(target.index) });
  }
}
