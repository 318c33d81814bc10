import { randomUUID } from 'node:crypto';
import express, { type Express, type NextFunction, type Request, type Response } from 'express';
import type { AuditTrail } from '../../audit/trail.js';
import { MAX_DOSE_BYTES } from '../../intake/dose/limits.js';
import { asOutcome } from '../fhir/outcome.js';
import type { People } from '../sign-in/people.js';
import { serveSignIn } from '../sign-in/routes.js';
import { WrongTries } from '../sign-in/wrong-tries.js';
import { tooMany } from '../threads/cases.js';
import { isDicom, isInParts } from '../threads/sent-case.js';
import { allRoutes, VERSIONED } from './all-routes.js';
import { Auditing } from './auditing.js';
import type { Sink } from './draft-changes.js';
import { entrance, type Known, knownOf, mayCome } from './entrance.js';
import { faultReply } from './fault.js';
import type { KnownToken } from './guard.js';
import { healthHandler, type ServicePorts } from './handlers.js';
import { InHand } from './in-hand.js';
import { serveOpenApi } from './openapi/serve.js';
import { type FirstPage, type ReviewPage, servePage } from './page.js';
import { asProblem } from './problem.js';
import { type Reply, refusal, reply } from './reply.js';
import type { Asked, PlainRoute } from './route.js';

/** One line for each request, who did what among it; nothing in it comes from a case. */
export interface RequestEvent {
  readonly request: string;
  readonly method: string;
  /** The route, not the address: that may hold anything. */
  readonly route: string;
  readonly status: number;
  readonly durationMs: number;
  /** Name of the token; absent where none was shown that is known. */
  readonly by?: string;
  /** Who decided about an item, as they say of themselves. */
  readonly person?: string;
  /** Items of the outbox that it is about. */
  readonly items?: readonly string[];
  /** Drafts that it is about. */
  readonly drafts?: readonly string[];
  /** The head of the audit trail after its entry about this request: a copy of it that is kept elsewhere. */
  readonly audit?: string;
  /** Whoever asked was gone before the answer. */
  readonly left?: true;
}

export interface AppOptions {
  /** Undefined: none is asked for. */
  readonly tokens: readonly KnownToken[] | undefined;
  readonly maxBytes: number;
  readonly clock: () => number;
  /** The review page (see `loadPage`). */
  readonly page: ReviewPage;
  /** How people sign in; absent where they do not. */
  readonly people?: People;
  /** Written to before anything is shown or changed. */
  readonly audit?: AuditTrail;
  /** Addresses and networks of proxies whose X-Forwarded-For is believed. */
  readonly proxies?: readonly string[];
  readonly onRequest?: (event: RequestEvent) => void;
}

/** Bytes of a request in parts: records and the pictures that they name. */
const MAX_PARTS = 64_000_000;
/** Bytes of a decision about an item. */
const MAX_DECISION = 10_000;

