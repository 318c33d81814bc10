import type { Bundle, Resource } from '@medplum/fhirtypes';
import type { Express, Request, Response } from 'express';
import { capabilityStatement } from './capability.js';
import { isResource } from './check.js';
import type { Sandbox } from './criteria.js';
import { parseBody, writeBody } from './digits.js';
import { interact } from './interactions.js';
import { Refusal, type Reply, refuse } from './reply.js';
import { asSearchset } from './searchset.js';
import { runBatch, runTransaction } from './transaction.js';

const JSON_TYPES = /^application\/(fhir\+json|json|json\+fhir|json-patch\+json|x-www-form-urlencoded)\b/;

/** The HTTP face of the embedded server, under /fhir. Requests are served one at a time, as they come. */
export function createApp(
  sandbox: Sandbox,
  { maxBytes, clock }: { maxBytes: number; clock: () => Date },
): Express {
  const { express, router: library } = sandbox.packages;
  const router = new library.FhirRouter();
  const started = clock().toISOString();
  const app = express();
  app.disable('x-powered-by');
  // The FHIR ETag is the resource's version; Express would put a hash of the text there.
  app.set('etag', false);
  app.use(express.text({ type: () => true, limit: maxBytes }));
  let last: Promise<unknown> = Promise.resolve();
  app.use('/fhir', (request: Request, response: Response) => {
    const turn = last.then(() => answer(request, response));
    last = turn;
    return turn;
  });
  app.use((_request: Request, response: Response) => {
    fail(response, refuse(404, 'not-found', 'The FHIR server is at /fhir'));
  });
  app.use((error: unknown, _request: Request, response: Response, _next: (error: unknown) => void) => {
    const status =
      typeof error === 'object' && error !== null && 'status' in error ? Number(error.status) : 500;
    const code = status === 413 ? 'too-long' : 'structure';
    fail(
      response,
      refuse(
        status,
        code,
        status === 413 ? `The body is larger than ${maxBytes} bytes` : 'The request cannot be read',
      ),
    );
  });
  return app;

  async function answer(request: Request, response: Response): Promise<void> {
    try {
      const url = request.url.replace(/^\/+/, '');
      const base = `${request.protocol}://${request.get('host')}${request.baseUrl}`;
      if (request.method === 'GET' && url.split('?')[0] === 'metadata') {
        send(response, { status: 200 }, write(capabilityStatement(base, started, sandbox.locked)));
        return;
      }
      const body = bodyOf(request);
      if (request.method === 'POST' && url.split('?')[0] === '') {
        send(response, { status: 200 }, write(await bundleAnswer(body)));
        return;
      }
      const ifNoneExist = request.get('if-none-exist');
      const ifMatch = request.get('if-match');
      const reply = await sandbox.repository.atomically(() =>
        interact(sandbox, router, {
          method: request.method,
          url,
          body,
          ...(ifNoneExist !== undefined && { ifNoneExist }),
          ...(ifMatch !== undefined && { ifMatch }),
        }),
      );
      send(response, reply, reply.body && write(asSearchset(reply.body, base, url)), base);
    } catch (error) {
      fail(
        response,
        error instanceof Refusal ? error : refuse(500, 'exception', 'The embedded server failed'),
      );
    }
  }

  function write(body: Resource): string {
    return writeBody(body, resource => sandbox.digits.of(resource));
  }

  function bodyOf(request: Request): unknown {
    const text: unknown = request.body;
    if (typeof text !== 'string' || text === '') return undefined;
    const type = request.get('content-type') ?? '';
    if (!JSON_TYPES.test(type))
      throw refuse(415, 'not-supported', `The media type '${type}' is not understood`);
    if (type.startsWith('application/x-www-form-urlencoded'))
      return Object.fromEntries(new URLSearchParams(text));
    try {
      const { value, digits } = parseBody(text);
      sandbox.digits.receive(digits);
      return value;
    } catch {
      throw refuse(400, 'structure', 'The body is not JSON');
    }
  }

  async function bundleAnswer(body: unknown): Promise<Bundle> {
    if (!isResource(body) || body.resourceType !== 'Bundle')
      throw refuse(400, 'structure', 'The body is not a Bundle');
    if (body.type === 'transaction') return runTransaction(sandbox, router, body);
    if (body.type === 'batch') return runBatch(sandbox, router, body);
    throw refuse(400, 'not-supported', `A Bundle of type '${body.type}' cannot be processed`, 'Bundle.type');
  }
}

function send(response: Response, reply: Reply, text: string | undefined, base?: string): void {
  response.status(reply.status);
  if (reply.etag) response.set('ETag', reply.etag);
  if (reply.lastModified) response.set('Last-Modified', new Date(reply.lastModified).toUTCString());
  if (reply.location && base) {
    response.set(reply.status === 201 ? 'Location' : 'Content-Location', `${base}/${reply.location}`);
  }
  if (text === undefined) response.end();
  else response.type('application/fhir+json').send(text);
}

function fail(response: Response, { status, outcome }: Refusal): void {
  send(response, { status }, JSON.stringify(outcome));
}
