import { type ExactObject, objectAt, textAt } from '../../../delivery/answer/exact-json.js';
import { type HeldResource, readHeld } from '../../../delivery/change/held-resource.js';
import type { Session } from '../../../delivery/destination/session.js';
import { patientIdIn } from '../../../delivery/patient/who.js';
import { numbersOf } from '../../../delivery/request/expected.js';
import type { PersonNumber } from '../../../register/facts.js';
import { normalNumber } from '../../../registry/patient-number.js';

/** Whether a resource is still about whom and what the case was about. */
export type Ownership =
  | 'ours'
  | 'not ours'
  | 'later'
  | { readonly refused: number; readonly address: string };

const SUBJECTS = ['subject', 'patient', 'for'] as const;

/** Looks whom resources are about, each person once. */
export class Owners {
  readonly #session: Session;
  readonly #numbers: ReadonlySet<string>;
  readonly #people = new Map<string, Promise<Ownership>>();

  /** @param numbers of the person of the case. */
  constructor(session: Session, numbers: readonly PersonNumber[]) {
    this.#session = session;
    this.#numbers = new Set(numbers.map(keyOf));
  }

  /** @param device the Device that a use is to be of, where it was found. */
  async of({ type, resource }: HeldResource, device: HeldResource | undefined): Promise<Ownership> {
    if (device && !isOf(resource, device)) return 'not ours';
    const subject = SUBJECTS.map(name => objectAt(resource, name)).find(one => one !== undefined);
    // R5 ties a Device to nobody, and R4 need not.
    if (subject === undefined) return type === 'Device' ? 'ours' : 'not ours';
    const id = patientIdIn(subject);
    if (id === undefined) return this.#has({ identifier: [objectAt(subject, 'identifier') ?? {}] });
    const known = this.#people.get(id) ?? this.#person(id);
    this.#people.set(id, known);
    return known;
  }

  async #person(id: string): Promise<Ownership> {
    const look = await readHeld(this.#session, 'Patient', id);
    if (look.kind === 'found') return this.#has(look.held.resource);
    if (look.kind === 'refused') return { refused: look.status, address: `Patient/${id}` };
    return look.kind === 'later' ? 'later' : 'not ours';
  }

  #has(resource: ExactObject): Ownership {
    return numbersOf(resource).some(number => this.#numbers.has(keyOf(number))) ? 'ours' : 'not ours';
  }
}

const keyOf = (number: PersonNumber) => JSON.stringify(Object.values(normalNumber(number)));

/** True for a use of that device; R5 has the reference one level further in. */
function isOf(use: ExactObject, device: HeldResource): boolean {
  const at = objectAt(use, 'device');
  const reference = textAt(at, 'reference') ?? textAt(objectAt(at, 'reference'), 'reference');
  if (reference === undefined) return true;
  return new RegExp(`(?:^|/)Device/${device.id.replace(/[.]/g, '\\.')}(?:/_history/[^/]+)?$`).test(reference);
}
