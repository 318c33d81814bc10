import { type ClientDeps, type FhirClient, fhirClient } from '../http/fhir-client.js';
import { type FhirReader, fhirReader } from '../http/fhir-reader.js';
import { waitFor } from '../http/wait.js';
import type { StatementStore } from './capability-cache.js';
import type { Destination } from './destination.js';

/** What a session needs from outside. */
export interface SendDeps extends ClientDeps {
  /** Waits; replaced in tests. */
  readonly sleep?: (ms: number, signal?: AbortSignal) => Promise<void>;
  /** Where what servers say of themselves is kept; without it they are not asked before a submission is sent. */
  readonly statements?: StatementStore;
}

/** A destination of the settings and how it is reached: its own connection and credentials. */
export interface Target extends Pick<ClientDeps, 'authorize' | 'fetch' | 'readOver'> {
  readonly destination: Destination;
  /** The scope of the token in use; what was asked for where the server does not tell. Absent where there is none. */
  readonly granted?: () => string | undefined;
}

/** A destination and the means to speak to it, made once for it; every stage of a delivery works with it. */
export interface Session {
  readonly destination: Destination;
  /** Writes, and reads back what was written with its digits. */
  readonly client: FhirClient;
  /** Reads what other systems keep. */
  readonly reader: FhirReader;
  /** Milliseconds since the epoch. */
  readonly clock: () => number;
  readonly newId: () => string;
  /** True where requests carry a token or a password. */
  readonly authorised: boolean;
  /** Waits some milliseconds, or until the sending is called off. */
  readonly wait: (ms: number) => Promise<void>;
  readonly signal?: AbortSignal;
  readonly statements?: StatementStore;
  /** The same session with writes that wait for this first, each; where it throws, the write does not go out. */
  readonly guarded: (beforeWrite: () => Promise<void>) => Session;
}

/** Opens the session of a destination. Nothing is asked of the server yet. */
export function openSession(destination: Destination, deps: SendDeps): Session {
  const session: Session = {
    destination,
    client: fhirClient(destination, deps),
    reader: fhirReader(destination, deps),
    clock: deps.clock,
    newId: deps.newId,
    authorised: deps.authorize !== undefined,
    wait: ms => waitFor(deps, ms),
    ...(deps.signal && { signal: deps.signal }),
    ...(deps.statements && { statements: deps.statements }),
    guarded: beforeWrite => ({
      ...session,
      client: fhirClient(destination, { ...deps, beforeWrite }),
    }),
  };
  return session;
}
