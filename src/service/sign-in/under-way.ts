import { digestOf, secretText } from './sessions.js';

/** A sign-in that a browser began and has not come back from. */
export interface UnderWay {
  readonly nonce: string;
  readonly verifier: string;
  /** Where it leads afterwards: an address of this service. */
  readonly to: string;
  /** Whether the person was to show anew who they are. */
  readonly fresh: boolean;
  readonly begunAt: number;
  /** Digest of what the browser is known by; nobody else may bring the answer back. */
  readonly browser: string;
  /** What the session that the browser had is kept under. */
  readonly former?: string;
}

/** How long somebody may take at the provider. */
export const PATIENCE_MS = 10 * 60_000;
/** More are not kept at once: the oldest goes. */
const MOST = 10_000;

/** Sign-ins that are under way, by their `state`; each can be taken once. */
export class UnderWays {
  readonly #kept = new Map<string, UnderWay>();
  readonly #clock: () => number;
  readonly #most: number;

  constructor(clock: () => number, most = MOST) {
    this.#clock = clock;
    this.#most = most;
  }

  /** @returns the state, which the provider gives back. */
  begin(one: Omit<UnderWay, 'begunAt'>): string {
    this.#tidy();
    const state = secretText();
    this.#kept.set(digestOf(state), { ...one, begunAt: this.#clock() });
    return state;
  }

  /** Takes a sign-in out, if this browser began it; a stranger's try leaves it where it is. */
  take(state: string, browser: string): UnderWay | undefined {
    const key = digestOf(state);
    const found = this.#kept.get(key);
    if (!found || found.browser !== browser) return undefined;
    this.#kept.delete(key);
    return this.#clock() >= found.begunAt + PATIENCE_MS ? undefined : found;
  }

  /** True for a browser that has begun one: two tabs may sign in at the same time. */
  knows(browser: string): boolean {
    this.#tidy();
    return [...this.#kept.values()].some(one => one.browser === browser);
  }

  #tidy(): void {
    const old = this.#clock() - PATIENCE_MS;
    // In order of their beginning.
    for (const [key, { begunAt }] of this.#kept)
      if (begunAt <= old || this.#kept.size >= this.#most) this.#kept.delete(key);
      else break;
  }
}
