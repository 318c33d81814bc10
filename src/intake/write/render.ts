import type { Tree } from '../../record/read.js';

/** How text is put into a file: as YAML in blocks, as YAML in braces, or as JSON. */
export type Style = 'block' | 'braces' | 'json';

/** Widest that a group stands on one line. */
const ONE_LINE = 110;

/** A value on one line, whatever signs its texts have. */
export function inline(value: Tree, style: Style): string {
  if (typeof value === 'string') return style === 'json' ? quoted(value) : scalar(value);
  if (typeof value === 'boolean') return String(value);
  const list = Array.isArray(value);
  const parts = list
    ? value.map(item => inline(item, style))
    : Object.entries(value).map(([key, child]) => `${keyText(key, style)}: ${inline(child, style)}`);
  if (parts.length === 0) return list ? '[]' : '{}';
  return list ? `[${parts.join(', ')}]` : `{ ${parts.join(', ')} }`;
}

/** A value after its key: on the same line, or on lines of its own below it, further in by two. */
export function afterKey(value: Tree, style: Style, indent: string): string {
  const flat = inline(value, style);
  if (style !== 'block' || typeof value !== 'object') return ` ${flat}`;
  if (isFlat(value) && flat.length + indent.length <= ONE_LINE) return ` ${flat}`;
  const inner = `${indent}  `;
  const lines = Array.isArray(value)
    ? value.map(item => `${inner}- ${inline(item, style)}`)
    : Object.entries(value).map(
        ([key, child]) => `${inner}${keyText(key, style)}:${afterKey(child, style, inner)}`,
      );
  return `\n${lines.join('\n')}`;
}

/** Plain values alone are read best on one line; lists of groups, and groups within groups, on several. */
const isFlat = (value: Tree): boolean =>
  typeof value !== 'object' || Object.values(value).every(child => typeof child !== 'object');

export const keyText = (key: string, style: Style): string =>
  style !== 'json' && /^[A-Za-z][\w-]*$/.test(key) && !isWord(key) ? key : quoted(key);

/** Words that YAML takes for something other than text. */
const isWord = (text: string) => /^(?:true|false|null|yes|no|on|off)$/i.test(text);

/**
 * Text without quotes where every reader of YAML takes it for the same text. Numbers with a point and times of day are quoted, so that
 * no tool drops a zero or counts in sixties.
 */
function scalar(text: string): string {
  const plain =
    /^[\p{L}\d](?:[\p{L}\p{N} _.,;/()+=<>·%°²³×-]|:(?=\S))*$/u.test(text) &&
    !/[,]|\s$|\s{2}/.test(text) &&
    !/^(?:0\d|\d+(?:\.|:|e)|0[xob])[\d:.a-f]*$/i.test(text);
  return plain && (!isWord(text) || /^(?:yes|no)$/.test(text)) ? text : quoted(text);
}

/** As JSON has it, which YAML reads alike; what some readers take for the end of a line is written by its number. */
const quoted = (text: string): string =>
  JSON.stringify(text).replace(
    /[\u007f-\u009f\u2028\u2029\ufeff]/g,
    sign => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
