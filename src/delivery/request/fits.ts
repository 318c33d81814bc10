import { type Finding, stops } from '../../findings/finding.js';
import type { NotDelivered, SendOutcome } from '../answer/outcome.js';
import { lacks } from '../destination/capability.js';
import { capabilitiesOf } from '../destination/capability-cache.js';
import type { Destination } from '../destination/destination.js';
import type { SubmitDeps } from '../send/send.js';
import type { Submission } from './submission.js';

/**
 * What a destination lacks for a submission by its own word. An error is believed only when the server says so
 * now: a statement kept from before is read anew first. Nothing is said when no statements are kept, or when the
 * server gives none.
 */
export async function misfits(
  submission: Submission,
  destination: Destination,
  deps: SubmitDeps,
): Promise<readonly Finding[]> {
  const { statements } = deps;
  if (!statements) return [];
  const ask = async (fresh: boolean) => {
    const seen = await capabilitiesOf(destination, { ...deps, statements }, fresh);
    return { findings: seen ? lacks(seen.capabilities, submission, destination) : [], kept: seen?.kept };
  };
  const first = await ask(false);
  return first.kept && first.findings.some(stops) ? (await ask(true)).findings : first.findings;
}

/** The outcome when a destination cannot take what it is set to be sent: it is paused, the record is not at fault. */
export function unfit(findings: readonly Finding[]): NotDelivered {
  const reason = findings.some(f => f.code === 'delivery.other-version')
    ? 'other-version'
    : 'transaction-not-declared';
  return {
    state: 'destination-paused',
    verdict: { state: 'destination-paused', processed: 'no', next: 'pause', scope: 'destination', reason },
    issues: [],
    attempts: [],
    findings,
  };
}

/** An outcome with what was said of the destination before it. */
export function withWarnings(outcome: SendOutcome, warnings: readonly Finding[]): SendOutcome {
  return warnings.length === 0 ? outcome : { ...outcome, findings: [...outcome.findings, ...warnings] };
}
