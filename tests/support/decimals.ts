import fc from 'fast-check';

/**
 * Decimal text without exponent, of a magnitude from 10^`least` to 10^`most`, one to eight digits, with or without
 * trailing zeros.
 */
export const decimalOf = (least: number, most: number): fc.Arbitrary<string> =>
  fc
    .tuple(
      fc.integer({ min: least, max: most }),
      fc.stringMatching(/^[1-9]\d{0,7}$/),
      fc.integer({ min: 0, max: 2 }),
    )
    .map(([magnitude, digits, zeros]) => {
      const shown = digits + '0'.repeat(zeros);
      if (magnitude < 0) return `0.${'0'.repeat(-magnitude - 1)}${shown}`;
      const whole = shown.slice(0, magnitude + 1).padEnd(magnitude + 1, '0');
      const rest = shown.slice(magnitude + 1);
      return rest === '' ? whole : `${whole}.${rest}`;
    });
