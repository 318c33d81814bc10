import { pad, width, wrap } from '../../report/render/wrap.js';
import { shown } from './shown.js';

/** Where the width of the terminal is not known. */
export const USUAL_COLUMNS = 80;
/** Longer lines are hard to read, however wide the window. */
const WIDEST = 120;
const NARROWEST = 20;

/** The width to write for: `COLUMNS` of the environment, else that of the terminal, else 80. */
export function columnsOf(asked: string | undefined, terminal: number | undefined): number {
  const columns =
    /^\d{1,4}$/.test(asked ?? '') && Number(asked) > 0 ? Number(asked) : terminal || USUAL_COLUMNS;
  return Math.min(WIDEST, Math.max(NARROWEST, columns));
}

/** However far in a text is, some of it must stand on a line. */
const LEAST = 4;

/** An address or a path is of use only whole. */
const WHOLE = /[/\\]\S*[/\\]|^\S+[/\\]\S+$/;

/** Lines of a paragraph, the first after `first` and the others after `rest`; nothing in `text` acts on a terminal. */
export function paragraph(
  text: string,
  columns: number,
  first = '',
  rest = ' '.repeat(width(first)),
): string[] {
  const line = shown(text).trim();
  if (width(first) + width(line) <= columns && !/\s{2}/.test(line)) return [`${first}${line}`];
  const room = Math.max(LEAST, columns - Math.max(width(first), width(rest)));
  return wrap(line, room, word => WHOLE.test(word)).map((one, i) => `${i === 0 ? first : rest}${one}`);
}

/** A paragraph as text. */
export function filled(text: string, columns: number | undefined, first = '', rest?: string): string {
  return linesText(paragraph(text, columns ?? USUAL_COLUMNS, first, rest));
}

export const linesText = (lines: readonly string[]): string =>
  lines.map(line => `${line.trimEnd()}\n`).join('');

/** As much of a text as fits, cut after a word where it can be, with `…` for the rest. */
export function cut(text: string, room: number): string {
  if (width(text) <= room) return text;
  const [line = ''] = wrap(text, Math.max(1, room - 2));
  return `${line} …`;
}

/** Narrower than this a column of a table is not read. */
const READABLE = 12;
/** Longer words may be cut. */
const LONG_WORD = 24;

/**
 * Rows in columns, the first row as heading; what is too wide is wrapped in its cell. Where the columns would be too
 * narrow to read, each row is a block with a line a cell.
 */
export function table(rows: readonly (readonly string[])[], columns: number = USUAL_COLUMNS): string {
  const cells = rows.map(row =>
    row.map(cell => ({ indent: /^ */.exec(cell)?.[0] ?? '', text: shown(cell).trim() })),
  );
  const natural = (cells[0] ?? []).map((_, at) =>
    Math.max(...cells.map(row => width(row[at]?.text ?? '') + (row[at]?.indent.length ?? 0))),
  );
  const least = natural.map((_, at) =>
    at === natural.length - 1 ? READABLE : leastOf(cells.map(row => row[at]?.text ?? '')),
  );
  const widths = shrunk(natural, least, columns - 2 * (natural.length - 1));
  if (!widths) return blocks(rows, columns);
  return cells
    .map(row => {
      const lines = row.map(({ text, indent }, at) =>
        paragraph(text, widths[at] ?? 0, indent, `${indent}${at === 0 ? '  ' : ''}`),
      );
      const high = Math.max(...lines.map(cell => cell.length));
      return linesText(
        Array.from({ length: high }, (_, i) =>
          lines.map((cell, at) => pad(cell[i] ?? '', widths[at] ?? 0)).join('  '),
        ),
      );
    })
    .join('');
}

/** What a column needs: room for its words, and for what is of use only whole. In the last one that may stand out. */
function leastOf(texts: readonly string[]): number {
  const words = texts.flatMap(text => text.split(' '));
  return Math.max(
    READABLE,
    ...words.map(word => (WHOLE.test(word) ? width(word) : Math.min(width(word), LONG_WORD))),
  );
}

/** Widths that fit, taken from the widest columns; undefined where one could not be read any more. */
function shrunk(natural: readonly number[], least: readonly number[], room: number): number[] | undefined {
  const widths = [...natural];
  for (let over = sum(widths) - room; over > 0; over -= 1) {
    const widest = Math.max(...widths.filter((width, at) => width > (least[at] ?? 0)));
    const at = widths.findLastIndex((width, i) => width === widest && width > (least[i] ?? 0));
    if (at < 0) return undefined;
    widths[at] = widest - 1;
  }
  return widths;
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

function blocks([heading = [], ...rows]: readonly (readonly string[])[], columns: number): string {
  const lines = rows.map(row =>
    row.flatMap((cell, at) => {
      if (at === 0) return paragraph(cell.trim(), columns, '', '  ');
      return cell === '' ? [] : paragraph(`${heading[at] ?? ''}: ${cell}`, columns, '  ', '    ');
    }),
  );
  return lines.map(linesText).join('');
}
