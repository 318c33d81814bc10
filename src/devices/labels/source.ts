import { type Message, message, quoted } from '../../findings/message.js';

/** The text being read, together with where each of its characters stood in what was typed or scanned. */
export interface Source {
  readonly text: string;
  /** Position in the original text, from 1, of character `index` of `text`. */
  readonly at: (index: number) => number;
}

/** The group separator that stands for FNC1 in what a scanner sends. */
export const GS = '\u001d';

/** A part of the original text that starts at character `skipped` (from 0). */
export function plainSource(text: string, skipped: number): Source {
  return { text, at: index => skipped + index + 1 };
}

/**
 * What scanners and programs print for the group separator when they cannot send the character itself.
 * None of these holds a character that GS1 allows in data, except the bracketed words, which no lot spells.
 */
export const separatorAliases: readonly string[] = [
  '<GS>',
  '{GS}',
  '[GS]',
  '<FNC1>',
  '{FNC1}',
  '[FNC1]',
  '\\x1d',
  '\\x1D',
  '\\u001d',
  '\\u001D',
  '|',
  '~',
  '\u241d',
  '\u2194',
];

const patterns = new WeakMap<readonly string[], RegExp>();

/** Any of the aliases, the longest first; made once for a list. */
function patternOf(aliases: readonly string[]): RegExp {
  const known = patterns.get(aliases);
  if (known) return known;
  const ordered = aliases.filter(alias => alias !== '' && alias !== GS).sort((a, b) => b.length - a.length);
  const escaped = ordered.map(alias => alias.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'));
  // Where there are none, nothing is found.
  const made = new RegExp([...escaped, '(?!)'].join('|'), 'g');
  patterns.set(aliases, made);
  return made;
}

/** Puts the group separator in place of its aliases; `replaced` counts them. */
export function replaceAliases(
  source: Source,
  aliases: readonly string[],
): { source: Source; replaced: number } {
  /** After which character of the text, with one GS for each alias, so many more were taken out. */
  const shifts: { readonly after: number; readonly by: number }[] = [];
  let by = 0;
  const text = source.text.replace(patternOf(aliases), (alias, index: number) => {
    shifts.push({ after: index - by, by: by + alias.length - 1 });
    by += alias.length - 1;
    return GS;
  });
  const shiftAt = (index: number) => shifts.findLast(({ after }) => after < index)?.by ?? 0;
  return { source: { text, at: index => source.at(index + shiftAt(index)) }, replaced: shifts.length };
}

/** A stretch of a source, positions kept. */
export function sliceSource(source: Source, start: number, end?: number): Source {
  return { text: source.text.slice(start, end), at: index => source.at(start + index) };
}

/** A source without its white space; the other characters keep their positions. */
export function withoutSpaces(source: Source): Source {
  const kept = source.text.split('').map((c, i) => ({ c, i }));
  const left = kept.filter(({ c }) => !/\s/.test(c));
  const end = source.at(source.text.length);
  return {
    text: left.map(({ c }) => c).join(''),
    at: index => (left[index] === undefined ? end : source.at(left[index].i)),
  };
}

/** A character as a message shows it: control characters and spaces by name. */
export function shown(character: string | undefined): Message {
  if (character === undefined) return message('char.end');
  if (character === ' ') return message('char.space');
  const code = character.codePointAt(0) ?? 0;
  if (character === GS) return message('char.separator');
  return code <= 0x1f || code === 0x7f ? message('char.control', { code: `${code}` }) : quoted(character);
}
