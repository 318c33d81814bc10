import type { Fields } from '../../delivery/change/fields.js';
import type { PersonNumber } from '../facts.js';
import type { Closing } from '../wanted.js';

/** A case whose resources at a destination are to be looked at, and changed where the register says something else now. */
export interface OwedCase {
  /** Name of the case. */
  readonly case: string;
  readonly destination: string;
  /** When it is due, in milliseconds since 1970. */
  readonly dueAt: number;
  /** How often it was begun since it was asked for. */
  readonly attempts: number;
  /** Why it could not be done so far. */
  readonly reason?: string;
  /** True where it waits for a person. */
  readonly held: boolean;
}

/** The right to work on one of them, for a time. */
export interface OwedLease extends OwedCase {
  /** Counts how often it was asked for: what is asked for while it is worked on is done again. */
  readonly generation: number;
  readonly until: number;
}

/** What was changed in a resource: what it said before, and what it was made to say. */
export interface Change {
  /** Type as the destination's release of FHIR has it. */
  readonly type: string;
  /** Value of the business identifier that it was found by. */
  readonly value: string;
  readonly before: Fields;
  /** The newest is the last; those before it may still stand there where an answer was lost. */
  readonly after: readonly Fields[];
}

/** What the register wants of a case at a destination. */
export interface OwedWork {
  readonly closings: readonly Closing[];
  /** What was changed there before. */
  readonly changes: readonly Change[];
  /** Numbers of the person that the case is about, one list a person. */
  readonly numbers: readonly PersonNumber[];
  /** When the destination last accepted the case, in milliseconds since 1970. */
  readonly acceptedAt?: number;
}

/**
 * What is still to be changed at destinations since later cases came, kept until it is done. It is asked for by level
 * and not by step: what is to be there follows from the histories each time, so that doing it twice, or stopping in
 * the middle, does no harm.
 */
export interface Owed {
  /** Claims the one that has been due longest, of some destinations and, where given, of some cases. */
  claim(
    destinations: readonly string[],
    now: number,
    leaseMs: number,
    cases?: readonly string[],
  ): Promise<OwedLease | undefined>;
  work(of: Pick<OwedCase, 'case' | 'destination'>): Promise<OwedWork>;
  /** Notes a change, before it is sent and again when it was answered. */
  remember(of: Pick<OwedCase, 'case' | 'destination'>, change: Change): Promise<void>;
  forget(of: Pick<OwedCase, 'case' | 'destination'>, change: Pick<Change, 'type' | 'value'>): Promise<void>;
  /** It is done; what was asked for meanwhile is due again. Without the lease nothing is written. */
  finish(lease: OwedLease, now: number): Promise<void>;
  /** It is tried again at a time; or, without one, when a person says so. */
  postpone(lease: OwedLease, reason: string, dueAt?: number): Promise<void>;
  /** Makes due what waits, or is held, at a destination or at all; not before a time that a server asked for. */
  retry(now: number, destination?: string): Promise<void>;
  /** Asks for every case of which later cases say something, at a destination. @returns how many. */
  askAll(destination: string): Promise<number>;
  list(): Promise<readonly OwedCase[]>;
  /** When the next one is due at one of these destinations. */
  nextDue(destinations: readonly string[]): Promise<number | undefined>;
  /** What elements were made to say at a destination, by `Type value`, for some values of identifiers. */
  changed(destination: string, values: readonly string[]): Promise<ReadonlyMap<string, Fields>>;
}
