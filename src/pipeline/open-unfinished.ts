import { type Finding, stops } from '../findings/finding.js';
import { decodeUtf8 } from '../record/read.js';
import type { CaseRecord } from '../record/schema/record.js';
import { isGroup, treeIn, valueAt } from '../record/tree.js';
import type { Site } from '../site/site.js';
import { type CheckedCase, checkCase } from './check.js';
import { withoutUnread } from './without-unread.js';

/** What a record cannot be read without. It is put in for reading the rest alone, and is never written. */
const WANTED = {
  casetally: '1',
  case: { id: '-', status: 'completed', kind: '-' },
  patient: { identifiers: [{ system: 'urn:none', value: '-' }] },
  team: [{ key: 'op', role: 'operator', name: '-' }],
  indication: { text: '-' },
  report: { status: 'preliminary', author: 'op' },
};

/** What times are read by. */
const CASE = ['date', 'timeZone', 'started'];

/** A record that need not be whole, as far as it was read. */
export interface Unfinished extends CheckedCase {
  /** What was left out, since it cannot be read and does not tell where a device is; without places in the text. */
  readonly unread: readonly Finding[];
}

/**
 * The devices of a record that need not be whole yet, and what became of them. Where they cannot be read, `record` is
 * absent and `parsed` says why: every device would be taken for a new one.
 * @param now ISO 8601 with offset
 */
export function openUnfinished(text: string, site: Site, now: string): Unfinished {
  const tree = treeIn(text);
  if (!isGroup(tree)) return { ...checkCase(text, site), unread: [] };
  const own = (path: readonly string[]) => {
    const value = valueAt(tree, path);
    return value === undefined ? {} : { [path.at(-1) ?? '']: value };
  };
  const record = {
    ...WANTED,
    case: {
      ...{ ...WANTED.case, date: now.slice(0, 10) },
      ...Object.assign({}, ...CASE.map(name => own(['case', name]))),
    },
    ...own(['devices']),
    ...own(['events']),
    ...own(['targets']),
    ...own(['access']),
  };
  const whole = checkCase(JSON.stringify(record), site);
  if (whole.record) return { ...whole, unread: [] };
  const unread = whyUnread(whole);
  const rest = withoutUnread(record, unread);
  const read = rest && checkCase(JSON.stringify(rest), site);
  return read?.record ? { ...read, unread } : { ...whole, unread: [] };
}

/** The same from the bytes of a file or a request; findings alone where nothing can be read. */
export function openUnfinishedBytes(
  bytes: Uint8Array,
  site: Site,
  now: string,
): (Unfinished & { readonly record: CaseRecord }) | { readonly findings: readonly Finding[] } {
  const decoded = decodeUtf8(bytes);
  if ('finding' in decoded) return { findings: [decoded.finding] };
  const opened = openUnfinished(decoded.text, site, now);
  const { record } = opened;
  return record ? { ...opened, record } : { findings: whyUnread(opened) };
}

/** Why devices or events cannot be read; without places, which are those of another text. */
export const whyUnread = ({ parsed }: CheckedCase): readonly Finding[] =>
  parsed.findings.filter(stops).map(({ line: _, column: __, ...found }) => found);
