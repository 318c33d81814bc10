import { isExactObject, parseExact, textAt } from '../answer/exact-json.js';
import { type ExchangeDeps, exchange } from '../http/exchange.js';
import type { Fault } from '../http/fault.js';

/**
 * Finds the token endpoint of a SMART server: `[base]/.well-known/smart-configuration`, from SMART App Launch.
 * The address must be https, or on loopback when the server itself is.
 */
export async function discoverTokenUrl(
  baseUrl: string,
  limits: { readonly timeoutMs: number },
  deps: ExchangeDeps,
): Promise<string | Fault> {
  const url = `${baseUrl}/.well-known/smart-configuration`;
  const seen = await exchange(
    { method: 'GET', url, headers: { accept: 'application/json' } },
    { ...limits, maxAnswerBytes: 1024 * 1024 },
    deps,
  );
  if (seen.kind === 'fault') return { ...seen, sent: 'no' };
  const found = seen.status === 200 ? tokenEndpoint(seen.body) : undefined;
  if (found === undefined) return refused(`HTTP_${seen.status}`);
  return sameSafety(baseUrl, found) ? found : refused('TOKEN_ENDPOINT_NOT_SECURE');
}

function tokenEndpoint(body: string): string | undefined {
  try {
    const parsed = parseExact(body);
    return isExactObject(parsed) ? textAt(parsed, 'token_endpoint') : undefined;
  } catch {
    return undefined;
  }
}

/** A token endpoint may be elsewhere, but never less protected than the server that named it. */
function sameSafety(baseUrl: string, found: string): boolean {
  try {
    const endpoint = new URL(found);
    const base = new URL(baseUrl);
    return (
      endpoint.protocol === 'https:' ||
      (endpoint.protocol === base.protocol && endpoint.hostname === base.hostname)
    );
  } catch {
    return false;
  }
}

function refused(code: string): Fault {
  return { kind: 'fault', reason: 'token-unavailable', sent: 'no', code, durationMs: 0 };
}
