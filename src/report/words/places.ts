import type { ChangedFact } from '../../record/changes/compare.js';
import { places as de } from './de/places.js';
import { places as es } from './es/places.js';
import type { Language } from './lexicon.js';

/** Names of what a record holds: its fields, and one entry of each of its lists and groups. */
export interface PlaceWords {
  readonly fields: Readonly<Record<string, string>>;
  readonly entries: Readonly<Record<string, string>>;
}

const catalogues: Partial<Record<Language, PlaceWords>> = { de, es };

/** The names in a language; English says the fields as the record has them. */
export function placeWordsOf(language: Language): PlaceWords | undefined {
  return catalogues[language];
}

/** What was changed, in a language: `Produkt drain: Charge`. */
export function changedWhat(language: Language, { what, place }: ChangedFact): string {
  const words = placeWordsOf(language);
  if (!words) return what;
  const named = (list: Readonly<Record<string, string>>, name: string) =>
    Object.hasOwn(list, name) ? (list[name] ?? name) : name;
  const [head = '', ...rest] = place.map(step =>
    'field' in step
      ? named(words.fields, step.field)
      : [
          named(Object.hasOwn(words.entries, step.entry) ? words.entries : words.fields, step.entry),
          ...(step.names.length > 0 ? step.names : [String(step.number ?? '')]),
        ].join(' '),
  );
  const capital = `${head.charAt(0).toUpperCase()}${head.slice(1)}`;
  return rest.length === 0 ? capital : `${capital}: ${rest.join(', ')}`;
}
