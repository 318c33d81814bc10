import type { OperationOutcome, Resource } from '@medplum/fhirtypes';
import { loadDefinitions } from '../../conformance/definitions/load.js';
import { createValidator } from '../../conformance/validator.js';
import { CONFORMANCE_TYPES } from './capability.js';
import type { SandboxRepository } from './repository.js';

const CONFORMANCE: ReadonlySet<string> = new Set(CONFORMANCE_TYPES);

type Issue = OperationOutcome['issue'][number];

/** What is wrong with a resource by the profiles that it claims; empty where nothing is. */
export type ProfileCheck = (resource: Resource) => Issue[];

/**
 * Checks as a server does that validates what it stores: a profile that nobody has loaded is refused, and what a known
 * one asks for must be there.
 */
export function profileCheck(repository: Pick<SandboxRepository, 'all'>): ProfileCheck {
  const validator = createValidator(loadDefinitions());
  return resource => {
    const known = new Set(
      repository.all().flatMap(one => (one.resourceType === 'StructureDefinition' ? (one.url ?? []) : [])),
    );
    const unknown = (resource.meta?.profile ?? []).filter(profile => !known.has(profile));
    if (unknown.length > 0)
      return unknown.map(profile => ({
        severity: 'error',
        code: 'not-found',
        diagnostics: `The profile ${profile} is not known to this server`,
        expression: [`${resource.resourceType}.meta.profile`],
      }));
    // Definitions are taken as they were published.
    if (CONFORMANCE.has(resource.resourceType)) return [];
    return validator
      .validateResource(resource)
      .issues.filter(({ severity }) => severity === 'error' || severity === 'fatal')
      .map(({ path, message }) => ({
        severity: 'error',
        code: 'invariant',
        diagnostics: message,
        expression: [path],
      }));
  };
}
