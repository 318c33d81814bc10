import { randomUUID } from 'node:crypto';
import express, { type Express, type NextFunction, type Request, type Response } from 'express';
import { MAX_DOSE_BYTES } from '../../intake/dose/limits.js';
import { tooMany } from '../threads/cases.js';
import { isDicom, isInParts } from '../threads/sent-case.js';
import type { Sink } from './draft-changes.js';
import { draftRoutes } from './draft-routes.js';
import { faultReply } from './fault.js';
import { type Caller, callerOf, type KnownToken, lacking } from './guard.js';
import { healthHandler, type ServicePorts } from './handlers.js';
import { InHand } from './in-hand.js';
import { type ReviewPage, servePage } from './page.js';
import { asProblem } from './problem.js';
import { registerRoutes } from './register-routes.js';
import { type Reply, refusal } from './reply.js';
import { type Asked, type PlainRoute, type Route, routes } from './routes.js';

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
  readonly onRequest?: (event: RequestEvent) => void;
}

/** Bytes of a request in parts: records and the pictures that they name. */
const MAX_PARTS = 64_000_000;
/** Bytes of a decision about an item. */
const MAX_DECISION = 10_000;

/** Addresses with their version; without it they stay what they are in this one. */
const VERSIONED =
  /^\/v1\/(?:cases|destinations|dose|drafts|healthz|intake|outbox|questionnaire|register|schema)(?=[/?]|$)/;

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

/** What is known of a request while it is answered. */
interface Known {
  caller?: Caller;
  noted?: Reply['noted'];
  /** Refusals are problem details. */
  problems?: boolean;
}

/** The HTTP face of the service: limits, headers and the guard; what is answered is decided by the routes. */
export function createServiceApp(ports: ServicePorts, options: AppOptions): Express {
  const { tokens, maxBytes, clock, page, onRequest } = options;
  const app = express();
  app.disable('x-powered-by');
  app.set('etag', false);
  app.set('query parser', 'simple');
  app.use((request, response, next) => {
    const started = clock();
    const id = randomUUID();
    response.set({ ...HEADERS, 'x-request-id': id });
    response.once('close', () => {
      const route = request.route as { path?: string } | undefined;
      const { caller, noted } = response.locals as Known;
      onRequest?.({
        request: id,
        ...(caller?.name !== undefined && { by: caller.name }),
        method: request.method,
        route: route?.path ?? 'none',
        ...noted,
        status: response.statusCode,
        durationMs: clock() - started,
        ...(!response.writableFinished && { left: true as const }),
      });
    });
    if (VERSIONED.test(request.url)) request.url = request.url.slice('/v1'.length);
    next();
  });

  app.get('/healthz', async (_request, response) => send(response, await healthHandler(ports)));
  servePage(app, page);
  app.use(/^\/drafts(?=\/|$)/, (_request, response, next) => {
    (response.locals as Known).problems = true;
    next();
  });
  // Whoever may not come in is told so before a byte of the body is read.
  app.use((request, response, next) => {
    const found = callerOf(
      {
        authorization: request.get('authorization'),
        host: request.get('host'),
        origin: request.get('origin'),
        fetchSite: request.get('sec-fetch-site'),
      },
      tokens,
    );
    if ('refused' in found) send(response, found.refused);
    else {
      (response.locals as Known).caller = found.caller;
      next();
    }
  });

  const inHand = new InHand();
  const raw = new Map(
    [maxBytes, MAX_DOSE_BYTES, MAX_PARTS].map(limit => [limit, express.raw({ type: () => true, limit })]),
  );
  const json = (limit = MAX_DECISION) => express.json({ type: 'application/json', limit });
  const mayHold = (request: Request) => {
    const type = request.get('content-type');
    return isInParts(type) ? MAX_PARTS : isDicom(type) ? MAX_DOSE_BYTES : maxBytes;
  };
  const mayCome = (route: Route) => (_request: Request, response: Response, next: NextFunction) => {
    const why = lacking((response.locals as Known).caller ?? {}, route.right);
    if (why) send(response, why);
    else next();
  };
  /** Room for the body, and a place among those who wait, before a byte of it is read. */
  const takeIn = (request: Request, response: Response, next: NextFunction) => {
    const most = mayHold(request);
    const packed = request.get('content-encoding') !== undefined;
    const declared = packed ? most : Number(request.get('content-length') ?? most);
    const giveBack = inHand.take(Math.min(declared, most));
    const full = giveBack ? ports.cases.busy() : tooMany();
    if (giveBack) response.once('close', giveBack);
    if (full) send(response, full);
    else raw.get(most)?.(request, response, next);
  };
  const asBytes = express.raw({ type: () => true, limit: maxBytes });
  const bytesOf = ({ most }: PlainRoute) => (most === 'a case' ? maxBytes : most);
  const askedBy = (request: Request, response: Response): Asked => ({
    query: request.query,
    params: request.params as Record<string, string>,
    body: request.body as unknown,
    accept: request.get('accept'),
    header: name => request.get(name),
    caller: (response.locals as Known).caller ?? {},
  });

  const methods = new Map<string, string[]>();
  for (const route of [...routes, ...registerRoutes, ...draftRoutes]) {
    const { path } = route;
    const method = ('method' in route && route.method) || (route.takes === 'nothing' ? 'get' : 'post');
    methods.set(path, [...(methods.get(path) ?? []), method.toUpperCase()]);
    if (route.takes === 'nothing')
      app.get(path, mayCome(route), async (request, response) =>
        send(response, await route.answer(askedBy(request, response), ports)),
      );
    else if (route.takes === 'json')
      app[method](path, mayCome(route), json(bytesOf(route)), async (request, response) => {
        // A form of another page can send everything but JSON.
        const reply = request.is('application/json')
          ? await route.answer(askedBy(request, response), ports)
          : refusal(415, 'not-supported', 'This is sent as application/json.');
        send(response, reply);
      });
    else if (route.takes === 'text')
      app[method](path, mayCome(route), isText, asBytes, async (request, response) =>
        send(response, await route.answer(askedBy(request, response), ports)),
      );
    else if (route.takes === 'case')
      app.post(path, mayCome(route), takeIn, async (request, response) => {
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
    app.all(path, (_request, response) => send(response, notSo(allowed.join(', '))));
  app.all('/review', (_request, response) => send(response, notSo('GET')));
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

const notSo = (allow: string) =>
  refusal(405, 'not-supported', `This is asked for with ${allow}.`, [], { allow });

/** A form of another page can send none of these; nothing at all is no text. */
function isText(request: Request, response: Response, next: NextFunction): void {
  const types = ['application/yaml', 'application/x-yaml', 'text/yaml', 'application/json'];
  const empty = request.is('*/*') === null || request.get('content-length') === '0';
  if (empty || request.is(types)) next();
  else
    send(response, refusal(415, 'not-supported', 'A text is sent as application/yaml or application/json.'));
}

const sinkOf = (response: Response): Sink => ({
  write: text => void response.write(text),
  end: () => void response.end(),
  onClose: then => void response.once('close', then),
  waiting: () => response.writableLength,
});

function send(response: Response, given: Reply): void {
  const known = response.locals as Known;
  const { status, body, headers = {}, noted, stream } = known.problems ? asProblem(given) : given;
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
