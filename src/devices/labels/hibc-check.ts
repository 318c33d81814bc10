const set43 = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%';

/** The value of a character, or -1 when the 43-character set does not hold it. */
export function valueOf43(character: string): number {
  return set43.indexOf(character);
}

/**
 * The check character for `text` (the + at the start included, the check character itself not): the sum of
 * the character values modulo 43. Source: HIBC Supplier Labeling Standard, appendix B.
 * Nothing when a character is outside the set.
 */
export function checkCharacter(text: string): string | undefined {
  let sum = 0;
  for (const character of text) {
    const value = valueOf43(character);
    if (value < 0) return undefined;
    sum += value;
  }
  return set43[sum % 43];
}
