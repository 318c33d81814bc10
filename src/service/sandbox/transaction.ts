import type { FhirRouter } from '@medplum/fhir-router';
import type { Bundle, BundleEntry, BundleEntryResponse, Resource } from '@medplum/fhirtypes';
import { isResource } from './check.js';
import { matches, type Sandbox } from './criteria.js';
import { interact } from './interactions.js';
import { literalTarget, referencesOf } from './references.js';
import { type Interaction, Refusal, type Reply, refuse } from './reply.js';
import type { Setting } from './write.js';

/** The order in which R4 says that the entries of a transaction take effect. */
const ORDER = ['DELETE', 'POST', 'PUT', 'PATCH', 'GET'];

/** One entry made ready: its interaction and, for a write, the address that others may refer to. */
interface Step {
  readonly interaction: Interaction;
  readonly setting: Setting;
}

/**
 * Runs a transaction: all of it or nothing. The library's own limits conditional creates to eight entries,
 * rewrites placeholders inside text and cannot undo, hence this one.
 *
 * @throws Refusal; nothing of the transaction remains.
 */
export async function runTransaction(sandbox: Sandbox, router: FhirRouter, bundle: Bundle): Promise<Bundle> {
  const entries = bundle.entry ?? [];
  entries.forEach(checkEntry);
  refuseRepeats(entries);
  return sandbox.repository.atomically(async () => {
    const addresses = await assignAddresses(sandbox, entries);
    const coming = new Set([...addresses.values()].map(a => a.address));
    const steps = entries.map((entry, i): Step => {
      const given = addresses.get(i);
      if (entry.resource) rewrite(entry.resource, entries, addresses);
      const setting: Setting = { coming, at: place(i), ...(given?.isNew && { assignedId: given.id }) };
      return { interaction: interactionOf(entry), setting };
    });
    const replies = new Map<number, Reply>();
    for (const method of ORDER) {
      for (const [i, { interaction, setting }] of steps.entries()) {
        if (interaction.method === method)
          replies.set(i, await interact(sandbox, router, interaction, setting));
      }
    }
    const entry = steps.map((step, i) => toEntry(replies.get(i), step.interaction.method));
    return { resourceType: 'Bundle', type: 'transaction-response', ...(entry.length > 0 && { entry }) };
  });
}

/** Runs a batch: each entry for itself, each with its own status. */
export async function runBatch(sandbox: Sandbox, router: FhirRouter, bundle: Bundle): Promise<Bundle> {
  const answers: BundleEntry[] = [];
  for (const [i, entry] of (bundle.entry ?? []).entries()) {
    try {
      checkEntry(entry, i);
      const interaction = interactionOf(entry);
      const reply = await sandbox.repository.atomically(() =>
        interact(sandbox, router, interaction, { at: place(i) }),
      );
      answers.push(toEntry(reply, interaction.method));
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      answers.push({ response: { status: String(error.status), outcome: error.outcome } });
    }
  }
  return { resourceType: 'Bundle', type: 'batch-response', ...(answers.length > 0 && { entry: answers }) };
}

function place(i: number): string {
  return `Bundle.entry[${i}].resource`;
}

function checkEntry(entry: BundleEntry, i: number): void {
  const at = `Bundle.entry[${i}]`;
  const { method, url } = entry.request ?? {};
  if (!method || !ORDER.includes(method))
    throw refuse(400, 'required', 'A request method is missing', `${at}.request.method`);
  if (!url) throw refuse(400, 'required', 'A request address is missing', `${at}.request.url`);
  if ((method === 'POST' || method === 'PUT') && !isResource(entry.resource)) {
    throw refuse(400, 'required', `${method} needs a resource`, `${at}.resource`);
  }
}

/** Two entries with one fullUrl, or with the same ifNoneExist, would collapse into one resource. */
function refuseRepeats(entries: readonly BundleEntry[]): void {
  const seen = new Set<string>();
  for (const [i, { fullUrl, request }] of entries.entries()) {
    const keys = [
      fullUrl && `the address ${fullUrl}`,
      request?.ifNoneExist && `the same ifNoneExist on ${request.url}: ${request.ifNoneExist}`,
    ];
    for (const key of keys) {
      if (key && seen.has(key))
        throw refuse(400, 'duplicate', `Two entries have ${key}`, `Bundle.entry[${i}]`);
      if (key) seen.add(key);
    }
  }
}

interface Address {
  readonly id: string;
  readonly address: string;
  readonly isNew: boolean;
}

/** Decides beforehand which 'Type/id' each written entry will have, by entry index. */
async function assignAddresses(
  sandbox: Sandbox,
  entries: readonly BundleEntry[],
): Promise<Map<number, Address>> {
  const addresses = new Map<number, Address>();
  for (const [i, { request }] of entries.entries()) {
    const url = request?.url ?? '';
    const type = url.split(/[/?]/)[0] ?? '';
    const literal = literalTarget(url);
    const criteria =
      request?.method === 'POST' ? request.ifNoneExist?.replace(/^[A-Za-z]*\?/, '') : url.split(/\?(.*)/s)[1];
    if (request?.method !== 'POST' && request?.method !== 'PUT') continue;
    if (literal) {
      addresses.set(i, { id: literal.id, address: `${literal.type}/${literal.id}`, isNew: false });
      continue;
    }
    // Several matches are left to the interaction itself, which refuses them with the entry's place.
    const [match] = criteria === undefined ? [] : await matches(sandbox, type, criteria);
    const id = match?.id ?? sandbox.repository.generateId();
    addresses.set(i, { id, address: `${type}/${id}`, isNew: match === undefined });
  }
  return addresses;
}

function rewrite(
  resource: Resource,
  entries: readonly BundleEntry[],
  addresses: ReadonlyMap<number, Address>,
): void {
  for (const reference of referencesOf(resource)) {
    const target = entries.findIndex(
      entry => entry.fullUrl !== undefined && entry.fullUrl === reference.value,
    );
    const address = addresses.get(target)?.address;
    if (address) reference.replace(address);
  }
}

function interactionOf({ request, resource }: BundleEntry): Interaction {
  return {
    method: request?.method ?? '',
    url: request?.url ?? '',
    body: request?.method === 'PATCH' ? patchOf(resource) : resource,
    ...(request?.ifNoneExist !== undefined && { ifNoneExist: request.ifNoneExist }),
    ...(request?.ifMatch !== undefined && { ifMatch: request.ifMatch }),
  };
}

/** A JSON Patch travels in a Binary (R4, http.html#patch in batches). */
function patchOf(resource: Resource | undefined): unknown {
  if (resource?.resourceType !== 'Binary' || !resource.data) {
    throw refuse(400, 'structure', 'A PATCH entry needs a Binary with a JSON Patch');
  }
  try {
    return JSON.parse(Buffer.from(resource.data, 'base64').toString('utf8'));
  } catch {
    throw refuse(400, 'structure', 'The Binary of a PATCH entry does not hold JSON');
  }
}

const PHRASES: Record<number, string> = { 200: '200 OK', 201: '201 Created', 204: '204 No Content' };

function toEntry(reply: Reply | undefined, method: string): BundleEntry {
  if (!reply) throw new TypeError('an entry was left without an answer');
  const { status, location, etag, lastModified, body } = reply;
  const response: BundleEntryResponse = {
    status: PHRASES[status] ?? String(status),
    ...(location && { location }),
    ...(etag && { etag }),
    ...(lastModified && { lastModified }),
  };
  return { response, ...(method === 'GET' && body && { resource: body }) };
}
