import type { Extension, OperationOutcome, OperationOutcomeIssue } from 'fhir/r4.js';
import type { Finding } from '../findings/finding.js';
import { conformanceWording } from '../findings/wording/conformance.js';
import type { Issue, Result } from './result.js';
import type { RuleId } from './rules.js';

type IssueType = OperationOutcomeIssue['code'];

/** IssueType (R4 required value set) of each rule; what is not named here is a matter of structure. */
const issueTypes: Partial<Record<RuleId, IssueType>> = {
  min: 'required',
  max: 'structure',
  'primitive-format': 'value',
  length: 'value',
  range: 'value',
  fixed: 'value',
  pattern: 'value',
  'binding-required': 'code-invalid',
  'binding-extensible': 'code-invalid',
  'binding-preferred': 'code-invalid',
  'binding-max': 'code-invalid',
  'binding-not-checked': 'not-supported',
  'slice-not-checked': 'not-supported',
  'invariant-not-checked': 'not-supported',
  'code-unknown': 'code-invalid',
  'code-check-digit': 'code-invalid',
  'code-display': 'code-invalid',
  'unit-invalid': 'code-invalid',
  invariant: 'invariant',
  'profile-not-loaded': 'not-found',
  'extension-unknown': 'informational',
  'extension-modifier-unknown': 'extension',
  'extension-modifier': 'extension',
  'extension-context': 'extension',
  'extension-part': 'extension',
  'extension-url': 'extension',
  'reference-contained': 'not-found',
  'reference-urn': 'not-found',
  'bundle-missing-entry': 'not-found',
  'bundle-identity-twice': 'duplicate',
  'json-duplicate-key': 'duplicate',
  'waiver-expired': 'expired',
  'waiver-unused': 'informational',
};

/** The result as FHIR's OperationOutcome; one that says so when there was nothing to say. */
export function toOperationOutcome(result: Result): OperationOutcome {
  const issue = result.issues.map(outcomeIssue);
  const [first = nothing, ...rest] = issue;
  return { resourceType: 'OperationOutcome', issue: [first, ...rest] };
}

const nothing: OperationOutcomeIssue = {
  severity: 'information',
  code: 'informational',
  details: { text: 'No issue found' },
};

function outcomeIssue(issue: Issue): OperationOutcomeIssue {
  const facts = [
    issue.source && `${issue.source.profile} ${issue.source.element}`,
    issue.waived && `waived until ${issue.waived.expires}: ${issue.waived.reason}`,
    issue.remedy,
  ].filter(fact => fact !== undefined);
  return {
    ...(issue.line !== undefined && { extension: position(issue.line, issue.column ?? 1) }),
    severity: issue.severity,
    code: issueTypes[issue.rule] ?? 'structure',
    details: { coding: [{ code: issue.key ?? issue.rule }], text: issue.message },
    diagnostics: facts.join('; '),
    ...(issue.path !== '' && { expression: [issue.path] }),
  };
}

/** The published extensions for the place of an issue in its text; the column is defined as a string. */
function position(line: number, column: number): Extension[] {
  const base = 'http://hl7.org/fhir/StructureDefinition/operationoutcome-issue-';
  return [
    { url: `${base}line`, valueInteger: line },
    { url: `${base}col`, valueString: String(column) },
  ];
}

/** An issue as the finding that the pipeline lists; its basis names the profile where one said so. */
export function toFinding(issue: Issue): Finding {
  const code = `conformance.${issue.rule}` as const;
  const { basis } = conformanceWording[code];
  return {
    severity: issue.severity,
    code,
    path: issue.path,
    ...(issue.line !== undefined && { line: issue.line }),
    ...(issue.column !== undefined && { column: issue.column }),
    basis: issue.source ? `${issue.source.profile} ${issue.source.element}; ${basis}` : basis,
    params: issue.params,
    ...(issue.waived && { acknowledged: { reason: issue.waived.reason } }),
  };
}
