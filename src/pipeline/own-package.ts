import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { PackageFile } from '../conformance/packages/read.js';
import { type ExactObject, isExactObject, parseExact, textAt } from '../delivery/answer/exact-json.js';
import { PUSHED_TYPES } from '../delivery/destination/push.js';

/** Where our conformance resources lie, from `src` and from `dist` alike. */
const folder = fileURLToPath(new URL('../../profiles/', import.meta.url));

/** The conformance resources of Casetally, as they are published: with version and publisher. */
export function ownPackage(softwareVersion: string): ExactObject[] {
  const files = readdirSync(folder)
    .filter(name => name.endsWith('.json'))
    .map(name => ({ name, bytes: readFileSync(`${folder}${name}`) }));
  return conformanceResources(files).map(resource => ({
    ...resource,
    // A NamingSystem has no version in R4.
    ...(textAt(resource, 'resourceType') !== 'NamingSystem' && { version: softwareVersion }),
    publisher: 'Casetally',
  }));
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
