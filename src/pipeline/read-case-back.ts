import type { Destination } from '../delivery/destination/destination.js';
import { openSession, type SendDeps } from '../delivery/destination/session.js';
import type { EntryDifference } from '../delivery/held/compare.js';
import { compareWithSent, type ReadBack, readBack } from '../delivery/held/read-back.js';
import type { Receipt } from '../delivery/receipt/receipt.js';
import { readSubmission } from '../delivery/request/submission.js';
import type { PreparedCase } from './prepare.js';

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
  deps: SendDeps,
): Promise<ReadAgain> {
  const resources = await readBack(receipt, openSession(destination, deps));
  const submission = readSubmission(prepared.submission);
  return {
    resources,
    differences: submission ? compareWithSent(submission, resources) : [],
    complete: submission !== undefined && resources.every(r => r.state === 'read'),
  };
}
