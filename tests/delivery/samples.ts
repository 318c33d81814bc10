import type { SendOutcome } from '../../src/delivery/answer/outcome.js';
import { type Destination, destinationAt } from '../../src/delivery/destination/destination.js';
import { openSession, type SendDeps, type Session } from '../../src/delivery/destination/session.js';
import { readSubmission, type SourceOf, type Submission } from '../../src/delivery/request/submission.js';
import * as stages from '../../src/delivery/send/deliver.js';
import { notASubmission } from '../../src/delivery/send/once.js';
import * as requests from '../../src/delivery/send/send.js';

/** The identifier namespace of the examples: the HL7 example root, 2.16.840.1.113883.19. */
export const SYSTEM = 'urn:oid:2.16.840.1.113883.19.5.1';

export const urn = (n: number) => `urn:uuid:00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;

/** A small invented case: one patient, two devices of the same kind, one procedure with decimals. */
export function submissionText(caseId = 'c1', change: (text: string) => string = text => text): string {
  const identifier = (part: string) => `[{ "system": "${SYSTEM}", "value": "${caseId}-${part}" }]`;
  const request = (type: string, part: string) =>
    `{ "method": "POST", "url": "${type}", "ifNoneExist": "identifier=${encodeURIComponent(`${SYSTEM}|${caseId}-${part}`)}" }`;
  const text = `{
  "resourceType": "Bundle", "type": "transaction", "entry": [
    { "fullUrl": "${urn(1)}", "request": ${request('Patient', 'patient')},
      "resource": { "resourceType": "Patient", "identifier": ${identifier('patient')} } },
    { "fullUrl": "${urn(2)}", "request": ${request('Procedure', 'procedure')},
      "resource": { "resourceType": "Procedure", "identifier": ${identifier('procedure')}, "status": "completed",
        "subject": { "reference": "${urn(1)}" },
        "focalDevice": [{ "manipulated": { "reference": "${urn(3)}" } }] } },
    { "fullUrl": "${urn(3)}", "request": ${request('Device', 'drain')},
      "resource": { "resourceType": "Device", "identifier": ${identifier('drain')}, "lotNumber": "L-17",
        "patient": { "reference": "${urn(1)}" } } },
    { "fullUrl": "${urn(4)}", "request": ${request('Observation', 'dose')},
      "resource": { "resourceType": "Observation", "identifier": ${identifier('dose')}, "status": "final",
        "code": { "text": "dose area product" }, "subject": { "reference": "${urn(1)}" },
        "valueQuantity": { "value": 4.20, "unit": "Gy.cm2" } } }
  ] }`;
  return change(text);
}

/** Types of the sample's entries, in order. */
export const TYPES = ['Patient', 'Procedure', 'Device', 'Observation'] as const;

export function destination(baseUrl: string, settings: Partial<Destination> = {}): Destination {
  const made = destinationAt(baseUrl, {
    name: 'test server',
    timeoutMs: 2_000,
    searchLagMs: 0,
    ...settings,
  }).destination;
  if (!made) throw new Error(`not an address: ${baseUrl}`);
  return made;
}

/** What a test gives a session, and where places of the submission lead. */
interface SampleDeps extends SendDeps {
  readonly sourceOf?: SourceOf;
}

/** Deps with a clock that moves only when something sleeps, and ids that count. */
export function deps(more: Partial<SampleDeps> = {}): SampleDeps & { readonly slept: number[] } {
  let now = Date.UTC(2024, 2, 14, 10, 0, 0);
  let ids = 0;
  const slept: number[] = [];
  return {
    clock: () => now,
    newId: () => {
      ids += 1;
      return `request-${ids}`;
    },
    sleep: async ms => {
      slept.push(ms);
      now += ms;
    },
    slept,
    ...more,
  };
}

type Stage = (submission: Submission, session: Session) => Promise<SendOutcome>;

/** A stage of delivery, called with the text of a submission and a session that is made for the call. */
const calledWithText =
  (stage: Stage) =>
  async (text: string, to: Destination, { sourceOf, ...more }: SampleDeps): Promise<SendOutcome> => {
    const session = openSession(to, more);
    const submission = readSubmission(text, sourceOf);
    return submission ? stage(submission, session) : notASubmission(session);
  };

export const deliver = calledWithText(stages.deliver);
export const sendSubmission = calledWithText(requests.sendSubmission);

/** The transaction-response that an obedient server gives to the sample. */
export function accepted(status = '201 Created'): Record<string, unknown> {
  return {
    resourceType: 'Bundle',
    type: 'transaction-response',
    entry: TYPES.map((type, i) => ({
      response: { status, location: `${type}/${i + 1}/_history/1`, etag: 'W/"1"' },
    })),
  };
}

/**
 * The sample as a correction: everything but the patient is an update by identifier. The device has another lot, the
 * dose another name with it, the procedure is as it was.
 */
export function corrected(caseId: string, lot: string): string {
  return submissionText(caseId, text =>
    text
      .replace('L-17', lot)
      .replace('dose area product', `dose area product, device ${lot}`)
      .replace(
        /"method": "POST", "url": "(Procedure|Device|Observation)", "ifNoneExist": "([^"]+)"/g,
        '"method": "PUT", "url": "$1?$2"',
      ),
  );
}
