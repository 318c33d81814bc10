import type { Dispatcher } from 'undici';
import { type ExactJson, type ExactObject, isExactObject, parseExact } from '../answer/exact-json.js';
import type { Destination } from '../destination/destination.js';
import { type Answer, type Exchange, exchange } from './exchange.js';
import type { Fault } from './fault.js';

/** What requests need from outside. */
export interface ClientDeps {
  /** Defaults to the global fetch. */
  readonly fetch?: typeof globalThis.fetch;
  /** Milliseconds since the epoch. */
  readonly clock: () => number;
  /** A new id for each request, sent as X-Request-Id. */
  readonly newId: () => string;
  readonly signal?: AbortSignal;
  /**
   * The Authorization header for a destination, or why there is none to be had; `renew` asks for a fresh one
   * after a 401. Absent or undefined: none is sent.
   */
  readonly authorize?: (destination: Destination, renew: boolean) => Promise<string | Fault | undefined>;
  /** Waited for before each write, when its headers are made and not a byte has gone out; where it throws, nothing goes out. */
  readonly beforeWrite?: () => Promise<void>;
  /** The connections that `fhirReader` reads over, where a destination has its own. */
  readonly readOver?: Dispatcher;
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
  postBundle(text: string, renewToken: boolean): Promise<Reply>;
  /** Writes one resource: POST or PUT to an address below the base. */
  write(
    method: 'POST' | 'PUT',
    address: string,
    text: string,
    headers: Readonly<Record<string, string>>,
    renewToken: boolean,
  ): Promise<Reply>;
  read(type: string, id: string): Promise<Reply>;
  /** Searches past the server's caches. */
  search(type: string, params: Readonly<Record<string, string>>): Promise<Reply>;
  /** GETs an absolute address on the destination's own origin; anything else is refused with undefined. */
  follow(address: string): Promise<Reply | undefined>;
}

/**
 * Writes to a destination and reads back what was written, over plain fetch. Everything else that is asked of a server
 * goes through `fhirReader` and its library, which cannot do these two: it parses an answer before it can be seen, so
 * that the digits of decimals are rounded, and of an answer that is no JSON, or came in part, nothing is left to tell
 * whether the submission took effect.
 */
export function fhirClient(destination: Destination, deps: ClientDeps): FhirClient {
  const { baseUrl, mediaType } = destination;
  const request = async (
    method: string,
    url: string,
    extra: Readonly<Record<string, string>>,
    body?: string,
    renewToken = false,
  ): Promise<Reply> => {
    const requestId = deps.newId();
    const authorization = await deps.authorize?.(destination, renewToken);
    if (typeof authorization === 'object') return { requestId, exchange: authorization };
    const headers = {
      accept: mediaType,
      ...destination.headers,
      ...extra,
      ...(body !== undefined && { 'content-type': mediaType }),
      ...(authorization !== undefined && { authorization }),
      'x-request-id': requestId,
    };
    if (body !== undefined) await deps.beforeWrite?.();
    const seen = await exchange({ method, url, headers, ...(body !== undefined && { body }) }, destination, {
      fetch: deps.fetch ?? globalThis.fetch,
      clock: deps.clock,
      ...(deps.signal && { signal: deps.signal }),
    });
    const parsed = seen.kind === 'answer' ? parseBody(seen) : undefined;
    return { requestId, exchange: seen, ...(parsed && { body: parsed }) };
  };
  const get = (url: string) => request('GET', url, { 'cache-control': 'no-cache' });
  return {
    postBundle: (text, renewToken) => request('POST', baseUrl, {}, text, renewToken),
    // A bar is not allowed in an address as it is, though browsers let it pass.
    write: (method, address, text, headers, renewToken) =>
      request(method, `${baseUrl}/${address.replaceAll('|', '%7C')}`, headers, text, renewToken),
    read: (type, id) => get(`${baseUrl}/${type}/${id}`),
    search: (type, params) => get(`${baseUrl}/${type}?${new URLSearchParams(params)}`),
    follow: async address => {
      const url = ownAddress(address, baseUrl);
      return url === undefined ? undefined : get(url);
    },
  };
}

/** An address of the destination's own origin in full; undefined for any other. */
export function ownAddress(address: string, baseUrl: string): string | undefined {
  const url = URL.canParse(address, `${baseUrl}/`) ? new URL(address, `${baseUrl}/`) : undefined;
  return url?.origin === new URL(baseUrl).origin ? url.href : undefined;
}

function parseBody(answer: Answer): ExactObject | undefined {
  if (answer.bodyCut || answer.body === '') return undefined;
  try {
    const value = parseExact(answer.body);
    return isExactObject(value) ? value : undefined;
  } catch {
    return undefined;
  }
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
