/** Longest time between two characters of a scanner, in milliseconds; a hand needs longer (measured on no device: from memory). */
const FAST = 60;
/** Fewest characters of a symbol. */
const LEAST = 6;

/**
 * What a scanner types that stands in for a keyboard: fast characters with Enter at the end, wherever the focus is outside
 * of a field. Group separators come as the control character, as Ctrl+], or as Alt+029.
 */
export class Wedge {
  #text = '';
  #last = Number.NEGATIVE_INFINITY;

  /** @param at milliseconds @returns the symbol that is whole now; `busy` where the key is a scanner's. */
  key(key: string, ctrl: boolean, at: number): { readonly symbol?: string; readonly busy: boolean } {
    const fast = at - this.#last <= FAST;
    this.#last = at;
    if (!fast) this.#text = '';
    if (key === 'Enter' || key === 'Tab') {
      const symbol = this.#text;
      this.#text = '';
      return symbol.length >= LEAST ? { symbol, busy: true } : { busy: false };
    }
    if (ctrl && (key === ']' || key === '5')) this.#text += '\u001d';
    else if (key.length === 1 && !ctrl) this.#text += key;
    // The first character may be anybody's.
    return { busy: this.#text.length > 1 };
  }
}
