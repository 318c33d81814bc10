import { type Finding, finding } from '../../findings/finding.js';
import { type ExactObject, listAt, objectAt, textAt } from '../answer/exact-json.js';
import type { Session } from '../destination/session.js';
import { mapAtOnce } from '../http/at-once.js';
import { criteriaOf, type Submission } from '../request/submission.js';
import type { Looking } from './looking.js';
import type { Held } from './lookup.js';

/**
 * Looks up everything that a submission refers to outside itself, with reads only: each must be there exactly
 * once, and a patient must be active and not merged into another. What cannot be told, because the server does
 * not answer or forbids searching, is left to the server's own answer when the case is sent.
 */
export async function preflight(
  submission: Submission,
  { destination }: Session,
  look: Looking,
): Promise<Finding[]> {
  const { sourceOf } = submission;
  const findings = await mapAtOnce([...outside(submission)], async ([reference, entry]) => {
    const path = sourceOf(entry, reference) ?? reference.split(/[?/]/)[0] ?? reference;
    return sayTarget(destination.name, reference, await target(look, reference), path);
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

/** What is at a reference; undefined where that cannot be told. */
async function target(look: Looking, reference: string): Promise<readonly Held[] | undefined> {
  const [type = '', query] = reference.split(/\?(.*)/s);
  const criteria = criteriaOf(query);
  if (query !== undefined && !criteria) return undefined;
  const [name = '', id = ''] = reference.split('/');
  const found = await (criteria ? look.search(type, criteria) : look.read(name, id));
  return 'held' in found ? found.held : undefined;
}

/** What decides how a type is referred to, under `references`. */
const SETTINGS: Readonly<Record<string, string>> = {
  Patient: 'patient',
  Encounter: 'encounter',
  ServiceRequest: 'order',
  Practitioner: 'practitioner',
  PractitionerRole: 'practitioner',
  Organization: 'organization',
  Location: 'location',
};

function sayTarget(
  destination: string,
  reference: string,
  held: readonly Held[] | undefined,
  path: string,
): Finding[] {
  if (!held) return [];
  const type = reference.split(/[?/]/)[0] ?? '';
  const [only, second] = held;
  if (!only)
    return [
      finding('delivery.target-missing', path, { destination, type, setting: SETTINGS[type] ?? 'patient' }),
    ];
  if (second) {
    const addresses = held.map(h => `${type}/${h.id}`).join(', ');
    return [
      finding('delivery.target-several', path, { destination, type, count: String(held.length), addresses }),
    ];
  }
  return sayState(destination, `${type}/${only.id}`, only.resource, path);
}

/** What keeps a resource that was found from being written to: merged into another, or no longer in use. */
export function sayState(
  destination: string,
  address: string,
  resource: ExactObject,
  path: string,
): Finding[] {
  const type = address.split('/')[0] ?? '';
  const merged = listAt(resource, 'link').find(link => textAt(link, 'type') === 'replaced-by');
  if (merged) {
    const other = textAt(objectAt(merged, 'other'), 'reference') ?? 'another record';
    return [finding('delivery.target-merged', path, { destination, type, address, other })];
  }
  return resource['active'] === false
    ? [finding('delivery.target-inactive', path, { destination, type, address })]
    : [];
}
