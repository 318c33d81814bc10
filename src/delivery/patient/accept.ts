import { CasetallyError } from '../../findings/errors.js';
import type { Param } from '../../findings/message.js';
import { say } from '../../findings/say.js';
import type { OutboxItem } from '../outbox/outbox.js';
import type { Accepted } from '../request/expected.js';

/** Who lets near matches pass, which, and why. */
export interface Acceptance {
  readonly fields: readonly string[];
  readonly by: string;
  readonly why: string;
}

/**
 * All near matches that are accepted for an item, with those that a person lets pass now: the two values that they saw,
 * so that another difference in the same field is shown again.
 *
 * @param at milliseconds since the epoch.
 * @throws CasetallyError 'usage' for a field that the item is not parked for; it names no value.
 */
export function accepting(
  { id, parked, accepted = [] }: OutboxItem,
  { fields, by, why }: Acceptance,
  at: number,
): Accepted[] {
  const near = (parked?.findings ?? []).filter(({ code }) => code === 'delivery.match-near');
  const known = new Set(near.map(({ params }) => said(params['field'])));
  const now = fields.flatMap(field => {
    if (!known.has(field)) {
      const those = [...known].join(', ') || 'none';
      throw new CasetallyError(
        'usage',
        `item ${id} is not parked for a near match of '${field.slice(0, 40)}'; to be accepted are: ${those}. A contradiction cannot be accepted: correct the record or what is at the destination.`,
      );
    }
    return near
      .filter(({ params }) => said(params['field']) === field)
      .map(({ params }) => ({ field, sent: said(params['sent']), held: said(params['held']), by, why, at }));
  });
  return [...accepted, ...now];
}

const said = (param: Param | undefined) => (param === undefined ? '' : say(param));
