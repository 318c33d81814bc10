import type { FindingCode, ParamsOf } from './catalogue.js';
import { catalogue } from './catalogue.js';
import type { Severity } from './define.js';
import { fillPlaces } from './places.js';

/**
 * One thing the software has to say about a record or a resource. Findings are data:
 * no step throws for bad clinical input, it returns these.
 */
export interface Finding {
  /** FHIR IssueSeverity. */
  readonly severity: Severity;
  /** Stable code, `area.what`; every code has a row in docs/findings.md. */
  readonly code: FindingCode;
  /** Where: a path into the case record (`events[3].over`) or into a resource (`Procedure.status`). */
  readonly path: string;
  /** Line in the source text, from 1; absent when the input was not text. */
  readonly line?: number;
  /** Column in the source text, from 1. */
  readonly column?: number;
  readonly message: string;
  /** How to mend it. */
  readonly remedy: string;
  /** The published source of the rule, or 'common practice, no source'. */
  readonly basis: string;
  /** The facts of the message, for programs. */
  readonly params: Readonly<Record<string, string>>;
  /** Why a person accepted it, when the record acknowledges this finding. */
  readonly acknowledged?: { readonly reason: string; readonly by?: string };
}

/** What may differ from the catalogue for one finding. */
export interface FindingOptions {
  readonly severity?: Severity;
  readonly line?: number;
  readonly column?: number;
  /** Overrides the catalogue's basis, when the limit came from the site or another source. */
  readonly basis?: string;
  /** Overrides the catalogue's remedy, when this case has a more exact one. */
  readonly remedy?: string;
}

/** Makes a finding from the catalogue entry of `code`; `params` fill the `{name}` places of its wording. */
export function finding<C extends FindingCode>(
  code: C,
  path: string,
  params: ParamsOf<C>,
  options: FindingOptions = {},
): Finding {
  const entry = catalogue[code];
  const facts: Record<string, string> = { ...params };
  // A fact that ends in a question mark ends the sentence.
  const fill = (text: string) => fillPlaces(text, facts, fact => fact).replace(/\?\.$/, '?');
  return {
    severity: options.severity ?? entry.severity,
    code,
    path,
    ...(options.line !== undefined && { line: options.line }),
    ...(options.column !== undefined && { column: options.column }),
    message: fill(entry.message),
    remedy: options.remedy ?? fill(entry.remedy),
    basis: options.basis ?? entry.basis,
    params: facts,
  };
}

/** True when a finding must stop a case from leaving: fatal or error, acknowledged or not. */
export function stops(f: Finding): boolean {
  return f.severity === 'fatal' || f.severity === 'error';
}

const order: Record<Severity, number> = { fatal: 0, error: 1, warning: 2, information: 3 };

/** Sorts by line where known, then severity, then path and code, so that the same input lists the same way. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
  return [...findings].sort(
    (a, b) =>
      (a.line ?? Number.MAX_SAFE_INTEGER) - (b.line ?? Number.MAX_SAFE_INTEGER) ||
      order[a.severity] - order[b.severity] ||
      compare(a.path, b.path) ||
      compare(a.code, b.code),
  );
}

/** Code-unit order: the same in every locale. */
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
