import { type Built, type Fields, fields, listOf } from './steps.js';
import { type FhirVersion, toR4B, toR5, typeInR5 } from './versions.js';

/** A submission in another release of FHIR. */
export interface VersionedBundle {
  readonly bundle: Fields;
  /** What the release has no place for, each kind once: `Type.element: why`, in R4 names. */
  readonly losses: readonly string[];
  /** Types and elements that nobody has written down for the release: with any of them the bundle must not be sent. */
  readonly refused: readonly string[];
}

/**
 * Writes an R4 submission in another release of FHIR; for 4.0.1 it is the bundle itself. Numbers may be objects that
 * keep their digits: they are passed on as they are. Pure.
 */
export function bundleInVersion(given: object, version: FhirVersion): VersionedBundle {
  const bundle = fields(given);
  if (version === '4.0.1') return { bundle, losses: [], refused: [] };
  const losses = new Set<string>();
  const refused = new Set<string>();
  const name = version === '5.0.0' ? typeInR5 : (type: string) => type;
  const entry = listOf(bundle['entry']).map(item => {
    const { resource, request, ...rest } = fields(item);
    const built = resource === undefined ? undefined : inVersion(fields(resource), version);
    if (resource !== undefined && !built) refused.add(String(fields(resource)['resourceType']));
    for (const loss of built?.losses ?? []) losses.add(loss);
    for (const element of built?.unknown ?? []) refused.add(element);
    return {
      ...rest,
      ...(built && { resource: built.resource }),
      ...(request !== undefined && { request: requestIn(fields(request), name) }),
    };
  });
  return { bundle: { ...bundle, entry }, losses: [...losses].sort(), refused: [...refused].sort() };
}

function inVersion(resource: Fields, version: Exclude<FhirVersion, '4.0.1'>): Built | undefined {
  return version === '5.0.0' ? toR5(resource) : toR4B(resource);
}

/** A request with the resource type in its address renamed. */
function requestIn(request: Fields, name: (type: string) => string): Fields {
  return { ...request, url: String(request['url']).replace(/^[A-Z]\w*/, name) };
}
