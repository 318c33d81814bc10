import type { YAMLError } from 'yaml';
import { type Finding, finding } from '../findings/finding.js';
import type { Position } from './path.js';

/** Faults of the text that have plain words, by the library's error code. */
const faults = {
  TAB_AS_INDENT: 'tab',
  MULTIPLE_DOCS: 'secondDocument',
  BLOCK_AS_IMPLICIT_KEY: 'colon',
  BAD_INDENT: 'indent',
  MULTILINE_IMPLICIT_KEY: 'fieldName',
  BAD_SCALAR_START: 'mark',
  BAD_ALIAS: 'alias',
  BAD_DQ_ESCAPE: 'escape',
} as const;
type Fault = (typeof faults)[keyof typeof faults] | 'quote' | 'bracket';

/** What fills the places of the words: marks that would be places themselves. */
const marks = { open: '{', close: '}' };

/** One fault of YAML or JSON as a finding. */
export function syntaxFinding(error: YAMLError, at: Position): Finding {
  const missing =
    error.code === 'MISSING_CHAR' ? (/quote/.test(error.message) ? 'quote' : 'bracket') : undefined;
  const flow = /flow (map|sequence|collection)/i.test(error.message) ? 'bracket' : undefined;
  const known: Fault | undefined = missing ?? flow ?? faultOf(error.code);
  const said = error.message.replace(/\s+/g, ' ').slice(0, 200);
  if (!known) return finding('record.not-yaml', '', { why: `${said}.` }, at);
  const why = { key: `fault.${known}`, params: marks } as const;
  return finding('record.not-yaml', '', { why }, { ...at, remedy: { key: `mend.${known}`, params: marks } });
}

const faultOf = (code: string): Fault | undefined =>
  Object.hasOwn(faults, code) ? faults[code as keyof typeof faults] : undefined;
