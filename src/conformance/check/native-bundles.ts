import type { Json, JsonObject } from '../../json/parse.js';
import { isObject } from './equal.js';
import type { Native } from './native.js';
import { has } from './native.js';

/** Hand-written invariants of Bundle: the published ones look at all entries for each entry. */
export const nativeBundles: readonly (readonly [string, Native])[] = [
  // bdl-3
  [
    "entry.all(request.exists() = (%resource.type = 'batch' or %resource.type = 'transaction' or %resource.type = 'history'))",
    value => entriesAll(value, 'request', ['batch', 'transaction', 'history']),
  ],
  // bdl-4
  [
    "entry.all(response.exists() = (%resource.type = 'batch-response' or %resource.type = 'transaction-response' or %resource.type = 'history'))",
    value => entriesAll(value, 'response', ['batch-response', 'transaction-response', 'history']),
  ],
  // bdl-7
  [
    "(type = 'history') or entry.where(fullUrl.exists()).select(fullUrl&resource.meta.versionId).isDistinct()",
    fullUrlsDiffer,
  ],
  // bdl-8
  [
    "fullUrl.contains('/_history/').not()",
    value => !isObject(value) || !String(value['fullUrl'] ?? '').includes('/_history/'),
  ],
  // bdl-5
  [
    'resource.exists() or request.exists() or response.exists()',
    value => has(value, 'resource') || has(value, 'request') || has(value, 'response'),
  ],
  // bdl-11, bdl-12
  [
    "type = 'document' implies entry.first().resource.is(Composition)",
    value => startsWith(value, 'document', 'Composition'),
  ],
  [
    "type = 'message' implies entry.first().resource.is(MessageHeader)",
    value => startsWith(value, 'message', 'MessageHeader'),
  ],
  // bdl-ips-1
  [
    'entry.tail().where(resource is Composition).empty()',
    value =>
      !entries(value)
        .slice(1)
        .some(e => isObject(e['resource']) && e['resource']['resourceType'] === 'Composition'),
  ],
  // ct-document-1, ct-document-2
  [
    'entry.resource.ofType(Procedure).where(partOf.empty()).count() = 1',
    value => wholeProcedures(value).length === 1,
  ],
  [
    'entry.first().resource.event.detail.reference = entry.where(resource.ofType(Procedure).where(partOf.empty()).exists()).fullUrl',
    aboutProcedure,
  ],
];

/** Entries of Procedures that are part of no other. */
function wholeProcedures(value: Json): JsonObject[] {
  return entries(value).filter(
    ({ resource }) =>
      isObject(resource) && resource['resourceType'] === 'Procedure' && !has(resource, 'partOf'),
  );
}

/** The plain case: one event with one detail, one Procedure. Everything else is left to the library. */
function aboutProcedure(value: Json): boolean | undefined {
  const [procedure, another] = wholeProcedures(value);
  const composition = entries(value)[0]?.['resource'];
  const event = onlyOf(isObject(composition) ? composition['event'] : undefined);
  const detail = onlyOf(event?.['detail']);
  const [reference, address] = [detail?.['reference'], procedure?.['fullUrl']];
  return typeof reference === 'string' && typeof address === 'string' && !another
    ? reference === address
    : undefined;
}

function onlyOf(list: Json | undefined): JsonObject | undefined {
  if (!Array.isArray(list) || list.length !== 1) return undefined;
  const [only] = list as readonly Json[];
  return isObject(only) ? (only as JsonObject) : undefined;
}

/** A Bundle of `type` has a resource of `resourceType` first. */
function startsWith(value: Json, type: string, resourceType: string): boolean {
  if (isObject(value) && value['type'] !== undefined && value['type'] !== type) return true;
  const resource = entries(value)[0]?.['resource'];
  return isObject(resource) && resource['resourceType'] === resourceType;
}

function entries(value: Json): JsonObject[] {
  const entry = isObject(value) ? value['entry'] : undefined;
  return Array.isArray(entry) ? entry.filter(e => isObject(e)).map(e => e as JsonObject) : [];
}

function entriesAll(value: Json, member: string, types: readonly string[]): boolean {
  const wanted = isObject(value) && types.includes(String(value['type']));
  return entries(value).every(e => has(e, member) === wanted);
}

function fullUrlsDiffer(value: Json): boolean {
  if (!isObject(value) || value['type'] === 'history') return true;
  const seen = new Set<string>();
  let count = 0;
  for (const { fullUrl, resource } of entries(value)) {
    if (typeof fullUrl !== 'string') continue;
    const meta = isObject(resource) ? resource['meta'] : undefined;
    const version = isObject(meta) && typeof meta['versionId'] === 'string' ? meta['versionId'] : '';
    seen.add(fullUrl + version);
    count += 1;
  }
  return seen.size === count;
}
