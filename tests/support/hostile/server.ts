import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { type EntryAnswer, HostileStore, Several } from './store.js';

/** One way to misbehave when a transaction comes. */
export type Mode = keyof typeof MODES;

interface Turn {
  readonly store: HostileStore;
  readonly body: string;
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
  readonly state: HostileState;
}

interface HostileState {
  /** Searches find nothing until this many of them were made. */
  staleSearches: number;
}

function answer(
  { response }: Turn,
  status: number,
  body: unknown,
  headers: Record<string, string> = {},
): void {
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  response.writeHead(status, { 'content-type': 'application/fhir+json', ...headers });
  response.end(text);
}

const bundle = (entry: EntryAnswer[], type = 'transaction-response') => ({
  resourceType: 'Bundle',
  type,
  entry,
});
const outcome = (code: string) => ({
  resourceType: 'OperationOutcome',
  issue: [{ severity: 'error', code }],
});

function commit({ store, body }: Turn, options = {}): EntryAnswer[] {
  return store.transaction(JSON.parse(body).entry, options);
}

function obey(turn: Turn, change: (entries: EntryAnswer[]) => unknown = bundle, options = {}): void {
  try {
    answer(turn, 200, change(commit(turn, options)));
  } catch (error) {
    if (!(error instanceof Several)) throw error;
    answer(turn, 412, outcome('multiple-matches'));
  }
}

const once = (entries: EntryAnswer[]) => entries.map(e => ({ response: { ...e.response } }));

/** Everything that servers were seen to do wrong, each as what happens instead of a plain answer. */
const MODES = {
  obedient: (t: Turn) => obey(t),
  'commits, then drops the connection': (t: Turn) => {
    commit(t);
    t.request.socket.destroy();
  },
  'drops the connection before it commits': (t: Turn) => t.request.socket.destroy(),
  'commits, then answers 504 in HTML': (t: Turn) => {
    commit(t);
    answer(t, 504, '<html>gateway</html>', { 'content-type': 'text/html' });
  },
  'commits, then hangs': (t: Turn) => void commit(t),
  'hangs without committing': () => undefined,
  'commits, then sends half the answer': (t: Turn) => {
    const text = JSON.stringify(bundle(commit(t)));
    t.response.writeHead(200, {
      'content-type': 'application/fhir+json',
      'content-length': String(text.length),
    });
    t.response.write(text.slice(0, text.length / 2), () => t.request.socket.destroy());
  },
  'commits, then drips the answer slowly': (t: Turn) => {
    const text = JSON.stringify(bundle(commit(t)));
    t.response.writeHead(200, { 'content-type': 'application/fhir+json' });
    let at = 0;
    const timer = setInterval(() => {
      t.response.write(text.slice(at, at + 1));
      at += 1;
      if (t.response.destroyed) clearInterval(timer);
    }, 20);
    t.response.on('close', () => clearInterval(timer));
  },
  'commits, answers as text/html': (t: Turn) =>
    answer(t, 200, bundle(commit(t)), { 'content-type': 'text/html' }),
  'commits, answers 200 with nothing': (t: Turn) => {
    commit(t);
    answer(t, 200, '');
  },
  'runs a batch instead, all of it': (t: Turn) => obey(t, e => bundle(e, 'batch-response')),
  'runs a batch instead, half of it': (t: Turn) => {
    const entries = JSON.parse(t.body).entry;
    const half = t.store.transaction(entries.slice(0, 2));
    const failed = entries.slice(2).map(() => ({ response: { status: '422', outcome: outcome('invalid') } }));
    answer(t, 200, bundle([...half, ...failed], 'batch-response'));
  },
  'answers in the wrong order': (t: Turn) => obey(t, e => bundle([...e].reverse())),
  'answers without locations': (t: Turn) =>
    obey(t, e => bundle(once(e).map(x => ({ response: { status: x.response.status } })))),
  'answers fewer entries than sent': (t: Turn) => obey(t, e => bundle(e.slice(1))),
  'gives strong version tags': (t: Turn) =>
    obey(t, e => bundle(once(e).map(x => ({ response: { ...x.response, etag: '"1"' } })))),
  'stores the Bundle as a document': (t: Turn) => answer(t, 201, t.body, { location: 'Bundle/1/_history/1' }),
  'answers 409 although it exists': (t: Turn) => {
    commit(t);
    answer(t, 409, outcome('conflict'));
  },
  'finds several matches': (t: Turn) => answer(t, 412, outcome('multiple-matches')),
  'answers 429 with seconds': (t: Turn) => answer(t, 429, '', { 'retry-after': '7' }),
  'answers 429 with a date': (t: Turn) =>
    answer(t, 429, '', { 'retry-after': 'Thu, 14 Mar 2024 10:00:20 GMT' }),
  'answers 429 with garbage': (t: Turn) => answer(t, 429, '', { 'retry-after': 'later' }),
  'answers 429 inside the entries': (t: Turn) =>
    answer(t, 200, bundle(JSON.parse(t.body).entry.map(() => ({ response: { status: '429' } })))),
  'answers 503': (t: Turn) => answer(t, 503, '', { 'retry-after': '5' }),
  'commits, then answers 500': (t: Turn) => {
    commit(t);
    answer(t, 500, '');
  },
  'answers 401': (t: Turn) => answer(t, 401, ''),
  'answers 403': (t: Turn) => answer(t, 403, ''),
  'answers 415 to a charset': (t: Turn) =>
    t.request.headers['content-type'] === 'application/fhir+json' ? obey(t) : answer(t, 415, ''),
  'takes 100 kB at most': (t: Turn) => (t.body.length > 100_000 ? answer(t, 413, '') : obey(t)),
  'redirects to another host': (t: Turn) => answer(t, 307, '', { location: 'http://127.0.0.2:9/' }),
  'refuses the content': (t: Turn) => answer(t, 422, outcome('invalid')),
  'commits, and searches stay stale for a while': (t: Turn) => {
    commit(t);
    t.state.staleSearches = 9;
    answer(t, 504, '');
  },
  'commits, and makes doubles': (t: Turn) => {
    commit(t, { racy: true });
    commit(t, { racy: true });
    answer(t, 504, '');
  },
  'leaves placeholders in references': (t: Turn) => obey(t, bundle, { keepUrns: true }),
  'strips lot numbers': (t: Turn) => {
    const sent = JSON.parse(t.body);
    for (const { resource } of sent.entry) delete resource.lotNumber;
    obey({ ...t, body: JSON.stringify(sent) });
  },
} as const;

