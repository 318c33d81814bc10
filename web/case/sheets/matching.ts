import type { Term } from '../engine/terms.js';

/** Most names that are suggested at once: what a glance takes in. */
const MOST = 6;

const plain = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** Names that a typed text may mean: those that begin with it, then those with a word that does. */
export function matching(terms: readonly Term[], typed: string): readonly Term[] {
  const wanted = plain(typed.trim());
  if (wanted === '') return [];
  const rank = ({ name, said, also }: Term): number => {
    const all = [said, name, ...also].map(plain);
    if (all[0]?.startsWith(wanted) || all[1]?.startsWith(wanted)) return 0;
    const words = wanted.split(/\s+/);
    const fits = (text: string) =>
      words.every(word => text.split(/[\s/-]+/).some(part => part.startsWith(word)));
    if (all.slice(0, 2).some(fits)) return 1;
    return all.some(fits) ? 2 : 3;
  };
  return terms
    .map(term => ({ term, rank: rank(term) }))
    .filter(one => one.rank < 3)
    .sort((a, b) => a.rank - b.rank || a.term.said.length - b.term.said.length)
    .slice(0, MOST)
    .map(({ term }) => term);
}
