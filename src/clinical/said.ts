import { fillPlaces } from '../findings/places.js';
import { printQuantity, type Quantity } from '../record/quantity.js';
import type { Moment, When } from '../record/time.js';
import { type PhraseKey, type Places, phrases } from './phrases/phrases.js';

/** Lists of the record that a value may be chosen from; every language has its own words for them. */
type Term = 'route' | 'purpose' | 'sex' | 'flow' | 'state' | 'treatment' | 'stay' | 'harm';

/** A phrase with what goes into its places: said in English here, and in the reader's language by the report. */
export interface Said {
  readonly key: PhraseKey;
  readonly params: Readonly<Record<string, Part>>;
}

/** One piece of what is said. Text by itself is what a person wrote, or the name of a source: no language changes it. */
export type Part =
  | string
  | Said
  /** `spaced` puts a blank before a per cent sign, as results in English have it. */
  | { readonly quantity: Quantity; readonly spaced?: true }
  /** Decimal text without a unit. */
  | { readonly number: string }
  | { readonly when: When }
  /** With its date. */
  | { readonly moment: Moment }
  /** `YYYY-MM-DD`. */
  | { readonly day: string }
  /** Name that was made for a device. */
  | { readonly device: string }
  | { readonly term: Term; readonly value: string }
  | { readonly list: readonly Part[] };

type Params<K extends PhraseKey> = [Places<(typeof phrases)[K]>] extends [never]
  ? []
  : [params: Readonly<Record<Places<(typeof phrases)[K]>, Part>>];

/** Says the phrase of `key`; its places are checked against the phrase. */
export function say<K extends PhraseKey>(key: K, ...rest: Params<K>): Said {
  return { key, params: rest[0] ?? {} };
}

/** A source as it is; where there is none, that is said in the reader's language. */
export function source(name: string | undefined): Part {
  return name === undefined || name === phrases['basis.practice'] ? say('basis.practice') : name;
}

/** What is said, in English. */
export function english(part: Part): string {
  if (typeof part === 'string') return part;
  if ('key' in part) return fillPlaces(phrases[part.key], part.params, english);
  if ('quantity' in part) {
    const { quantity, spaced } = part;
    return spaced && quantity.unit === '%'
      ? printQuantity(quantity).replace(/%$/, ' %')
      : printQuantity(quantity);
  }
  if ('number' in part) return part.number;
  if ('when' in part) return part.when.text;
  if ('moment' in part) return `${part.moment.date} ${part.moment.clock}`;
  if ('day' in part) return part.day;
  if ('device' in part) return part.device;
  if ('term' in part) return part.value;
  return part.list.map(english).join(', ');
}
