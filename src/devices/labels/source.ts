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

/** Puts the group separator in place of its aliases; `replaced` counts them. */
export function replaceAliases(
  source: Source,
  aliases: readonly string[],
): { source: Source; replaced: number } {
  const { text } = source;
  const ordered = aliases.filter(alias => alias !== '' && alias !== GS).sort((a, b) => b.length - a.length);
  const origin: number[] = [];
  let out = '';
  let replaced = 0;
  // An alias, the longest first, or else one character.
  const escaped = ordered.map(alias => alias.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'));
  for (const { 0: part, index } of text.matchAll(new RegExp([...escaped, '.'].join('|'), 'gs'))) {
    const alias = ordered.includes(part);
    origin.push(source.at(index));
    out += alias ? GS : part;
    if (alias) replaced += 1;
  }
  const end = source.at(text.length);
  return { source: { text: out, at: index => origin[index] ?? end }, replaced };
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
