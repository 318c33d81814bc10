import { textsOf } from '../../../src/findings/languages.js';
import { isWordKey, lexicon } from '../../../src/findings/say.js';

const MONTHS = 'January February March April May June July August September October November December'.split(
  ' ',
);
const month = (name: string) => String(MONTHS.indexOf(name) + 1).padStart(2, '0');
const DAY = new RegExp(
  `\\b(?:(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day )?(\\d{1,2}) (${MONTHS.join('|')}) (\\d{4})(?:, (\\d{2}:\\d{2}))?`,
  'g',
);
const PART = new RegExp(`\\b(${MONTHS.join('|')}) (\\d{4})`, 'g');

/** Text with printed dates as ISO ones, small letters and single spaces, so that paper and resource can be laid side by side. */
export function plain(text: string): string {
  return text
    .replace(
      DAY,
      (_, d: string, m: string, y: string, clock?: string) =>
        `${y}-${month(m)}-${d.padStart(2, '0')}${clock === undefined ? '' : `T${clock}`}`,
    )
    .replace(PART, (_, m: string, y: string) => `${y}-${month(m)}`)
    .replace(/(T\d{2}:\d{2}):\d{2}(?:\.\d+)?(?:Z|[+-]\d{2}:\d{2})?/g, '$1')
    .replace(/ ?\(UTC[+-]\d{2}:\d{2}\)/g, '')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .trim();
}

const printer = lexicon('en-GB');

/** A quantity as the report prints it. */
export const printed = (value: string, unit: string, code: string) => printer.quantity({ value, unit, code });

/** The words of the catalogue: what the report says of itself. Longest first. */
const fixed = [
  ...new Set(
    Object.entries(textsOf('en-GB'))
      .filter(([key]) => isWordKey(key))
      .flatMap(([, sentence]) =>
        sentence.split(/\{\w+\}/).map(piece => plain(piece).replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '')),
      ),
  ),
]
  .filter(piece => piece.length > 1)
  .sort((a, b) => b.length - a.length);

const isFixed: ReadonlySet<string> = new Set(fixed);

/** Pieces of a line that say something of the case: what stands between marks, but for the catalogue's own words. */
export function pieces(line: string): string[] {
  return plain(line)
    .split(/[;:,()[\]×]+(?=\s|$)|\s[(×]|(?<=\s)[([×]|\s–\s/u)
    .map(strip)
    .filter(piece => piece !== '');
}

/** Takes the catalogue's words off both ends, until a word of the case stands there. */
function strip(piece: string): string {
  const text = piece.replace(/^[\s"'.:;,()[\]]+|[\s"'.:;,()[\]]+$/g, '');
  if (text === '' || isFixed.has(text)) return '';
  const word = fixed.find(w => text.startsWith(`${w} `) || text.endsWith(` ${w}`));
  if (word === undefined) return text;
  return strip(text.startsWith(`${word} `) ? text.slice(word.length) : text.slice(0, -word.length));
}

/** Words of one side, to look pieces up in. */
export interface Pool {
  readonly text: string;
  readonly words: ReadonlySet<string>;
}

export const wordsIn = (text: string): string[] =>
  text.match(/[\p{L}\p{N}µ%°]+(?:[.:'’/·-][\p{L}\p{N}²³]+)*/gu) ?? [];

export function pool(texts: readonly string[]): Pool {
  const text = ` ${texts.map(plain).join(' | ')} `;
  return { text, words: new Set(wordsIn(text)) };
}

/** Words that the report says of itself, one by one. */
const ownWords: ReadonlySet<string> = new Set(fixed.flatMap(wordsIn));

/** A number with its unit; both must stand side by side on the other page too. */
const QUANTITY =
  /(?:[<>]=? ?)?\d+(?:\.\d+)? ?(?:fr|g|mm|cm|m|in|ml|l|mg|µg|iu|mgy|gy·cm²|m?gy·cm|gy|µmol\/l|mmol\/l|g\/l|mg\/l|mg\/ml|%|atm|mmhg|°c|kg|minutes?|seconds?|hours?|days?|weeks?|months?)(?![\p{L}\p{N}/·²])/gu;

/** Pieces of a text that the other side lacks: a quantity not there as it stands, or a word of the case not there at all. */
export function missing(text: string, other: Pool, spare: ReadonlySet<string> = new Set()): string[] {
  return pieces(text).filter(piece => {
    if (other.text.includes(piece)) return false;
    const clock = /^(?:\d{4}-\d{2}-\d{2}t)?(\d{2}:\d{2})$/.exec(piece)?.[1];
    if (clock !== undefined && other.text.includes(clock)) return false;
    const lost = (piece.match(QUANTITY) ?? []).some(quantity => !other.text.includes(quantity));
    return (
      lost ||
      wordsIn(piece).some(
        word =>
          !other.words.has(word) && !ownWords.has(word) && !spare.has(word) && !other.text.includes(word),
      )
    );
  });
}
