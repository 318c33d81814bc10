import bidiJs from 'bidi-js';

/** One stretch of a line in one direction, in the order in which it is drawn from left to right. */
export interface Run {
  readonly text: string;
  /** From the left end of the line, in points. */
  readonly x: number;
}

export interface Line {
  readonly runs: readonly Run[];
  readonly width: number;
}

/** Width of text in points. */
export type Measure = (text: string) => number;

/** The package is its factory, while its types say that the factory is the default export. */
const isFactory = (value: unknown): value is typeof bidiJs.default => typeof value === 'function';
const bidi = (isFactory(bidiJs) ? bidiJs : bidiJs.default)();

/** Hebrew, Arabic and their neighbours: everything else needs no reordering. */
export const RIGHT_TO_LEFT =
  /[\u0590-\u08ff\u200f\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
const segments = new Intl.Segmenter('en', { granularity: 'grapheme' });

/**
 * Lays text out in lines of at most `width` points: parted at spaces, and inside a word only where the word is wider
 * than a line. Right-to-left scripts are put in the order of Unicode Standard Annex 9 within a left-to-right paragraph.
 * @param text printable text with single spaces (see `printable`)
 */
export function layLines(text: string, width: number, measure: Measure): Line[] {
  const ranges = breakUp(text, width, measure);
  if (!RIGHT_TO_LEFT.test(text))
    return ranges.map(([start, end]) => {
      const line = text.slice(start, end);
      return { runs: [{ text: line + spaceAfter(text, end), x: 0 }], width: measure(line) };
    });
  const levels = bidi.getEmbeddingLevels(text, 'ltr');
  return ranges.map(([start, end]) => visual(text, levels, start, end, measure));
}

type Range = readonly [start: number, end: number];

function breakUp(text: string, width: number, measure: Measure): Range[] {
  const lines: Range[] = [];
  const space = measure(' ');
  let start = 0;
  let end = 0;
  let used = 0;
  const flush = (next: number) => {
    if (end > start) lines.push([start, end]);
    start = next;
    end = next;
    used = 0;
  };
  for (const { 0: word, index } of text.matchAll(/[^ ]+/g)) {
    const w = measure(word);
    if (used > 0 && used + space + w > width) flush(index);
    if (used === 0) start = index;
    if (w <= width) {
      used += (used > 0 ? space : 0) + w;
      end = index + word.length;
      continue;
    }
    for (const { segment, index: at } of segments.segment(word)) {
      const s = measure(segment);
      if (used > 0 && used + s > width) flush(index + at);
      used += s;
      end = index + at + segment.length;
    }
  }
  flush(text.length);
  return lines;
}

/** A line ends with a space, so that its last word and the first of the next line are two words to who cannot see the break. */
const spaceAfter = (text: string, end: number) => (end === text.length || text[end] === ' ' ? ' ' : '');

/** The stretches of one line from left to right. */
function visual(
  text: string,
  levels: ReturnType<typeof bidi.getEmbeddingLevels>,
  start: number,
  end: number,
  measure: Measure,
): Line {
  const order = bidi.getReorderedIndices(text, levels, start, end - 1);
  const mirrored = bidi.getMirroredCharactersMap(text, levels.levels, start, end - 1);
  const pieces: string[] = [];
  let from = 0;
  while (from < order.length) {
    const level = levels.levels[order[from] ?? 0] ?? 0;
    let to = from + 1;
    const step = level % 2 === 0 ? 1 : -1;
    while (
      to < order.length &&
      levels.levels[order[to] ?? 0] === level &&
      order[to] === (order[to - 1] ?? 0) + step
    )
      to += 1;
    const at = Math.min(order[from] ?? 0, order[to - 1] ?? 0);
    const logical = Array.from(
      { length: to - from },
      (_, i) => mirrored.get(at + i) ?? text[at + i] ?? '',
    ).join('');
    pieces.push(...(step === 1 ? [logical] : backwards(logical)));
    from = to;
  }
  let x = 0;
  const runs = pieces.map((piece): Run => {
    const run = { text: piece, x };
    x += measure(piece);
    return run;
  });
  const space = spaceAfter(text, end);
  return { runs: space === '' ? runs : [...runs, { text: space, x }], width: x };
}

/** Words of a right-to-left stretch from left to right. The font turns the letters of a word; signs of no script it leaves. */
function backwards(stretch: string): string[] {
  return (stretch.match(/ +|[^ ]+/g) ?? [])
    .map(word => (RIGHT_TO_LEFT.test(word) ? word : Array.from(word).reverse().join('')))
    .reverse();
}
