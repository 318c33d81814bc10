import { grouped } from '../record/grouped.js';
import { pathText } from '../record/path.js';
import type { Claim } from './claims.js';
import type { Path } from './fields.js';

/** A path as text, which no two paths share. */
export const placeOf = (path: Path): string => pathText(path);

/** Claims about the same place, in their order. */
export const byPlace = (claims: readonly Claim[]): Map<string, Claim[]> =>
  grouped(claims, ({ path }) => placeOf(path));
