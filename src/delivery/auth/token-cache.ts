import type { Fault } from '../http/fault.js';

/** An access token as the authorisation server gave it; opaque, never looked into. */
export interface Token {
  readonly accessToken: string;
  /** When it was asked for and when it runs out, in milliseconds since the epoch. */
  readonly issuedAt: number;
  readonly expiresAt: number;
  /** The scope granted, when the server tells. */
  readonly scope?: string;
}

/** Renewed when less than this is left of its life. */
const MARGIN_MS = 30_000;
/** The life of a token whose server does not state one. */
export const DEFAULT_LIFE_MS = 60_000;

/**
 * Keeps one token: asked for once however many want it at the same time, renewed before it runs out, and
 * dropped when a server has refused it.
 */
export class TokenCache {
  readonly #fetchToken: () => Promise<Token | Fault>;
  readonly #clock: () => number;
  #token: Token | undefined;
  #pending: Promise<Token | Fault> | undefined;

  constructor(fetchToken: () => Promise<Token | Fault>, clock: () => number) {
    this.#fetchToken = fetchToken;
    this.#clock = clock;
  }

  /** @param renew drops the token held, for a server has refused it. */
  async get(renew: boolean): Promise<Token | Fault> {
    if (renew && !this.#pending) this.#token = undefined;
    if (this.#token && this.#clock() < renewAt(this.#token)) return this.#token;
    this.#pending ??= this.#renew();
    return this.#pending;
  }

  async #renew(): Promise<Token | Fault> {
    try {
      const fresh = await this.#fetchToken();
      this.#token = 'accessToken' in fresh ? fresh : undefined;
      return fresh;
    } finally {
      this.#pending = undefined;
    }
  }
}

/** A token that lives shorter than twice the margin is used for half its life. */
function renewAt({ issuedAt, expiresAt }: Token): number {
  return expiresAt - Math.min(MARGIN_MS, (expiresAt - issuedAt) / 2);
}
