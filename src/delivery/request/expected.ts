import { type ExactObject, listAt, objectAt, parseExact, textAt } from '../answer/exact-json.js';

/** What the record says of those that a submission refers to without carrying them, as FHIR resources. */
export interface Expected {
  readonly patient?: ExactObject;
  readonly order?: ExactObject;
}

/** A near match that a person let pass: this field, with these two values. */
export interface Accepted {
  readonly field: string;
  readonly sent: string;
  readonly held: string;
  readonly by: string;
  readonly why: string;
  /** Milliseconds since the epoch. */
  readonly at: number;
}

/** What is kept beside a submission of what it does not carry; empty for an item of an earlier release. */
export function expectedIn(context: string | undefined): Expected {
  if (context === undefined) return {};
  try {
    const kept = objectAt(parseExact(context), 'expected');
    const patient = objectAt(kept, 'patient');
    const order = objectAt(kept, 'order');
    return { ...(patient && { patient }), ...(order && { order }) };
  } catch {
    return {};
  }
}

/** `system|value` of every identifier that has both. */
export function numbersOf(resource: ExactObject | undefined): { system: string; value: string }[] {
  return listAt(resource, 'identifier').flatMap(identifier => {
    const system = textAt(identifier, 'system');
    const value = textAt(identifier, 'value');
    return system && value ? [{ system, value }] : [];
  });
}

/** True when two resources have a number in common. */
export function shareNumber(a: ExactObject | undefined, b: ExactObject | undefined): boolean {
  const known = new Set(numbersOf(b).map(({ system, value }) => JSON.stringify([system, value])));
  return numbersOf(a).some(({ system, value }) => known.has(JSON.stringify([system, value])));
}
