import { kindNamed } from '../../devices/kinds.js';
import { wordsOf } from '../../trade/words.js';
import type { Noun, Token } from './clauses.js';
import type { Piece } from './pieces.js';
import { familyNamed, hasMeasure, type OnTable } from './table.js';
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
}

type Sized = Extract<Piece, { is: 'amount' | 'wire' | 'pair' | 'number' | 'span' }>;

const isSized = (piece: Piece | undefined): piece is Sized =>
  piece !== undefined && ['amount', 'wire', 'pair', 'number', 'span'].includes(piece.is);

/** Words of a group that name something: no article, no number, no `first`. */
export const wordTokens = (noun: Noun): Token[] =>
  noun.tokens.filter(({ piece, entry }) => piece?.is === 'word' && entry === undefined);

const unheeded = new Set(['one', 'new', 'french', 'device', 'number', 'previous']);

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

/** Bare numbers of a group say how many and not how large: `two coils`, `coil number three`. */
export const countsIn = (noun: Noun): boolean =>
  noun.tokens.some(({ entry }) => entry?.role === 'which') ||
  noun.tokens.some(
    ({ piece }, index) =>
      piece?.is === 'number' &&
      /^[1-9]$|^1\d$/.test(piece.value) &&
      /s$/i.test(noun.tokens[noun.tokens.length - 1]?.text ?? '') &&
      index === 0,
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
  if (key && fitsSizes(key, sizes, true) && familyNamed(key.key.toLowerCase()) === undefined)
    return { device: key, fit: [key], by: 'key', said, misplaced: !isIn(key, where), unknown: [] };

  if (tokens.length === 0) {
    if (pointing) return pronoun(asked, said);
    const real = sizes.filter(size => size.is !== 'number' || !counting);
    if (
      real.length === 0 ||
      (real.length === 1 && real[0]?.is === 'amount' && !['length', 'calibre'].includes(real[0].dimension))
    )
      return undefined;
    const fit = table.filter(one => fitsSizes(one, sizes, counting) && (asked.can?.(one) ?? true));
    const chosen = choose(fit, [], asked, said, pointing !== undefined, true);
    return (
      chosen ??
      (asked.kind === undefined ? undefined : { ...nothing(said), proposal: proposed(asked.kind, [], sizes) })
    );
  }

  const words = wordsOf(tokens.map(({ text }) => text).join(' ')).filter(
    word => !unheeded.has(word) && !/^\d/.test(word),
  );
  const sized = table.filter(one => fitsSizes(one, sizes, counting));
  const fit = preferFamily(
    sized.filter(one => words.every(word => one.words.has(word))),
    words,
  );
  const chosen =
    words.length > 0 || sizes.length > 0
      ? choose(fit, [], asked, said, pointing !== undefined, sizes.length > 0)
      : undefined;
  if (chosen && !(chosen.misplaced && where === 'outside' && sizes.length === 0 && chosen.fit.length > 1))
    return chosen;

  const kind = kindOf(tokens, words);
  // Words that a device of the table does not have may tell it from another: a person must say.
  const head = words.at(-1) ?? '';
  const near = sized.filter(one => one.words.has(head) && (words.length > 1 || !kind));
  if (
    near.length > 0 &&
    !(
      kind &&
      where === 'outside' &&
      kind.row.name !== near[0]?.kind &&
      kind.how === 'listed' &&
      words.length > 1
    )
  ) {
    const unknown = tokens.filter(({ text }) =>
      wordsOf(text).some(word => !near.some(one => one.words.has(word))),
    );
    const weak = choose(preferFamily(near, [head]), unknown, asked, said, pointing !== undefined, false);
    if (weak && unknown.length > 0) return weak;
  }
  if (!kind) return undefined;
  return { ...nothing(said), proposal: proposed(kind.row.name, kind.rest, sizes) };
}

const nothing = (said: string): Named => ({ fit: [], by: 'new', said, misplaced: false, unknown: [] });

function choose(
  fit: readonly OnTable[],
  unknown: readonly Token[],
  { where, spokenOf }: Asked,
  said: string,
  pointed: boolean,
  sized: boolean,
): Named | undefined {
  if (fit.length === 0) return undefined;
  const right = fit.filter(one => isIn(one, where));
  const left = right.length > 0 ? right : fit;
  const misplaced = right.length === 0;
  const last = spokenOf.find(key => left.some(one => one.key === key));
  const device = left.length === 1 ? left[0] : left.find(one => one.key === last);
  const sure = left.length === 1 || pointed;
  const by = left.length > 1 ? 'spoken of last' : fit.length > 1 ? 'state' : sized ? 'size' : 'words';
  return { ...(device && { device }), fit: sure && device ? [device] : left, by, said, misplaced, unknown };
}

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

/** The kind that the words name, and the words that describe it. */
function kindOf(tokens: readonly Token[], words: readonly string[]) {
  for (let from = 0; from < tokens.length; from++) {
    const text = tokens
      .slice(from)
      .map(one => one.text)
      .join(' ');
    const found = kindNamed(text);
    if (!found) continue;
    const own = new Set([found.row.name, ...found.row.aliases].flatMap(wordsOf));
    const rest = tokens
      .filter(({ text: one }) => wordsOf(one).some(word => !own.has(word)))
      .map(({ text: one }) => one);
    return { ...found, rest: rest.filter(one => words.some(word => wordsOf(one).includes(word))) };
  }
  return undefined;
}

function proposed(kind: string, rest: readonly string[], sizes: readonly Sized[]): ProposedDevice {
  const description = rest.length > 0 ? { description: rest.join(' ') } : {};
  const wire = sizes.find(size => size.is === 'wire');
  const pair = sizes.find(size => size.is === 'pair');
  const amount = sizes.find(size => size.is === 'amount');
  const bare = sizes.find(size => size.is === 'span');
  if (wire?.is === 'wire') return { kind, diameter: wire.amount, ...description };
  if (pair?.is === 'pair') {
    const size = pairText(pair);
    return { kind, ...(size !== undefined && { size }), ...description };
  }
  if (bare?.is === 'span') return { kind, size: bare.amount, ...description };
  if (amount?.is === 'amount')
    return amount.unit === 'cm'
      ? { kind, length: amount.amount, ...description }
      : { kind, size: amount.amount, ...description };
  return { kind, ...description };
}

/** A pair without units stays unsaid, since 4 by 8 is 8 mm of a balloon and 8 cm of a coil. */
function pairText(pair: Extract<Piece, { is: 'pair' }>): string | undefined {
  const unit = pair.unit ?? (pair.lengthUnit === 'mm' ? 'mm' : undefined);
  return unit !== undefined && pair.lengthUnit !== undefined
    ? `${pair.first} ${unit} x ${pair.second} ${pair.lengthUnit}`
    : undefined;
}
