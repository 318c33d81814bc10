import type { AuditEvent } from 'fhir/r4.js';
import type { Head } from './chain.js';
import type { AuditFact } from './event.js';
import type { KeptEntry } from './verify.js';

/** Which entries of a trail are asked for. */
export interface TrailFilter {
  /** Milliseconds, included. */
  readonly from?: number;
  /** Milliseconds, not included. */
  readonly to?: number;
  /** A part of a name, or the whole number of a person at their provider. */
  readonly who?: string;
}

/** The audit trail: it is added to and read, and nothing else. */
export interface AuditTrail {
  /** Durable once fulfilled. The same id is not written twice. @throws CasetallyError 'outbox-…' */
  append(fact: AuditFact): Promise<Head>;
  head(): Promise<Head | undefined>;
  /** All entries from the first, page by page. */
  kept(): AsyncIterable<KeptEntry>;
  events(filter: TrailFilter): AsyncIterable<AuditEvent>;
  /** Seals everything with the first key; digests stay, since they are of what is sealed. @returns how many. */
  rekey(): Promise<number>;
  close(): Promise<void>;
}
