import { type ExactObject, listAt, objectAt, textAt } from '../answer/exact-json.js';
import type { Found, Looking } from '../held/looking.js';
import type { Held } from '../held/lookup.js';
import { criteriaOf, type SentEntry, type Submission } from '../request/submission.js';

/** Somebody or something that the case points at: how, and what the submission itself says of it. */
export interface PointedAt {
  readonly type: string;
  /** The entry of the submission, where it is sent along. */
  readonly entry?: SentEntry;
  look(look: Looking): Promise<Found>;
}

/** What an element of a resource points at; undefined where it points at nothing that can be looked up. */
export function pointedAt(
  { entries }: Pick<Submission, 'entries'>,
  reference: ExactObject | undefined,
): PointedAt | undefined {
  const address = textAt(reference, 'reference');
  if (address === undefined) return byNumber(reference);
  const entry = entries.find(({ fullUrl }) => fullUrl === address);
  if (entry) {
    const { type, criteria } = entry;
    return { type, entry, look: async look => (criteria ? look.search(type, criteria) : { held: [] }) };
  }
  const [type = '', query] = address.split(/\?(.*)/s);
  const criteria = criteriaOf(query);
  if (criteria) return { type, look: look => look.search(type, criteria) };
  const [, name, id] = /^([A-Z]\w*)\/([A-Za-z0-9.-]{1,64})$/.exec(address) ?? [];
  return name && id ? { type: name, look: look => look.read(name, id) } : undefined;
}

/** A reference by number alone. */
function byNumber(reference: ExactObject | undefined): PointedAt | undefined {
  const type = textAt(reference, 'type');
  const identifier = objectAt(reference, 'identifier');
  const [system, value] = [textAt(identifier, 'system'), textAt(identifier, 'value')];
  if (!type || !system || !value) return undefined;
  return { type, look: look => look.search(type, { parameter: 'identifier', value: `${system}|${value}` }) };
}

/** The one that was found; undefined for none and for several. */
export function onlyFound(found: Found | undefined): Held | undefined {
  return found && 'held' in found && found.held.length === 1 ? found.held[0] : undefined;
}

/** The id in a reference to a patient of the same server, of any version: `Patient/12`, `https://…/Patient/12/_history/3`. */
export function patientIdIn(reference: ExactObject | undefined): string | undefined {
  return /(?:^|\/)Patient\/([A-Za-z0-9.-]{1,64})(?:\/_history\/[^/]+)?$/.exec(
    textAt(reference, 'reference') ?? '',
  )?.[1];
}

/** True where a record says that another one takes its place. */
export function isReplacedBy(resource: ExactObject, id: string): boolean {
  return listAt(resource, 'link').some(
    link => textAt(link, 'type') === 'replaced-by' && patientIdIn(objectAt(link, 'other')) === id,
  );
}
