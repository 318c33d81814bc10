import { createServer, type Server } from 'node:http';
import { exportPKCS8, importJWK } from 'jose';
import Provider from 'oidc-provider';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { authorizerFor } from '../../../src/delivery/auth/authorizer.js';
import { type KeyAlgorithm, makeKeys, type NewKeys } from '../../../src/delivery/auth/keys.js';
import { destinationSchema } from '../../../src/delivery/destination/schema.js';

/*
 * An authorisation server that is not ours: oidc-provider, a certified OpenID Connect server. It checks the
 * signature, audience, life and single use of the assertion by itself (RFC 7523, and SMART Backend Services,
 * https://hl7.org/fhir/smart-app-launch/STU2.1/backend-services.html).
 */

const keys = new Map<KeyAlgorithm, NewKeys>();
let other: NewKeys;
let provider: Provider;
let server: Server;
let base = '';

beforeAll(async () => {
  for (const algorithm of ['RS384', 'ES384'] as const) keys.set(algorithm, await makeKeys(algorithm));
  other = await makeKeys('ES384');
  server = createServer((request, response) => {
    if (request.url === '/fhir/.well-known/smart-configuration') {
      response.setHeader('content-type', 'application/json');
      response.end(
        JSON.stringify({ token_endpoint: `${base}/token`, capabilities: ['client-confidential-asymmetric'] }),
      );
      return;
    }
    provider.callback()(request, response);
  });
  await new Promise<void>(resolve => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  base = `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}`;
  provider = new Provider(base, {
    clients: [...keys].map(([algorithm, { jwks }]) => ({
      client_id: `casetally-${algorithm}`,
      grant_types: ['client_credentials'],
      response_types: [],
      redirect_uris: [],
      token_endpoint_auth_method: 'private_key_jwt' as const,
      token_endpoint_auth_signing_alg: algorithm,
      jwks: { keys: jwks.keys.map(key => ({ ...key, kty: key.kty ?? '' })) },
      scope: 'system/*.cruds',
    })),
    features: { clientCredentials: { enabled: true }, devInteractions: { enabled: false } },
    scopes: ['system/*.cruds'],
    enabledJWA: { clientAuthSigningAlgValues: ['RS384', 'ES384'] },
    ttl: { ClientCredentials: 300 },
  });
});
afterAll(() => new Promise(resolve => server.close(resolve)));

function authorizer(
  algorithm: KeyAlgorithm,
  key: string,
  {
    clock = Date.now,
    fetch = globalThis.fetch,
    more = {},
  }: { clock?: () => number; fetch?: typeof globalThis.fetch; more?: object } = {},
) {
  const settings = destinationSchema.parse({
    url: `${base}/fhir`,
    auth: { kind: 'smart backend', clientId: `casetally-${algorithm}`, key: 'env:KEY', algorithm, ...more },
  });
  const destination = { name: 'test', baseUrl: `${base}/fhir`, timeoutMs: 5_000 };
  const authorize = authorizerFor(settings.auth, destination, () => key, { fetch, clock });
  return (renew = false) => authorize(undefined as never, renew);
}

describe('SMART Backend Services against oidc-provider', () => {
  it.each(['RS384', 'ES384'] as const)('%s with a JWK: discovery, assertion, token', async algorithm => {
    const header = await authorizer(algorithm, keys.get(algorithm)!.privateJwk)();
    expect(header).toMatch(/^Bearer [\w-]{20,}$/);
  });

  it('takes the key as PEM, with the thumbprint as its id', async () => {
    const { privateJwk, keyId } = keys.get('ES384')!;
    const key = await importJWK({ ...JSON.parse(privateJwk), key_ops: ['sign'], ext: true }, 'ES384');
    if (key instanceof Uint8Array) throw new Error('no key');
    const pem = await exportPKCS8(key);
    expect(await authorizer('ES384', pem, { more: { keyId } })()).toMatch(/^Bearer /);
    expect(await authorizer('ES384', pem)()).toMatch(/^Bearer /);
  });

  it('asks once for a hundred at the same time, and anew with another jti after a refusal', async () => {
    const jtis: string[] = [];
    const spy: typeof fetch = (url, init) => {
      const assertion = new URLSearchParams(String(init?.body ?? '')).get('client_assertion');
      if (assertion)
        jtis.push(JSON.parse(Buffer.from(assertion.split('.')[1] ?? '', 'base64url').toString()).jti);
      return fetch(url, init);
    };
    const ask = authorizer('ES384', keys.get('ES384')!.privateJwk, { fetch: spy });
    const headers = await Promise.all(Array.from({ length: 100 }, () => ask()));
    expect(new Set(headers).size).toBe(1);
    expect(jtis).toHaveLength(1);
    const renewed = await ask(true);
    expect(renewed).toMatch(/^Bearer /);
    expect(renewed).not.toBe(headers[0]);
    expect(new Set(jtis).size).toBe(2);
  });

  it('is refused with a key that the server does not know, and says no more than that', async () => {
    const result = await authorizer('ES384', other.privateJwk)();
    expect(result).toEqual({
      kind: 'fault',
      reason: 'token-refused',
      sent: 'no',
      code: 'invalid_client',
      durationMs: 0,
    });
  });

  it('gets a token although its own clock is ten minutes behind', async () => {
    const clock = () => Date.now() - 10 * 60_000;
    expect(await authorizer('ES384', keys.get('ES384')!.privateJwk, { clock })()).toMatch(/^Bearer /);
  });
});
