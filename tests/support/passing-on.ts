import { createServer } from 'node:http';

/** What stands in the way of a request: an answer in place of the server's, or nothing. */
export type InTheWay = (request: { readonly method: string; readonly path: string; readonly body: string }) =>
  | { readonly status: number; readonly headers?: Readonly<Record<string, string>>; readonly body?: string }
  /** The server does its work, and its answer is lost. */
  | 'lose the answer'
  /** The connection is cut before the server sees anything. */
  | 'cut'
  | undefined;

/** A server that passes everything on to another one, save what is put in the way. */
export interface PassingOn {
  readonly baseUrl: string;
  /** Replaced at any time. */
  inTheWay: InTheWay;
  close(): void;
}

/** Starts it. @param to the base address of the other one. */
export async function passingOn(to: string): Promise<PassingOn> {
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', async () => {
      const { method = 'GET', url = '' } = request;
      const body = Buffer.concat(chunks).toString('utf8');
      const seen = running.inTheWay({ method, path: url, body });
      if (seen === 'cut') return void request.socket.destroy();
      if (typeof seen === 'object') return void response.writeHead(seen.status, seen.headers).end(seen.body);
      const kept = ['content-type', 'if-none-exist', 'if-match'].flatMap(name => {
        const value = request.headers[name];
        return typeof value === 'string' ? [[name, value] as const] : [];
      });
      const answer = await fetch(`${new URL(to).origin}${url}`, {
        method,
        headers: Object.fromEntries(kept),
        ...(body !== '' && { body }),
      });
      const text = await answer.text();
      if (seen === 'lose the answer') return void request.socket.destroy();
      response.writeHead(answer.status, { 'content-type': 'application/fhir+json' }).end(text);
    });
  });
  await new Promise<void>(resolve => void server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const running: PassingOn = {
    baseUrl: `http://127.0.0.1:${port}${new URL(to).pathname}`,
    inTheWay: () => undefined,
    close: () => {
      server.close();
      server.closeAllConnections();
    },
  };
  return running;
}
