import type { SendOutcome } from '../delivery/answer/outcome.js';
import type { Destination } from '../delivery/destination/destination.js';
import type { EntryDifference } from '../delivery/held/compare.js';
import { compareWithSent, type ReadBack, readBack } from '../delivery/held/read-back.js';
import type { Receipt } from '../delivery/receipt/receipt.js';
import { readSubmission } from '../delivery/request/submission.js';
import { deliver } from '../delivery/send/deliver.js';
import type { SubmitDeps } from '../delivery/send/send.js';
import { nearestSource, sourceOf } from '../fhir/set.js';
import { stops } from '../findings/finding.js';
import { submissionFor } from './in-version.js';
import type { PreparedCase } from './prepare.js';

/** What sending needs from outside; where server messages lead back to is known from the case. */
export type SubmitCaseDeps = Omit<SubmitDeps, 'sourceOf'>;

/**
 * Sends a prepared case to a destination and settles what can be settled without a person. A case with an error is not
 * sent. Never throws for what the network or the server does.
 */
export async function submitCase(
  prepared: PreparedCase,
  destination: Destination,
  deps: SubmitCaseDeps,
): Promise<SendOutcome> {
  if (!prepared.sendable)
    return { state: 'not-sent', issues: [], attempts: [], findings: prepared.findings.filter(stops) };
  const { submission, findings } = submissionFor(prepared, destination);
  if (submission === undefined) return { state: 'not-sent', issues: [], attempts: [], findings };
  const outcome = await deliver(submission, destination, { ...deps, sourceOf: sourcesOf(prepared) });
  return { ...outcome, findings: [...outcome.findings, ...findings] };
}

/** Maps a place in the submission (entry and element path) to the path in the case record. */
export function sourcesOf(prepared: PreparedCase): NonNullable<SubmitDeps['sourceOf']> {
  const submission = readSubmission(prepared.submission);
  return (index, path) => {
    const fullUrl = submission?.entries[index]?.fullUrl;
    const entry = prepared.resources.entries.find(candidate => candidate.fullUrl === fullUrl);
    // In another release of FHIR a resource may have another name; its elements keep theirs for the most part.
    return entry && sourceOf(entry, path.replace(/^[A-Z]\w*/, entry.resource.resourceType));
  };
}

/** The map from the resources of a case to the paths of its record, as text to keep beside the submission. */
export function sourceMap(prepared: PreparedCase): string {
  return JSON.stringify(
    Object.fromEntries(
      prepared.resources.entries.map(({ fullUrl, resource, sources }) => [
        fullUrl,
        { type: resource.resourceType, sources },
      ]),
    ),
  );
}

/** Looks a place up in such a map; undefined when it is not in there. */
export function sourceIn(map: string, fullUrl: string, path: string): string | undefined {
  const entry = (
    JSON.parse(map) as Record<string, { type?: string; sources?: Record<string, string> } | undefined>
  )[fullUrl];
  return entry?.sources && nearestSource(entry.sources, path.replace(/^[A-Z]\w*/, entry.type ?? '$&'));
}

/** What came back when the receipt's resources were read again. */
export interface ReadAgain {
  readonly resources: readonly ReadBack[];
  /** Differences beyond what a server assigns; empty when all is as it was sent. */
  readonly differences: readonly EntryDifference[];
  readonly complete: boolean;
}

/** Reads everything of a receipt from its destination and compares it with what was sent. */
export async function readCaseBack(
  prepared: PreparedCase,
  receipt: Receipt,
  destination: Destination,
  deps: SubmitCaseDeps,
): Promise<ReadAgain> {
  const resources = await readBack(receipt, destination, deps);
  const submission = readSubmission(prepared.submission);
  return {
    resources,
    differences: submission ? compareWithSent(submission, resources) : [],
    complete: submission !== undefined && resources.every(r => r.state === 'read'),
  };
}
