import { type Fault, faultOf } from './fault.js';

/** One request, complete with headers. */
export interface Outgoing {
  readonly method: string;
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  /** Sent as it is, so that decimals keep the digits they were written with. */
  readonly body?: string;
}

/** An answer of any status. The body is the text as received, up to a bound. */
export interface Answer {
  readonly kind: 'answer';
  readonly status: number;
  readonly headers: AnswerHeaders;
  readonly body: string;
  /** True when the body was cut: too long, too slow, or the connection went. */
  readonly bodyCut: boolean;
  readonly durationMs: number;
}

export type Exchange = Answer | Fault;

/** The answer headers that are kept; nothing else of the answer's headers is. */
export type AnswerHeaders = Readonly<Partial<Record<(typeof KEPT_HEADERS)[number], string>>>;

const KEPT_HEADERS = [
  'content-location',
  'content-type',
  'date',
  'etag',
  'last-modified',
  'location',
  'retry-after',
  'x-correlation-id',
  'x-request-id',
] as const;

/** How a request is made: `fetch` can be replaced, `clock` counts milliseconds. */
export interface ExchangeDeps {
  readonly fetch: typeof globalThis.fetch;
  readonly clock: () => number;
  readonly signal?: AbortSignal;
}

/**
 * Makes one request and reads its answer: status first, body second and bounded, redirects not followed,
 * one time limit over everything. Never throws for what the network or the server does.
 */
export async function exchange(
  outgoing: Outgoing,
  limits: { readonly timeoutMs: number; readonly maxAnswerBytes: number },
  deps: ExchangeDeps,
): Promise<Exchange> {
  const started = deps.clock();
  const timeout = AbortSignal.timeout(limits.timeoutMs);
  const signal = deps.signal ? AbortSignal.any([deps.signal, timeout]) : timeout;
  try {
    const response = await deps.fetch(outgoing.url, {
      method: outgoing.method,
      headers: outgoing.headers,
      ...(outgoing.body !== undefined && { body: outgoing.body }),
      redirect: 'manual',
      signal,
    });
    const { text, cut } = await readBody(response, limits.maxAnswerBytes);
    return {
      kind: 'answer',
      status: response.status,
      headers: keptHeaders(response.headers),
      body: text,
      bodyCut: cut,
      durationMs: deps.clock() - started,
    };
  } catch (error) {
    const stopped = deps.signal?.aborted ? 'aborted' : timeout.aborted ? 'timeout' : undefined;
    return faultOf(error, stopped, deps.clock() - started);
  }
}

/** Those of the answer's headers that are kept. */
export function keptHeaders(all: Headers): AnswerHeaders {
  const headers: Partial<Record<(typeof KEPT_HEADERS)[number], string>> = {};
  for (const name of KEPT_HEADERS) {
    const value = all.get(name);
    if (value !== null) headers[name] = value;
  }
  return headers;
}

async function readBody(response: Response, max: number): Promise<{ text: string; cut: boolean }> {
  const reader = response.body?.getReader();
  if (!reader) return { text: '', cut: false };
  const chunks: Uint8Array[] = [];
  let size = 0;
  let cut = false;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      chunks.push(value.subarray(0, max - size));
      size += value.byteLength;
      if (size > max) {
        cut = true;
        break;
      }
    }
  } catch {
    cut = true;
  }
  // The rest of a body that is cut is of no interest, nor is a fault while letting go of it.
  if (cut) await reader.cancel().catch(() => undefined);
  return { text: Buffer.concat(chunks).toString('utf8'), cut };
}
