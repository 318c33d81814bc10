import { pathText } from '../record/path.js';
import type { Claim } from './claims.js';
import type { Path } from './fields.js';

/** A path as text, which no two paths share. */
export const placeOf = (path: Path): string => pathText(path);

/** Claims about the same place, in their order. */
export function byPlace(claims: readonly Claim[]): Map<string, Claim[]> {
  const found = new Map<string, Claim[]>();
  for (const claim of claims) {
    const place = placeOf(claim.path);
    const there = found.get(place);
    if (there) there.push(claim);
    else found.set(place, [claim]);
  }
  return found;
}
