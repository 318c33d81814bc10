import { codePoint } from '../../record/code-point.js';

/** What a terminal acts on or that turns text round, line ends and tabs among it: C0, C1, line separators, bidi controls, halves of pairs. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it looks for
const ACTING = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]|\p{Cs}/gu;

/** Text on one line that no terminal acts on: a line end or tab becomes a blank, anything else its code point, `<U+001B>`. */
export function shown(text: string): string {
  return text.replace(/\r\n?|[\n\t]/g, ' ').replace(ACTING, visible);
}

/** Colours are the one sequence that we write ourselves. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it looks for
const OURS = /\u001b\[\d{1,2}m|\n|\t/;
const OURS_OR_ACTING = new RegExp(`${OURS.source}|${ACTING.source}`, 'gu');
const OURS_ALONE = new RegExp(`^(?:${OURS.source})$`, 'u');

/** The last look before a terminal: whatever a command wrote, nothing but colours, line ends and tabs acts on it. */
export function guarded(text: string): string {
  return text.replace(OURS_OR_ACTING, found => (OURS_ALONE.test(found) ? found : visible(found)));
}

/** The same characters escaped as JSON escapes them: the value stays what it is. */
export function escapedInJson(json: string): string {
  // JSON.stringify has left line ends between its values, and those alone.
  return json.replace(ACTING, c => (c === '\n' ? c : `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`));
}

function visible(character: string): string {
  return `<${codePoint(character)}>`;
}
