import { finding, messageOf, remedyOf } from '../findings/finding.js';
import type { Issue } from './result.js';

/** A reviewed exception: this rule on this element of this profile version is known and accepted. */
export interface Waiver {
  /** Rule id, or the key of an invariant. */
  readonly rule: string;
  /** Element path without indexes, as in `Bundle.entry.resource.code`; a trailing `*` takes what follows. */
  readonly path: string;
  /** Canonical with version of the profile that says so; absent for rules without a profile. */
  readonly profile?: string;
  readonly reason: string;
  /** Last day on which it holds, `YYYY-MM-DD`. */
  readonly expires: string;
}

/** Turns waived errors into information that says so, and names waivers that expired or did nothing. */
export function applyWaivers(issues: readonly Issue[], waivers: readonly Waiver[], today?: string): Issue[] {
  const used = new Set<Waiver>();
  const expired = (w: Waiver) => today !== undefined && w.expires < today;
  const marked = issues.map((issue): Issue => {
    const waiver = waivers.find(w => covers(w, issue));
    if (!waiver) return issue;
    used.add(waiver);
    if (expired(waiver)) return issue;
    return { ...issue, severity: 'information', waived: { reason: waiver.reason, expires: waiver.expires } };
  });
  const notices = waivers.flatMap((w): Issue[] => {
    if (!used.has(w)) return [notice('conformance.waiver-unused', w)];
    return expired(w) ? [notice('conformance.waiver-expired', w)] : [];
  });
  return [...marked, ...notices];
}

function covers(waiver: Waiver, issue: Issue): boolean {
  if (waiver.rule !== issue.rule && waiver.rule !== issue.key) return false;
  if (waiver.profile !== undefined && waiver.profile !== issue.source?.profile) return false;
  const path = issue.path.replace(/\[\d+\]/g, '');
  return waiver.path.endsWith('*') ? path.startsWith(waiver.path.slice(0, -1)) : path === waiver.path;
}

function notice(code: 'conformance.waiver-unused' | 'conformance.waiver-expired', w: Waiver): Issue {
  const said =
    code === 'conformance.waiver-unused'
      ? finding(code, w.path, { rule: w.rule, where: w.path })
      : finding(code, w.path, { rule: w.rule, where: w.path, expires: w.expires });
  return {
    severity: said.severity,
    rule: code === 'conformance.waiver-unused' ? 'waiver-unused' : 'waiver-expired',
    path: w.path,
    message: messageOf(said),
    remedy: remedyOf(said),
    params: said.params,
  };
}
