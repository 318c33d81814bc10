import type { English } from './words/english.js';
import type { NameList } from './words/language.js';

/** An amount with its unit, digits as written: decimal text, printed unit, UCUM code. */
interface Amount {
  readonly value: string;
  readonly comparator?: string | undefined;
  readonly unit: string;
  readonly code: string;
}

/** A point in time: local date and clock, and the full ISO text with its offset. */
interface PointInTime {
  readonly date: string;
  readonly clock: string;
  readonly iso: string;
}

/** Lists of the record that a value may be chosen from; every language has its own words for them. */
type Table =
  | 'route'
  | 'purpose'
  | 'sex'
  | 'flow'
  | 'state'
  | 'treatment'
  | 'stay'
  | 'harm'
  | 'is'
  | 'success';

/**
 * What fills a place of a message. Text by itself is what a person wrote, a key of the record or the name of a source:
 * no language changes it. Everything else is said in the reader's language.
 */
export type Param =
  | string
  | Message
  /** `spaced` puts a blank before a per cent sign, as results in English have it. */
  | { readonly quantity: Amount; readonly spaced?: true }
  /** Decimal text without a unit. */
  | { readonly number: string }
  /** A date of any precision, or a moment, as written and in FHIR's form. */
  | { readonly when: { readonly text: string; readonly iso: string; readonly moment?: PointInTime } }
  /** With its date. */
  | { readonly moment: PointInTime }
  /** `YYYY-MM-DD`. */
  | { readonly day: string }
  /** Name that was made for a device from its size and kind; `row` is that of the kind in the table of kinds. */
  | { readonly device: string; readonly kind?: string; readonly row?: string }
  /**
   * A word of the record that may be in a table of the trade: under the name of its row, else under itself. `other`: it
   * is another name of the row, which is said beside it; `side`: it begins with its side, which the row leaves out.
   */
  | {
      readonly named: NameList;
      readonly text: string;
      readonly row?: string;
      readonly other?: boolean;
      readonly side?: 'left' | 'right';
    }
  /** `a, b and c`; a form that the text asks for is that of each. */
  | { readonly and: readonly Param[] }
  | { readonly term: Table; readonly value: string }
  | { readonly list: readonly Param[] }
  /** With a capital at its head. */
  | { readonly sentence: Param };

export type MessageKey = keyof English;

/** Something to be said in any language: a key of the catalogue, and what fills its places. */
export interface Message {
  readonly key: MessageKey;
  readonly params: Readonly<Record<string, Param>>;
}

/** Names of the places of a text: `'stage {n}'` has `n`. */
type Places<T extends string> = T extends `${string}{${infer Place}}${infer Rest}`
  ? Place | Places<Rest>
  : never;

/** What the places of `K` need, no more and no less. */
export type ParamsOf<K extends MessageKey> = Readonly<Record<Places<English[K]>, Param>>;

/** Makes a message; what fills its places is checked against its English text. */
export function message<K extends MessageKey>(
  key: K,
  ...[params]: [Places<English[K]>] extends [never] ? [] : [params: ParamsOf<K>]
): Message {
  return { key, params: params ?? {} };
}

/** `a or b or c`. */
export const anyOf = ([first = '', ...rest]: readonly Param[]): Param =>
  rest.length === 0 ? first : message('either', { one: first, other: anyOf(rest) });

/** `a and b and c`. */
export const allOf = ([first = '', ...rest]: readonly Param[]): Param =>
  rest.length === 0 ? first : message('answer.both', { one: first, other: allOf(rest) });

/** `a; b; c`. */
export const inTurn = ([first = '', ...rest]: readonly Param[]): Param =>
  rest.length === 0 ? first : message('answer.then', { one: first, other: inTurn(rest) });

/** A text as it was written, in the quotation marks of the language. */
export const quoted = (text: string): Message => message('quoted', { text });
