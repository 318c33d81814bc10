import type { Finding } from '../../findings/finding.js';
import { authorizerFor } from '../auth/authorizer.js';
import type { SecretSource } from '../auth/secrets.js';
import { boundedAgent } from '../http/agents.js';
import { tlsFetch } from '../http/tls-fetch.js';
import { configuredDestination, type DestinationSettings } from './schema.js';
import type { Target } from './session.js';

/**
 * A destination of the site file with everything that is needed to speak to it: its own connection where it has
 * a private authority or mutual TLS, and its credentials. Make it once: it keeps the token.
 *
 * @param clock milliseconds since the epoch.
 * @throws CasetallyError 'settings-invalid' for a certificate or key that cannot be used.
 */
export async function openTarget(
  name: string,
  settings: DestinationSettings,
  secrets: SecretSource,
  clock: () => number,
): Promise<{ readonly target?: Target; readonly findings: readonly Finding[] }> {
  const { destination, findings } = configuredDestination(name, settings, secrets);
  if (!destination) return { findings };
  const ca = settings.tls?.ca && secrets(settings.tls.ca);
  const certificate = settings.tls?.certificate && secrets(settings.tls.certificate);
  const key = settings.tls?.key && secrets(settings.tls.key);
  const tls = settings.tls && { ...(ca && { ca }), ...(certificate && { certificate }), ...(key && { key }) };
  const fetch = tls ? tlsFetch(tls) : globalThis.fetch;
  const way = { fetch, ...(tls && { readOver: boundedAgent(destination.maxAnswerBytes, tls) }) };
  if (settings.auth.kind === 'none') return { target: { destination, ...way }, findings };
  // A server that grants what was asked for need not say so (RFC 6749, 5.1).
  let scope = 'scope' in settings.auth ? settings.auth.scope : undefined;
  const authorize = authorizerFor(settings.auth, destination, secrets, { fetch, clock }, told => {
    scope = told ?? scope;
  });
  return { target: { destination, ...way, authorize, granted: () => scope }, findings };
}
