import type { ExactObject } from '../../../delivery/answer/exact-json.js';
import { type Fields, fieldsOf, sameFields, withFields } from '../../../delivery/change/fields.js';
import type { Change } from '../../../register/store/owed.js';
import type { WantedResource } from './wanted.js';

/** What is to be done with a resource as it is now. */
export type Step =
  | { readonly kind: 'nothing' }
  /** What was changed before holds no longer: somebody else has written it since. */
  | { readonly kind: 'forget' }
  /** `change`: what to remember of it, before it is sent; absent where the resource gets back what it said. */
  | { readonly kind: 'write'; readonly resource: ExactObject; readonly change?: Change };

/**
 * Works out the next step from the resource as it is, what is wanted of it, and what was changed in it before. Only what
 * Casetally itself changed is ever changed back.
 */
export function stepOf(resource: ExactObject, { type, value, closed, change }: WantedResource): Step {
  const isOurs = change?.after.some(after => says(resource, after)) ?? false;
  const base = change && isOurs ? withFields(resource, change.before) : resource;
  const after = closed?.(base);
  if (!after) {
    if (!change) return { kind: 'nothing' };
    return isOurs && !closed ? { kind: 'write', resource: base } : { kind: 'forget' };
  }
  if (isOurs && says(resource, after)) return { kind: 'nothing' };
  const afters = isOurs ? [...(change?.after ?? []), after] : [after];
  const paths = [...new Set(afters.flatMap(one => Object.keys(one)))];
  const before = fieldsOf(base, paths);
  return { kind: 'write', resource: withFields(base, after), change: { type, value, before, after: afters } };
}

const says = (resource: ExactObject, fields: Fields) =>
  sameFields(fieldsOf(resource, Object.keys(fields)), fields);
