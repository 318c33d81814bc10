import { randomUUID } from 'node:crypto';
import { type Head, headText } from '../../audit/chain.js';
import type { AuditFact, Who } from '../../audit/event.js';
import type { AuditTrail } from '../../audit/trail.js';
import { isOutboxFault } from '../../delivery/outbox/store-faults.js';
import type { Right } from '../../site/service.js';
import type { Caller } from './guard.js';
import { type Reply, refusal } from './reply.js';

/** How a request stands in the audit trail. */
export type Audited = 'none' | 'look' | 'export' | 'change';

/**
 * How a route is audited where its row does not say: not at all where nothing that is kept is shown or changed (no right,
 * or the right to check one's own record), else as a look for GET and as a change for anything else.
 */
export function auditedAs(
  { audit, right }: { readonly audit?: Audited; readonly right?: Right },
  method: string,
): Audited {
  if (audit) return audit;
  if (right === undefined || right === 'check') return 'none';
  return method === 'GET' || method === 'HEAD' ? 'look' : 'change';
}

export function whoOf({ name, person }: Caller): Who {
  if (person?.verified) {
    const { issuer, subject } = person.verified;
    return { kind: 'person', name: person.name, issuer, subject };
  }
  if (person) return { kind: 'typed', name: person.name };
  return name === undefined ? { kind: 'nobody' } : { kind: 'token', name };
}

/** Writes down what is asked. Where it cannot, the request must not go on. */
export class Auditing {
  readonly #trail: AuditTrail | undefined;
  readonly #clock: () => number;

  constructor(trail: AuditTrail | undefined, clock: () => number) {
    this.#trail = trail;
    this.#clock = clock;
  }

  /** @returns the head of the trail after it, as `headText` writes it, or why the request cannot be answered. */
  async write(fact: Omit<AuditFact, 'id' | 'at'>): Promise<{ head?: string } | { refused: Reply }> {
    if (!this.#trail) return {};
    try {
      const head: Head = await this.#trail.append({ ...fact, id: randomUUID(), at: this.#clock() });
      return { head: headText(head) };
    } catch (error) {
      const ended = fact.kind === 'change' && fact.outcome !== 'begun';
      return {
        refused: refusal(
          503,
          'transient',
          `The audit trail cannot be written (${isOutboxFault(error) ? error.code : 'a fault'}). ${ended ? 'What was asked may have been done: look before you ask again.' : 'Nothing is shown and nothing changed until it can.'} Whoever runs the service finds more with 'casetally audit verify'.`,
          [],
          { 'retry-after': '60' },
        ),
      };
    }
  }
}
