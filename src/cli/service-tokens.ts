import type { SecretSource } from '../delivery/auth/secrets.js';
import { CasetallyError } from '../findings/errors.js';
import { type KnownToken, MIN_TOKEN_LENGTH, tokenDigest } from '../service/api/guard.js';
import type { Site } from '../site/site.js';

/**
 * The tokens of the site configuration: the one it refers to, which may do everything, and those by name.
 *
 * @param others true where people can come in without one
 * @throws CasetallyError 'usage' where there are none, 'settings-invalid' for one that is missing or can be guessed.
 */
export function tokensOf({ service }: Site, secrets: SecretSource, others = false): KnownToken[] {
  const named = Object.entries(service.tokens).map(([name, { sha256, rights }]) => ({
    ...{ name, rights },
    sha256: Buffer.from(sha256, 'hex'),
  }));
  if (service.token === undefined) {
    if (named.length > 0 || others) return named;
    throw new CasetallyError(
      'usage',
      'the service needs a token, or a way for people to sign in (service.signIn of the site configuration), to listen at other addresses than this machine: make a token with casetally token new, or write service: { token: env:NAME }.',
    );
  }
  const token = secrets(service.token);
  if (token === undefined)
    throw new CasetallyError(
      'settings-invalid',
      `There is no token of the service (${service.token}): nothing is at ${secrets.where?.(service.token) ?? service.token}.`,
    );
  if (token.length < MIN_TOKEN_LENGTH)
    throw new CasetallyError(
      'settings-invalid',
      `The token of the service has fewer than ${MIN_TOKEN_LENGTH} characters: make one with openssl rand -base64 32`,
    );
  return [{ name: 'service.token', sha256: tokenDigest(token) }, ...named];
}
