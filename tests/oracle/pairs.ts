import { publishedProfiles } from './corpus/definitions.js';
import type { Example } from './corpus/examples.js';
import { shuffled } from './corpus/random.js';
import { operators } from './mutations/all.js';
import type { Operator } from './mutations/operator.js';
import type { Question } from './oracles/oracle.js';

/** One text to judge: an example as published, held to another profile, or changed by one operator. */
export interface Pair extends Question {
  /** `narrative/script ips/Device-x text`: family, operator, example, place. */
  readonly id: string;
  readonly family: string;
  readonly operator: string;
  readonly example: string;
  readonly where: string;
}

/** Above this an example is only used by operators that find too few smaller ones. */
const large = 25_000;

/** The examples themselves. */
export function asPublished(corpus: readonly Example[]): Pair[] {
  return corpus.map(ex => pair('example', 'as-published', ex, '', ex.text, []));
}

/** The examples themselves, and each held to every published profile on its type. */
export function published(corpus: readonly Example[]): Pair[] {
  const profiles = publishedProfiles();
  return corpus.flatMap(ex => [
    ...asPublished([ex]),
    ...profiles
      .filter(p => p.type === ex.type && !ex.profiles.includes(p.url) && ex.text.length < large)
      .map(p => pair('profile', `held-to-${p.url.split('/').at(-1) ?? p.url}`, ex, '', ex.text, [p.url])),
  ]);
}

/**
 * Mutants of the given (clean) examples, at most `most` of each operator: the same list
 * for the same corpus and seed.
 */
export function mutants(corpus: readonly Example[], seed: string, most: number): Pair[] {
  return operators.flatMap(operator => chosen(operator, corpus, seed, most));
}

export { operators };

function chosen(operator: Operator, corpus: readonly Example[], seed: string, most: number): Pair[] {
  const key = `${seed} ${operator.family}/${operator.id}`;
  const ordered = spread(corpus, key);
  const rows = ordered.map(ex => ({ ex, places: shuffled(operator.mutations(ex), `${key} ${ex.id}`) }));
  const pairs: Pair[] = [];
  // Up to two places in each example, the second only when the first round left room.
  for (const round of [0, 1]) {
    for (const { ex, places } of rows) {
      if (pairs.length < most) take(ex, places[round]);
    }
  }
  function take(ex: Example, place: { where: string; make: () => string } | undefined): void {
    if (place) pairs.push(pair(operator.family, operator.id, ex, place.where, place.make(), []));
  }
  return pairs;
}

/** Shuffles, then deals the resource types in turn, small examples before large ones, so that none crowds the rest. */
function spread(corpus: readonly Example[], key: string): Example[] {
  const byType = new Map<string, Example[]>();
  for (const ex of shuffled(corpus, key)) byType.set(ex.type, [...(byType.get(ex.type) ?? []), ex]);
  const piles = [...byType.values()].map(pile => [
    ...pile.filter(ex => ex.text.length < large),
    ...pile.filter(ex => ex.text.length >= large),
  ]);
  const longest = Math.max(0, ...piles.map(pile => pile.length));
  return Array.from({ length: longest }, (_, i) => piles.map(pile => pile[i]))
    .flat()
    .filter(ex => ex !== undefined);
}

function pair(
  family: string,
  operator: string,
  ex: Example,
  where: string,
  text: string,
  profiles: readonly string[],
): Pair {
  return {
    id: `${family}/${operator} ${ex.id} ${where}`.trim(),
    family,
    operator,
    example: ex.id,
    where,
    text,
    profiles,
  };
}
