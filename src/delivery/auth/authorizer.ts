import { CasetallyError } from '../../findings/errors.js';
import type { AuthSettings } from '../destination/schema.js';
import type { ExchangeDeps } from '../http/exchange.js';
import type { Fault } from '../http/fault.js';
import type { ClientDeps } from '../http/fhir-client.js';
import { type ClientProof, requestToken } from './client-token.js';
import { discoverTokenUrl } from './discover.js';
import { readSigningKey } from './keys.js';
import type { SecretSource } from './secrets.js';
import { type Token, TokenCache } from './token-cache.js';

/**
 * The `authorize` of one destination: basic, bearer, client credentials or SMART Backend Services. Tokens are
 * kept for the life of the returned function; make it once for each destination.
 *
 * @param onScope called with the scope that a token was granted for, where the server tells.
 */
export function authorizerFor(
  auth: AuthSettings,
  destination: { readonly name: string; readonly baseUrl: string; readonly timeoutMs: number },
  secrets: SecretSource,
  deps: ExchangeDeps,
  onScope: (scope: string | undefined) => void = () => undefined,
): NonNullable<ClientDeps['authorize']> {
  const secret = (reference: string): string => {
    const found = secrets(reference);
    if (found === undefined) {
      throw new CasetallyError(
        'settings-invalid',
        `Destination ${destination.name}: nothing is at ${reference}`,
      );
    }
    return found;
  };
  switch (auth.kind) {
    case 'none':
      return async () => undefined;
    case 'basic': {
      const pair = Buffer.from(`${secret(auth.user)}:${secret(auth.password)}`, 'utf8').toString('base64');
      return async () => `Basic ${pair}`;
    }
    case 'bearer': {
      // Read anew after a 401: another program may have renewed what the reference points at.
      let token = secret(auth.token);
      return async (_destination, renew) => {
        if (renew) token = secret(auth.token);
        return `Bearer ${token}`;
      };
    }
    case 'client credentials': {
      const proof: ClientProof = { kind: 'secret', secret: secret(auth.secret), sendIn: auth.sendSecretIn };
      const request = {
        tokenUrl: auth.tokenUrl,
        clientId: auth.clientId,
        proof,
        ...(auth.scope !== undefined && { scope: auth.scope }),
      };
      return byToken(() => requestToken(request, destination, deps), deps, onScope);
    }
    case 'smart backend':
      return byToken(() => smartToken(auth, destination, secret(auth.key), deps), deps, onScope);
  }
}

type SmartSettings = Extract<AuthSettings, { kind: 'smart backend' }>;

async function smartToken(
  auth: SmartSettings,
  destination: { readonly baseUrl: string; readonly timeoutMs: number },
  keyText: string,
  deps: ExchangeDeps,
): Promise<Token | Fault> {
  const tokenUrl = auth.tokenUrl ?? (await discoverTokenUrl(destination.baseUrl, destination, deps));
  if (typeof tokenUrl === 'object') return tokenUrl;
  const signing = await readSigningKey(keyText, auth.algorithm, auth.keyId).catch(() => undefined);
  // A worker must not fall over one destination's key: that destination is paused, the others go on.
  if (!signing)
    return { kind: 'fault', reason: 'token-refused', sent: 'no', code: 'KEY_UNREADABLE', durationMs: 0 };
  const { key, keyId } = signing;
  const proof: ClientProof = {
    kind: 'key',
    key,
    keyId,
    lifetime: auth.assertionLifetime,
    ...(auth.jwksUrl !== undefined && { jwksUrl: auth.jwksUrl }),
  };
  return requestToken({ tokenUrl, clientId: auth.clientId, scope: auth.scope, proof }, destination, deps);
}

function byToken(
  fetchToken: () => Promise<Token | Fault>,
  deps: ExchangeDeps,
  onScope: (scope: string | undefined) => void,
): NonNullable<ClientDeps['authorize']> {
  const cache = new TokenCache(fetchToken, deps.clock);
  return async (_destination, renew) => {
    const token = await cache.get(renew);
    if (!('accessToken' in token)) return token;
    onScope(token.scope);
    return `Bearer ${token.accessToken}`;
  };
}
