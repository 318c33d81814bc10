import type { Severity } from '../findings/define.js';
import type { Issue } from './result.js';

/** How often one rule spoke, and where first. */
export interface RuleCount {
  readonly severity: Severity;
  /** Rule id, or the key of an invariant. */
  readonly rule: string;
  readonly count: number;
  readonly first: Issue;
}

const order: Readonly<Record<Severity, number>> = { fatal: 0, error: 1, warning: 2, information: 3 };

/** Counts issues by rule: the gravest first, then the most frequent. */
export function summarise(issues: Iterable<Issue>): RuleCount[] {
  const rows = new Map<string, { severity: Severity; rule: string; count: number; first: Issue }>();
  for (const issue of issues) {
    const rule = issue.key ?? issue.rule;
    const id = `${issue.severity}|${rule}`;
    const row = rows.get(id);
    if (row) row.count += 1;
    else rows.set(id, { severity: issue.severity, rule, count: 1, first: issue });
  }
  return [...rows.values()].sort(
    (a, b) => order[a.severity] - order[b.severity] || b.count - a.count || (a.rule < b.rule ? -1 : 1),
  );
}
