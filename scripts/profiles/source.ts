import { readdirSync, readFileSync } from 'node:fs';
import { OWN_BASE } from '../../src/fhir/profiles.js';
import { editionOf } from '../../src/pipeline/own-package.js';

/** FHIR JSON as it lies in a file. */
export interface Raw {
  readonly resourceType: string;
  readonly id: string;
  readonly url?: string;
  readonly name?: string;
  readonly title?: string;
  readonly description?: string;
  readonly [element: string]: unknown;
}

/** A StructureDefinition with a differential. */
export interface RawProfile extends Raw {
  readonly url: string;
  readonly title: string;
  readonly description: string;
  readonly type: string;
  readonly baseDefinition: string;
  readonly differential: { readonly element: readonly RawElement[] };
}

export interface RawElement {
  readonly id: string;
  readonly path: string;
  readonly sliceName?: string;
  readonly short?: string;
  readonly min?: number;
  readonly max?: string;
  readonly type?: readonly {
    readonly code: string;
    readonly extension?: readonly { readonly url: string }[];
    readonly profile?: readonly string[];
    readonly targetProfile?: readonly string[];
  }[];
  readonly mustSupport?: boolean;
  readonly binding?: { readonly strength: string; readonly valueSet?: string };
  readonly constraint?: readonly {
    readonly key: string;
    readonly severity: string;
    readonly human: string;
    readonly expression?: string;
  }[];
  readonly [element: string]: unknown;
}

export const root: URL = new URL('../../', import.meta.url);
export const canonical = OWN_BASE;
export const packageName = 'casetally.profiles';

/** Version of the profiles: that of the software. */
export function version(): string {
  const { version: found } = readJson<{ version: string }>(new URL('package.json', root));
  return found;
}

/** Conformance resources of `profiles/`, without the guide, in the order of their names. */
export function sources(): Raw[] {
  const folder = new URL('profiles/', root);
  return readdirSync(folder)
    .filter(name => /^[A-Z][A-Za-z]+-.+\.json$/.test(name) && !name.startsWith('ImplementationGuide'))
    .sort()
    .map(name => readJson<Raw>(new URL(name, folder)));
}

export function isProfile(raw: Raw): raw is RawProfile {
  return raw.resourceType === 'StructureDefinition';
}

/** A conformance resource as it is published: with version, date and publisher, which the files leave out. */
export function published<T extends Raw>(raw: T): T {
  const { resourceType, id, url, ...rest } = raw;
  const address = url === undefined ? {} : { url };
  const made: unknown = { resourceType, id, ...address, ...rest, ...editionOf(resourceType, version()) };
  return made as T;
}

export function readJson<T>(file: URL): T {
  return JSON.parse(readFileSync(file, 'utf8')) as T;
}
