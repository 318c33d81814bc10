import type { Bundle } from 'fhir/r4.js';
import type { Built, Fields } from './steps.js';
import { type FhirVersion, toR4B, toR5, typeInR5 } from './versions.js';

/** A submission in another release of FHIR. */
export interface VersionedBundle {
  readonly bundle: object;
  /** What the release has no place for, each kind once: `Type.element: why`, in R4 names. */
  readonly losses: readonly string[];
  /** Types and elements that nobody has written down for the release: with any of them the bundle must not be sent. */
  readonly refused: readonly string[];
}

/** Writes an R4 submission in another release of FHIR; for 4.0.1 it is the bundle itself. Pure. */
export function bundleInVersion(bundle: Bundle, version: FhirVersion): VersionedBundle {
  if (version === '4.0.1') return { bundle, losses: [], refused: [] };
  const losses = new Set<string>();
  const refused = new Set<string>();
  const name = version === '5.0.0' ? typeInR5 : (type: string) => type;
  const entry = (bundle.entry ?? []).map(({ resource, request, ...rest }) => {
    const built = resource && inVersion(resource, version);
    if (resource && !built) refused.add(resource.resourceType);
    for (const loss of built?.losses ?? []) losses.add(loss);
    for (const element of built?.unknown ?? []) refused.add(element);
    return {
      ...rest,
      ...(built && { resource: built.resource }),
      ...(request && { request: { ...request, url: withType(request.url, name) } }),
    };
  });
  const written: Fields = { ...bundle, entry };
  return { bundle: written, losses: [...losses].sort(), refused: [...refused].sort() };
}

function inVersion(resource: object, version: Exclude<FhirVersion, '4.0.1'>): Built | undefined {
  return version === '5.0.0' ? toR5(resource) : toR4B(resource);
}

/** The address of a request with its resource type renamed. */
function withType(url: string, name: (type: string) => string): string {
  return url.replace(/^[A-Z]\w*/, name);
}
