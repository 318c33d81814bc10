import { kindNamed } from '../../../devices/kinds.js';
import { wordsOf } from '../../../trade/words.js';
import type { Noun } from '../text/clauses.js';
import type { Piece } from '../text/pieces.js';
import type { Token } from '../text/tokens.js';
import { isPlaceWord } from '../words/places.js';
import { type Asked, choose, isIn, type Named, preferFamily, pronoun } from './choosing.js';
import { kindOf, proposed, rowOf, type Sized } from './proposal.js';
import { canBeCalled, familyNamed, hasMeasure, type OnTable } from './table.js';

const isSized = (piece: Piece | undefined): piece is Sized =>
  piece !== undefined && ['amount', 'wire', 'pair', 'number', 'span'].includes(piece.is);

/** Words of a group that name something: no article, no number, no `first`. */
export const wordTokens = (noun: Noun): Token[] =>
  noun.tokens.filter(({ piece, entry }) => piece?.is === 'word' && entry === undefined);

const unheeded = new Set(
  'one new french device number previous old existing indwelling original initial fresh spare usual own second both all'.split(
    ' ',
  ),
);

/** Whether a device has every size that was said. */
function fitsSizes(device: OnTable, sizes: readonly Sized[], counting: boolean): boolean {
  return sizes.every(size => {
    if (size.is === 'amount') return hasMeasure(device, size.value, size.unit);
    if (size.is === 'wire') return hasMeasure(device, size.amount.slice(0, -3), 'in');
    if (size.is === 'number') return counting || hasMeasure(device, size.value);
    if (size.is === 'span') return device.measures.length > 0;
    return hasMeasure(device, size.first, size.unit) && hasMeasure(device, size.second, size.lengthUnit);
  });
}

const isOne = ({ text, entry }: Token) => entry?.role === 'filler' && text.toLowerCase() === 'one';

const isPair = (piece: Piece | undefined): boolean =>
  piece?.is === 'pair' || (piece?.is === 'amount' && ['length', 'calibre'].includes(piece.dimension));

/** `anchor two` is the one whose key is `anchor2`. */
function numberedKey({ tokens }: Noun, table: readonly OnTable[]): OnTable | undefined {
  const [word, number] = tokens.filter(({ entry }) => entry?.role !== 'article');
  if (tokens.length > 3 || word?.piece?.is !== 'word' || number?.piece?.is !== 'number') return undefined;
  const key = `${word.text}${number.piece.value}`.toLowerCase();
  return table.find(one => one.key.toLowerCase() === key);
}

/** Bare numbers of a group say how many and not how large: `two coils`, `coil number three`. */
export const countsIn = ({ tokens }: Noun): boolean =>
  tokens.some(({ entry }) => entry?.role === 'which') ||
  tokens.some(
    ({ piece }, index) =>
      piece?.is === 'number' &&
      /^(?:[1-9]|1\d)$/.test(piece.value) &&
      (tokens.slice(index + 1).some(one => one.piece?.is === 'word' && /[^su]s$/i.test(one.text)) ||
        isPair(tokens[index + 1]?.piece)),
  );

