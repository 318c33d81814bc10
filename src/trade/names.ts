import { wordsOf } from './words.js';

/** A row of a table of trade words. */
export interface Named {
  /** The name by which rules and other tables know the row. */
  readonly name: string;
  /** Other names for the same. */
  readonly aliases: readonly string[];
}

/** The row that a text means, and how it was found. */
export interface Match<Row> {
  readonly row: Row;
  /** `listed`: the text is a name of the row, spelling aside; `qualified`: it has words beside the name. */
  readonly how: 'listed' | 'qualified';
}

export interface NameOptions {
  /** Words that may stand beside a name without changing what it means, parted by blanks. */
  readonly qualifiers?: string;
  /** Words from which on a text no longer names the thing (`biopsy for …`), parted by blanks. */
  readonly cuts?: string;
  /** Words that mean the same in this table: each is compared as the first of its group. */
  readonly same?: readonly (readonly string[])[];
}

interface Entry<Row> {
  readonly words: readonly string[];
  readonly length: number;
  readonly row: Row;
}

/** A figure, alone or with its unit: `8.5`, `8fr`, `40mm`. */
const figure = /^[\d.]+(?:%|\p{L}{0,3})$/u;

/**
 * Finds rows by name as people write it: case, accents, hyphens, plural, word order, British or American spelling and
 * qualifying words aside. A text with a word that is neither of the name nor a qualifier finds nothing, so that
 * `not peelable` and `pre-dialysis` are never read as their opposite.
 */
export class NameTable<Row extends Named> {
  readonly rows: readonly Row[];
  private readonly byKey = new Map<string, Row>();
  private readonly entries: Entry<Row>[] = [];
  private readonly qualifiers: ReadonlySet<string>;
  private readonly cuts: ReadonlySet<string>;
  private readonly same = new Map<string, string>();
  /** What texts were found to mean: rules ask for the same few names again and again. */
  private readonly known = new Map<string, Match<Row> | undefined>();

  constructor(rows: readonly Row[], options: NameOptions = {}) {
    this.rows = rows;
    for (const [first = '', ...others] of options.same ?? [])
      for (const word of others)
        for (const one of wordsOf(word)) this.same.set(one, wordsOf(first)[0] ?? first);
    this.qualifiers = new Set(this.words(options.qualifiers ?? ''));
    this.cuts = new Set((options.cuts ?? '').split(' ').filter(word => word !== ''));
    for (const row of rows)
      for (const name of [row.name, ...row.aliases]) {
        const words = [...new Set(this.words(name))];
        const key = keyOf(words);
        if (!this.byKey.has(key)) this.byKey.set(key, row);
        this.entries.push({ words, length: key.length, row });
      }
    // Longest first: lengths are kept, since a table has a thousand names and sorts at every start.
    this.entries.sort((a, b) => b.words.length - a.words.length || b.length - a.length);
  }

  /** The row that a text means; undefined when it means none, or may mean its opposite. */
  find(text: string): Match<Row> | undefined {
    // Bounded in length and number, since the texts are people's own.
    const start = text.slice(0, 200);
    if (this.known.has(start)) return this.known.get(start);
    const found = this.search(start);
    if (this.known.size >= 2_000) this.known.clear();
    this.known.set(start, found);
    return found;
  }

  private search(text: string): Match<Row> | undefined {
    const all = this.words(text);
    const listed = this.byKey.get(keyOf([...new Set(all)]));
    if (listed) return { row: listed, how: 'listed' };
    const cut = all.findIndex((word, place) => place > 0 && this.cuts.has(word));
    const words = cut < 0 ? all : all.slice(0, cut);
    const found = this.entries.find(
      entry =>
        entry.words.length > 0 &&
        subset(entry.words, words) &&
        words.every(word => entry.words.includes(word) || this.qualifiers.has(word) || figure.test(word)),
    );
    return found && { row: found.row, how: 'qualified' };
  }

  private words(text: string): string[] {
    return wordsOf(text).map(word => this.same.get(word) ?? word);
  }
}

const keyOf = (words: readonly string[]) => [...words].sort().join(' ');
const subset = (few: readonly string[], many: readonly string[]) => few.every(word => many.includes(word));

/** `a|b|c` as a list: how the tables write other names. */
export const listOf = (text: string): readonly string[] => (text === '' ? [] : text.split('|'));
