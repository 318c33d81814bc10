import type { Span } from '../types.js';
import type { Entry } from '../words/entry.js';
import { entryAt, isAbbreviation, plainWord } from '../words/lexicon.js';
import type { Piece } from './pieces.js';

/** A word, a phrase or an amount of a line with what it does there. */
export interface Token extends Span {
  readonly entry?: Entry;
  readonly piece?: Piece;
}

type Word = Extract<Piece, { is: 'word' }>;

/** Marks that stand for a word or for the end of a part, by what is around them. */
function markEntry(piece: Piece, before: Piece | undefined, next: Piece | undefined): Entry | undefined {
  if (piece.is !== 'mark') return undefined;
  if (/[?&+]/.test(piece.mark)) return entryAt([piece.mark])?.entry;
  const apart =
    before !== undefined && before.end < piece.start && next !== undefined && next.start > piece.end;
  if (/[-–—]/.test(piece.mark) && apart) return { role: 'joint', joint: 'comma' };
  if (/[()[\]→]/.test(piece.mark)) return { role: 'joint', joint: 'comma' };
  return undefined;
}

/** A stop after a word cut short, and the stroke of `w/`, say nothing. */
function isSilent(piece: Piece, before: Piece | undefined, next: Piece | undefined): boolean {
  if (piece.is !== 'mark' || before?.is !== 'word' || before.end !== piece.start) return false;
  const goesOn = next !== undefined && !/^[A-Z]/.test(next.text);
  return (
    (piece.mark === '.' && (isAbbreviation(before.word) || before.end - before.start === 1) && goesOn) ||
    (piece.mark === '/' && /^w$/i.test(before.word))
  );
}

/** `needle's` is the needle and what is said of it; `w.` is a wire. */
function parted(pieces: readonly Piece[]): Piece[] {
  return pieces.flatMap((piece, index): Piece[] => {
    const next = pieces[index + 1];
    if (piece.is === 'word' && /^w$/i.test(piece.word) && next?.is === 'mark' && next.mark === '.')
      return [{ ...piece, text: 'wire', word: 'wire' }];
    if (
      piece.is === 'number' &&
      next?.is === 'word' &&
      next.start === piece.end &&
      /^(?:st|nd|rd|th)$/i.test(next.word)
    ) {
      const word = `${piece.text}${next.word}`;
      return [{ is: 'word', start: piece.start, end: next.end, text: word, word }];
    }
    const before = pieces[index - 1];
    if (
      piece.is === 'word' &&
      before?.is === 'number' &&
      before.end === piece.start &&
      /^(?:st|nd|rd|th)$/i.test(piece.word)
    )
      return [];
    if (piece.is !== 'word' || entryAt([plainWord(piece.word)])) return [piece];
    const short = /^(.{2,})['’](s|re|ve)$/i.exec(piece.word);
    const word = short?.[1];
    if (word === undefined) return [piece];
    const middle = piece.start + word.length;
    return [
      { ...piece, end: middle, text: word, word },
      { is: 'word', start: middle, end: piece.end, text: piece.text.slice(word.length), word: "'s" },
    ];
  });
}

/** The pieces with their entries; words of one phrase are one token. */
export function tokensOf(said: readonly Piece[]): Token[] {
  const pieces = parted(said).filter((piece, index, all) => !isSilent(piece, all[index - 1], all[index + 1]));
  const tokens: Token[] = [];
  for (let index = 0; index < pieces.length; ) {
    const piece = pieces[index] as Piece;
    if (piece.is !== 'word') {
      const entry = markEntry(piece, pieces[index - 1], pieces[index + 1]);
      tokens.push({ start: piece.start, end: piece.end, text: piece.text, piece, ...(entry && { entry }) });
      index++;
      continue;
    }
    const words: string[] = [];
    for (let next = index; next < pieces.length && words.length < 6; next++) {
      const one = pieces[next] as Piece;
      if (one.is !== 'word') break;
      words.push(plainWord(one.word));
    }
    tokens.push(tokenAt(pieces, index, words));
    const { end } = tokens.at(-1) as Token;
    while (index < pieces.length && (pieces[index] as Piece).start < end) index++;
  }
  return tokens;
}

function tokenAt(pieces: readonly Piece[], index: number, words: readonly string[]): Token {
  const piece = pieces[index] as Word;
  const times = /^x(\d{1,2})$/.exec(words[0] ?? '')?.[1];
  const found = times ? { entry: { role: 'times' as const }, length: 1 } : entryAt(words);
  const length = found?.length ?? 1;
  const last = pieces[index + length - 1] as Piece;
  return {
    start: piece.start,
    end: last.end,
    text: length > 1 ? words.slice(0, length).join(' ') : piece.text,
    piece,
    ...(found && { entry: found.entry }),
  };
}
