import type { YAMLError } from 'yaml';
import { type Finding, finding } from '../findings/finding.js';
import type { Position } from './path.js';

/** What a fault of the text is called in plain words, and how to mend it. Looked up by the library's error code. */
const words: Readonly<Record<string, readonly [why: string, remedy: string]>> = {
  TAB_AS_INDENT: ['a tab is used to indent', 'Indent with spaces.'],
  MULTIPLE_DOCS: ['a second document begins here', 'Send one case a file, and take the line --- out.'],
  BLOCK_AS_IMPLICIT_KEY: [
    "a text holds ': ', which starts a new field",
    "Put quotes around a text that has ': ' in it.",
  ],
  BAD_INDENT: [
    'the indent does not fit the lines above',
    'Give the fields of one group the same indent; close every { and [ with } and ].',
  ],
  MULTILINE_IMPLICIT_KEY: [
    "a field name must stand on one line with its ':'",
    'Look for a missing quote, bracket or colon just before this place.',
  ],
  BAD_SCALAR_START: ['a text begins with a mark that means something in YAML', 'Put quotes around the text.'],
  BAD_ALIAS: ['a text begins with * or &, which mean something in YAML', 'Put quotes around the text.'],
  BAD_DQ_ESCAPE: ['a backslash in double quotes begins no known escape', 'Write \\\\ for one backslash.'],
};

const OPEN_QUOTE = ['a quote is opened and not closed', 'Close the quote.'] as const;
const OPEN_BRACKET = [
  'a { or [ is not closed, or a comma is missing',
  'Close the bracket, and put a comma between fields.',
] as const;

/** One fault of YAML or JSON as a finding. */
export function syntaxFinding(error: YAMLError, at: Position): Finding {
  const missing =
    error.code === 'MISSING_CHAR' ? (/quote/.test(error.message) ? OPEN_QUOTE : OPEN_BRACKET) : undefined;
  const flow = /flow (map|sequence|collection)/i.test(error.message) ? OPEN_BRACKET : undefined;
  const known = missing ?? flow ?? words[error.code];
  const said = error.message.replace(/\s+/g, ' ').slice(0, 200);
  if (!known) return finding('record.not-yaml', '', { why: `${said}.` }, at);
  return finding('record.not-yaml', '', { why: `${known[0]}.` }, { ...at, remedy: known[1] });
}
