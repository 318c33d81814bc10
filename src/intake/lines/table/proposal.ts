import { kindNamed, kindOfFamily } from '../../../devices/kinds.js';
import type { DeviceKind } from '../../../trade/devices/kind.js';
import { wordsOf } from '../../../trade/words.js';
import type { Piece } from '../text/pieces.js';
import type { Token } from '../text/tokens.js';
import type { ProposedDevice } from '../types.js';

/** Pieces that say how large something is. */
export type Sized = Extract<Piece, { is: 'amount' | 'wire' | 'pair' | 'number' | 'span' }>;

/** Words of the longest names of kinds: what is farther from the end of a group describes it. */
const LONGEST_NAME = 6;

/** Whose names are often cut short: `the cobra`. */
const heads = ['', ' catheter', ' needle', ' wire', ' sheath', ' drain', ' stent', ' balloon', ' tube'];

/** The kind that the words name, and the words that describe it. */
export function kindOf(tokens: readonly Token[], words: readonly string[]) {
  for (const head of heads)
    for (let from = Math.max(0, tokens.length - LONGEST_NAME); from < tokens.length; from++) {
      const some = tokens
        .slice(from)
        .map(one => one.text)
        .join(' ');
      const found = kindNamed(`${some}${head}`);
      if (!found || (head !== '' && found.how !== 'listed')) continue;
      const own = new Set([found.row.name, ...found.row.aliases].flatMap(wordsOf));
      const rest = tokens
        .filter(({ text }) => wordsOf(text).some(word => words.includes(word) && !own.has(word)))
        .map(({ text }) => text);
      return { ...found, rest };
    }
  return undefined;
}

export const rowOf = (kind: string): DeviceKind => kindNamed(kind)?.row ?? kindOfFamily(kind, 'accessory');

export function proposed(row: DeviceKind, rest: readonly string[], sizes: readonly Sized[]): ProposedDevice {
  const base = { kind: row.name, ...(rest.length > 0 && { description: rest.join(' ') }) };
  const [size] = sizes.filter(one => one.is !== 'number');
  if (size?.is === 'wire') return { ...base, diameter: size.amount };
  if (size?.is === 'span') return { ...base, size: size.amount };
  if (size?.is === 'pair') {
    const text = pairText(row, size);
    return text === undefined ? base : { ...base, size: text };
  }
  if (size?.is !== 'amount') return base;
  return size.unit === 'cm' ? { ...base, length: size.amount } : { ...base, size: size.amount };
}

/**
 * `6 by 40` is millimetres of a balloon or stent, `8 by 24` French and centimetres of a ureteric one. A short second
 * figure, and any other device, say no unit. Common practice, no source.
 */
function pairText({ family, traits }: DeviceKind, pair: Extract<Sized, { is: 'pair' }>): string | undefined {
  const { first, second, unit, lengthUnit } = pair;
  if (lengthUnit !== undefined) return `${first} ${unit ?? lengthUnit} x ${second} ${lengthUnit}`;
  if (unit !== undefined) return undefined;
  if (traits.includes('ureteric')) return Number(second) >= 10 ? `${first} Fr x ${second} cm` : undefined;
  return (family === 'balloon' || family === 'stent') && Number(second) >= 15
    ? `${first} mm x ${second} mm`
    : undefined;
}
