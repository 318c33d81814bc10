import type { Finding } from '../findings/finding.js';
import type { Tree } from '../record/read.js';
import { valueAt } from '../record/tree.js';
import type { Claim } from './claims.js';
import type { Path } from './fields.js';
import { type SourceLine, sourcesAt } from './lines.js';
import { byPlace, placeOf } from './places.js';
import { differ, type Present, presentSide, sideOf } from './settle.js';

/** Claims that cannot stand together, or not beside what the record says. */
export interface Clashes {
  has(claim: Claim): boolean;
  /** Values to choose from, where the record is silent. */
  readonly open: readonly Claim[];
  readonly findings: readonly Finding[];
}

interface Clash {
  readonly path: Path;
  readonly present: Present | undefined;
  readonly claims: Set<Claim>;
}

/** `none` for a group or a list, in the record or from a source, and beside it something within. */
export function clashing(
  set: readonly Claim[],
  add: readonly Claim[],
  tree: Tree | undefined,
  lines: readonly SourceLine[],
): Clashes {
  const clashes = new Map<string, Clash>();
  const put = (path: Path, present: Present | undefined, claims: readonly Claim[]) => {
    const place = placeOf(path);
    const clash = clashes.get(place) ?? { path, present, claims: new Set() };
    for (const claim of claims) clash.claims.add(claim);
    clashes.set(place, clash);
  };
  const fields = byPlace(set);
  for (const claim of [...set, ...add])
    for (let length = 1; length < claim.path.length; length++) {
      const above = claim.path.slice(0, length);
      const value = valueAt(tree, above);
      const inTheWay = value !== undefined && (typeof value !== 'object' || Array.isArray(value));
      if (inTheWay) put(above, { value, sources: sourcesAt(above, lines) }, [claim]);
      else {
        const others = fields.get(placeOf(above)) ?? [];
        if (others.length > 0) put(above, undefined, [...others, claim]);
      }
    }
  for (const [place, entries] of byPlace(add)) {
    const path = entries[0]?.path ?? [];
    const others = fields.get(place) ?? [];
    if (others.length > 0 && valueAt(tree, path) === undefined) put(path, undefined, [...others, ...entries]);
  }
  const all = [...clashes.values()];
  const lost = new Set(all.flatMap(({ claims }) => [...claims]));
  return {
    has: claim => lost.has(claim),
    open: all.flatMap(({ present, claims }) =>
      present ? [] : [...claims].filter(claim => set.includes(claim)),
    ),
    findings: all.map(({ path, present, claims }) =>
      differ(path, [...(present ? [presentSide(present)] : []), ...[...claims].map(sideOf)]),
    ),
  };
}
