import type { Finding } from '../findings/finding.js';
import type { Tree } from '../record/read.js';
import type { TimeContext } from '../record/time.js';
import { valueAt } from '../record/tree.js';
import type { Claim } from './claims.js';
import { clashing } from './clashes.js';
import { thingOf } from './fields.js';
import { type SourceLine, sourcesAt } from './lines.js';
import { byPlace, placeOf } from './places.js';
import { settle } from './settle.js';
import { type Source, sameSource } from './source.js';
import { thingsIn } from './things.js';

/** What became of all fields. */
export interface SetAll {
  readonly taken: readonly Claim[];
  /** Entries that nothing stands against yet. */
  readonly add: readonly Claim[];
  readonly open: readonly Claim[];
  readonly sources: readonly SourceLine[];
  readonly findings: readonly Finding[];
}

/** Decides every field that sources claim. */
export function setAll(
  set: readonly Claim[],
  add: readonly Claim[],
  tree: Tree | undefined,
  lines: readonly SourceLine[],
  context: TimeContext,
): SetAll {
  const findings: Finding[] = [];
  const open: Claim[] = [];
  const taken: Claim[] = [];
  const things = thingsIn(set, tree, lines);
  findings.push(...things.findings);
  const clashes = clashing(things.claims, add, tree, lines);
  findings.push(...clashes.findings);
  open.push(...clashes.open);
  const free = things.claims.filter(claim => !clashes.has(claim));
  for (const claims of byPlace(free).values()) {
    const path = claims[0]?.path ?? [];
    const value = valueAt(tree, path);
    const present = value === undefined ? undefined : { value, sources: sourcesAt(path, lines) };
    const settled = settle(claims, present, context);
    if (settled.taken) taken.push(settled.taken);
    open.push(...settled.open);
    findings.push(...settled.findings);
  }
  return {
    taken,
    add: add.filter(claim => !clashes.has(claim)),
    open,
    sources: linesOf(taken, tree),
    findings,
  };
}

/** One line a source and thing, and one for each value that came from elsewhere. */
function linesOf(taken: readonly Claim[], tree: Tree | undefined): SourceLine[] {
  const lines: SourceLine[] = [];
  const fresh = new Map<string, Source>();
  for (const { path, source, whole } of taken) {
    const thing = thingOf(path);
    if (!whole || !thing || valueAt(tree, thing) !== undefined || fresh.has(placeOf(thing))) continue;
    fresh.set(placeOf(thing), source);
    lines.push({ path: thing, ...source });
  }
  for (const { path, source } of taken) {
    const thing = thingOf(path);
    const of = thing && fresh.get(placeOf(thing));
    if (!of || !sameSource(of, source) || of.at !== source.at) lines.push({ path, ...source });
  }
  return lines;
}
