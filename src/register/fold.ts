import {
  closePlans,
  type Draft,
  done,
  draftOf,
  firstSeenIn,
  isOpen,
  nameOf,
  placedBy,
  seenBy,
} from './draft.js';
import { type CaseFacts, caseText } from './facts.js';
import { contradictions, linkOf, type OpenUse, type Sighting, sameKindAndPlace } from './link.js';
import { type FoldedCase, lastDecisions, newestOfEach } from './order.js';
import type { Decision, Gap, History, Unlinked } from './use.js';

/** What folding needs beside the cases. */
export interface FoldOptions {
  /** Id of the person. */
  readonly person: string;
  /** Numbering system of the site's own case numbers, which names leave out. */
  readonly ownSystem: string;
}

/**
 * The history of one person, from all versions of all cases and all decisions, in whatever order they came: the same
 * cases and decisions give the same history.
 *
 * The newest version of each case counts; a withdrawn one leaves its events as withdrawn and changes nothing else.
 */
export function fold(
  versions: readonly CaseFacts[],
  decisions: readonly Decision[],
  options: FoldOptions,
): History {
  const cases = newestOfEach(versions, options.ownSystem);
  const latest = lastDecisions(decisions);
  const uses: Draft[] = [];
  const unlinked: Unlinked[] = [];
  const gaps: Gap[] = [];
  let died: { readonly case: string; readonly date?: string } | undefined;
  for (const one of cases) {
    const { name, facts } = one;
    const withdrawn = facts.status === 'withdrawn';
    for (const fact of facts.devices) {
      const own = nameOf(name, fact);
      if (fact.carried === undefined) {
        uses.push(placedBy(one, fact, own));
        continue;
      }
      const open = uses.filter(isOpen);
      const sighting = {
        fact,
        date: facts.date,
        earlier: fact.carried.case && caseText(fact.carried.case, options.ownSystem),
      };
      const decided = latest.get(own);
      const link = decided?.kind === 'unlink' ? ({ kind: 'none' } as const) : linkOf(sighting, open);
      const chosen =
        decided?.kind === 'link'
          ? { use: uses.find(use => use.names.has(decided.use)), evidence: 'decided' as const }
          : link.kind === 'linked'
            ? { use: uses.find(({ id }) => id === link.use), evidence: link.evidence }
            : undefined;
      if (chosen?.use) {
        seenBy(one, fact, own, chosen.use, chosen.evidence, withdrawn);
        continue;
      }
      const first = firstSeenIn(one, fact, own, sighting);
      uses.push(first);
      if (withdrawn) continue;
      const told = { person: options.person, case: name, device: fact.device };
      if (link.kind === 'open') {
        const { why, candidates, against } = link;
        unlinked.push({ ...told, name: fact.name, date: facts.date, why, candidates, against });
      }
      // Where one of several is meant, or proposed, nothing is missing: a person has to say which.
      const missed = link.kind !== 'open' || link.why === 'contradiction';
      for (const use of open) if (missed && isGap(sighting, use)) gaps.push({ ...told, use: use.id });
    }
    if (facts.died !== undefined && !withdrawn)
      died ??= { case: name, ...(facts.died !== '' && { date: facts.died }) };
    correctedBy(one, uses);
  }
  if (died) for (const use of uses) closePlans(use, 'died', died.case, died.date);
  return { uses: uses.map(use => done(use, options.person)), unlinked, gaps };
}

/** Later versions leave their mark on what they speak of; what an earlier version told and this one does not is withdrawn. */
function correctedBy(one: FoldedCase, uses: Draft[]): void {
  const { facts, name, earlier } = one;
  if (earlier.length === 0 || facts.status === 'withdrawn') return;
  const date = facts.changed?.date;
  const mark = {
    kind: 'corrected' as const,
    ...(date !== undefined && { date }),
    case: name,
    version: facts.version,
    ...(facts.changed?.why !== undefined && { note: facts.changed.why }),
  };
  const told = new Set(facts.devices.map(fact => nameOf(name, fact)));
  for (const as of told)
    for (const use of uses.filter(({ names }) => names.has(as))) use.events.push({ ...mark, as });
  const gone = new Map(
    earlier.flatMap(old => old.devices.map(fact => [nameOf(name, fact), { old, fact }] as const)),
  );
  for (const [id, { old, fact }] of gone) {
    if (told.has(id) || fact.carried) continue;
    const use = draftOf({ name, facts: old, earlier: [] }, fact, id);
    use.placed = fact.inOn ?? old.date;
    use.state = 'withdrawn';
    const inserted = {
      kind: 'inserted' as const,
      date: use.placed,
      case: name,
      version: old.version,
      as: id,
    };
    use.events.push(inserted, { ...mark, as: id });
    uses.push(use);
  }
}

/** Another device of the kind was found where this one is still said to be, with something that tells them apart. */
function isGap(sighting: Sighting, use: OpenUse): boolean {
  return sameKindAndPlace(sighting.fact, use) && contradictions(sighting, use).length > 0;
}
