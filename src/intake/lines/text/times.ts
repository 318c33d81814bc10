import { drugsIn } from '../../../trade/drugs/table.js';
import { entryAt, plainWord } from '../words/lexicon.js';
import type { Piece } from './pieces.js';

/** A later time of the line is at most so many minutes after the one at its front. */
const LATEST = 60;

const minutes = (at: string) => Number(at.slice(0, 2)) * 60 + Number(at.slice(3, 5));

/** A number as a clock would show it: `1417`, `14.17`. */
function clockIn(text: string): string | undefined {
  const found = /^(\d{2})(\d{2})h?$/i.exec(text) ?? /^(\d{1,2})\.(\d{2})$/.exec(text);
  const [, hour = '', minute = ''] = found ?? [];
  return found && Number(hour) < 24 && Number(minute) < 60 ? `${hour.padStart(2, '0')}:${minute}` : undefined;
}

const entryOf = (piece: Piece | undefined) =>
  piece?.is === 'word' ? entryAt([plainWord(piece.word)])?.entry : undefined;

const parts = (piece: Piece | undefined) =>
  piece === undefined ||
  (piece.is === 'mark' && /[,;.:]/.test(piece.mark)) ||
  entryOf(piece)?.role === 'joint';

const corrects = (pieces: readonly Piece[], index: number) => {
  const before = pieces.slice(Math.max(0, index - 3), index).filter(({ is }) => is !== 'mark');
  const last = before.at(-1);
  return last?.is === 'word' && (last.word.toLowerCase() === 'no' || entryOf(last)?.role === 'correction');
};

/**
 * Numbers that are times where they stand: at the end of a part of the line, or at its start after a time before.
 * What follows a drug is its dose.
 */
export function withTimes(pieces: readonly Piece[]): readonly Piece[] {
  const [front] = pieces;
  const own = front?.is === 'time' ? minutes(front.at) : undefined;
  let words: string[] = [];
  return pieces.map((piece, index): Piece => {
    if (parts(piece)) words = [];
    if (piece.is === 'word') words.push(piece.word);
    const at = piece.is === 'number' ? clockIn(piece.text) : undefined;
    if (at === undefined || drugsIn(words.join(' ')).length > 0) return piece;
    const [before, next] = [pieces[index - 1], pieces[index + 1]];
    const soon = own === undefined || (minutes(at) >= own && minutes(at) - own <= LATEST);
    const ends = parts(next) && before?.is === 'word';
    const starts = parts(before) && own !== undefined && next?.is === 'word';
    const instead = index > 1 && corrects(pieces, index) && (parts(next) || next?.is === 'word');
    if (!soon || !(ends || starts || instead)) return piece;
    const { start, end, text } = piece;
    return { start, end, text, is: 'time', at };
  });
}
