import { type ExchangeDeps, exchange } from '../http/exchange.js';
import type { Fault } from '../http/fault.js';

/** Carries a fault through the OAuth library, which knows only responses and errors. */
export class FaultError extends Error {
  override readonly name = 'FaultError';
  readonly fault: Fault;

  constructor(fault: Fault) {
    super(fault.reason);
    this.fault = fault;
  }
}

/** What the OAuth library calls instead of fetch: bounded, timed, without redirects, and noting the Date. */
export function oauthFetch(
  limits: { readonly timeoutMs: number },
  deps: ExchangeDeps,
  onDate: (date: string | undefined) => void = () => undefined,
): (
  url: string,
  options: { method: string; headers: Record<string, string>; body?: unknown },
) => Promise<Response> {
  return async (url, { method, headers, body }) => {
    const text = body === undefined || body === null ? undefined : String(body);
    const outgoing = { method, url, headers, ...(text !== undefined && { body: text }) };
    const seen = await exchange(outgoing, { ...limits, maxAnswerBytes: 1024 * 1024 }, deps);
    if (seen.kind === 'fault') throw new FaultError(seen);
    onDate(seen.headers.date);
    const contentType = seen.headers['content-type'];
    return new Response(seen.status === 204 ? null : seen.body, {
      status: seen.status,
      headers: contentType === undefined ? {} : { 'content-type': contentType },
    });
  };
}
