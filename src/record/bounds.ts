import { type Finding, finding } from '../findings/finding.js';
import { pathText } from './path.js';
import type { Tree } from './read.js';

/** The most characters of one text: some ten pages. */
export const MAX_TEXT = 50_000;
/** The most characters between two spaces or marks of punctuation: no word, number or label has as many. */
export const MAX_WORD = 1_000;
/** The most entries of what everything else is held against. */
export const MAX_ENTRIES: Readonly<Record<string, number>> = { devices: 500, events: 5_000 };

const LONG_WORD = new RegExp(`[^\\s\\p{P}]{${MAX_WORD + 1}}`, 'u');

/** What no case has: such a file is refused before anything is worked out from it, so that it holds nobody up. */
export function beyondBounds(tree: Tree): Finding[] {
  const findings: Finding[] = [];
  if (typeof tree === 'object' && !Array.isArray(tree))
    for (const [field, limit] of Object.entries(MAX_ENTRIES)) {
      const list = tree[field];
      const count = typeof list === 'object' ? Object.keys(list).length : 0;
      if (count > limit)
        findings.push(finding('record.too-many-entries', field, { count: `${count}`, limit: `${limit}` }));
    }
  visit(tree, [], findings);
  return findings;
}

function visit(tree: Tree, path: readonly PropertyKey[], findings: Finding[]): void {
  if (typeof tree === 'string') checkText(tree, path, findings);
  if (typeof tree !== 'object') return;
  for (const [key, value] of Object.entries(tree)) {
    if (Array.isArray(tree)) visit(value, [...path, Number(key)], findings);
    // A name that is too long is told at what holds it, not quoted in the path.
    else if (!checkText(key, path, findings)) visit(value, [...path, key], findings);
  }
}

/** True when the text is too long. */
function checkText(text: string, path: readonly PropertyKey[], findings: Finding[]): boolean {
  if (text.length <= MAX_WORD) return false;
  const length = String(text.length);
  if (text.length > MAX_TEXT)
    findings.push(finding('record.too-long', pathText(path), { length, limit: `${MAX_TEXT}` }));
  else if (LONG_WORD.test(text))
    findings.push(finding('record.long-word', pathText(path), { limit: `${MAX_WORD}` }));
  else return false;
  return true;
}
