import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { PackageFile } from '../conformance/packages/read.js';
import { readTar, writeTar } from '../conformance/packages/tar.js';
import { type ExactObject, isExactObject, parseExact, textAt } from '../delivery/answer/exact-json.js';
import { PUSHED_TYPES } from '../delivery/destination/push.js';
import { OWN_BASE, underBase } from '../fhir/profiles.js';
import { CasetallyError } from '../findings/errors.js';

/** Where our conformance resources lie, from `src` and from `dist` alike. */
const folder = fileURLToPath(new URL('../../profiles/', import.meta.url));

/** The day of this edition of the profiles. */
const EDITION = '2026-11-28';

/** What the files of `profiles/` leave out of a resource and its publication adds. */
export const editionOf = (resourceType: string, softwareVersion: string) => ({
  // A NamingSystem has no version in R4, and must have a date of its own.
  ...(resourceType !== 'NamingSystem' && { version: softwareVersion, date: EDITION }),
  publisher: 'Casetally',
});

/**
 * The conformance resources of Casetally, as they are published: with version and publisher.
 * @param canonical address under which a site publishes them
 */
export function ownPackage(softwareVersion: string, canonical?: string): ExactObject[] {
  const files = readdirSync(folder)
    .filter(name => name.endsWith('.json'))
    .map(name => ({
      name,
      bytes: Buffer.from(underBase(readFileSync(`${folder}${name}`, 'utf8'), canonical)),
    }));
  return conformanceResources(files).map(resource => ({
    ...resource,
    ...editionOf(textAt(resource, 'resourceType') ?? '', softwareVersion),
  }));
}

/**
 * The definition of an operation of ours. It is not among what a server is given to check by: an operation that is defined
 * there would seem to be done there.
 */
export function ownOperation(
  id: string,
  softwareVersion: string,
  canonical?: string,
): { readonly url: string; readonly date: string } {
  const text = readFileSync(`${folder}OperationDefinition-${id}.json`, 'utf8');
  const { resourceType, ...rest } = JSON.parse(underBase(text, canonical)) as OwnOperation;
  const made: unknown = { resourceType, ...rest, ...editionOf(resourceType, softwareVersion) };
  return made as OwnOperation & { readonly date: string };
}

interface OwnOperation {
  readonly resourceType: string;
  readonly url: string;
}

/**
 * Our FHIR package (.tgz) with snapshots, examples and pages, as the build made it.
 * @param canonical address under which a site publishes it
 * @throws CasetallyError 'definitions-missing' where it was not built
 */
export function publishedPackage(canonical?: string): Uint8Array {
  let packed: Uint8Array;
  try {
    packed = readFileSync(`${folder}compiled/casetally.profiles.tgz`);
  } catch (cause) {
    throw new CasetallyError(
      'definitions-missing',
      'The package of profiles was not built; run "npm run build".',
      {
        cause,
      },
    );
  }
  if (canonical === undefined || canonical === OWN_BASE) return packed;
  const files = readTar(gunzipSync(packed)).map(({ name, bytes }) => {
    const text = Buffer.from(bytes).toString('utf8');
    return { name, bytes: Buffer.from(text.replaceAll(OWN_BASE, canonical)) };
  });
  return gzipSync(writeTar(files), { level: 9 });
}

/** The resources of a FHIR package that a server needs to check by it, those that others lean on first. */
export function conformanceResources(files: readonly PackageFile[]): ExactObject[] {
  const found = files.flatMap(({ name, bytes }) => {
    const type = PUSHED_TYPES.find(one => name.startsWith(`${one}-`));
    const value = type && parseExact(Buffer.from(bytes).toString('utf8'));
    return type && isExactObject(value) && textAt(value, 'resourceType') === type ? [{ type, value }] : [];
  });
  return PUSHED_TYPES.flatMap(type => found.filter(one => one.type === type).map(({ value }) => value));
}
