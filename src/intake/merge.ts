import { type Finding, finding, sortFindings } from '../findings/finding.js';
import { parseCase, placed } from '../record/parse.js';
import type { Tree } from '../record/read.js';
import type { TimeContext } from '../record/time.js';
import { treeIn, valueAt } from '../record/tree.js';
import { admit } from './about.js';
import { type AgeLimits, withoutOld } from './ages.js';
import { type Claim, claimsOf, type Proposal } from './claims.js';
import type { Contribution } from './contribution.js';
import { insideThen } from './inside-then.js';
import { type SourceLine, sourceLines, sourcesAt } from './lines.js';
import { addTo } from './lists.js';
import { meaningOf } from './meaning.js';
import { byPlace, placeOf } from './places.js';
import { setAll } from './set-all.js';
import { inOrder, isDated, type Source, sourceOf, sourceSaid } from './source.js';

/** What merging needs beside record and sources. */
export interface MergeOptions {
  /** After how long a value is proposed and not taken: `olderThan` of the site. */
  readonly olderThan?: AgeLimits;
  /** Zone of the site, for a record that names none. */
  readonly timeZone?: string;
  /** System of the case numbers of the site. */
  readonly caseSystem?: string;
  /** Today, `YYYY-MM-DD`: what ages are counted to while the case has no date. */
  readonly today?: string;
}

/** What sources change in a record. Nothing of it is done yet: `writeRecord` puts it into the text. */
export interface Merged {
  /** Values that fields take, and entries that go to the end of lists. */
  readonly set: readonly Claim[];
  readonly add: readonly Claim[];
  /** Values that a person may take over. */
  readonly proposals: readonly Proposal[];
  /** Lines of `sources` that are new, or take the place of the one about the same path from the same source. */
  readonly sources: readonly SourceLine[];
  /** Sources of which nothing was taken, because they speak of another patient or case. */
  readonly held: readonly Source[];
  readonly findings: readonly Finding[];
  /** The text is no record at all: nothing was merged. */
  readonly unreadable: boolean;
}

/**
 * Brings what sources give into a record, in any order with the same result, as often as one likes. What a person typed
 * stays; a value from a source is renewed by a later word of the same source alone; what two sides say differently is left
 * to a person, and so is what is too old. Never throws for what is in text or sources.
 * @param text YAML or JSON of the record; undefined for one that is to begin
 */
export function mergeSources(
  text: string | undefined,
  contributions: readonly Contribution[],
  options: MergeOptions = {},
): Merged {
  const parsed = text === undefined ? undefined : parseCase(text, options);
  if (parsed?.unreadable)
    return {
      set: [],
      add: [],
      proposals: [],
      sources: [],
      held: [],
      findings: sortFindings(parsed.findings),
      unreadable: true,
    };
  const tree = text === undefined ? undefined : treeIn(text);
  const sorted = inOrder(contributions);
  const { taken, held, findings } = admit(sorted.filter(isDated), tree);
  const undated = sorted.filter(one => !isDated(one)).map(undatedFinding);
  const claims = claimsOf(taken);
  const context = contextOf(tree, claims.set, options);
  const day = context.date ?? options.today;
  const limits = options.olderThan ?? {};
  const id = valueAt(tree, ['case', 'id']);
  const here = { id: typeof id === 'string' ? id.trim() : undefined, system: options.caseSystem };
  const inside = insideThen(claims.set, here, context);
  const set = withoutOld(inside.kept, false, day, limits, context);
  const add = withoutOld(claims.add, true, day, limits, context);
  const lines = sourceLines(tree);
  const fields = setAll(set.fresh, add.fresh, tree, lines, context);
  const lists = [...byPlace(fields.add).values()].map(list => {
    const path = list[0]?.path ?? [];
    const value = valueAt(tree, path);
    const present = value === undefined ? undefined : { value, sources: sourcesAt(path, lines) };
    return addTo(list, present, index => sourcesAt([...path, index], lines), context);
  });
  const added = lists.flatMap(list => list.added);
  const asProposals =
    (entry: boolean) =>
    (claim: Claim): Proposal => {
      const { whole: _, ...rest } = claim;
      return { ...rest, entry };
    };
  const proposals = [
    ...claims.proposals,
    ...[...set.old, ...add.old].filter(old => valueAt(tree, old.path) === undefined || old.entry),
    ...fields.open.map(asProposals(false)),
    ...lists.flatMap(list => list.open).map(asProposals(true)),
  ].filter(proposal => !isThere(proposal, tree, [...fields.taken, ...added], context));
  const all = [
    ...findings,
    ...undated,
    ...claims.findings,
    ...inside.findings,
    ...set.findings,
    ...add.findings,
    ...fields.findings,
    ...lists.flatMap(list => list.findings),
  ];
  return {
    set: fields.taken,
    add: added,
    proposals,
    sources: [...fields.sources, ...addedLines(added, tree)],
    held,
    unreadable: false,
    findings: sortFindings(parsed ? placed(all, parsed.locate) : all),
  };
}

/** Of a source without a time of its own nobody could tell later which word was the last. */
const undatedFinding = (one: Contribution): Finding =>
  finding('intake.not-a-value', 'sources', { source: sourceSaid(sourceOf(one)), place: 'sources.at' });

/** Date and zone of the case: the record's, else what a source gives. */
function contextOf(tree: Tree | undefined, set: readonly Claim[], { timeZone }: MergeOptions): TimeContext {
  const field = (name: string) => {
    const own = valueAt(tree, ['case', name]);
    const given = set.filter(({ path }) => path.join('.') === `case.${name}`);
    const value = own ?? (given.length === 1 ? given[0]?.value : undefined);
    return typeof value === 'string' ? value.trim() : undefined;
  };
  return { date: field('date'), timeZone: field('timeZone') ?? timeZone, started: field('started') };
}

/** Entries that were added stand at the end of their list, in this order. */
function addedLines(added: readonly Claim[], tree: Tree | undefined): SourceLine[] {
  const ends = new Map<string, number>();
  return added.map(({ path, source }) => {
    const id = placeOf(path);
    const list = valueAt(tree, path);
    const index = ends.get(id) ?? (Array.isArray(list) ? list.length : 0);
    ends.set(id, index + 1);
    return { path: [...path, index], ...source };
  });
}

/** What the record says already, or is about to say, nobody needs to take over. */
function isThere(
  { path, value, entry }: Proposal,
  tree: Tree | undefined,
  taken: readonly Claim[],
  context: TimeContext,
): boolean {
  const name = path.at(-1) ?? '';
  const wanted = meaningOf(value, name, context);
  const same = (other: Tree | undefined) => other !== undefined && meaningOf(other, name, context) === wanted;
  const here = valueAt(tree, path);
  if (entry ? Array.isArray(here) && here.some(same) : same(here)) return true;
  return taken.some(claim => placeOf(claim.path) === placeOf(path) && same(claim.value));
}
