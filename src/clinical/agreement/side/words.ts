import { remembered } from '../../../record/remembered.js';
import { type BodyPart, bodyPartsIn } from '../../../trade/body.js';

export type Side = 'left' | 'right';

/** A side that a text gives, and what it gives it to. */
export interface SideWord {
  readonly sides: readonly Side[];
  /** Empty where the text names no part of the body: 'port on the left'. */
  readonly parts: readonly BodyPart[];
  /** It follows 'through', 'from' or 'via': the way in, not what was treated. */
  readonly wayIn: boolean;
}

/** Clauses that compare, deny, or tell of what was before: a side in them is not that of the case. */
const aside =
  /\b(?:no|not|nor|without|none|never|neither|previous(?:ly)?|prior|earlier|former|history of|years? ago|opposite|contralateral|other side|as well as|than|unlike|lying on|side (?:down|up)|handed|lateral decubitus|spared?|unaffected|(?:patient|lies|lay|lain|turned) on(?:to)?|in (?:19|20)\d\d)\b|-handed|\b(?:clear|normal|healthy|unremarkable)\s*$/i;

/** After these 'left' is a verb. */
const verb =
  /^\s*(?:(?:side|in|on|at|for|to|behind|open|inside|with|as|untreated|alone|there|clamped|capped|by|until|over|under|free|and|or|from|the room|hospital|against|undisturbed|place)\b|[,;.)%]|$)/i;

const sideWord = /\b(left|right|both|bilateral(?:ly)?)\b(-?\s?sided?\b)?/gi;
const ends =
  /\b(?:left|right|both|bilateral|from|to|with|by|through|via|into|across|over|under|below|above|for|in|at|near|beside|towards?|and|between)\b|[,:]/i;
const bySide = /\b(?:on|to|at|from) (?:the |his |her |its |your )?$|\bof the $/i;
const way = /\b(?:through|via|from|by way of|by) (?:the |a |an )?$/i;
const both = (word: string) => /^b/i.test(word);

/** The sides that a text gives to parts of the body, in the order of the text. */
export const sideWordsIn: (text: string) => readonly SideWord[] = remembered(text =>
  text
    .slice(0, 5000)
    .split(/[;.()]|,\s|\bbut\b/i)
    .flatMap(clause => (aside.test(clause) ? [] : inClause(clause))),
);

function inClause(clause: string): SideWord[] {
  const found: SideWord[] = [];
  for (const match of clause.matchAll(sideWord)) {
    const [whole, word = '', sided] = match;
    const before = clause.slice(0, match.index);
    const after = clause.slice(match.index + whole.length);
    const phrase = after.slice(0, ends.exec(after)?.index ?? after.length);
    const parts = bodyPartsIn(phrase).filter(part => !both(word) || part.paired);
    const sides: readonly Side[] = both(word)
      ? ['left', 'right']
      : [word.toLowerCase() === 'left' ? 'left' : 'right'];
    const wayIn = way.test(before);
    if (parts.length > 0 && !(word.toLowerCase() === 'left' && sided === undefined && verb.test(after)))
      found.push({ sides, parts, wayIn });
    else if (
      !/^both$/i.test(word) &&
      (sided !== undefined || /^bilateral/i.test(word) || (bySide.test(before) && verb.test(after)))
    )
      found.push({ sides, parts: bodyPartsIn(before), wayIn: false });
  }
  return found;
}

const denied = /\b(?:no|not|nor|none|without|neither|never)\b/i;

/** The sides that a text names of anything at all, a bare 'right 80 %' too; what it denies does not count. */
export const namedSides: (text: string) => ReadonlySet<Side> = remembered(text => {
  const found = new Set<Side>();
  for (const clause of text.slice(0, 5000).split(/[;.()]\s?|,\s/)) {
    if (denied.test(clause)) continue;
    for (const { 0: whole, 1: word = '', 2: sided, index } of clause.matchAll(sideWord)) {
      const side = word.toLowerCase();
      const after = clause.slice(index + whole.length);
      if (both(word)) found.add('left').add('right');
      else if (side === 'right') found.add('right');
      else if (sided !== undefined || !verb.test(after) || bySide.test(clause.slice(0, index)))
        found.add('left');
    }
  }
  return found;
});

/** A side of its own, of what was named before: 'left stenosis 30 %, right 80 %', 'air on the right'. */
const bare =
  /\b(left|right)(?=\s*(?:[\d<>≥≤~:]|(?:one|side|is|was|about|over|under|up to)\b))|\bon the (left|right)(?=\s*(?:[.,;]|$))/gi;

export const bareSides: (text: string) => ReadonlySet<Side> = remembered(
  text =>
    new Set(
      [...text.slice(0, 5000).matchAll(bare)].map(
        ([, one, two]): Side => ((one ?? two ?? '').toLowerCase() === 'left' ? 'left' : 'right'),
      ),
    ),
);

/** Before an adjective; after a noun 'left' is a verb. */
const leading =
  /(?:^|\b(?:the|his|her|its|an?|of|in|on|at|to|from|through|via|into|over|under|near|by|between|above|below|and|with|behind)\s|[,;:(/-]\s?)$/i;
const noSide =
  /^(?:\s*$|\s*(?:away|now|after|before|angles?|size|time|heart|atri\w*|ventric\w*|in place|behind|open|over|for|by|until|as)\b)/i;

/** The sides of a short text that names a place, whatever stands beside them: 'Skin of the right lower belly'. */
export const placeSides: (text: string) => ReadonlySet<Side> = remembered(text => {
  const found = new Set<Side>();
  // 'Right of the scar' may lie on either side.
  if (/\b(?:left|right) of\b/i.test(text)) return found;
  for (const clause of text.slice(0, 500).split(/[;.()]/)) {
    if (aside.test(clause)) continue;
    for (const { 0: whole, 1: word = '', index } of clause.matchAll(sideWord)) {
      const side = word.toLowerCase();
      if (both(word)) found.add('left').add('right');
      else if (
        (side === 'left' || side === 'right') &&
        leading.test(clause.slice(0, index)) &&
        !noSide.test(clause.slice(index + whole.length))
      )
        found.add(side);
    }
  }
  return found;
});

/** All sides of the words given. */
export const sidesOf = (words: readonly SideWord[]): ReadonlySet<Side> =>
  new Set(words.flatMap(({ sides }) => sides));

/** The sides of a field. */
export const fieldSides = (side: string | undefined): ReadonlySet<Side> =>
  new Set(side === 'both' ? ['left', 'right'] : side === 'left' || side === 'right' ? [side] : []);

export const within = (few: Iterable<Side>, many: ReadonlySet<Side>): boolean =>
  [...few].every(side => many.has(side));

export const share = (a: Iterable<Side>, b: ReadonlySet<Side>): boolean => [...a].some(side => b.has(side));
