import type { Server } from 'node:http';
import { CasetallyError } from '../../findings/errors.js';
import { Leaving } from '../leaving.js';
import { secretsOf } from '../threads/cases.js';
import { type AppOptions, createServiceApp } from './app.js';
import { Auditing } from './auditing.js';
import { isLoopback } from './guard.js';
import type { ServicePorts } from './handlers.js';
import { loadPage } from './page.js';

export interface ServiceOptions extends Omit<AppOptions, 'maxBytes' | 'clock' | 'page'> {
  /** 0 takes any free port. */
  readonly port: number;
  /** Loopback unless told otherwise. */
  readonly host?: string;
  /** Largest case in bytes; 1 MB by default. */
  readonly maxBytes?: number;
  readonly clock?: () => number;
  /** Told where signed cases cannot leave for a fault; it is tried again. */
  readonly onFault?: (error: unknown) => void;
}

/** A running service. */
export interface RunningService {
  readonly baseUrl: string;
  close(): Promise<void>;
}

/**
 * Starts the service. Without a token it serves this machine alone.
 *
 * @throws CasetallyError 'settings-invalid', 'usage', 'port-in-use', or 'file-unreadable' without the review page.
 */
export async function startService(ports: ServicePorts, options: ServiceOptions): Promise<RunningService> {
  const {
    port,
    host = '127.0.0.1',
    tokens,
    maxBytes = 1_000_000,
    clock = () => Date.now(),
    onFault,
    ...rest
  } = options;
  if (tokens === undefined && !isLoopback(host))
    throw new CasetallyError(
      'usage',
      `without a token the service does not listen at ${host}: only on this machine.`,
    );
  const page = loadPage(ports.site.site.language);
  const app = createServiceApp(ports, { ...rest, tokens, maxBytes, clock, page });
  const server = await new Promise<Server>((resolve, reject) => {
    const starting: Server = app.listen(port, host, (error?: Error) => {
      if (error) reject(startError(error, port, host));
      else resolve(starting);
    });
  });
  const { drafts, cases, site, secrets } = ports;
  const leaving =
    drafts &&
    new Leaving({
      ...{ drafts, cases, clock, auditing: new Auditing(options.audit, clock) },
      wanted: to => ({ do: 'store', to, secrets: secretsOf(site, secrets) }),
      ...(onFault && { onFault }),
    });
  server.requestTimeout = 30_000;
  server.headersTimeout = 10_000;
  const address = server.address();
  const actual = typeof address === 'object' && address !== null ? address.port : port;
  return {
    baseUrl: `http://${host.includes(':') ? `[${host}]` : host}:${actual}`,
    async close() {
      await leaving?.close();
      await new Promise<void>((resolve, reject) => {
        ports.drafts?.changes.close();
        server.close(error => (error ? reject(error) : resolve()));
        server.closeIdleConnections();
      });
    },
  };
}

function startError(error: Error, port: number, host: string): Error {
  const code = 'code' in error ? error.code : undefined;
  if (code === 'EADDRINUSE')
    return new CasetallyError(
      'port-in-use',
      `Port ${port} is taken. Choose another with --port, or 0 for any.`,
    );
  return new CasetallyError('usage', `the service cannot listen at ${host} port ${port} (${String(code)}).`);
}
