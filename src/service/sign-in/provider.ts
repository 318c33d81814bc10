import * as client from 'openid-client';
import { claimAt, plainName, rolesOfClaim } from '../../site/roles.js';
import type { SignIn } from '../../site/sign-in.js';
import type { Person } from './sessions.js';
import type { UnderWay } from './under-way.js';

/** Seconds by which clocks may differ. */
const TOLERANCE = 90;
/** Seconds that one answer of the provider may take. */
const TIMEOUT = 10;
/** How long what the provider says of itself is used before it is asked again. */
const KEEP_MS = 3_600_000;

/** Why nobody was signed in; in words that need nothing of the provider's answer. */
export type NotSignedIn = 'provider-away' | 'not-confirmed' | 'no-role';

export interface ProviderOptions {
  readonly settings: SignIn;
  readonly secret: string | undefined;
  readonly clock: () => number;
  /** In place of the platform's. */
  readonly fetch?: typeof globalThis.fetch;
}

/** Who somebody is, and when they last showed it. */
export interface Confirmed {
  readonly person: Person;
  readonly shownAt: number | undefined;
}

/**
 * An OpenID Connect provider: authorization code flow with PKCE, state and nonce (OpenID Connect Core 1.0, 3.1; RFC
 * 7636). Its tokens are thrown away once the claims are read.
 */
export class Provider {
  readonly #options: ProviderOptions;
  #known: { readonly at: number; readonly config: client.Configuration } | undefined;

  constructor(options: ProviderOptions) {
    this.#options = options;
  }

  /** The address at the provider that a browser is led to; undefined while the provider does not answer. */
  async begin(one: Pick<UnderWay, 'nonce' | 'verifier' | 'fresh'>, state: string): Promise<URL | undefined> {
    const config = await this.#config();
    if (!config) return undefined;
    const { redirect, scope } = this.#options.settings;
    return client.buildAuthorizationUrl(config, {
      redirect_uri: redirect,
      scope,
      state,
      nonce: one.nonce,
      code_challenge: await client.calculatePKCECodeChallenge(one.verifier),
      code_challenge_method: 'S256',
      // Providers that know one of the two alone do what it says; whether they did is checked by auth_time.
      ...(one.fresh && { prompt: 'login', max_age: '0' }),
    });
  }

  /** Asks the provider who it was. @param query of the address that it led the browser back to */
  async confirm(query: string, state: string, one: UnderWay): Promise<Confirmed | NotSignedIn> {
    const { settings, clock } = this.#options;
    const config = await this.#config();
    if (!config) return 'provider-away';
    try {
      const since = Math.max(0, Math.ceil((clock() - one.begunAt) / 1_000));
      const tokens = await client.authorizationCodeGrant(config, new URL(`${settings.redirect}${query}`), {
        pkceCodeVerifier: one.verifier,
        expectedState: state,
        expectedNonce: one.nonce,
        idTokenExpected: true,
        // Shown after it was asked for: a provider that led back at once has asked nobody.
        ...(one.fresh && { maxAge: since }),
      });
      const own = tokens.claims();
      if (!own) return 'not-confirmed';
      const claims = await this.#whole(config, own, tokens.access_token);
      const roles = rolesOfClaim(claimAt(claims, settings.rolesClaim), settings.roles);
      if (roles.length === 0) return 'no-role';
      const name = plainName(claimAt(claims, settings.nameClaim)) ?? plainName(own.sub) ?? 'unnamed';
      const verified = { issuer: own.iss, subject: own.sub };
      const shown = one.fresh ? clock() : own.auth_time === undefined ? undefined : own.auth_time * 1_000;
      return { person: { name, roles, verified }, shownAt: shown };
    } catch (error) {
      return isAway(error) ? 'provider-away' : 'not-confirmed';
    }
  }

  /** Where a person signs out at the provider as well; undefined where it says nothing of that. */
  signOutAt(): string | undefined {
    const config = this.#known?.config;
    return config?.serverMetadata().end_session_endpoint === undefined
      ? undefined
      : client.buildEndSessionUrl(config).href;
  }

  /** Claims that the ID token leaves out are asked for where the provider has them. */
  async #whole(
    config: client.Configuration,
    own: client.IDToken,
    token: string,
  ): Promise<Readonly<Record<string, unknown>>> {
    const { nameClaim, rolesClaim } = this.#options.settings;
    const lacks = [nameClaim, rolesClaim].some(path => claimAt(own, path) === undefined);
    if (!lacks || config.serverMetadata().userinfo_endpoint === undefined) return own;
    return { ...(await client.fetchUserInfo(config, token, own.sub)), ...own };
  }

  async #config(): Promise<client.Configuration | undefined> {
    const { settings, secret, clock, fetch } = this.#options;
    if (this.#known && clock() < this.#known.at + KEEP_MS) return this.#known.config;
    const insecure = settings.issuer.startsWith('http:');
    try {
      const config = await client.discovery(
        new URL(settings.issuer),
        settings.clientId,
        { [client.clockTolerance]: TOLERANCE },
        secret === undefined ? client.None() : proofOf(secret),
        {
          timeout: TIMEOUT,
          // Settings let plain http pass on this machine alone.
          ...(insecure && { execute: [client.allowInsecureRequests] }),
          ...(fetch && { [client.customFetch]: fetch as client.CustomFetch }),
        },
      );
      this.#known = { at: clock(), config };
      return config;
    } catch {
      // What it said of itself an hour ago is better than nobody being able to sign in.
      return this.#known?.config;
    }
  }
}

/** In the header, as every provider must know it (RFC 6749, 2.3.1), unless it says that it takes the body alone. */
const proofOf = (secret: string): client.ClientAuth => {
  const [header, body] = [client.ClientSecretBasic(secret), client.ClientSecretPost(secret)];
  return (server, ...rest) => {
    const ways = server.token_endpoint_auth_methods_supported;
    const inBody = ways?.includes('client_secret_post') && !ways.includes('client_secret_basic');
    return (inBody ? body : header)(server, ...rest);
  };
};

/** A provider that cannot be reached, or answers with a fault of its own; anything else is a refusal. */
function isAway(error: unknown): boolean {
  if (error instanceof client.ResponseBodyError) return error.status >= 500;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return error instanceof TypeError || /TIMEOUT|OAUTH_RESPONSE_IS_NOT_(CONFORM|JSON)/.test(code);
}
