import { compareText } from '../findings/finding.js';
import { type CaseFacts, caseText } from './facts.js';
import type { Decision } from './use.js';

/** A case with its newest version and those before it. */
export interface FoldedCase {
  readonly name: string;
  readonly facts: CaseFacts;
  readonly earlier: readonly CaseFacts[];
}

/** The newest version of each case, in the order in which the cases were done. */
export function newestOfEach(versions: readonly CaseFacts[], own: string): FoldedCase[] {
  const byCase = new Map<string, CaseFacts[]>();
  for (const facts of versions) {
    const name = caseText(facts.case, own);
    const known = byCase.get(name) ?? [];
    // The same version may have been taken in more than once.
    if (!known.some(({ version, digest }) => version === facts.version && digest === facts.digest))
      byCase.set(name, [...known, facts]);
  }
  return [...byCase]
    .flatMap(([name, all]): FoldedCase[] => {
      const ordered = all.toSorted((a, b) => a.version - b.version || compareText(a.digest, b.digest));
      const facts = ordered.at(-1);
      return facts ? [{ name, facts, earlier: ordered.slice(0, -1) }] : [];
    })
    .sort(
      (a, b) =>
        compareText(a.facts.date, b.facts.date) ||
        (a.facts.at ?? 0) - (b.facts.at ?? 0) ||
        compareText(a.name, b.name),
    );
}

/** The last decision on each device of a case. */
export function lastDecisions(decisions: readonly Decision[]): Map<string, Decision> {
  const ordered = decisions.toSorted(
    (a, b) => a.at - b.at || compareText(JSON.stringify(a), JSON.stringify(b)),
  );
  return new Map(ordered.map(one => [`${one.case}/${one.device}`, one]));
}
