import anyAscii from 'any-ascii';
import { distance } from 'fastest-levenshtein';

/** How two values of one field agree. `near`: alike, and to be looked at by a person. */
export type Agreement = 'same' | 'near' | 'differs';

/** Titles say nothing of who it is; Jr and Sr do, and stay. */
const TITLES: ReadonlySet<string> = new Set(['dr', 'prof', 'mr', 'mrs', 'ms', 'miss', 'herr', 'frau', 'mme']);

/**
 * The parts of a name as they are compared: Latin letters without accents, small, without titles and punctuation. ae, oe,
 * ue and aa count as the letter that they stand for (Mueller and Müller, Aagaard and Ågård). An apostrophe joins, every
 * other mark parts.
 */
export function nameParts(name: string): string[] {
  const plain = anyAscii(
    name.normalize('NFKC').replace(/[\u0027\u2018\u2019\u02bc\u0060\u00b4]/g, ''),
  ).toLowerCase();
  return plain
    .split(/[^a-z0-9]+/)
    .filter(part => part !== '' && !TITLES.has(part))
    .map(part => part.replace(/([aou])e/g, '$1').replace(/aa/g, 'a'));
}

/**
 * Whether two names are one person's, in any order of their parts. Same: every part of the shorter is a part of the longer,
 * two parts at least or all of both. Near: the same with one part of three letters or more a letter off, two letters swapped, or an initial; one
 * part alone; or two scripts, since there are many ways to write one in the other. Undefined where a name has no letters.
 */
export function compareNames(a: string, b: string): Agreement | undefined {
  const [x, y] = [nameParts(a), nameParts(b)];
  if (x.length === 0 || y.length === 0) return undefined;
  if (x.join('') === y.join('')) return 'same';
  const [shorter, longer] = x.length <= y.length ? [x, y] : [y, x];
  const left = [...longer];
  const alone = shorter.filter(part => {
    const at = left.indexOf(part);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  const [odd, second] = alone;
  if (odd === undefined) return shorter.length > 1 || longer.length === 1 ? 'same' : 'near';
  if (
    second === undefined &&
    left.some(part => isNear(odd, part)) &&
    (shorter.length > 1 || longer.length === 1)
  )
    return 'near';
  return isLatin(a) === isLatin(b) ? 'differs' : 'near';
}

function isNear(a: string, b: string): boolean {
  if (a.length > 2 && b.length > 2) return distance(a, b) <= 1 || isSwapped(a, b);
  return (a.length === 1 || b.length === 1) && a[0] === b[0];
}

function isSwapped(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  const at = [...a].findIndex((letter, i) => letter !== b[i]);
  return a.slice(0, at) + a[at + 1] + a[at] + a.slice(at + 2) === b;
}

function isLatin(name: string): boolean {
  return /^[\p{Script=Latin}\P{L}]*$/u.test(name);
}
