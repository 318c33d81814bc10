import type { OutboxItem } from '../delivery/outbox/outbox.js';
import { readText, type Tree } from '../record/read.js';
import { recordOf } from './outbox-item.js';

/** What a list of the outbox names a case by. */
export interface NamedCase {
  /** Number of the case. */
  readonly id?: string;
  /** Initials of the patient. */
  readonly initials?: string;
}

/** The case of an item, as the record kept with it says; nothing where none is, or where it cannot be opened. */
export function caseOf(item: Pick<OutboxItem, 'context'>): NamedCase {
  const text = recordOf(item);
  if (text === undefined) return {};
  const head = readText(headOf(text)).tree ?? readText(text).tree;
  const id = textAt(head, 'case', 'id');
  const initials = initialsOf(at(at(head, 'patient'), 'name'));
  return { ...(id !== undefined && { id }), ...(initials !== '' && { initials }) };
}

/** The blocks of case and patient alone: a whole record takes twenty times as long, and a list may have thousands. */
function headOf(text: string): string {
  let inside = false;
  const lines = text.split(/\r\n|\r|\n/).filter(line => {
    if (/^[^\s#]/.test(line)) inside = /^["']?(?:case|patient)["']?\s*:/.test(line);
    return inside;
  });
  return lines.length === 0 ? text : lines.join('\n');
}

function at(tree: Tree | undefined, key: string): Tree | undefined {
  return typeof tree === 'object' && !Array.isArray(tree) && Object.hasOwn(tree, key) ? tree[key] : undefined;
}

function textAt(tree: Tree | undefined, ...path: readonly string[]): string | undefined {
  const found = path.reduce(at, tree);
  return typeof found === 'string' ? found : undefined;
}

const letters = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** `O.F.`: given names before the family name, however the name is written; three at the most. */
function initialsOf(name: Tree | undefined): string {
  const parts =
    typeof name === 'string' ? [name] : [at(name, 'given') ?? [], at(name, 'family') ?? []].flat();
  const words = parts.flatMap(part => (typeof part === 'string' ? part.split(/[\s,]+/) : [])).filter(Boolean);
  const few = words.length > 3 ? [...words.slice(0, 2), ...words.slice(-1)] : words;
  return few.map(word => `${[...letters.segment(word)][0]?.segment.toUpperCase() ?? ''}.`).join('');
}
