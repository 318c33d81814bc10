import { distance } from 'fastest-levenshtein';
import { deviceKinds } from '../../trade/devices/table.js';
import { drugTable } from '../../trade/drugs/table.js';
import type { Bench } from './table/bench.js';
import type { Piece } from './text/pieces.js';
import { lexiconWords, plainWord } from './words/lexicon.js';
import { placeWords } from './words/places.js';
import { findingWords } from './words/talk.js';

/** Shorter words are one slip away from too many others. */
const SHORTEST = 6;

const parts = (text: string) => text.toLowerCase().split(/[^\p{L}]+/u);

let known: ReadonlySet<string> | undefined;

/** The same by their first letter: a slip leaves it as it is. */
let byLetter: ReadonlyMap<string, readonly string[]> = new Map();

/** Every word that lines can be made of, those of the table aside; made with the first word that is not found. */
function words(): ReadonlySet<string> {
  if (known) return known;
  known = new Set([
    ...lexiconWords,
    ...placeWords,
    ...findingWords,
    ...deviceKinds.flatMap(({ name, aliases }) => [name, ...aliases].flatMap(parts)),
    ...drugTable.rows.flatMap(({ name, aliases }) => [name, ...aliases].flatMap(parts)),
  ]);
  const letters = new Map<string, string[]>();
  for (const word of known) {
    const same = letters.get(word.charAt(0)) ?? [];
    same.push(word);
    letters.set(word.charAt(0), same);
  }
  byLetter = letters;
  return known;
}

/** One letter wrong, missing or too many, or two in the wrong order. */
function isSlip(word: string, other: string): boolean {
  if (Math.abs(word.length - other.length) > 1) return false;
  if (distance(word, other) === 1) return true;
  if (word.length !== other.length) return false;
  const at = [...word].findIndex((letter, index) => letter !== other[index]);
  return (
    word[at] === other[at + 1] && word[at + 1] === other[at] && word.slice(at + 2) === other.slice(at + 2)
  );
}

/** What a slip of the keyboard was meant to be: the one word that is a letter away. Undefined for any other word. */
function meantBy(word: string, here: ReadonlySet<string>): string | undefined {
  if (word.length < SHORTEST || !/^[a-z]+$/.test(word)) return undefined;
  const all = words();
  const single = word.replace(/s$/, '');
  if (all.has(word) || here.has(word) || all.has(single) || here.has(single)) return undefined;
  const near = [...new Set([...(byLetter.get(word.charAt(0)) ?? []), ...here])].filter(
    other => other.length >= SHORTEST - 1 && other[0] === word[0] && isSlip(word, other),
  );
  // Forms of one word are one: `needle` before `needles`.
  const stems = new Set(near.map(other => other.replace(/(?:es|e|s|ed|d|ing)$/, '')));
  if (stems.size !== 1) return undefined;
  return near.find(other => other.at(-1) === word.at(-1)) ?? near[0];
}

/** The pieces with slips of the keyboard put right, and what was typed. */
export function spelled(
  pieces: readonly Piece[],
  { table }: Bench,
): { readonly pieces: readonly Piece[]; readonly slips: readonly string[] } {
  const here = new Set(
    table.flatMap(({ key, kind, description }) => parts(`${key} ${kind} ${description ?? ''}`)),
  );
  const slips: string[] = [];
  const right = pieces.map((piece): Piece => {
    if (piece.is !== 'word' || !/^[a-z]+$/i.test(piece.word)) return piece;
    const meant = meantBy(plainWord(piece.word), here);
    if (meant === undefined) return piece;
    slips.push(piece.word);
    return { ...piece, text: meant, word: meant };
  });
  return { pieces: right, slips };
}
