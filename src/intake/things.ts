import { type Finding, finding } from '../findings/finding.js';
import type { Tree } from '../record/read.js';
import { valueAt } from '../record/tree.js';
import type { Claim } from './claims.js';
import { thingOf } from './fields.js';
import { type SourceLine, sourcesAt } from './lines.js';
import { byPlace, placeOf } from './places.js';
import { type Source, sameSource, sourceSaid } from './source.js';

/**
 * A whole thing, such as a device of a kit, is put in under its key or not at all: nothing of it is filled into an entry
 * that is there, which may be another one. Two kits that use one key mean two things; the first of them is put in.
 */
export function thingsIn(
  set: readonly Claim[],
  tree: Tree | undefined,
  lines: readonly SourceLine[],
): { readonly claims: Claim[]; readonly findings: Finding[] } {
  const findings: Finding[] = [];
  const dropped = new Set<Claim>();
  const spokenOf = new Set(set.flatMap(claim => (claim.whole ? [] : [placeOf(claim.path)])));
  const things = byPlace(
    set.flatMap(claim => (claim.whole ? [{ ...claim, path: thingOf(claim.path) ?? [] }] : [])),
  );
  for (const [place, claims] of things) {
    const path = claims[0]?.path ?? [];
    const within = set.filter(claim => claim.whole && placeOf(thingOf(claim.path) ?? []) === place);
    const there = valueAt(tree, path);
    const named = there === undefined ? [] : sourcesAt(path, lines);
    const kits = each([...named, ...claims.map(({ source }) => source)].filter(({ from }) => from === 'kit'));
    const [first] = kits;
    if (first && kits.length > 1) {
      for (const claim of within)
        if (claim.source.from === 'kit' && !sameSource(claim.source, first)) dropped.add(claim);
      findings.push(finding('intake.key-twice', place, { place, sources: { list: kits.map(sourceSaid) } }));
    }
    if (there === undefined) continue;
    // Where another source speaks of the same field, the two still have to agree.
    const missing = within.filter(
      claim =>
        !dropped.has(claim) && valueAt(tree, claim.path) === undefined && !spokenOf.has(placeOf(claim.path)),
    );
    for (const claim of missing) dropped.add(claim);
    for (const source of each(missing.map(claim => claim.source))) {
      const own = missing.filter(claim => sameSource(claim.source, source));
      const fields = { list: [...new Set(own.map(claim => claim.path.slice(2).join('.')))] };
      findings.push(finding('intake.entry-there', place, { place, fields, source: sourceSaid(source) }));
    }
  }
  return { claims: set.filter(claim => !dropped.has(claim)), findings };
}

const each = (sources: readonly Source[]): Source[] =>
  sources.filter((one, index) => sources.findIndex(other => sameSource(one, other)) === index);
