import { remembered } from '../record/remembered.js';
import type { CaseRecord } from '../record/schema/record.js';
import { denies, wordsOf } from '../trade/words.js';

/** A phrase of the record that a person wrote, and where it stands. */
export interface Phrase {
  readonly text: string;
  readonly words: readonly string[];
  readonly path: string;
}

/** Fields in words of one's own. */
const written = new Set([
  'note',
  'result',
  'observations',
  'closure',
  'set',
  'fixedBy',
  'do',
  'agent',
  'text',
  'condition',
  'material',
  'description',
  'question',
  'to',
  'with',
  'imaging',
  'what',
  'monitoring',
]);

/** A text falls into its phrases at these marks. */
const marks = /[;:,()!?\n]|\.\s|\.$|\bbut\b|\bthen\b/i;

/** Words by which a phrase speaks of a thing that is not used, or only warns of it. */
const turned = new Set(
  wordsOf(
    'nothing instead avoid avoided avoiding avoidance stop stopped discontinued replaced refused forbidden contraindicated allergy allergic ' +
      'allergies intolerance hypersensitivity sensitive induced thrombocytopenia hit reaction precaution precautions warning ' +
      'rather former formerly previously past ended withheld held paused tested wristband unless',
  ),
);

/** Whether a phrase says that the thing it names is not there, was not used, or must not be. */
export const isTurned = (words: readonly string[]): boolean =>
  denies(words) || words.some(word => turned.has(word));

/** What people wrote in one part of the record, phrase by phrase. */
export function phrasesIn(record: CaseRecord, parts: readonly (keyof CaseRecord)[]): Phrase[] {
  return parts.flatMap(part => walk(record[part], String(part), String(part)));
}

function walk(value: unknown, path: string, name: string): Phrase[] {
  if (typeof value === 'string')
    return written.has(name) || path.startsWith('advice') ? split(value, path) : [];
  if (Array.isArray(value))
    return value.flatMap((entry: unknown, index) => walk(entry, `${path}[${index}]`, name));
  if (typeof value !== 'object' || value === null || 'iso' in value) return [];
  return Object.entries(value).flatMap(([key, entry]) =>
    key === 'codes' ? [] : walk(entry, key === 'text' ? path : `${path}.${key}`, key),
  );
}

const split = (text: string, path: string): Phrase[] => phrasesOf(text).map(phrase => ({ ...phrase, path }));

const phrasesOf = remembered((text): readonly Omit<Phrase, 'path'>[] =>
  text
    .slice(0, 2000)
    .split(marks)
    .map(part => part.trim())
    .filter(part => part !== '')
    .map(part => ({ text: part, words: wordsOf(part) })),
);
