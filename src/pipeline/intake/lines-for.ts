import { type Finding, stops } from '../../findings/finding.js';
import type { Contribution } from '../../intake/contribution.js';
import { treeIn, valueAt } from '../../record/tree.js';
import type { Site } from '../../site/site.js';
import { type CheckedCase, checkCase } from '../check.js';
import { readCaseLines } from '../read-case-lines.js';

/** What a record cannot be read without. It is put in for reading lines alone, and is never written. */
const WANTED = {
  casetally: '1',
  case: { id: '-', status: 'completed', kind: '-' },
  patient: { identifiers: [{ system: 'urn:none', value: '-' }] },
  team: [{ key: 'op', role: 'operator', name: '-' }],
  indication: { text: '-' },
  report: { status: 'preliminary', author: 'op' },
};

/** What lines are read by, beside devices and what became of them. */
const CASE = ['date', 'timeZone', 'started'];

/**
 * The devices of a record that need not be whole yet, and what became of them, for reading lines against. Where they
 * cannot be read, `record` is absent and `parsed` says why: every device would be taken for a new one.
 * @param now ISO 8601 with offset
 */
export function openForLines(text: string, site: Site, now: string): CheckedCase {
  const tree = treeIn(text);
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
  return checkCase(JSON.stringify(record), site);
}

/**
 * Reads lines against a record that need not be whole yet.
 * @param accept true takes over as entries what was understood; else everything is proposed
 * @returns findings alone where devices or events of the record cannot be read
 */
export function linesFor(
  text: string,
  lines: readonly string[],
  site: Site,
  { now, by, accept }: { readonly now: string; readonly by: string; readonly accept: boolean },
): { readonly contribution?: Contribution; readonly findings: readonly Finding[] } {
  const opened = openForLines(text, site, now);
  if (!opened.record) return { findings: whyUnread(opened) };
  const { contribution } = readCaseLines(lines, { opened, site, said: now, accept });
  return { contribution: { ...contribution, by }, findings: [] };
}

/** Why devices or events cannot be read; without places, which are those of another text. */
export const whyUnread = ({ parsed }: CheckedCase): readonly Finding[] =>
  parsed.findings.filter(stops).map(({ line: _, column: __, ...found }) => found);
