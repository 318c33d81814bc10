import { type Finding, finding } from '../../findings/finding.js';
import { type ExactJson, listAt, objectAt, textAt } from '../answer/exact-json.js';
import type { Session } from '../destination/session.js';
import { mapAtOnce } from '../http/at-once.js';
import { type Reply, resourceOf } from '../http/fhir-client.js';
import type { FhirReader } from '../http/fhir-reader.js';
import { criteriaOf, type Submission } from '../request/submission.js';
import { type Held, search } from './lookup.js';

/**
 * Looks up everything that a submission refers to outside itself, with reads only: each must be there exactly
 * once, and a patient must be active and not merged into another. What cannot be told, because the server does
 * not answer or forbids searching, is left to the server's own answer when the case is sent.
 */
export async function preflight(
  submission: Submission,
  { reader, destination }: Session,
): Promise<Finding[]> {
  const { sourceOf } = submission;
  const findings = await mapAtOnce([...outside(submission)], async ([reference, entry]) => {
    const path = sourceOf(entry, reference) ?? reference.split(/[?/]/)[0] ?? reference;
    return sayTarget(destination.name, reference, await target(reader, reference), path);
  });
  return findings.flat();
}

/** The outside references, each once, with the index of the first entry that has it. */
function outside({ entries }: Submission): Map<string, number> {
  const written = new Set(entries.filter(e => e.method === 'PUT').map(e => e.url));
  const found = new Map<string, number>();
  for (const { index, conditional, literal } of entries) {
    for (const reference of [...conditional, ...literal]) {
      if (!found.has(reference) && !written.has(reference)) found.set(reference, index);
    }
  }
  return found;
}

type Target = readonly Held[] | 'not-told';

async function target(reader: FhirReader, reference: string): Promise<Target> {
  const [type = '', query] = reference.split(/\?(.*)/s);
  if (query === undefined) return readTarget(reader, reference);
  const criteria = criteriaOf(query);
  if (!criteria) return 'not-told';
  const held = await search(reader, type, criteria);
  return held === 'no-answer' ? 'not-told' : held;
}

async function readTarget(reader: FhirReader, reference: string): Promise<Target> {
  const [type = '', id = ''] = reference.split('/');
  const reply = await reader.read(type, id);
  const resource = resourceOf(reply);
  if (resource) return [{ id, resource }];
  return isAbsent(reply) ? [] : 'not-told';
}

function isAbsent({ exchange }: Reply): boolean {
  return exchange.kind === 'answer' && (exchange.status === 404 || exchange.status === 410);
}

function sayTarget(destination: string, reference: string, held: Target, path: string): Finding[] {
  if (held === 'not-told') return [];
  const type = reference.split(/[?/]/)[0] ?? '';
  const [only, second] = held;
  if (!only) return [finding('delivery.target-missing', path, { destination, type })];
  if (second) {
    const addresses = held.map(h => `${type}/${h.id}`).join(', ');
    return [
      finding('delivery.target-several', path, { destination, type, count: String(held.length), addresses }),
    ];
  }
  const resource: ExactJson = only.resource;
  const merged = listAt(resource, 'link').find(link => textAt(link, 'type') === 'replaced-by');
  if (merged) {
    const other = textAt(objectAt(merged, 'other'), 'reference') ?? 'another record';
    return [
      finding('delivery.target-merged', path, { destination, type, address: `${type}/${only.id}`, other }),
    ];
  }
  if (only.resource['active'] === false) {
    return [finding('delivery.target-inactive', path, { destination, type, address: `${type}/${only.id}` })];
  }
  return [];
}
