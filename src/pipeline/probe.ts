import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadDefinitions } from '../conformance/definitions/load.js';
import {
  type ExactJson,
  type ExactObject,
  isExactArray,
  isExactObject,
  listAt,
  objectAt,
  parseExact,
  textAt,
} from '../delivery/answer/exact-json.js';
import type { Destination } from '../delivery/destination/destination.js';
import type { ProfileProbe } from '../delivery/destination/examine-profiles.js';
import { isOwnProfile } from '../fhir/profiles.js';
import { CasetallyError } from '../findings/errors.js';
import type { Site } from '../site/site.js';
import { checkCase } from './check.js';
import { siteFor } from './destinations.js';
import { claimingOnly } from './in-version.js';
import { type PreparedCase, prepareCase } from './prepare.js';
import { canonicalOf } from './settings.js';
import { loadTools } from './tools.js';

const example = fileURLToPath(new URL('../../examples/ureteric-stent-tumour.yaml', import.meta.url));

/** An invented case as one destination would be sent it. */
export function exampleFor(
  site: Site,
  destination: Pick<Destination, 'name'>,
  softwareVersion: string,
): PreparedCase {
  const own = siteFor(site, destination.name);
  const { record, assessment } = checkCase(readFileSync(example), own);
  if (!record || !assessment) throw new CasetallyError('file-unreadable', `${example} is not whole.`);
  return prepareCase(record, assessment, own, loadTools(softwareVersion, canonicalOf(own)));
}

/**
 * The resource of an invented case that claims the most profiles, as one destination would be sent it. It is of nobody:
 * what it refers to is not there.
 */
export function profileProbe(
  site: Site,
  destination: Pick<Destination, 'name'>,
  softwareVersion: string,
): ProfileProbe {
  const { submission, canonical } = exampleFor(site, destination, softwareVersion);
  const entries = listAt(parseExact(submission), 'entry').flatMap(entry => {
    const resource = objectAt(entry, 'resource');
    return resource ? [{ resource, fullUrl: textAt(entry, 'fullUrl') ?? '' }] : [];
  });
  const types = new Map(
    entries.map(({ fullUrl, resource }) => [fullUrl, textAt(resource, 'resourceType') ?? '']),
  );
  const [most] = entries.map(({ resource }) => resource).sort((a, b) => claims(b) - claims(a));
  const resource = ofNobody(most ?? {}, types);
  const sources = loadDefinitions().sources;
  const ips = sources.find(({ name }) => name === 'hl7.fhir.uv.ips');
  return {
    claiming: which => claimingOnly(isExactObject(resource) ? resource : {}, which, canonical),
    packageOf: profile =>
      isOwnProfile(profile, canonical)
        ? { name: `casetally.profiles#${softwareVersion}`, own: true }
        : { name: `${ips?.name}#${ips?.version}`, own: false },
  };
}

const claims = (resource: ExactObject) => listAt(objectAt(resource, 'meta'), 'profile').length;

/** With references to somebody of the right type, whom no server has; different ones stay different. */
function ofNobody(value: ExactJson, types: ReadonlyMap<string, string>, seen: string[] = []): ExactJson {
  if (isExactArray(value)) return value.map(one => ofNobody(one, types, seen));
  if (!isExactObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => {
      if (key !== 'reference' || typeof inner !== 'string') return [key, ofNobody(inner, types, seen)];
      if (inner.startsWith('#')) return [key, inner];
      if (!seen.includes(inner)) seen.push(inner);
      const type = types.get(inner) ?? /^[A-Z]\w*/.exec(inner)?.[0] ?? 'Patient';
      return [key, `${type}/example-${seen.indexOf(inner) + 1}`];
    }),
  );
}
