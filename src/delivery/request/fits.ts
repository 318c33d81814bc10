import { type Finding, stops } from '../../findings/finding.js';
import { exactText, parseExact } from '../answer/exact-json.js';
import type { NotDelivered } from '../answer/outcome.js';
import { type Capabilities, lacks, readCapabilities } from '../destination/capability.js';
import type { Session } from '../destination/session.js';
import { succeeded } from '../http/fhir-client.js';
import type { Submission } from './submission.js';

/**
 * What a destination lacks for a submission by its own word. An error is believed only when the server says so
 * now: a statement kept from before is read anew first. Nothing is said when no statements are kept, or when the
 * server gives none.
 */
export async function misfits(submission: Submission, session: Session): Promise<readonly Finding[]> {
  const lacking = (seen: Capabilities | undefined) =>
    seen ? lacks(seen, submission, session.destination) : [];
  const kept = await keptCapabilities(session);
  const findings = kept ? lacking(kept) : [];
  return kept && !findings.some(stops) ? findings : lacking(await freshCapabilities(session));
}

/** What a destination says of itself: as it was read last, while that is young enough, else now. */
export async function capabilitiesOf(session: Session): Promise<Capabilities | undefined> {
  return (await keptCapabilities(session)) ?? freshCapabilities(session);
}

/** What a destination said of itself, while that is young enough. */
async function keptCapabilities({
  destination,
  statements,
  clock,
}: Session): Promise<Capabilities | undefined> {
  const known = await statements?.get(destination.baseUrl);
  const age = known ? clock() - known.readAt : Number.NaN;
  // A clock set back makes a statement of the future: it is read anew too.
  if (!known || !(age >= 0 && age < destination.metadataAgeMs)) return undefined;
  try {
    return readCapabilities(parseExact(known.text));
  } catch {
    return undefined;
  }
}

async function freshCapabilities({
  destination,
  reader,
  statements,
  clock,
}: Session): Promise<Capabilities | undefined> {
  if (!statements) return undefined;
  const reply = await reader.metadata();
  const capabilities = succeeded(reply) ? readCapabilities(reply.body) : undefined;
  if (capabilities && reply.body)
    await statements.put(destination.baseUrl, { readAt: clock(), text: exactText(reply.body) });
  return capabilities;
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
