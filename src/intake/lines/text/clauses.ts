import type { Span } from '../types.js';
import type { Entry, Particle, Preposition } from '../words/entry.js';
import type { Piece } from './pieces.js';
import type { Token } from './tokens.js';

/** A group of words that names a thing or a place, with its sizes and how many. */
export interface Noun {
  readonly tokens: Token[];
  /** It stands with this; absent for what something is done to, or who does it. */
  readonly preposition?: Preposition;
  /** The preposition as it stands in the line. */
  readonly lead?: Span;
}

/** One part of a line, between marks or joining words. */
export interface Clause {
  readonly joint: 'start' | 'and' | 'then' | 'comma';
  readonly tokens: Token[];
  readonly acts: Extract<Entry, { role: 'act' }>[];
  readonly particles: Set<Particle>;
  readonly nouns: Noun[];
  /** Pressures, times, volumes, doses: what is no size of a device. */
  readonly amounts: Extract<Piece, { is: 'amount' }>[];
  at?: string;
}

const sizes: ReadonlySet<string> = new Set(['length', 'calibre']);

/** Whether what follows can be a place or a thing: then `in` and `down` are prepositions. */
function namesNext(next: Token | undefined): boolean {
  if (!next || next.piece?.is === 'mark') return false;
  const role = next.entry?.role;
  return (
    role === undefined ||
    role === 'article' ||
    role === 'pointing' ||
    role === 'which' ||
    role === 'fluid' ||
    role === 'setting' ||
    role === 'reading'
  );
}

/** Words after which a new thing begins. */
const ends = /^(?:after|before|but|except|or|either|else)$/i;

const start = (joint: Clause['joint']): Clause => ({
  joint,
  tokens: [],
  acts: [],
  particles: new Set(),
  nouns: [],
  amounts: [],
});

/** Parts of a line at commas, stops, `and`, `then`. */
export function clausesOf(tokens: readonly Token[]): Clause[] {
  const clauses: Clause[] = [];
  let clause = start('start');
  let noun: Noun | undefined;
  const close = (joint: Clause['joint']) => {
    if (clause.tokens.length > 0) clauses.push(clause);
    clause = start(clauses.length === 0 ? 'start' : joint);
    noun = undefined;
  };
  const openNoun = (preposition?: Preposition, lead?: Token) => {
    noun = { tokens: [], ...(preposition && { preposition }), ...(lead && { lead }) };
    clause.nouns.push(noun);
    return noun;
  };
  tokens.forEach((token, index) => {
    const { entry, piece } = token;
    const next = tokens[index + 1];
    if (piece?.is === 'mark' && !entry) {
      if (/[,;.:!]/.test(piece.mark)) close('comma');
      else if (!/[\s\-–—()"']/.test(piece.mark)) clause.tokens.push(token);
      return;
    }
    if (entry?.role === 'joint') {
      close(entry.joint);
      return;
    }
    clause.tokens.push(token);
    if (piece?.is === 'time') clause.at = piece.at;
    else if (entry?.role === 'act') {
      clause.acts.push(entry);
      noun = undefined;
    } else if (entry?.role === 'doubt' && (entry.doubt !== 'open' || ends.test(token.text))) noun = undefined;
    else if (entry?.role === 'preposition') openNoun(entry.preposition, token);
    else if (entry?.role === 'particle') {
      const place = entry.particle === 'in' || entry.particle === 'down' || entry.particle === 'up';
      if (place && token.text.indexOf(' ') < 0 && namesNext(next))
        openNoun(entry.particle === 'in' ? 'in' : 'into', token);
      else {
        clause.particles.add(entry.particle);
        noun = undefined;
      }
    } else if (piece?.is === 'amount' && !sizes.has(piece.dimension)) clause.amounts.push(piece);
    else if (
      entry === undefined ||
      entry.role === 'article' ||
      entry.role === 'pointing' ||
      entry.role === 'which'
    )
      (noun ?? openNoun()).tokens.push(token);
    else if (entry.role === 'filler' && token.text.toLowerCase() === 'one' && noun) noun.tokens.push(token);
    else if (
      noun?.preposition === 'on' ||
      noun?.preposition === 'to' ||
      noun?.preposition === 'with' ||
      noun?.preposition === 'under'
    )
      noun.tokens.push(token);
    else if (
      noun?.preposition &&
      noun.tokens.length > 0 &&
      entry.role === 'filler' &&
      token.text.toLowerCase() === 'of'
    )
      noun.tokens.push(token);
  });
  close('comma');
  return clauses;
}
