import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Resource } from '@medplum/fhirtypes';
import { CasetallyError } from '../../findings/errors.js';
import { createApp } from './app.js';
import { CONFORMANCE_TYPES } from './capability.js';
import { DigitBook } from './digits.js';
import { loadPackages } from './packages.js';
import { profileCheck } from './profiles.js';
import { createRepository, type SandboxRepository } from './repository.js';

export { SANDBOX_NOTICE } from './capability.js';

/** How to start the embedded server. */
export interface SandboxOptions {
  /** 0, the default, takes any free port. */
  readonly port?: number;
  /** Loopback unless told otherwise. */
  readonly host?: string;
  /** Largest request body in bytes; 10 MiB by default. */
  readonly maxBytes?: number;
  /** Resources to hold from the start, each with an id. */
  readonly preload?: readonly object[];
  readonly clock?: () => Date;
  /**
   * Refuse what claims a profile that was not loaded, or is not as its profiles ask; `closed`: and let nobody load any.
   * Off unless told otherwise.
   */
  readonly validating?: 'open' | 'closed';
}

/** A running embedded server. */
export interface RunningSandbox {
  readonly baseUrl: string;
  /** What it holds, for tests and for the demo's count. */
  readonly repository: Pick<SandboxRepository, 'all' | 'peek'>;
  close(): Promise<void>;
}

/**
 * Starts the embedded FHIR R4 server: in memory, for trying out and tests only.
 *
 * @throws CasetallyError 'optional-package-missing' or 'port-in-use'.
 */
export async function startSandbox(options: SandboxOptions = {}): Promise<RunningSandbox> {
  const {
    port = 0,
    host = '127.0.0.1',
    maxBytes = 10 * 1024 * 1024,
    preload = [],
    clock = () => new Date(),
  } = options;
  const packages = await loadPackages();
  const repository = createRepository(packages, clock);
  for (const resource of preload) {
    if (!isIdentified(resource))
      throw new CasetallyError('usage', 'A preloaded resource needs a resourceType and an id');
    await repository.createResource(resource);
  }
  const sandbox = {
    ...{ packages, repository, digits: new DigitBook() },
    ...(options.validating && { profiles: profileCheck(repository) }),
    ...(options.validating === 'closed' && { locked: new Set<string>(CONFORMANCE_TYPES) }),
  };
  const app = createApp(sandbox, { maxBytes, clock });
  const server = await new Promise<Server>((resolve, reject) => {
    const starting: Server = app.listen(port, host, (error?: Error) => {
      if (error) reject(startError(error, port));
      else resolve(starting);
    });
  });
  const address: AddressInfo | string | null = server.address();
  const actual = typeof address === 'object' && address !== null ? address.port : port;
  return {
    baseUrl: `http://${host.includes(':') ? `[${host}]` : host}:${actual}/fhir`,
    repository,
    close: () =>
      new Promise<void>((resolve, reject) => {
        server.close(error => (error ? reject(error) : resolve()));
        server.closeAllConnections();
      }),
  };
}

function startError(error: Error, port: number): Error {
  if ('code' in error && error.code === 'EADDRINUSE') {
    return new CasetallyError(
      'port-in-use',
      `Port ${port} is taken. Choose another with --port, or 0 for any.`,
    );
  }
  return error;
}

function isIdentified(value: object): value is Resource {
  return (
    'resourceType' in value &&
    typeof value.resourceType === 'string' &&
    'id' in value &&
    typeof value.id === 'string'
  );
}
