import { distance } from 'fastest-levenshtein';

/** The known name closest to a misspelt one, or nothing when none is close. */
export function nearest(name: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(name.length / 3)) + 1;
  for (const candidate of known) {
    const apart = distance(name.toLowerCase(), candidate.toLowerCase());
    if (apart < least) {
      least = apart;
      best = candidate;
    }
  }
  return best;
}
