import { drugsIn } from '../../../trade/drugs/table.js';
import type { LineNotes } from '../table/bench.js';
import type { Clause, Noun } from '../text/clauses.js';
import type { Token } from '../text/tokens.js';

/** What is measured in a clause, as a record writes it. */
export interface Amounts {
  readonly pressure?: string;
  readonly pressureUnit?: string;
  readonly duration?: string;
  readonly volume?: string;
  /** Amounts that no field of an event takes. */
  readonly others: readonly Token[];
  /** Tokens of a group of words that are not used up by an amount. */
  readonly left: (noun: Noun) => readonly Token[];
}

/** Amounts of a clause; `10 of saline` is 10 mL. */
export function amountsOf(clause: Clause): Amounts {
  const { tokens } = clause;
  const used = new Set<Token>();
  const found: { pressure?: string; pressureUnit?: string; duration?: string; volume?: string } = {};
  const others: Token[] = [];
  tokens.forEach((token, index) => {
    const { piece } = token;
    if (piece?.is === 'amount') {
      const { dimension, amount } = piece;
      // `in a minute` is when, not how long.
      const soon = dimension === 'duration' && tokens[index - 1]?.text.toLowerCase() === 'in';
      if (dimension === 'pressure' && found.pressure === undefined)
        Object.assign(found, { pressure: amount, pressureUnit: piece.unit });
      else if (soon) others.push(token);
      else if (dimension === 'duration' && /^(?:at|after)$/i.test(tokens[index - 1]?.text ?? ''))
        used.add(token);
      else if ((dimension === 'duration' || dimension === 'volume') && found[dimension] === undefined)
        found[dimension] = amount;
      else if (dimension !== 'length' && dimension !== 'calibre') others.push(token);
      if (dimension !== 'length' && dimension !== 'calibre') used.add(token);
    }
    if (piece?.is === 'number' && found.volume === undefined) {
      const next = tokens[index + 1];
      const after =
        next?.entry?.role === 'filler' && next.text.toLowerCase() === 'of' ? tokens[index + 2] : next;
      const fluid = after?.entry?.role === 'fluid' || (after?.piece?.is === 'word' && isContrast(after.text));
      if (fluid) {
        found.volume = `${piece.value} mL`;
        used.add(token);
      }
    }
    const after = tokens[index + 1]?.entry;
    if (
      piece?.is === 'number' &&
      (/^(?:specimen|which)$/.test(after?.role ?? '') || (after?.role === 'act' && after.act === 'sample'))
    )
      used.add(token);
  });
  const meaningless = (token: Token) =>
    used.has(token) ||
    token.entry?.role === 'article' ||
    token.entry?.role === 'which' ||
    token.entry?.role === 'filler' ||
    token.entry?.role === 'fluid' ||
    token.entry?.role === 'guidance';
  return { ...found, others, left: noun => noun.tokens.filter(token => !meaningless(token)) };
}

const isContrast = (word: string) =>
  drugsIn(word).some(({ families }) => families.some(family => /contrast/.test(family)));

/** What is injected: a fluid, or a contrast medium by its name. */
export function agentOf({ tokens }: Clause): string | undefined {
  for (const { entry, piece, text } of tokens) {
    if (entry?.role === 'fluid' && !entry.out) return entry.agent;
    if (entry === undefined && piece?.is === 'word' && isContrast(text)) return text;
  }
  return undefined;
}

/** How many of what is counted: `two more coils` is 2, `coil number three` 1, `three cores` 3. */
export function countOf({ tokens }: Clause): number | undefined {
  for (const [index, { entry, piece, text }] of tokens.entries()) {
    if (entry?.role === 'which' && (text.toLowerCase() === 'number' || entry.count !== undefined))
      return entry.count;
    const next = tokens[index + 1];
    if (piece?.is === 'number' && /^\d{1,2}$/.test(piece.value)) {
      if (next?.entry?.role === 'which' && next.entry.more) return Number(piece.value);
      if (next?.entry?.role === 'specimen') return Number(piece.value);
      if (next?.entry?.role === 'act' && next.entry.act === 'sample') return Number(piece.value);
      if (next?.piece?.is === 'pair') return Number(piece.value);
      const plural = tokens
        .slice(index + 1)
        .find(one => one.piece?.is !== 'word' || /[^su]s$/i.test(one.text));
      if (plural?.piece?.is === 'word' && plural.entry === undefined) return Number(piece.value);
    }
  }
  return undefined;
}

/** The words of a group as they stand in the line, without article. */
export function placeText(noun: Noun, line: string): string {
  const cut =
    noun.preposition === 'across' ? noun.tokens.findIndex(({ piece }) => piece?.is === 'amount') : -1;
  const said = cut > 0 ? noun.tokens.slice(0, cut) : noun.tokens;
  const tokens = said.filter(({ entry }, index) => !(entry?.role === 'article' && index === 0));
  const [first] = tokens;
  const last = tokens.at(-1);
  return first && last ? line.slice(first.start, last.end) : '';
}

const bare = (text: string) => text.toLowerCase().replace(/^(?:the|a|an) /, '');

/** Key of the one target that the words name; else the words. */
export function targetOf({ bench }: LineNotes, place: string): string {
  const targets = Object.entries(bench.context.targets ?? {});
  const fit = targets.filter(
    ([key, names]) => key.toLowerCase() === bare(place) || names.some(name => bare(name) === bare(place)),
  );
  return fit.length === 1 ? (fit[0]?.[0] ?? place) : place;
}
