import { digestOf, secretText } from './sessions.js';

/** How long a link works. */
const LINK_MS = 10 * 60_000;

/** The link of one use that whoever sees the terminal of the service opens; there is one at a time. */
export class OnceLink {
  #code: { readonly digest: string; readonly until: number } | undefined;
  readonly #clock: () => number;
  readonly #print: (code: string) => void;

  /** @param print shows the code, as part of a link, where the service was started, and nowhere else. */
  constructor(clock: () => number, print: (code: string) => void) {
    this.#clock = clock;
    this.#print = print;
  }

  /** Prints a new link; the one before no longer works. */
  renew(): void {
    const code = secretText();
    this.#code = { digest: digestOf(code), until: this.#clock() + LINK_MS };
    this.#print(code);
  }

  /** True once, for the code that was printed last. A wrong one changes nothing: it cannot be guessed. */
  take(code: string): boolean {
    const known = this.#code;
    if (known === undefined || this.#clock() >= known.until || digestOf(code) !== known.digest) return false;
    this.#code = undefined;
    return true;
  }
}
