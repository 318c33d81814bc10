import { bodyText, type Reply } from '../api/reply.js';
import { FHIR_JSON } from './negotiate.js';

/** A refusal as a plain OperationOutcome: without the findings that stand beside it elsewhere, which FHIR does not know. */
export function asOutcome(reply: Reply): Reply {
  if (reply.status < 400) return reply;
  const { findings: _, ...outcome } = JSON.parse(bodyText(reply)) as { readonly findings?: unknown };
  return { ...reply, body: JSON.stringify(outcome), headers: { ...reply.headers, ...FHIR_JSON } };
}
