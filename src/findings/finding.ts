import { catalogue, type FindingCode } from './catalogue.js';
import type { Severity } from './define.js';
import type { Language } from './languages.js';
import type { Message, Param, ParamsOf } from './message.js';
import { say } from './say.js';

/**
 * One thing the software has to say about a record or a resource. Findings are data: no step throws for bad clinical
 * input, it returns these. They meet a language where they are shown: `messageOf`, `remedyOf`, `findingRow`.
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
  /** How to fix it, where this case has a more exact answer than the catalogue. */
  readonly remedy?: Message;
  /** The published source of the rule, or 'common practice, no source'. */
  readonly basis: string;
  /** The facts of the message. */
  readonly params: Readonly<Record<string, Param>>;
  /** The finding that it would go with: one wrong time contradicts many places. Shown under that one. */
  readonly follows?: { readonly code: FindingCode; readonly path: string };
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
  readonly remedy?: Message;
}

/** What message and remedy of code `C` need. */
export type FindingParams<C extends FindingCode> = ParamsOf<`finding.${C}`> & ParamsOf<`remedy.${C}`>;

/** Makes a finding of the catalogue; `params` fill the places of its message and its remedy. */
export function finding<C extends FindingCode>(
  code: C,
  path: string,
  params: FindingParams<C>,
  options: FindingOptions = {},
): Finding {
  const { severity, basis } = catalogue[code];
  return { severity, code, path, basis, ...options, params };
}

/** What a finding says. */
export function messageOf({ code, params }: Pick<Finding, 'code' | 'params'>, language?: Language): string {
  return sentence(say({ key: `finding.${code}`, params }, language));
}

/** What to do about a finding. */
export function remedyOf({ code, params, remedy }: Finding, language?: Language): string {
  return sentence(say(remedy ?? { key: `remedy.${code}`, params }, language));
}

/** A fact that ends in a question mark ends the sentence. */
const sentence = (text: string) => text.replace(/\?\.$/, '?');

/** A finding as results show it; in English where no language is named. */
export interface FindingRow extends Omit<Finding, 'params' | 'remedy'> {
  readonly message: string;
  readonly remedy: string;
  /** The facts of the message, for programs. */
  readonly params: Readonly<Record<string, string>>;
}

/** A finding with its English text. */
export function findingRow(f: Finding): FindingRow {
  return rowIn(undefined, f);
}

/** The facts for programs stay in English. */
function rowIn(language: Language | undefined, f: Finding): FindingRow {
  const { severity, code, path, line, column, basis, params, follows, acknowledged } = f;
  return {
    severity,
    code,
    path,
    ...(line !== undefined && { line }),
    ...(column !== undefined && { column }),
    message: messageOf(f, language),
    remedy: remedyOf(f, language),
    basis,
    params: Object.fromEntries(Object.entries(params).map(([name, param]) => [name, say(param)])),
    ...(follows && { follows }),
    ...(acknowledged && { acknowledged }),
  };
}

/** For `JSON.stringify`: findings, wherever they stand in a result, with their text in a language. */
export const findingRowsIn =
  (language?: Language) =>
  (_key: string, value: unknown): unknown =>
    isFinding(value) ? rowIn(language, value) : value;

/** The same with their English text. */
export const findingRows = findingRowsIn();

function isFinding(value: unknown): value is Finding {
  return (
    typeof value === 'object' &&
    value !== null &&
    'code' in value &&
    typeof value.code === 'string' &&
    Object.hasOwn(catalogue, value.code) &&
    'severity' in value &&
    'params' in value
  );
}

/** True when a finding must stop a case from leaving: fatal or error, acknowledged or not. */
export function stops(f: Pick<Finding, 'severity'>): boolean {
  return f.severity === 'fatal' || f.severity === 'error';
}

const order: Record<Severity, number> = { fatal: 0, error: 1, warning: 2, information: 3 };

/** Sorts by line where known, then severity, then path and code, so that the same input lists the same way. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
  return [...findings].sort(
    (a, b) =>
      (a.line ?? Number.MAX_SAFE_INTEGER) - (b.line ?? Number.MAX_SAFE_INTEGER) ||
      order[a.severity] - order[b.severity] ||
      compareText(a.path, b.path) ||
      compareText(a.code, b.code),
  );
}

/** Code-unit order: the same in every locale. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
