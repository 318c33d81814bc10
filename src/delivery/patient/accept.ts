import { CasetallyError } from '../../findings/errors.js';
import type { Finding } from '../../findings/finding.js';
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

/** What a case is held back for, and what was accepted for it before. */
export interface HeldBack {
  /** As messages name it: `item 53db…`. */
  readonly named: string;
  readonly findings: readonly Finding[];
  readonly accepted?: readonly Accepted[];
}

/** An item of the outbox as what holds it back. */
export const heldBack = ({ id, parked, accepted }: OutboxItem): HeldBack => ({
  named: `item ${id}`,
  findings: parked?.findings ?? [],
  ...(accepted && { accepted }),
});

/**
 * All near matches that are accepted for an item, with those that a person lets pass now: the two values that they saw,
 * so that another difference in the same field is shown again.
 *
 * @param at milliseconds since the epoch.
 * @throws CasetallyError 'usage' for a field that it is not held back for; it names no value.
 */
export function accepting(
  { named, findings, accepted = [] }: HeldBack,
  { fields, by, why }: Acceptance,
  at: number,
): Accepted[] {
  const near = findings.filter(({ code }) => code === 'delivery.match-near');
  const known = new Set(near.map(({ params }) => said(params['field'])));
  const now = fields.flatMap(field => {
    if (!known.has(field)) {
      const those = [...known].join(', ') || 'none';
      throw new CasetallyError(
        'usage',
        `${named} is not held back for a near match of '${field.slice(0, 40)}'; to be accepted are: ${those}. A contradiction cannot be accepted: correct the record or what is at the destination.`,
      );
    }
    return near
      .filter(({ params }) => said(params['field']) === field)
      .map(({ params }) => ({ field, sent: said(params['sent']), held: said(params['held']), by, why, at }));
  });
  return [...accepted, ...now];
}

const said = (param: Param | undefined) => (param === undefined ? '' : say(param));
