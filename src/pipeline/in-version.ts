import type { Destination } from '../delivery/destination.js';
import { exactText, isExactObject, parseExact } from '../delivery/exact-json.js';
import { bundleInVersion } from '../fhir/r5/bundle.js';
import { type Finding, finding } from '../findings/finding.js';
import type { PreparedCase } from './prepare.js';

/**
 * The submission of a prepared case in the release of FHIR that a destination asks for, with what that release has
 * no place for. Without a submission when something of the case cannot be written in it: nothing is to be sent then.
 */
export function submissionFor(
  { submission }: Pick<PreparedCase, 'submission'>,
  { name, fhirVersion }: Pick<Destination, 'name' | 'fhirVersion'>,
): { readonly submission?: string; readonly findings: readonly Finding[] } {
  if (fhirVersion === '4.0.1') return { submission, findings: [] };
  const bundle = parseExact(submission);
  const written = bundleInVersion(isExactObject(bundle) ? bundle : {}, fhirVersion);
  const say = (code: 'delivery.not-in-version' | 'delivery.lost-in-version') => (what: string) =>
    finding(code, 'destination', { destination: name, version: fhirVersion, what });
  if (written.refused.length > 0) return { findings: written.refused.map(say('delivery.not-in-version')) };
  return {
    submission: `${exactText(written.bundle)}\n`,
    findings: written.losses.map(say('delivery.lost-in-version')),
  };
}
