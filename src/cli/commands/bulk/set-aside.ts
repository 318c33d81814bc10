import { type Finding, stops } from '../../../findings/finding.js';
import { byHarm } from '../../../findings/harm.js';
import type { BulkAnswer } from './job.js';

/** Of one case, so many are written down where it is set aside. */
const MOST_FINDINGS = 50;

/** A case that goes no further, with the worst of what there is to say of it. */
export function setAside(
  findings: readonly Finding[],
  { unreadable = false, early = false }: { readonly unreadable?: boolean; readonly early?: boolean } = {},
): Extract<BulkAnswer, { kind: 'set-aside' }> {
  const worst = byHarm(findings.some(stops) ? findings.filter(stops) : findings);
  return {
    kind: 'set-aside',
    counted: findings.map(({ code, severity }) => ({ code, severity })),
    findings: worst.slice(0, MOST_FINDINGS),
    ...{ unreadable, early },
  };
}
