import type { casePage } from '../src/findings/words/en/case.js';
import type { caseWay } from '../src/findings/words/en/case-way.js';
import type { screen } from '../src/findings/words/en/review.js';
import type { terminal } from '../src/findings/words/en/terminal.js';

/** What the script says, in the language that the page came in. The keys are those of the catalogue, types alone. */
type Words = typeof screen &
  typeof casePage &
  typeof caseWay &
  Pick<typeof terminal, `terminal.${'errors' | 'warnings' | 'notes'}.${'one' | 'other'}`>;
export type Key = keyof Words;
type PluralKey = Key extends infer K ? (K extends `${infer Base}.one` ? Base : never) : never;
type Places<T extends string> = T extends `${string}{${infer Place}}${infer Rest}`
  ? Place | Places<Rest>
  : never;
type Filled<K extends Key, With> = [Places<Words[K]>] extends [never]
  ? []
  : [places: Readonly<Record<Places<Words[K]>, With>>];

const words = JSON.parse(
  document.querySelector('meta[name="words"]')?.getAttribute('content') ?? '{}',
) as Readonly<Record<Key, string>>;

/** BCP 47 tag of the page. */
export const language = document.documentElement.lang;
const rules = new Intl.PluralRules(language);

const PLACE = /\{(\w+)\}/;

/** The text of a key with its places filled. */
export function say<K extends Key>(key: K, ...places: Filled<K, string | number>): string {
  return parts(key, places[0]).join('');
}

/** The same with elements in its places. */
export function sayWith<K extends Key>(key: K, ...places: Filled<K, Node | string>): (Node | string)[] {
  return parts(key, places[0]);
}

/** `1 error`, `2 errors`. */
export function counted(key: PluralKey, n: number): string {
  const form = rules.select(n) === 'one' ? 'one' : 'other';
  return parts(`${key}.${form}` as Key, { n }).join('');
}

/** Text between the places, and what fills them, in turn. */
function parts<With>(key: Key, places: Readonly<Record<string, With>> = {}): (string | With)[] {
  return words[key].split(PLACE).map((piece, index) => (index % 2 === 0 ? piece : (places[piece] ?? piece)));
}
