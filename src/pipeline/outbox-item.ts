import { createHash } from 'node:crypto';
import type { NewItem } from '../delivery/outbox/outbox.js';
import { digestOf } from '../delivery/request/submission.js';
import type { PreparedCase } from './prepare.js';
import { sourceMap } from './submit.js';

/**
 * One item for the outbox. Keys are digests: the patient's number is not written down a second time.
 *
 * @param submission the case as the destination wants it, byte for byte.
 * @param namespace of the site: cases of two sites never share a key.
 */
export function outboxItem(
  prepared: PreparedCase,
  submission: string,
  destination: string,
  namespace: string,
): NewItem {
  const { record } = prepared;
  const first = record.patient.identifiers[0];
  const short = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex').slice(0, 32);
  return {
    destination,
    caseKey: short(`${namespace} ${record.case.id}`),
    patientKey: short(`${first?.system}|${first?.value}`),
    payload: submission,
    digest: digestOf(submission),
    context: sourceMap(prepared),
  };
}
