import { anyOf, type Message, message } from '../../findings/message.js';

/**
 * Check digits of codes that carry one: SNOMED CT identifiers (Verhoeff, SNOMED CT Release File Specifications, section
 * "Check-digit computation") and LOINC numbers (modulus 10, LOINC Users' Guide, appendix "Calculating Mod 10 check
 * digits"). A wrong one is a slip in typing, whether or not the code system is at hand.
 */

/** What is wrong with a code by its own check digit; undefined where nothing is, or where it has none. */
export function checkDigitProblem(system: string, code: string): Message | undefined {
  const kind = kinds[system];
  const parts = kind?.form.exec(code);
  const [, body = '', between = '', digit = ''] = parts ?? [];
  if (!kind || !parts || kind.digit(body) === digit) return undefined;
  const valid = (digits: string) => kind.digit(digits.slice(0, -1)) === digits.slice(-1);
  const whole = body + digit;
  const swaps = [...whole]
    .slice(1)
    .map((_, i) => whole.slice(0, i) + whole.charAt(i + 1) + whole.charAt(i) + whole.slice(i + 2))
    .filter(swapped => swapped !== whole && valid(swapped))
    .map(digits => digits.slice(0, -1) + between + digits.slice(-1));
  const wrong = message('code.checkDigit', { body, digit: kind.digit(body) });
  return swaps.length === 0 ? wrong : message('code.swapped', { wrong, codes: anyOf(swaps) });
}

interface Kind {
  /** Body, what stands between, check digit. */
  readonly form: RegExp;
  digit(body: string): string;
}

const kinds: Readonly<Record<string, Kind>> = {
  'http://snomed.info/sct': { form: /^([1-9]\d{4,16})()(\d)$/, digit: verhoeff },
  'http://loinc.org': { form: /^(\d{1,7})(-)(\d)$/, digit: modulus10 },
};

/** Multiplication of the dihedral group of order ten, in which the Verhoeff scheme reckons. */
const times = (a: number, b: number): number =>
  a < 5 ? (b < 5 ? (a + b) % 5 : 5 + ((a + b) % 5)) : b < 5 ? 5 + ((a - b) % 5) : (a - b + 5) % 5;

const STEP = [1, 5, 7, 6, 2, 8, 3, 0, 9, 4];

function verhoeff(body: string): string {
  let sum = 0;
  for (const [place, figure] of [...body].reverse().entries()) {
    let value = Number(figure);
    // The check digit has place 0, so the body begins with place 1; the permutation comes round after eight.
    for (let step = 0; step <= place % 8; step += 1) value = STEP[value] ?? 0;
    sum = times(sum, value);
  }
  // Rotations have the opposite rotation as inverse, reflections are their own.
  return String(sum < 5 ? (5 - sum) % 5 : sum);
}

function modulus10(body: string): string {
  const sum = [...body].reverse().reduce((total, figure, place) => {
    const value = Number(figure) * (place % 2 === 0 ? 2 : 1);
    return total + (value > 9 ? value - 9 : value);
  }, 0);
  return String((10 - (sum % 10)) % 10);
}
