import { createHash } from 'node:crypto';
import { type ElementName, type EntryElements, elementNames } from './entry/elements.js';

/** Elements that change without the entry saying anything else: pseudonyms with a new key, and its own version. */
const ASIDE: ReadonlySet<ElementName> = new Set([
  'entry',
  'version',
  'patient',
  'case',
  'placedEntry',
  'unit',
  'operator',
]);

/** SHA-256 of what an entry says, the same for the same facts under whatever key they are sent. */
export function entryDigest(entry: EntryElements): string {
  const said = elementNames.flatMap(name => {
    // A pseudonym of a serial number goes with the key as well.
    const value = name === 'serial' && isPseudonym(entry.serial) ? 'pseudonym' : entry[name];
    return ASIDE.has(name) || value === undefined ? [] : [[name, value]];
  });
  return sha256(JSON.stringify(said));
}

const isPseudonym = (text: string | undefined): boolean => /^[\w-]+\.[0-9a-f]{32}$/.test(text ?? '');

/** Hexadecimal SHA-256 of a text. */
export const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
