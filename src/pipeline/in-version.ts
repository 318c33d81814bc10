import {
  type ExactObject,
  exactText,
  isExactObject,
  listAt,
  objectAt,
  parseExact,
  textAt,
  withEntries,
} from '../delivery/answer/exact-json.js';
import type { Destination } from '../delivery/destination/destination.js';
import { withoutCircles } from '../delivery/request/acyclic.js';
import { isOwnProfile } from '../fhir/profiles.js';
import { bundleInVersion } from '../fhir/r5/bundle.js';
import { type Finding, finding } from '../findings/finding.js';
import type { PreparedCase } from './prepare.js';
import { reservedHosts } from './reserved-hosts.js';

/** A submission as one destination takes it; without one, nothing is to be sent. */
interface Written {
  readonly submission?: string;
  readonly findings: readonly Finding[];
}

/**
 * The submission of a prepared case as a destination asks for it: in its release of FHIR, and, where it takes no
 * transactions, without circles of references; with what that leaves out. A server that refuses `relatesTo` gets none,
 * and one that refuses claims of profiles only those that it takes.
 */
export function submissionFor(
  { submission, canonical }: Pick<PreparedCase, 'submission' | 'canonical'>,
  destination: Pick<Destination, 'name' | 'baseUrl' | 'fhirVersion' | 'mode' | 'relatesTo' | 'profiles'>,
): Written {
  const plain = destination.relatesTo === 'leave out' ? withoutRelations(submission) : undefined;
  const left =
    plain === undefined
      ? []
      : [finding('delivery.relations-left-out', 'destination', { destination: destination.name })];
  const claiming = withClaims(plain ?? submission, destination.profiles, canonical);
  const made = inVersion(claiming, destination);
  const reserved = reservedHosts(made.submission ?? '', destination.name, destination.baseUrl);
  const written = { ...made, findings: [...left, ...made.findings, ...reserved] };
  if (written.submission === undefined || destination.mode === 'transaction') return written;
  const { text, changed } = withoutCircles(written.submission);
  const said = changed.map(what =>
    finding('delivery.linked-by-identifier', 'destination', { destination: destination.name, what }),
  );
  return { submission: text, findings: [...written.findings, ...said] };
}

function inVersion(
  submission: string,
  { name, fhirVersion }: Pick<Destination, 'name' | 'fhirVersion'>,
): Written {
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

/** A submission that claims no more profiles than a destination takes. */
function withClaims(submission: string, which: Destination['profiles'], canonical?: string): string {
  if (which === 'ours') return submission;
  const text = withEntries(parseExact(submission), item => {
    const resource = objectAt(item, 'resource');
    return resource ? { ...item, resource: claimingOnly(resource, which, canonical) } : item;
  });
  return `${text}\n`;
}

/**
 * A resource without the claims of profiles that a destination does not take.
 * @param canonical under which ours are published
 */
export function claimingOnly(
  resource: ExactObject,
  which: Destination['profiles'],
  canonical?: string,
): ExactObject {
  const { meta, ...rest } = resource;
  if (which === 'ours' || !isExactObject(meta)) return resource;
  const { profile: _, ...others } = meta;
  const left =
    which === 'none'
      ? []
      : listAt(meta, 'profile').filter(one => typeof one === 'string' && !isOwnProfile(one, canonical));
  const kept = { ...others, ...(left.length > 0 && { profile: left }) };
  // In the place that it had, so that the type still comes first.
  return Object.keys(kept).length === 0
    ? rest
    : Object.fromEntries(
        Object.entries(resource).map(([key, value]) => [key, key === 'meta' ? kept : value]),
      );
}

const DOCUMENTS: ReadonlySet<string | undefined> = new Set(['Composition', 'DocumentReference']);

/** A submission whose documents do not name the ones before them; undefined where none did. */
function withoutRelations(submission: string): string | undefined {
  let changed = false;
  const text = withEntries(parseExact(submission), item => {
    const resource = objectAt(item, 'resource');
    if (!resource || !DOCUMENTS.has(textAt(resource, 'resourceType'))) return item;
    const { relatesTo, ...rest } = resource;
    if (relatesTo === undefined) return item;
    changed = true;
    return { ...item, resource: rest };
  });
  return changed ? `${text}\n` : undefined;
}
