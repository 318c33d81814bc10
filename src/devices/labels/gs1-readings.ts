import type { Gs1Entry } from './gs1-table.js';
import { identifierAt, matchesPattern } from './gs1-table.js';
import { keepsToStandard, standardEnds } from './gs1-value.js';
import type { Source } from './source.js';
import { sliceSource } from './source.js';

/** One element string: what the standard says of it, and its value. */
export interface Gs1Element {
  readonly entry: Gs1Entry;
  readonly value: Source;
}

/** Bounds on the search: real labels have a handful of readings, hostile text could have millions. */
const maxReadings = 64;
const maxSteps = 4000;

/** The sets of identifiers of which `entry` needs one, that `present` does not satisfy. */
export function unmetRequirements(
  entry: Gs1Entry,
  present: readonly string[],
): readonly (readonly string[])[] {
  return entry.requires.filter(set => !set.some(pattern => present.some(ai => matchesPattern(ai, pattern))));
}

/** The identifiers beside which `entry` may not stand and which `present` holds. */
export function forbiddenBeside(entry: Gs1Entry, present: readonly string[]): string[] {
  return present.filter(ai => entry.excludes.some(pattern => matchesPattern(ai, pattern)));
}

/**
 * All ways to read `source` from `from` to `end` as `first`, whose value has no fixed length, followed by
 * whole elements that keep to the standard, as if the separators between them had been lost. A way is kept
 * only if no identifier comes twice and all associations that the standard demands are met.
 *
 * @param before elements already read, which count for repetitions and associations
 * @returns each way as its elements, the way that takes everything as one value first; `complete` is false
 *   when the search stopped at its bound
 */
export function possibleReadings(
  source: Source,
  from: number,
  end: number,
  first: Gs1Entry,
  before: readonly Gs1Element[],
  today: string,
): { ways: Gs1Element[][]; complete: boolean } {
  const search = new Search(source, end, today);
  const used = new Set(before.map(element => element.entry.ai));
  const out: Gs1Element[][] = [];
  if (keepsToStandard(first, source.text.slice(from, end), today)) {
    out.push([{ entry: first, value: sliceSource(source, from, end) }]);
  }
  search.elementThenRest(first, from, used, [], found => {
    const present = [...before, ...found].map(element => element.entry.ai);
    const allowed = found.every(
      ({ entry }) =>
        unmetRequirements(entry, present).length === 0 && forbiddenBeside(entry, present).length === 0,
    );
    if (found.length > 1 && allowed) out.push(found);
  });
  return { ways: out, complete: search.complete };
}

class Search {
  private readonly source: Source;
  private readonly end: number;
  private readonly today: string;
  private readonly known = new Map<string, number[]>();
  private readonly finishable = new Map<number, boolean>();
  private steps = 0;
  private found = 0;

  constructor(source: Source, end: number, today: string) {
    this.source = source;
    this.end = end;
    this.today = today;
  }

  get complete(): boolean {
    return this.found < maxReadings && this.steps < maxSteps;
  }

  /** Ends of values of `entry` that start at `from` and keep to the standard. */
  private ends(entry: Gs1Entry, from: number): number[] {
    const key = `${entry.ai} ${from}`;
    const ends = this.known.get(key) ?? standardEnds(entry, this.source.text, from, this.end, this.today);
    this.known.set(key, ends);
    return ends;
  }

  private identifier(at: number): Gs1Entry | undefined {
    return identifierAt(this.source.text, at);
  }

  /** Whether whole elements can fill everything from `at` on; prunes the search. */
  private canFinish(at: number): boolean {
    if (at === this.end) return true;
    const known = this.finishable.get(at);
    if (known !== undefined) return known;
    const entry = this.identifier(at);
    const result =
      entry !== undefined && this.ends(entry, at + entry.ai.length).some(next => this.canFinish(next));
    this.finishable.set(at, result);
    return result;
  }

  elementThenRest(
    entry: Gs1Entry,
    from: number,
    used: ReadonlySet<string>,
    sofar: readonly Gs1Element[],
    emit: (found: Gs1Element[]) => void,
  ): void {
    const now = new Set(used).add(entry.ai);
    for (const next of this.ends(entry, from)) {
      if (!this.complete) return;
      this.steps += 1;
      const elements = [...sofar, { entry, value: sliceSource(this.source, from, next) }];
      if (next === this.end) {
        this.found += 1;
        emit(elements);
        continue;
      }
      const following = this.identifier(next);
      if (following === undefined || now.has(following.ai) || !this.canFinish(next)) continue;
      this.elementThenRest(following, next + following.ai.length, now, elements, emit);
    }
  }
}
