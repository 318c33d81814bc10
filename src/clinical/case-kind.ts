import { type Finding, finding } from '../findings/finding.js';
import { allOf, message } from '../findings/message.js';
import { isNearest, suggest } from '../record/issues.js';
import { caseKindNamed, caseKinds } from '../trade/cases/table.js';

/** Which rows the kind of case was read as, where it is not one of their names; which rules are silent, where it is none. */
export function caseKindFindings(kind: string): Finding[] {
  const found = caseKindNamed(kind);
  if (!found) {
    const near = suggest(
      kind,
      caseKinds.map(({ name }) => name),
    );
    const suggestion = isNearest(near) ? near : message('answer.kindInWords');
    return [finding('clinical.case-kind-unknown', 'case.kind', { kind, suggestion })];
  }
  if (found.how === 'listed') return [];
  const row = allOf(found.rows.map(({ name }) => name));
  return [finding('clinical.case-kind-read', 'case.kind', { kind, row })];
}
