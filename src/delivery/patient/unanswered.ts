import { classifyAnswer } from '../answer/classify.js';
import type { NotDelivered } from '../answer/outcome.js';
import { sayVerdict, voiceOf } from '../answer/say.js';
import type { Verdict } from '../answer/verdict.js';
import type { Session } from '../destination/session.js';
import type { Reply } from '../http/fhir-client.js';
import { attemptOf } from '../receipt/receipt-of.js';
import type { Submission } from '../request/submission.js';

/** The outcome when a destination could not be asked for now whom it has: nothing was sent, and it goes again. */
export function unanswered(reply: Reply, submission: Submission, session: Session): NotDelivered {
  const now = session.clock();
  const seen = classifyAnswer({ exchange: reply.exchange, sent: [], tokenRenewed: true, now });
  const state =
    seen.state === 'throttled' || seen.state === 'destination-paused' ? seen.state : 'unreachable';
  const verdict: Verdict = {
    ...seen,
    state,
    processed: 'no',
    next: state === 'destination-paused' ? 'pause' : 'wait',
  };
  const findings = sayVerdict(voiceOf(submission, session), verdict);
  return { state, verdict, issues: [], attempts: [attemptOf(reply, verdict, now)], findings };
}
