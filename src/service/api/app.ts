import { randomUUID } from 'node:crypto';
import express, { type Express, type NextFunction, type Request, type Response } from 'express';
import { isOutboxFault } from '../../delivery/outbox/store-faults.js';
import { audiences } from '../../report/options.js';
import { refused } from './guard.js';
import {
  acceptCaseHandler,
  checkCaseHandler,
  destinationsHandler,
  healthHandler,
  prepareCaseHandler,
  type ServicePorts,
  schemaHandler,
} from './handlers.js';
import { outboxItemHandler, outboxListHandler, receiptHandler } from './outbox-handlers.js';
import { type PageFiles, servePage } from './page.js';
import { type Reply, refusal } from './reply.js';
import { isInParts, type SentCase, sentCase } from './sent-case.js';

/** One line for each request; nothing in it comes from a case. */
export interface RequestEvent {
  readonly request: string;
  readonly method: string;
  /** The route, not the address: that may hold anything. */
  readonly route: string;
  readonly status: number;
  readonly durationMs: number;
}

export interface AppOptions {
  readonly token: string | undefined;
  readonly maxBytes: number;
  readonly clock: () => number;
  /** The review page (see `loadPage`). */
  readonly page: PageFiles;
  readonly onRequest?: (event: RequestEvent) => void;
}

/** Bytes of a request in parts: records and the pictures that they name. */
const MAX_PARTS = 64_000_000;

/** Addresses with their version; without it they stay what they are in this one. */
const VERSIONED = /^\/v1\/(?:cases|destinations|healthz|outbox|schema)(?=[/?]|$)/;

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

/** The HTTP face of the service: routes, limits and headers; what is answered is decided in the handlers. */
export function createServiceApp(ports: ServicePorts, options: AppOptions): Express {
  const { token, maxBytes, clock, page, onRequest } = options;
  const app = express();
  app.disable('x-powered-by');
  app.set('etag', false);
  app.set('query parser', 'simple');
  app.use((request, response, next) => {
    const started = clock();
    const id = randomUUID();
    response.set({ ...HEADERS, 'x-request-id': id });
    response.on('finish', () => {
      const route = request.route as { path?: string } | undefined;
      onRequest?.({
        request: id,
        method: request.method,
        route: route?.path ?? 'none',
        status: response.statusCode,
        durationMs: clock() - started,
      });
    });
    if (VERSIONED.test(request.url)) request.url = request.url.slice('/v1'.length);
    next();
  });

  app.get(
    '/healthz',
    answer(() => healthHandler(ports)),
  );
  servePage(app, page);
  // Whoever may not come in is told so before a byte of the body is read.
  app.use((request, response, next) => {
    const no = refused(
      {
        authorization: request.get('authorization'),
        host: request.get('host'),
        origin: request.get('origin'),
        fetchSite: request.get('sec-fetch-site'),
      },
      token,
    );
    if (no) send(response, no);
    else next();
  });

  app.get(
    '/schema',
    answer(() => Promise.resolve(schemaHandler())),
  );
  app.get(
    '/destinations',
    answer(() => Promise.resolve(destinationsHandler(ports))),
  );
  app.get(
    '/outbox',
    answer(request => outboxListHandler(request.query['state'], ports.outbox)),
  );
  app.get(
    '/outbox/:id',
    answer(request => outboxItemHandler(String(request.params['id']), ports.outbox)),
  );
  app.get(
    '/outbox/:id/receipt',
    answer(request => receiptHandler(String(request.params['id']), ports.outbox)),
  );
  const whole = express.raw({ type: () => true, limit: maxBytes });
  const inParts = express.raw({ type: () => true, limit: MAX_PARTS });
  const post = (path: string, work: (sent: SentCase, request: Request) => Promise<Reply>) => {
    app.post(
      path,
      (request, response, next) =>
        (isInParts(request.get('content-type')) ? inParts : whole)(request, response, next),
      answer(async request => {
        const sent = await sentCase(request.body, request.get('content-type') ?? '', maxBytes);
        return 'refused' in sent ? sent.refused : work(sent, request);
      }),
    );
  };
  post('/cases/check', sent => checkCaseHandler(sent, ports));
  post('/cases/prepare', (sent, { query: { audience, draft } }) => {
    const reader = audiences.find(one => one === audience);
    if ((audience !== undefined && !reader) || (draft !== undefined && draft !== 'yes'))
      return Promise.resolve(
        refusal(
          400,
          'invalid',
          `Write ?audience= with ${audiences.join(', ')}, or nothing; and ?draft=yes, or nothing.`,
        ),
      );
    return prepareCaseHandler(sent, { audience: reader, draft: draft === 'yes' }, ports);
  });
  post('/cases', (sent, request) => {
    const { to } = request.query;
    return acceptCaseHandler(sent, typeof to === 'string' ? to : undefined, ports);
  });

  for (const [path, allow] of [
    ['/cases', 'POST'],
    ['/cases/check', 'POST'],
    ['/cases/prepare', 'POST'],
    ['/schema', 'GET'],
    ['/destinations', 'GET'],
    ['/review', 'GET'],
    ['/outbox', 'GET'],
    ['/outbox/:id', 'GET'],
    ['/outbox/:id/receipt', 'GET'],
  ] as const)
    app.all(path, (_request, response) =>
      send(response, refusal(405, 'not-supported', `This is asked for with ${allow}.`, [], { allow })),
    );
  app.use((_request: Request, response: Response) =>
    send(response, refusal(404, 'not-found', 'There is nothing at this address.')),
  );
  app.use((error: unknown, _request: Request, response: Response, _next: NextFunction) =>
    send(response, fault(error, isInParts(_request.get('content-type')) ? MAX_PARTS : maxBytes)),
  );
  return app;
}

function answer(work: (request: Request) => Promise<Reply>) {
  return async (request: Request, response: Response): Promise<void> => send(response, await work(request));
}

function send(response: Response, { status, body, headers = {} }: Reply): void {
  if (response.headersSent) return;
  response.status(status).set(headers).type('application/json').send(body);
}

/** What an error comes to. Its message may quote the request, so it is not passed on. */
function fault(error: unknown, maxBytes: number): Reply {
  const status =
    typeof error === 'object' && error !== null && 'status' in error ? Number(error.status) : 500;
  if (status === 413) return refusal(413, 'too-long', `A case may have ${maxBytes} bytes at most.`);
  if (status === 415) return refusal(415, 'not-supported', 'The encoding of the body is not understood.');
  if (status >= 400 && status < 500) return refusal(400, 'structure', 'The request cannot be read.');
  if (isOutboxFault(error))
    return refusal(
      503,
      'transient',
      `The outbox cannot be used (${error.code}); what was taken in before stands. The case may be sent again: nothing is stored twice. Whoever runs the service finds more with 'casetally outbox doctor'.`,
      [],
      { 'retry-after': '60' },
    );
  return refusal(500, 'exception', 'A fault in Casetally itself; nothing was taken in by this request.');
}
