import { kindNamed } from '../../devices/kinds.js';
import type { Token } from './text/tokens.js';
import { isPlaceWord } from './words/places.js';

/** What can be a word of a name as well. */
const nameable: ReadonlySet<string> = new Set(['act', 'specimen', 'fixing', 'reading', 'fluid']);
const unnamed: ReadonlySet<string | undefined> = new Set([
  'preposition',
  'particle',
  'article',
  'joint',
  'pointing',
  'filler',
]);

const isMark = (token: Token | undefined) => token?.piece?.is === 'mark';
const isNoun = (token: Token | undefined) => token?.piece?.is === 'word' && token.entry === undefined;
const isSize = (token: Token | undefined) =>
  ['amount', 'pair', 'wire', 'number'].includes(token?.piece?.is ?? '');

const startsPart = (before: Token | undefined) => isMark(before) || before?.entry?.role === 'joint';
const isPlaceNear = (all: readonly Token[], index: number) =>
  all.slice(index + 2, index + 6).some(token => isNoun(token) && isPlaceWord(token.text));

/** Words whose part in a line hangs on what stands beside them. */
export function asMeantHere(tokens: readonly Token[]): Token[] {
  return asNouns(tokens).map((token, index, all): Token => {
    const [before, next] = [all[index - 1], all[index + 1]];
    const word = token.text.toLowerCase();
    // `went in fine`, and not `fine wire`
    if (word === 'fine' && !isNoun(next) && before !== undefined && !isNoun(before))
      return { ...token, entry: { role: 'filler' } };
    // `microcatheter and microwire coaxial through the cobra`
    if (word === 'coaxial' && isNoun(before) && next?.entry?.role === 'preposition')
      return { ...token, entry: { role: 'filler' } };
    // `wire in, coils in the renal pelvis`
    if (
      word === 'coils' &&
      startsPart(before) &&
      index > 0 &&
      next?.entry?.role === 'particle' &&
      isPlaceNear(all, index)
    )
      return { ...token, entry: { role: 'filler' } };
    // `peel away sheath`
    if (word === 'away' && /^peel$/i.test(before?.text ?? '')) {
      const { entry: _, ...noun } = token;
      return noun;
    }
    // `compression of the iliac vein` was seen, and not done
    if (
      word === 'compression' &&
      (next?.text === 'of' || /^(?:article|preposition)$/.test(before?.entry?.role ?? ''))
    ) {
      const { entry: _, ...noun } = token;
      return noun;
    }
    // `right we're in`, and not the right side
    if (word === 'right' && index <= 1 && (isMark(next) || next?.entry?.role === 'filler'))
      return { ...token, entry: { role: 'filler' } };
    // `artery stuck`, and not `wire stuck`
    if (word === 'stuck' && before && isNoun(before) && isPlaceWord(before.text))
      return { ...token, entry: { role: 'act', act: 'puncture', doing: false } };
    // `the ten French one`
    if (
      word === 'one' &&
      token.piece?.is === 'number' &&
      (isSize(before) || isNoun(before)) &&
      !isSize(next) &&
      !isNoun(next)
    ) {
      const { piece: _, ...rest } = token;
      return { ...rest, entry: { role: 'filler' } };
    }
    // `catheter and set both out`
    if (word === 'both' && !isNoun(next)) return { ...token, entry: { role: 'filler' } };
    // `sheath on`, after its size or its name
    if (
      word === 'on' &&
      isNoun(before) &&
      (next === undefined || isMark(next) || next.entry?.role === 'joint')
    )
      return { ...token, entry: { role: 'particle', particle: 'in' } };
    return token;
  });
}

/** `biopsy needle`, `flush catheter`, `exchange wire`: a verb that is part of a name is none. */
function asNouns(tokens: readonly Token[]): Token[] {
  const fluid = tokens.some(({ entry }) => entry?.role === 'fluid');
  return tokens.map((token, index) => {
    const { entry, text } = token;
    if (!entry || !(nameable.has(entry.role) || text.toLowerCase() === 'access')) return token;
    const word = (one: Token | undefined) =>
      one?.piece?.is === 'word' && !unnamed.has(one.entry?.role) ? one.text : undefined;
    const [before, next, third] = [tokens[index - 1], tokens[index + 1], tokens[index + 2]].map(word);
    const site = /^puncture$/i.test(text) && /^sites?$/i.test(next ?? '');
    const names =
      site ||
      [
        [text, next],
        [text, next, third],
        [before, text, next],
      ].some(words => words.every(one => one !== undefined) && kindNamed(words.join(' '))?.how === 'listed');
    if (!names || (fluid && index === 0)) return token;
    const { entry: _, ...noun } = token;
    return noun;
  });
}
