import stringWidth from 'string-width';
import { remembered } from '../../record/remembered.js';

/** Columns that a text takes on a terminal or a plain text field: wide characters count two, marks none. */
export const width = (text: string): number => (ASCII.test(text) ? text.length : widthOf(text));

const widthOf = remembered(stringWidth);

/** Most words are, and then every character takes one column. */
const ASCII = /^[ -~]*$/;

const segments = new Intl.Segmenter('en', { granularity: 'grapheme' });

/**
 * Wraps text at spaces to lines of at most `columns`; a longer word is cut between characters.
 * @param whole words that are never cut, however long
 */
export function wrap(
  text: string,
  columns: number,
  whole: (word: string) => boolean = () => false,
): string[] {
  const lines: string[] = [];
  let line = '';
  let used = 0;
  const flush = () => {
    lines.push(line);
    line = '';
    used = 0;
  };
  for (const word of text.split(/\s+/).filter(w => w !== '')) {
    const w = width(word);
    if (used > 0 && used + 1 + w > columns) flush();
    if (w <= columns || whole(word)) {
      line += used > 0 ? ` ${word}` : word;
      used += (used > 0 ? 1 : 0) + w;
      continue;
    }
    for (const segment of characters(word)) {
      const s = width(segment);
      if (used > 0 && used + s > columns) flush();
      line += segment;
      used += s;
    }
  }
  if (line !== '' || lines.length === 0) flush();
  return lines;
}

/** What must not be parted: a letter with its marks, an emoji with its joiners. */
function characters(word: string): Iterable<string> {
  return ASCII.test(word) ? word : Array.from(segments.segment(word), ({ segment }) => segment);
}

/** Text followed by spaces up to the column. */
export function pad(text: string, columns: number): string {
  return text + ' '.repeat(Math.max(0, columns - width(text)));
}