/** Finds the device that a group of words means; undefined where the words name no device at all. */
export function namedBy(noun: Noun, asked: Asked): Named | undefined {
  const { table, where } = asked;
  const said = noun.tokens
    .filter(({ entry }) => entry?.role !== 'article')
    .map(({ text }) => text)
    .join(' ');
  const sizes = noun.tokens.map(({ piece }) => piece).filter(isSized);
  const tokens = wordTokens(noun);
  const pointing = noun.tokens.find(({ entry }) => entry?.role === 'pointing');
  const counting = countsIn(noun);

  const key =
    tokens.length === 1
      ? table.find(one => one.key.toLowerCase() === tokens[0]?.text.toLowerCase())
      : undefined;
  if (key && fitsSizes(key, sizes, true) && familyNamed(wordsOf(key.key)[0] ?? '') === undefined)
    return { device: key, fit: [key], by: 'key', said, misplaced: !isIn(key, where), unknown: [] };

  if (tokens.length === 0) {
    if (pointing) return pronoun(asked, said);
    const real = sizes.filter(size => size.is !== 'number' || !counting);
    if (
      real.length === 0 ||
      (real.length === 1 && real[0]?.is === 'amount' && !['length', 'calibre'].includes(real[0].dimension))
    )
      return undefined;
    const able = table.filter(one => fitsSizes(one, sizes, counting) && (asked.can?.(one) ?? true));
    const wires = able.filter(({ family }) => family === 'guidewire');
    if (real.some(({ is }) => is === 'wire') && wires.length > 0)
      return choose(wires, [], asked, said, pointing !== undefined, true);
    const alike = able.filter(({ family }) => family === asked.alike);
    const fit = alike.length > 0 && noun.tokens.some(isOne) ? alike : able;
    const chosen = choose(fit, [], asked, said, pointing !== undefined, true);
    if (chosen || asked.kind === undefined) return chosen;
    const figures = noun.tokens.filter(({ piece }) => piece?.is === 'number');
    return { ...nothing(said), proposal: proposed(rowOf(asked.kind), [], sizes), unknown: figures };
  }

  if (isPlace(noun)) return undefined;
  const numbered = numberedKey(noun, table);
  if (numbered)
    return {
      device: numbered,
      fit: [numbered],
      by: 'key',
      said,
      misplaced: !isIn(numbered, where),
      unknown: [],
    };
  const words = wordsIn(tokens);
  const sized = table.filter(one => fitsSizes(one, sizes, counting));
  const fit = preferFamily(
    sized.filter(one => canBeCalled(one, words)),
    words,
  );
  const chosen = choose(fit, [], asked, said, pointing !== undefined, sizes.length > 0, words);
  if (chosen) {
    const exact = chosen.fit.filter(
      one => one.kind === kindNamed(tokens.map(({ text }) => text).join(' '))?.row.name,
    );
    const guess =
      key && chosen.fit.includes(key) ? key : (chosen.device ?? (exact.length === 1 ? exact[0] : undefined));
    return guess ? { ...chosen, device: guess } : chosen;
  }

  const kind = kindOf(tokens, words);
  // Words that a device of the table does not have may tell it from another: a person must say.
  const [part, head] = partOf(words);
  const near = preferFamily(
    sized.filter(one => head !== undefined && canBeCalled(one, [head])),
    [head ?? ''],
  );
  const other =
    kind &&
    where === 'outside' &&
    kind.how === 'listed' &&
    near.every(
      one =>
        one.kind !== kind.row.name &&
        (head === 'catheter' || !one.own.has(head ?? '') || familyNamed(head ?? '') !== undefined),
    );
  const unknown = tokens.filter(({ text }) =>
    wordsOf(text).some(
      word => !unheeded.has(word) && (word === part || !near.some(one => one.words.has(word))),
    ),
  );
  if (near.length > 0 && unknown.length > 0 && !(other && words.length > 1))
    return choose(near, unknown, asked, said, pointing !== undefined, false);
  if (!kind) return undefined;
  const proposal = proposed(kind.row, kind.rest, sizes);
  // Another of the family lies ready and no size tells them apart; or a figure says nothing that a size would.
  const unsized = proposal.size === undefined && proposal.diameter === undefined;
  const alike =
    unsized &&
    table.some(
      one => one.family === kind.row.family && (sizes.length > 0 || (one.inside < one.count && !one.used)),
    );
  const ready = table.filter(one => one.family === kind.row.family && one.inside < one.count && !one.used);
  if (unsized && sizes.length === 0 && ready.length === 1 && where === 'outside')
    return choose(ready, tokens, asked, said, pointing !== undefined, false);
  const figures = noun.tokens.filter(
    ({ piece }) =>
      (piece?.is === 'number' && !counting) || (piece?.is === 'pair' && proposal.size === undefined),
  );
  return { ...nothing(said), proposal, unknown: alike ? tokens : figures };
}

const wordsIn = (tokens: readonly Token[]) =>
  wordsOf(tokens.map(({ text }) => text).join(' ')).filter(word => !unheeded.has(word) && !/^\d/.test(word));

/** Parts that a device may be named by. */
export const partWords: ReadonlySet<string> = new Set([
  'lumens',
  'ends',
  'legs',
  'loops',
  'hook',
  'tip',
  'hub',
  'leg',
  'string',
  'thread',
  'end',
  'cuff',
  'loop',
  'half',
  'lumen',
  'port',
]);

/** A part at the end of the words, and the word of the device before it. */
function partOf(words: readonly string[]): readonly [string | undefined, string | undefined] {
  const last = words.at(-1);
  return last !== undefined && words.length > 1 && partWords.has(last)
    ? [last, words.at(-2)]
    : [undefined, last];
}

/** Whether a group of words ends as a place does. */
export const isPlace = (noun: Noun): boolean => {
  const words = wordTokens(noun).map(({ text }) => text);
  // A stent graft is no graft, and a gastrostomy tube no tube.
  return isPlaceWord(words.at(-1) ?? '') && kindNamed(words.join(' '))?.how !== 'listed';
};

export const wordsOfNoun = (noun: Noun) => wordsIn(wordTokens(noun));

/** Whether a group of words names no more than parts of something: `the loop`, `both lumens`. */
export const isPart = (noun: Noun): boolean => {
  const words = wordsOfNoun(noun);
  return words.length > 0 && words.every(word => partWords.has(word));
};

const nothing = (said: string): Named => ({ fit: [], by: 'new', said, misplaced: false, unknown: [] });
