import { randomUUID } from 'node:crypto';
import type { CryptoKey } from 'jose';
import * as oauth from 'oauth4webapi';
import type { ExchangeDeps } from '../http/exchange.js';
import type { Fault } from '../http/fault.js';
import { FaultError, oauthFetch } from './oauth-fetch.js';
import { DEFAULT_LIFE_MS, type Token } from './token-cache.js';

/** How the client shows who it is at the token endpoint. */
export type ClientProof =
  | { readonly kind: 'secret'; readonly secret: string; readonly sendIn: 'header' | 'body' }
  | {
      readonly kind: 'key';
      readonly key: CryptoKey;
      readonly keyId: string;
      readonly jwksUrl?: string;
      /** Seconds; five minutes at most. */
      readonly lifetime: number;
    };

export interface TokenRequest {
  readonly tokenUrl: string;
  readonly clientId: string;
  readonly scope?: string;
  readonly proof: ClientProof;
}

/** A clock that is off by less than this is not made responsible for a refusal. */
const SKEW_MS = 10_000;

/**
 * Asks for a token with the client credentials grant (RFC 6749, 4.4; SMART Backend Services for keys). A refused
 * assertion is tried once more when the server's Date shows that the clocks differ, with a new jti.
 */
export async function requestToken(
  request: TokenRequest,
  limits: { readonly timeoutMs: number },
  deps: ExchangeDeps,
): Promise<Token | Fault> {
  let serverTime: number | undefined;
  const started = deps.clock();
  const ask = (skewMs: number) =>
    attempt(request, limits, deps, skewMs, date => {
      serverTime = date === undefined ? undefined : Date.parse(date);
    });
  const first = await ask(0);
  if ('accessToken' in first || first.reason !== 'token-refused' || request.proof.kind !== 'key')
    return first;
  const skew = serverTime === undefined ? 0 : serverTime - started;
  return Math.abs(skew) > SKEW_MS ? ask(skew) : first;
}

async function attempt(
  { tokenUrl, clientId, scope, proof }: TokenRequest,
  limits: { readonly timeoutMs: number },
  deps: ExchangeDeps,
  skewMs: number,
  onDate: (date: string | undefined) => void,
): Promise<Token | Fault> {
  const issuedAt = deps.clock();
  const server = { issuer: new URL(tokenUrl).origin, token_endpoint: tokenUrl };
  try {
    const response = await oauth.clientCredentialsGrantRequest(
      server,
      { client_id: clientId },
      authenticate(proof, tokenUrl, Math.floor((issuedAt + skewMs) / 1000)),
      scope === undefined ? {} : { scope },
      // Whether plain http is taken is decided where destinations are checked, for loopback only.
      { [oauth.customFetch]: oauthFetch(limits, deps, onDate), [oauth.allowInsecureRequests]: true },
    );
    if (response.status >= 500 || response.status === 429)
      return fault('token-unavailable', `HTTP_${response.status}`);
    const answer = await oauth.processClientCredentialsResponse(server, { client_id: clientId }, response);
    const life = answer.expires_in === undefined ? DEFAULT_LIFE_MS : answer.expires_in * 1000;
    return {
      accessToken: answer.access_token,
      issuedAt,
      expiresAt: issuedAt + life,
      ...(answer.scope !== undefined && { scope: answer.scope }),
    };
  } catch (error) {
    // The library's errors hold requests and responses, tokens among them: only a word is taken from them.
    if (error instanceof FaultError) return { ...error.fault, reason: reasonOf(error.fault), sent: 'no' };
    if (error instanceof oauth.ResponseBodyError) return fault('token-refused', wordOf(error.error));
    if (
      error instanceof oauth.OperationProcessingError ||
      error instanceof oauth.WWWAuthenticateChallengeError
    ) {
      return fault('token-refused', '');
    }
    throw error;
  }
}

function authenticate(proof: ClientProof, tokenUrl: string, now: number): oauth.ClientAuth {
  return async (server, client, body, headers) => {
    if (proof.kind === 'secret') {
      const auth = proof.sendIn === 'header' ? oauth.ClientSecretBasic : oauth.ClientSecretPost;
      return auth(proof.secret)(server, client, body, headers);
    }
    const { key, keyId: kid, jwksUrl, lifetime } = proof;
    const modify: oauth.ModifyAssertionFunction = (header, payload) => {
      header['typ'] = 'JWT';
      if (jwksUrl !== undefined) header['jku'] = jwksUrl;
      // SMART wants the token endpoint as audience, and at most five minutes.
      payload['aud'] = tokenUrl;
      payload['jti'] = randomUUID();
      payload['iat'] = now;
      payload['exp'] = now + Math.min(lifetime, 300);
      delete payload['nbf'];
    };
    return oauth.PrivateKeyJwt({ key, kid }, { [oauth.modifyAssertion]: modify })(
      server,
      client,
      body,
      headers,
    );
  };
}

/** A certificate or name that is wrong stays what it is; anything else about the way there is 'not for now'. */
function reasonOf({ reason }: Fault): Fault['reason'] {
  return reason === 'certificate' || reason === 'name' || reason === 'aborted' ? reason : 'token-unavailable';
}

function fault(reason: Fault['reason'], code: string): Fault {
  return { kind: 'fault', reason, sent: 'no', code, durationMs: 0 };
}

function wordOf(error: string): string {
  return /^[a-z_]{1,40}$/.test(error) ? error : '';
}
