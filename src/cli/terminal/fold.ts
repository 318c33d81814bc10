import { type Finding, messageOf } from '../../findings/finding.js';
import { withFollowing } from '../../findings/harm.js';
import type { Language } from '../../findings/languages.js';
import { grouped } from '../../record/grouped.js';

/** One thing that is wrong, in however many places. */
export interface Entry {
  readonly first: Finding;
  /** What is said at the other places, as far as it differs from what is said at the first. */
  readonly others: readonly { readonly finding: Finding; readonly differing: string }[];
  /** What follows from any of them. */
  readonly following: readonly Finding[];
}

/** The findings in the order given, the same one in many places as one; those that follow from another go with it. */
export function folded(findings: readonly Finding[], language?: Language): Entry[] {
  const groups = grouped(withFollowing(findings), ({ finding: { severity, code, acknowledged } }) =>
    JSON.stringify([severity, code, acknowledged]),
  );
  return [...groups.values()].flatMap(causes => {
    const [head, ...rest] = causes;
    if (!head) return [];
    const said = messageOf(head.finding, language);
    return {
      first: head.finding,
      others: rest.map(({ finding }) => ({
        finding,
        differing: differing(said, messageOf(finding, language)),
      })),
      following: causes.flatMap(({ following }) => following),
    };
  });
}

/** Every finding that an entry stands for. */
export const findingsIn = ({ first, others, following }: Entry): Finding[] => [
  first,
  ...others.map(({ finding }) => finding),
  ...following,
];

/** The words of `other` between those that both have at their beginning and at their end; empty where they are the same. */
function differing(one: string, other: string): string {
  const a = one.split(' ');
  const b = other.split(' ');
  const most = Math.min(a.length, b.length);
  let start = 0;
  while (start < most && a[start] === b[start]) start += 1;
  let end = 0;
  while (end < most - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end += 1;
  return b
    .slice(start, b.length - end)
    .join(' ')
    .replace(/[.,;:]$/, '');
}
