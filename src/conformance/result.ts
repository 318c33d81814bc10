import type { Severity } from '../findings/define.js';
import type { Param } from '../findings/message.js';
import type { RuleId } from './rules.js';
import type { Question } from './terminology/server.js';

/** One thing a check has to say about one element of a resource. */
export interface Issue {
  /** FHIR IssueSeverity. */
  readonly severity: Severity;
  /** The rule of this engine; every rule has a row in docs/conformance.md. */
  readonly rule: RuleId;
  /** Key of the published invariant (`obs-6`), when rule is `invariant`. */
  readonly key?: string;
  /** FHIRPath element path with indexes: `Bundle.entry[2].resource.code.coding[0].system`. */
  readonly path: string;
  /** Line in the JSON text, from 1; absent when no text was given. */
  readonly line?: number;
  /** Column in the JSON text, from 1. */
  readonly column?: number;
  readonly message: string;
  /** How to mend it. */
  readonly remedy: string;
  /** What the definition asks for, in short form. */
  readonly expected?: string;
  /** The profile (with version) and its element that say so. */
  readonly source?: { readonly profile: string; readonly element: string };
  /** Why a reviewer accepted it; a waived error is shown as information and does not fail. */
  readonly waived?: { readonly reason: string; readonly expires: string };
  /** The facts of the message, for programs. */
  readonly params: Readonly<Record<string, Param>>;
}

/** What one validation found, and what it really looked at. */
export interface Result {
  readonly issues: readonly Issue[];
  /** Code memberships that were not checked, as questions for a terminology server. */
  readonly open: readonly Question[];
  readonly evaluated: {
    /** Canonicals with version of all profiles and type definitions that were applied. */
    readonly profiles: readonly string[];
    /** Rules and invariant keys that were evaluated at least once. */
    readonly rules: readonly string[];
  };
}

/** What to validate against, beside the resource's own type and its meta.profile. */
export interface ValidateOptions {
  /** Canonical addresses of further profiles, with or without `|version`. */
  readonly profiles?: readonly string[];
}

/** Checks FHIR R4 JSON. Pure and synchronous; one validator may be used for any number of resources. */
export interface Validator {
  /** Checks a JSON text; issues carry line and column. Text that is not JSON gives one fatal issue. */
  validateText(text: string, options?: ValidateOptions): Result;
  /** Checks an already parsed resource. Numbers are taken as JavaScript wrote them. */
  validateResource(resource: unknown, options?: ValidateOptions): Result;
}

/** True when the result holds an error or fatal issue that no waiver covers. */
export function hasErrors(result: Result): boolean {
  return result.issues.some(i => i.severity === 'error' || i.severity === 'fatal');
}
