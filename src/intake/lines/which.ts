import { kindNamed } from '../../devices/kinds.js';
import { wordsOf } from '../../trade/words.js';
import type { Noun } from './clauses.js';
import type { Piece } from './pieces.js';
import { isPlaceWord } from './places.js';
import { kindOf, proposed, rowOf, type Sized } from './proposal.js';
import { canBeCalled, familyNamed, hasMeasure, type OnTable } from './table.js';
import type { Token } from './tokens.js';
import type { Meant, ProposedDevice } from './types.js';

/** Where a device must be for what is said of it. */
export type Where = 'inside' | 'outside' | 'anywhere';

/** What some words mean on the table. */
export interface Named {
  /** The device; absent where none fits, or several and nothing tells them apart. */
  readonly device?: OnTable;
  /** All that fit equally. */
  readonly fit: readonly OnTable[];
  readonly by: Meant['by'];
  readonly said: string;
  /** It is not where it must be. */
  readonly misplaced: boolean;
  /** Words of the group that this device does not have. */
  readonly unknown: readonly Token[];
  /** Those that the words fit as well, and that are not where it must be. */
  readonly rivals?: readonly string[];
  /** What would be put on the table, where the words name a kind and no device fits. */
  readonly proposal?: ProposedDevice;
}

export interface Asked {
  readonly table: readonly OnTable[];
  /** Keys, those spoken of last first. */
  readonly spokenOf: readonly string[];
  readonly where: Where;
  /** What it can be: of pronouns, and of sizes alone. */
  readonly can?: (device: OnTable) => boolean;
  /** Kind for a size that has no word with it: `upsized to 10 French`. */
  readonly kind?: string;
  /** Family of what the line was about: that of `the ten French one`. */
  readonly alike?: OnTable['family'];
}

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

const isIn = (device: OnTable, where: Where): boolean =>
  where === 'anywhere' || (where === 'inside' ? device.inside > 0 : device.inside < device.count);

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

function choose(
  fit: readonly OnTable[],
  unknown: readonly Token[],
  { where, spokenOf }: Asked,
  said: string,
  pointed: boolean,
  sized: boolean,
  words: readonly string[] = [],
): Named | undefined {
  if (fit.length === 0) return undefined;
  const right = fit.filter(one => isIn(one, where));
  const there = right.length > 0 ? right : fit;
  // Of those that nothing tells apart the first lies ready; else those whose own words they are.
  const plainly =
    where === 'outside' && !words.some(word => /^micro/.test(word))
      ? there.filter(one => !one.words.has('micro'))
      : there;
  const usual = plainly.length > 0 && plainly.length < there.length && words.length > 0 ? plainly : there;
  const named = usual.filter(one => words.length > 0 && words.every(word => one.own.has(word)));
  const few = named.length > 0 ? named : usual;
  const left = where !== 'inside' && few.every(one => isAlike(one, few[0])) ? few.slice(0, 1) : few;
  const misplaced = right.length === 0;
  const last = spokenOf.find(key => left.some(one => one.key === key));
  const unused =
    where === 'outside'
      ? left.find(one => !one.used && guessable.has(one.family) && !left.every(other => isNear(one, other)))
      : undefined;
  const device =
    left.length === 1
      ? left[0]
      : (left.find(one => one.key === last && (where !== 'outside' || !one.used)) ??
        unused ??
        left.find(one => one.key === last));
  const rivals = fit.filter(one => !left.includes(one)).map(({ key }) => key);
  const sure = left.length === 1 || pointed;
  const by = left.length > 1 ? 'spoken of last' : fit.length > 1 ? 'state' : sized ? 'size' : 'words';
  return {
    ...(device && { device }),
    fit: sure && device ? [device] : left,
    by,
    said,
    misplaced,
    unknown,
    rivals,
  };
}

/** What is taken in the order of the table where nothing tells several apart. */
const guessable: ReadonlySet<string | undefined> = new Set(['guidewire', 'catheter']);

/** No more than their lengths tell them apart. */
const isNear = (one: OnTable, other: OnTable): boolean =>
  one.kind === other.kind &&
  one.description === other.description &&
  JSON.stringify(one.measures[0]) === JSON.stringify(other.measures[0]);

/** Nothing but its key tells it from another. */
export const isAlike = (one: OnTable, other: OnTable | undefined): boolean =>
  other !== undefined &&
  one.kind === other.kind &&
  one.description === other.description &&
  JSON.stringify(one.measures) === JSON.stringify(other.measures);

/** `it`: what was spoken of last and is where it must be. */
function pronoun(asked: Asked, said: string): Named | undefined {
  const { table, where, can, spokenOf } = asked;
  const fit = table.filter(one => isIn(one, where) && (can?.(one) ?? true));
  const last = spokenOf.find(key => fit.some(one => one.key === key));
  const device = fit.find(one => one.key === last);
  return device && { device, fit: [device], by: 'spoken of last', said, misplaced: false, unknown: [] };
}

/** A bare `balloon` is a balloon before it is a tube that a balloon holds. */
function preferFamily(fit: readonly OnTable[], words: readonly string[]): readonly OnTable[] {
  const family = familyNamed(words.at(-1) ?? '');
  const own = fit.filter(one => one.family === family);
  return family !== undefined && own.length > 0 ? own : fit;
}
