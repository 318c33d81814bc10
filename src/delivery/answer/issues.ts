import type { SentEntry } from '../request/submission.js';
import { type ExactJson, listAt, objectAt, textAt } from './exact-json.js';

/** One thing that a server said, placed as well as it allows. Its text may hold patient data: shown, never logged. */
export interface ServerIssue {
  readonly severity: 'fatal' | 'error' | 'warning' | 'information';
  /** FHIR IssueType as received. */
  readonly code: string;
  readonly text: string;
  /** Index of the entry of the submission; absent when the server does not tell. */
  readonly entry?: number;
  /** Path from the resource: `Procedure.performer[0].actor`; absent when the server does not tell. */
  readonly elementPath?: string;
  /** How many further places it was said of in the same words; absent for none. */
  readonly more?: number;
}

const MAX_TEXT = 1000;
/** What tells a place within the words, and makes no other cause of them: `entry[3]`, `line 4`. */
const PLACES_IN_WORDS = /\[\d+\]|\b(?:line|col|column|row)\W{0,3}\d+/gi;

/**
 * Reads the issues of an OperationOutcome, tolerantly: unknown severities count as errors, missing texts are
 * made from the code. `sent` is what the request carried, in its order; `entry`, the index of an entry of the
 * submission, places an outcome that is about that one alone.
 */
export function issuesOf(
  outcome: ExactJson | undefined,
  sent: readonly SentEntry[],
  entry?: number,
): ServerIssue[] {
  if (textAt(outcome, 'resourceType') !== 'OperationOutcome') return [];
  return listAt(outcome, 'issue').map(issue => {
    const code = textAt(issue, 'code') ?? 'unknown';
    return {
      severity: severityOf(textAt(issue, 'severity')),
      code,
      text: plain(reasonIn(issue) ?? code),
      ...placeOf(issue, sent, entry),
    };
  });
}

/** The text for people and what stands beside it, where that says more. */
function reasonIn(issue: ExactJson): string | undefined {
  const text = textAt(objectAt(issue, 'details'), 'text');
  const diagnostics = textAt(issue, 'diagnostics');
  if (text === undefined || diagnostics === undefined || text.includes(diagnostics))
    return text ?? diagnostics;
  return diagnostics.includes(text) ? diagnostics : `${text} (${diagnostics})`;
}

/** One issue for each cause, at the first place that it was said of, with the number of the further ones. */
export function foldIssues(issues: readonly ServerIssue[]): ServerIssue[] {
  const causes = new Map<string, ServerIssue>();
  for (const issue of issues) {
    const { severity, code, text } = issue;
    const key = JSON.stringify([severity, code, text.replace(PLACES_IN_WORDS, '#')]);
    const before = causes.get(key);
    causes.set(key, before ? { ...before, more: (before.more ?? 0) + 1 + (issue.more ?? 0) } : issue);
  }
  return [...causes.values()];
}

function severityOf(text: string | undefined): ServerIssue['severity'] {
  return text === 'fatal' || text === 'warning' || text === 'information' ? text : 'error';
}

/** Without control characters, which a terminal would obey, and bounded. */
function plain(text: string): string {
  const shown = text.replace(/[\p{Cc}\p{Cf}]+/gu, ' ').trim();
  return shown.length > MAX_TEXT ? `${shown.slice(0, MAX_TEXT)}…` : shown;
}

function placeOf(
  issue: ExactJson,
  sent: readonly SentEntry[],
  inEntry: number | undefined,
): { entry?: number; elementPath?: string } {
  for (const raw of [...listAt(issue, 'expression'), ...listAt(issue, 'location')]) {
    if (typeof raw !== 'string') continue;
    const place = parsePlace(raw);
    const about = inEntry === undefined ? namedBy(place, sent) : sent.find(({ index }) => index === inEntry);
    if (about) return { entry: about.index, ...(place.below && { elementPath: about.type + place.below }) };
  }
  return inEntry === undefined ? {} : { entry: inEntry };
}

/** What a path leads to: the entry of the request by its position, or the type of the resource it starts with. */
interface Place {
  readonly position?: number;
  readonly type?: string | undefined;
  /** What follows the resource: `.performer[0].actor`. */
  readonly below?: string | undefined;
}

/**
 * Reads `Bundle.entry[3].resource.ofType(Procedure).status`, `Bundle.entry[3].resource/*Procedure/x*\/.status`,
 * `Procedure.status` and the XPath `/f:Bundle/f:entry[4]/f:resource/f:Procedure/f:status`.
 */
function parsePlace(raw: string): Place {
  const path = (raw.startsWith('/f:') ? fromXPath(raw) : raw).replace(/\/\*[^*]*\*\//g, '');
  const inBundle = /^Bundle\.entry\[(\d+)\](?:\.resource)?(?:\.ofType\(\w+\)|\.[A-Z]\w*)?(\..*)?/.exec(path);
  if (inBundle) return { position: Number(inBundle[1]), below: inBundle[2] };
  const [, type, below] = /^(?!Bundle\b)([A-Z]\w*)(\..*)?$/.exec(path) ?? [];
  return { type, below };
}

/** The names joined by dots, with positions counted from 0 and not, as XPath counts, from 1. */
function fromXPath(raw: string): string {
  return raw
    .slice('/f:'.length)
    .replaceAll('/f:', '.')
    .replace(/\[(\d+)\]/g, (_all, position: string) => `[${Number(position) - 1}]`);
}

/** The entry at the position, or else the one entry of the type; with several of the type nothing can be said. */
function namedBy({ position, type }: Place, sent: readonly SentEntry[]): SentEntry | undefined {
  if (position !== undefined) return sent[position];
  const [first, second] = sent.filter(entry => entry.type === type);
  return second ? undefined : first;
}
