import { type Finding, finding } from '../../findings/finding.js';
import { shownText } from '../../record/issues.js';
import { caseKindNamed } from '../../trade/cases/table.js';
import { sourceSaid } from '../source.js';
import type { Kit } from './read.js';

/** A kit that is for other kinds of case than this one: perhaps the wrong one was named. */
export function otherKind({ name, caseKinds }: Kit, kind: string | undefined, at: string): Finding[] {
  if (kind === undefined || caseKinds.length === 0) return [];
  const rows = (text: string) =>
    caseKindNamed(text)?.rows.map(row => row.name) ?? [text.trim().toLowerCase()];
  const own = new Set(caseKinds.flatMap(rows));
  if (rows(kind).some(row => own.has(row))) return [];
  const source = { sentence: sourceSaid({ from: 'kit', by: name, at }) };
  return [
    finding('intake.kit-other-kind', 'case.kind', {
      source,
      kinds: caseKinds.map(shownText).join(', '),
      kind: shownText(kind),
    }),
  ];
}
