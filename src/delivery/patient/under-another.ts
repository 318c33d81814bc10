import { finding } from '../../findings/finding.js';
import { type ExactObject, objectAt, textAt } from '../answer/exact-json.js';
import type { NotDelivered } from '../answer/outcome.js';
import type { Outbox, OutboxItem } from '../outbox/outbox.js';
import { numbersOf, shareNumber } from '../request/expected.js';
import { readSubmission, type Submission } from '../request/submission.js';
import { notSent } from '../send/once.js';
import { caseIn } from './sent-case.js';

/**
 * The outcome for a case that this outbox has delivered before under another patient: nothing is sent, whatever the
 * destination's searches find. An item of which the patient is not known is left to what the destination says.
 */
export async function underAnother(
  item: Pick<OutboxItem, 'destination' | 'caseKey'>,
  submission: Submission,
  outbox: Pick<Outbox, 'list'>,
): Promise<NotDelivered | undefined> {
  const ours = patientOf(submission);
  if (numbersOf(ours).length === 0) return undefined;
  const { destination, caseKey } = item;
  for (const { id, payload, context } of await outbox.list({ destination, caseKey, states: ['delivered'] })) {
    const before = readSubmission(payload, undefined, { context });
    const theirs = before && patientOf(before);
    if (numbersOf(theirs).length === 0 || shareNumber(theirs, ours)) continue;
    const params = { destination, address: `outbox ${id}`, patient: 'another number' };
    return notSent(finding('delivery.case-of-another-patient', 'patient.identifiers', params));
  }
  return undefined;
}

/** The patient of a submission as far as it, or what is kept beside it, says. */
function patientOf(submission: Submission): ExactObject | undefined {
  const reference = textAt(objectAt(caseIn(submission)?.procedure.resource, 'subject'), 'reference');
  const entry = submission.entries.find(({ fullUrl }) => fullUrl === reference);
  return entry?.resource ?? submission.expected.patient;
}