export const ALL_MODES = Object.keys(MODES).filter((name): name is Mode => name in MODES);

/** A FHIR server that does what it is told to do wrong, and remembers what was asked of it. */
export interface HostileServer {
  readonly baseUrl: string;
  readonly store: HostileStore;
  /** Method and path of every request, in order. */
  readonly requests: string[];
  /** The next transactions meet these, one each; after them the server is obedient. */
  plan(...modes: Mode[]): void;
  close(): Promise<void>;
}

export async function startHostile(): Promise<HostileServer> {
  const store = new HostileStore();
  const requests: string[] = [];
  const planned: Mode[] = [];
  const state: HostileState = { staleSearches: 0 };
  const server: Server = createServer(async (request, response) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk);
    requests.push(`${request.method} ${request.url?.split('?')[0]}`);
    const turn: Turn = { store, body: Buffer.concat(chunks).toString('utf8'), request, response, state };
    if (request.method === 'POST') MODES[planned.shift() ?? 'obedient'](turn);
    else read(turn);
  });
  await new Promise<void>(resolve => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  return {
    baseUrl: `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}/fhir`,
    store,
    requests,
    plan: (...modes) => void planned.push(...modes),
    close: () =>
      new Promise<void>(resolve => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function read(turn: Turn): void {
  const { store, request, state } = turn;
  const url = new URL(request.url ?? '', 'http://x');
  const [, , type = '', id] = url.pathname.split('/');
  if (id !== undefined) {
    const found = store.resources.find(r => r.resourceType === type && r.id === id);
    answer(turn, found ? 200 : 404, found ?? outcome('not-found'));
    return;
  }
  const isStale = state.staleSearches > 0;
  if (isStale) state.staleSearches -= 1;
  const found = isStale ? [] : store.find(type, url.searchParams.get('identifier') ?? '');
  answer(turn, 200, {
    resourceType: 'Bundle',
    type: 'searchset',
    entry: found.map(resource => ({ resource })),
  });
}
