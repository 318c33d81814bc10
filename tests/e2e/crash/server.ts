import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { type Asked, LaggingStore, Refused, type Stored, type Written } from './lagging-store.js';

/** What a server does to one write in place of a plain answer. After each a case must still arrive by itself. */
export const FAULTS = [
  'obedient',
  'drops the connection before it commits',
  'commits, then drops the connection',
  'drops the connection, then commits',
  'commits, then hangs',
  'hangs without committing',
  'commits, then answers 504 in HTML',
  'commits, then answers 500',
  'commits, then sends half the answer',
  'answers 503',
  'refuses the content',
] as const;
export type Fault = (typeof FAULTS)[number];

/** How long after the connection was dropped a late server commits, in milliseconds. */
export const LATE_MS = 60;

/** A FHIR server with transactions, batches and single writes whose searches lag behind its writes. */
export interface CrashServer {
  readonly baseUrl: string;
  readonly store: LaggingStore;
  /** The next writes meet these, one each. */
  plan(faults: readonly Fault[]): void;
  close(): Promise<void>;
}

export async function startCrashServer(lagMs: number): Promise<CrashServer> {
  const store = new LaggingStore(lagMs);
  const planned: Fault[] = [];
  let downUntil = 0;
  const server = createServer(async (request, response) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk);
    const url = new URL(request.url ?? '', 'http://x');
    if (url.pathname === '/down') {
      downUntil = Date.now() + Number(url.searchParams.get('ms'));
      response.end();
      return;
    }
    if (Date.now() < downUntil) {
      request.socket.destroy();
      return;
    }
    const path = `${url.pathname.split('/').slice(2).join('/')}${url.search}`;
    if (request.method === 'GET') answer(response, ...read(store, path));
    else {
      const body = JSON.parse(Buffer.concat(chunks).toString('utf8'));
      meet(planned.shift() ?? 'obedient', request, response, () => write(store, request, path, body));
    }
  });
  await new Promise<void>(resolve => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  return {
    baseUrl: `http://127.0.0.1:${port}/fhir`,
    store,
    plan: faults => void planned.push(...faults),
    close: () =>
      new Promise<void>(resolve => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

type Reply = readonly [status: number, body: unknown, headers?: Record<string, string>];

function answer(response: ServerResponse, ...[status, body, headers = {}]: Reply): void {
  response.writeHead(status, { 'content-type': 'application/fhir+json', ...headers });
  response.end(typeof body === 'string' ? body : JSON.stringify(body));
}

function meet(fault: Fault, request: IncomingMessage, response: ServerResponse, commit: () => Reply): void {
  const drop = () => request.socket.destroy();
  switch (fault) {
    case 'obedient':
      answer(response, ...commit());
      break;
    case 'drops the connection before it commits':
      drop();
      break;
    case 'commits, then drops the connection':
      commit();
      drop();
      break;
    case 'drops the connection, then commits':
      setTimeout(commit, LATE_MS);
      drop();
      break;
    case 'commits, then hangs':
      commit();
      break;
    case 'hangs without committing':
      break;
    case 'commits, then answers 504 in HTML':
      commit();
      answer(response, 504, '<html>gateway</html>', { 'content-type': 'text/html' });
      break;
    case 'commits, then answers 500':
      commit();
      answer(response, 500, '');
      break;
    case 'commits, then sends half the answer': {
      const [status, body, headers] = commit();
      const text = JSON.stringify(body);
      response.writeHead(status, { ...headers, 'content-length': String(text.length) });
      response.write(text.slice(0, text.length / 2), drop);
      break;
    }
    case 'answers 503':
      answer(response, 503, '');
      break;
    case 'refuses the content':
      answer(response, 422, outcome('invalid'));
  }
}

const outcome = (code: string) => ({
  resourceType: 'OperationOutcome',
  issue: [{ severity: 'error', code }],
});

function read(store: LaggingStore, path: string): Reply {
  const [place = '', query] = path.split('?');
  const [type = '', id] = place.split('/');
  if (id !== undefined) {
    const found = store.read(type, id);
    return found ? [200, found] : [404, outcome('not-found')];
  }
  const found = store.search(type, new URLSearchParams(query).get('identifier') ?? '');
  return [200, { resourceType: 'Bundle', type: 'searchset', entry: found.map(resource => ({ resource })) }];
}

interface SentBundle {
  readonly type: string;
  readonly entry: readonly { readonly fullUrl: string; readonly resource: object; readonly request: Asked }[];
}

function write(
  store: LaggingStore,
  request: IncomingMessage,
  path: string,
  body: SentBundle & Stored,
): Reply {
  try {
    if (path !== '') {
      const [written] = store.writeAll([{ asked: askedIn(request, path), resource: body }]);
      return written ? [Number(written.status), written.resource, headersOf(written)] : [500, ''];
    }
    const sent = body.entry.map(({ fullUrl, resource, request: asked }) => ({ fullUrl, resource, asked }));
    const type = body.type === 'batch' ? 'batch-response' : 'transaction-response';
    const entry =
      body.type === 'batch' ? sent.map(one => alone(store, one)) : store.writeAll(sent).map(toEntry);
    return [200, { resourceType: 'Bundle', type, entry }];
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return [error.status, outcome(error.code)];
  }
}

function alone(store: LaggingStore, one: Parameters<LaggingStore['writeAll']>[0][number]) {
  try {
    return store.writeAll([one]).map(toEntry)[0];
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return { response: { status: String(error.status), outcome: outcome(error.code) } };
  }
}

function askedIn(request: IncomingMessage, url: string): Asked {
  const ifNoneExist = request.headers['if-none-exist'];
  const ifMatch = request.headers['if-match'];
  return {
    method: request.method ?? '',
    url,
    ...(typeof ifNoneExist === 'string' && { ifNoneExist }),
    ...(ifMatch !== undefined && { ifMatch }),
  };
}

const headersOf = ({ location, etag }: Written) => ({ location, etag });
const toEntry = ({ status, location, etag }: Written) => ({ response: { status, location, etag } });
