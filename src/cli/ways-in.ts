import type { SecretSource } from '../delivery/auth/secrets.js';
import { CasetallyError } from '../findings/errors.js';
import { isThisMachine } from '../service/api/guard.js';
import { OnceLink } from '../service/sign-in/once-link.js';
import type { People } from '../service/sign-in/people.js';
import { Provider } from '../service/sign-in/provider.js';
import { Sessions } from '../service/sign-in/sessions.js';
import { UnderWays } from '../service/sign-in/under-way.js';
import { BACK } from '../site/sign-in.js';
import type { Site } from '../site/site.js';
import type { Output } from './output.js';

interface WaysInOptions {
  readonly secrets: SecretSource;
  /** Where the service listens. */
  readonly host: string;
  readonly clock: () => number;
  readonly output: Output;
}

/** How people sign in, and what is to be done once the address of the service is known. */
export interface WaysIn {
  readonly people: People;
  readonly servedAt: (baseUrl: string) => void;
}

/**
 * By the identity provider of the site; without one, and without a token, by a link that is printed, where only this
 * machine is served. Undefined where people show a token as programs do.
 *
 * @throws CasetallyError 'settings-invalid' where the secret of the client is missing.
 */
export function waysIn(
  { service }: Site,
  { secrets, host, clock, output }: WaysInOptions,
): WaysIn | undefined {
  const { signIn } = service;
  const sessions = new Sessions(service.sessions, clock);
  if (signIn) {
    const { clientSecret } = signIn;
    const secret = clientSecret === undefined ? undefined : secrets(clientSecret);
    if (clientSecret !== undefined && secret === undefined)
      throw new CasetallyError(
        'settings-invalid',
        `There is no secret of the client that people sign in with (${clientSecret}): nothing is at ${secrets.where?.(clientSecret) ?? clientSecret}.`,
      );
    const base = new URL(`${signIn.redirect.slice(0, -BACK.length)}/`);
    const provider = new Provider({ settings: signIn, secret, clock });
    return {
      people: { sessions, way: { kind: 'provider', provider, underWays: new UnderWays(clock), base } },
      servedAt: () => output.out(`People sign in at ${base.href}sign-in\n`),
    };
  }
  const hasToken = service.token !== undefined || Object.keys(service.tokens).length > 0;
  if (hasToken || !isThisMachine(host)) return undefined;
  let at = '';
  const link = new OnceLink(clock, code =>
    output.out(`Sign in, once and within ten minutes, on this machine: ${at}/sign-in/once#${code}\n`),
  );
  return {
    people: { sessions, way: { kind: 'link', link } },
    servedAt(baseUrl) {
      at = baseUrl;
      link.renew();
    },
  };
}