/** Answers are data: nothing may be run, framed, guessed or kept. The review page alone says otherwise of itself. */
const HEADERS = {
  'content-security-policy':
    "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};

/** The HTTP face of the service: limits, headers and the guard; what is answered is decided by the routes. */
export function createServiceApp(ports: ServicePorts, options: AppOptions): Express {
  const { tokens, maxBytes, clock, page, onRequest, people, proxies = [] } = options;
  const app = express();
  app.disable('x-powered-by');
  app.set('etag', false);
  app.set('query parser', 'simple');
  app.set('trust proxy', proxies.length > 0 ? [...proxies] : false);
  app.use((request, response, next) => {
    const started = clock();
    const id = randomUUID();
    response.set({ ...HEADERS, 'x-request-id': id });
    knownOf(response).id = id;
    response.once('close', () => {
      const route = request.route as { path?: string } | undefined;
      const { caller, noted, audit } = knownOf(response);
      onRequest?.({
        request: id,
        ...(caller?.name !== undefined && { by: caller.name }),
        method: request.method,
        route: route?.path ?? 'none',
        ...(caller?.person && { person: caller.person.name }),
        ...noted,
        ...(audit !== undefined && { audit }),
        status: response.statusCode,
        durationMs: clock() - started,
        ...(!response.writableFinished && { left: true as const }),
      });
    });
    if (VERSIONED.test(request.url)) request.url = request.url.slice('/v1'.length);
    next();
  });

  app.get('/healthz', async (_request, response) => send(response, await healthHandler(ports)));
  const first: FirstPage = ports.drafts ? 'case' : 'review';
  servePage(app, page, first);
  serveOpenApi(app, ports.softwareVersion);
  app.use(/^\/drafts(?=\/|$)/, (_request, response, next) => {
    knownOf(response).problems = true;
    next();
  });
  app.use(/^\/fhir(?=\/|$)/, (_request, response, next) => {
    knownOf(response).fhir = true;
    next();
  });
  const auditing = new Auditing(options.audit, clock);
  const door = { tokens, people, auditing, send, wrong: new WrongTries(clock) };
  if (people) serveSignIn(app, { ...door, people, page, clock, first });
  else
    app.get('/me', (_request, response) =>
      send(response, reply(200, { signedIn: false, signIn: 'none', tokens: tokens !== undefined })),
    );
  app.use(entrance(door));

  const inHand = new InHand();
  const readers = new Map<number, ReturnType<typeof express.raw>>();
  /** Made once for each limit, not for each request. */
  const bytesUpTo = (limit: number) => {
    const reader = readers.get(limit) ?? express.raw({ type: () => true, limit });
    readers.set(limit, reader);
    return reader;
  };
  const json = (limit = MAX_DECISION) => express.json({ type: 'application/json', limit });
  const mayHold = (request: Request) => {
    const type = request.get('content-type');
    return isInParts(type) ? MAX_PARTS : isDicom(type) ? MAX_DOSE_BYTES : maxBytes;
  };
  /** Room for the body, and a place among those who wait, before a byte of it is read. */
  const takeIn = (own?: number) => (request: Request, response: Response, next: NextFunction) => {
    const most = own ?? mayHold(request);
    const packed = request.get('content-encoding') !== undefined;
    const declared = packed ? most : Number(request.get('content-length') ?? most);
    const giveBack = inHand.take(Math.min(declared, most));
    const full = giveBack ? ports.cases.busy() : tooMany();
    if (giveBack) response.once('close', giveBack);
    if (full) send(response, full);
    else bytesUpTo(most)(request, response, next);
  };
  const asBytes = bytesUpTo(maxBytes);
  const bytesOf = ({ most }: PlainRoute) => (most === 'a case' ? maxBytes : most);
  const askedBy = (request: Request, response: Response): Asked => ({
    query: request.query,
    params: request.params as Record<string, string>,
    body: request.body as unknown,
    accept: request.get('accept'),
    header: name => request.get(name),
    caller: knownOf(response).caller ?? {},
  });

  const methods = new Map<string, string[]>();
  for (const { method, route } of allRoutes) {
    const { path } = route;
    methods.set(path, [...(methods.get(path) ?? []), method.toUpperCase()]);
    if (route.takes === 'nothing')
      app.get(path, mayCome(route, door), async (request, response) =>
        send(response, await route.answer(askedBy(request, response), ports)),
      );
    else if (route.takes === 'json')
      app[method](path, mayCome(route, door), json(bytesOf(route)), async (request, response) => {
        // A form of another page can send everything but JSON.
        const answer = request.is('application/json')
          ? await route.answer(askedBy(request, response), ports)
          : refusal(415, 'not-supported', 'This is sent as application/json.');
        send(response, answer);
      });
    else if (route.takes === 'text')
      app[method](path, mayCome(route, door), isText, asBytes, async (request, response) =>
        send(response, await route.answer(askedBy(request, response), ports)),
      );
    else if (route.takes === 'case')
      app.post(path, mayCome(route, door), takeIn(route.most), async (request, response) => {
        const wanted = route.wanted(askedBy(request, response), ports);
        if ('status' in wanted) return send(response, wanted);
        const gone = new AbortController();
        response.once('close', () => gone.abort());
        const type = request.get('content-type') ?? '';
        const job = { body: ownBytes(request.body), type, maxBytes, wanted };
        send(response, await ports.cases.ask(job, gone.signal));
      });
  }
  for (const [path, allowed] of methods)
    app.all(path, (_request, response) => send(response, notSo(allowed)));
  app.all('/review', (_request, response) => send(response, notSo(['GET'])));
  app.use((_request: Request, response: Response) =>
    send(response, refusal(404, 'not-found', 'There is nothing at this address.')),
  );
  app.use((error: unknown, request: Request, response: Response, _next: NextFunction) =>
    send(response, faultReply(error, mayHold(request))),
  );
  return app;
}

/** Bytes with a buffer to themselves, which can be handed to a thread; none where no body came. */
function ownBytes(body: unknown): Uint8Array {
  if (!(body instanceof Uint8Array)) return new Uint8Array();
  return body.byteLength === body.buffer.byteLength ? body : new Uint8Array(body);
}

function notSo(methods: readonly string[]): Reply {
  // Where GET is answered HEAD is too (RFC 9110, 9.3.2).
  const allow = methods.flatMap(method => (method === 'GET' ? ['GET', 'HEAD'] : [method])).join(', ');
  return refusal(405, 'not-supported', `This is asked for with ${methods.join(' or ')}.`, [], { allow });
}

/** A form of another page can send none of these; nothing at all is no text. */
function isText(request: Request, response: Response, next: NextFunction): void {
  const types = ['application/yaml', 'application/x-yaml', 'text/yaml', 'application/json'];
  const empty = request.is('*/*') === null || request.get('content-length') === '0';
  if (empty || request.is(types)) next();
  else
    void send(
      response,
      refusal(415, 'not-supported', 'A text is sent as application/yaml or application/json.'),
    );
}

const sinkOf = (response: Response): Sink => ({
  write: text => void response.write(text),
  end: () => void response.end(),
  onClose: then => void response.once('close', then),
  waiting: () => response.writableLength,
});

const formed = (answer: Reply, { problems, fhir }: Known): Reply =>
  problems ? asProblem(answer) : fhir ? asOutcome(answer) : answer;

async function send(response: Response, given: Reply): Promise<void> {
  const known = knownOf(response);
  const { told } = known;
  delete known.told;
  const answer = told ? await told(given) : given;
  const { status, body, headers = {}, noted, stream } = formed(answer, known);
  if (noted) known.noted = noted;
  if (response.headersSent || response.destroyed) return;
  response.status(status).set({ 'content-type': 'application/json; charset=utf-8', ...headers });
  if (stream) {
    response.flushHeaders();
    stream(sinkOf(response));
    return;
  }
  response.send(typeof body === 'string' ? body : Buffer.from(body.buffer, body.byteOffset, body.byteLength));
}
