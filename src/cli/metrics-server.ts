import { createServer, type Server } from 'node:http';
import { CasetallyError } from '../findings/errors.js';

/** What a supervisor asks of a running worker or service. */
export interface Health {
  /** Figures as Prometheus text. */
  readonly metrics: { text(): Promise<string>; readonly contentType: string };
  /** Whether work can be done now: the outbox answers. */
  readonly ready: () => Promise<boolean>;
}

/** A running metrics server. */
export interface MetricsServer {
  readonly port: number;
  close(): Promise<void>;
}

/**
 * Serves /metrics, /healthz (the process lives) and /readyz (the outbox answers) on loopback.
 *
 * @param port 0 for any that is free.
 * @throws CasetallyError 'usage' when the port is taken.
 */
export async function serveMetrics(port: number, { metrics, ready }: Health): Promise<MetricsServer> {
  const server = createServer((request, response) => {
    const answer = (status: number, type: string, body: string) => {
      response.writeHead(status, { 'content-type': type, 'cache-control': 'no-store' });
      response.end(request.method === 'HEAD' ? undefined : body);
    };
    const plain = (status: number, body: string) => answer(status, 'text/plain; charset=utf-8', body);
    const unavailable = () => plain(503, 'not ready\n');
    if (request.method !== 'GET' && request.method !== 'HEAD') return plain(405, 'only GET\n');
    switch (request.url?.split('?')[0]) {
      case '/healthz':
        return plain(200, 'ok\n');
      case '/readyz':
        void ready().then(is => (is ? plain(200, 'ready\n') : unavailable()), unavailable);
        return;
      case '/metrics':
        void metrics.text().then(text => answer(200, metrics.contentType, text), unavailable);
        return;
      default:
        return plain(404, 'not here\n');
    }
  });
  await listening(server, port);
  const address = server.address();
  return {
    port: typeof address === 'object' && address !== null ? address.port : port,
    close: () =>
      new Promise(resolve => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function listening(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (cause: Error) =>
      reject(new CasetallyError('usage', `port ${port} on loopback cannot be used for metrics.`, { cause }));
    server.once('error', failed);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', failed);
      resolve();
    });
  });
}
