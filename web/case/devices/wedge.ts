/** Longest time between two characters of a scanner, in milliseconds; a hand needs longer (measured on no device: from memory). */
const FAST = 60;
/** Fewest characters of a symbol. */
const LEAST = 6;

/**
 * Whether a text can be nothing but the label of a device: what a GS1, HIBC or ISBT 128 symbol begins
 * with, a mark of the symbology before it or not.
 */
export const isLabel = (text: string): boolean =>
  /^(?:\][A-Za-z]\d)?(?:\(01\)\d{14}|01\d{14}|\+(?:[A-Z][A-Z0-9]{3}[A-Z0-9]{3}|\${1,2}[A-Z0-9]{4})|=[/+,)>]?[A-Z0-9]{8})/.test(
    text,
  );

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
