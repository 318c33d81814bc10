import { Client, type FhirResource, type RequestOptions } from 'fhir-kit-client';
import { type ExactJson, type ExactObject, isExactObject, parseExact, textAt } from '../answer/exact-json.js';
import type { Destination } from '../destination/destination.js';
import { type Answer, type Exchange, exchange } from './exchange.js';
import type { Fault } from './fault.js';

/** What a send needs from outside. */
export interface SendDeps {
  /** Defaults to the global fetch. */
  readonly fetch?: typeof globalThis.fetch;
  /** Milliseconds since the epoch. */
  readonly clock: () => number;
  /** A new id for each request, sent as X-Request-Id. */
  readonly newId: () => string;
  readonly signal?: AbortSignal;
  /** Waits; replaced in tests. */
  readonly sleep?: (ms: number, signal?: AbortSignal) => Promise<void>;
  /**
   * The Authorization header for a destination, or why there is none to be had; `renew` asks for a fresh one
   * after a 401. Absent or undefined: none is sent.
   */
  readonly authorize?: (destination: Destination, renew: boolean) => Promise<string | Fault | undefined>;
}

/** One request to a FHIR server and what came of it. */
export interface Reply {
  readonly requestId: string;
  readonly exchange: Exchange;
  /** The body when it is a JSON object, with the digits of its numbers. */
  readonly body?: ExactJson;
}

/** The requests that delivery makes; each answers with a Reply and never throws for network or server. */
export interface FhirClient {
  /** POSTs a Bundle, as the exact text given, to the base address itself. */
  postBundle(text: string): Promise<Reply>;
  /** Writes one resource: POST or PUT to an address below the base. */
  write(
    method: 'POST' | 'PUT',
    address: string,
    text: string,
    headers: Readonly<Record<string, string>>,
  ): Promise<Reply>;
  read(type: string, id: string): Promise<Reply>;
  /** Searches past the server's caches. */
  search(type: string, params: Readonly<Record<string, string>>): Promise<Reply>;
  /** GETs an absolute address on the destination's own origin; anything else is refused with undefined. */
  follow(address: string): Promise<Reply | undefined>;
  metadata(): Promise<Reply>;
}

/** Carries an exchange out of the library, whose own path knows only resources and errors. */
class NoResource extends Error {
  readonly reply: Reply;
  constructor(reply: Reply) {
    super('the answer is not a successful FHIR resource');
    this.reply = reply;
  }
}

/**
 * A client for one destination. Addresses, search parameters and paging are fhir-kit-client's. Its request
 * path is replaced: it reads bodies of any length, parses before it looks at the status, rounds decimals,
 * follows redirects, drops the answer's headers from errors while keeping the request's (tokens), and prints
 * bodies when DEBUG is set.
 */
export function fhirClient(destination: Destination, deps: SendDeps, renewToken = false): FhirClient {
  const client = new Client({ baseUrl: destination.baseUrl });
  const replies = new WeakMap<FhirResource, Reply>();
  let renew = renewToken;

  client.httpClient.request = async (
    method: string,
    address: string,
    options: RequestOptions = {},
    body?: unknown,
  ): Promise<FhirResource> => {
    const reply = await request(method, client.httpClient.expandUrl(address), options.headers ?? {}, body);
    const resource = resourceIn(reply);
    if (!resource) throw new NoResource(reply);
    replies.set(resource, reply);
    return resource;
  };

  async function request(
    method: string,
    url: string,
    extra: Readonly<Record<string, string>>,
    body: unknown,
  ): Promise<Reply> {
    const requestId = deps.newId();
    const authorization = await deps.authorize?.(destination, renew);
    renew = false;
    if (typeof authorization === 'object') return { requestId, exchange: authorization };
    const headers = {
      accept: destination.mediaType,
      ...destination.headers,
      ...extra,
      ...(body !== undefined && { 'content-type': destination.mediaType }),
      ...(authorization !== undefined && { authorization }),
      'x-request-id': requestId,
    };
    const outgoing = { method, url, headers, ...(typeof body === 'string' && { body }) };
    const result = await exchange(outgoing, destination, {
      fetch: deps.fetch ?? globalThis.fetch,
      clock: deps.clock,
      ...(deps.signal && { signal: deps.signal }),
    });
    const parsed = result.kind === 'answer' ? parseBody(result) : undefined;
    return { requestId, exchange: result, ...(parsed !== undefined && { body: parsed }) };
  }

  async function ask(call: () => Promise<FhirResource>): Promise<Reply> {
    try {
      const resource = await call();
      const reply = replies.get(resource);
      if (!reply) throw new TypeError('the client answered without a request');
      return reply;
    } catch (error) {
      if (error instanceof NoResource) return error.reply;
      throw error;
    }
  }

  const noCache = { headers: { 'cache-control': 'no-cache' } };
  return {
    postBundle: text => ask(() => client.request(destination.baseUrl, { method: 'POST', body: text })),
    // A bar is not allowed in an address as it is, though browsers let it pass.
    write: (method, address, text, headers) =>
      ask(() =>
        client.request(address.replaceAll('|', '%7C'), {
          method,
          body: text,
          options: { headers: { ...headers } },
        }),
      ),
    read: (type, id) => ask(() => client.read({ resourceType: type, id, options: noCache })),
    search: (type, params) =>
      ask(() => client.resourceSearch({ resourceType: type, searchParams: { ...params }, options: noCache })),
    follow: async address => {
      const url = parseUrl(address, `${destination.baseUrl}/`);
      if (!url || url.origin !== new URL(destination.baseUrl).origin) return undefined;
      return ask(() => client.request(url.href, { method: 'GET', options: noCache }));
    },
    metadata: () => ask(() => client.capabilityStatement(noCache)),
  };
}

function parseUrl(address: string, base: string): URL | undefined {
  try {
    return new URL(address, base);
  } catch {
    return undefined;
  }
}

function parseBody(answer: Answer): ExactJson | undefined {
  if (answer.bodyCut || answer.body === '') return undefined;
  try {
    const value = parseExact(answer.body);
    return isExactObject(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

/** What the library's callers get back for a success: enough to be a resource, with its links for paging. */
function resourceIn(reply: Reply): FhirResource | undefined {
  const resourceType = textAt(reply.body, 'resourceType');
  const ok = reply.exchange.kind === 'answer' && reply.exchange.status >= 200 && reply.exchange.status < 300;
  return ok && resourceType ? { resourceType } : undefined;
}

/** The resource that a reply of the 2xx kind brought. */
export function resourceOf(reply: Reply): ExactObject | undefined {
  return succeeded(reply) && isExactObject(reply.body) ? reply.body : undefined;
}

/** True when a reply is an answer of the 2xx kind with a JSON body. */
export function succeeded(reply: Reply): reply is Reply & { exchange: Answer; body: ExactJson } {
  const { exchange: seen, body } = reply;
  return seen.kind === 'answer' && seen.status >= 200 && seen.status < 300 && body !== undefined;
}
