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
}

const MAX_TEXT = 1000;
const MAX_ISSUES = 200;

/**
 * Reads the issues of an OperationOutcome, tolerantly: unknown severities count as errors, missing texts are
 * made from the code. `entry` places an outcome that stood inside an entry of the answer.
 */
export function issuesOf(
  outcome: ExactJson | undefined,
  sent: readonly SentEntry[],
  entry?: number,
): ServerIssue[] {
  if (textAt(outcome, 'resourceType') !== 'OperationOutcome') return [];
  return listAt(outcome, 'issue')
    .slice(0, MAX_ISSUES)
    .map(issue => {
      const code = textAt(issue, 'code') ?? 'unknown';
      const text = textAt(objectAt(issue, 'details'), 'text') ?? textAt(issue, 'diagnostics') ?? code;
      return {
        severity: severityOf(textAt(issue, 'severity')),
        code,
        text: plain(text),
        ...placeOf(issue, sent, entry),
      };
    });
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
    const entry = inEntry ?? place.entry ?? onlyEntryOf(sent, place.path);
    const type = entry === undefined ? undefined : sent[entry]?.type;
    if (entry === undefined || type === undefined) continue;
    return { entry, ...(place.path && { elementPath: place.path.replace(/^[A-Z]\w*/, type) }) };
  }
  return inEntry === undefined ? {} : { entry: inEntry };
}

/**
 * Reads `Bundle.entry[3].resource.ofType(Procedure).status`, `Bundle.entry[3].resource/*Procedure/x*\/.status`,
 * `Procedure.status` and the XPath `/f:Bundle/f:entry[4]/f:resource/f:Procedure/f:status`, which counts from 1.
 */
function parsePlace(raw: string): { entry?: number; path?: string } {
  const isXPath = raw.startsWith('/');
  const path = (isXPath ? raw.replace(/\/f:/g, '.').replace(/^\./, '') : raw).replace(/\/\*.*?\*\//g, '');
  const match = /^Bundle\.entry\[(\d+)\](?:\.resource)?(.*)$/.exec(path);
  if (!match) return /^[A-Z]\w*(\.|$)/.test(path) && !path.startsWith('Bundle') ? { path } : {};
  const entry = Number(match[1]) - (isXPath ? 1 : 0);
  const rest = (match[2] ?? '').replace(/^\.ofType\(\w+\)/, '').replace(/^\.[A-Z]\w*/, '');
  return { entry, ...(rest.startsWith('.') && { path: `Resource${rest}` }) };
}

/** The one entry whose type starts the path; with several of the type nothing can be said. */
function onlyEntryOf(sent: readonly SentEntry[], path: string | undefined): number | undefined {
  const type = path?.split('.')[0];
  const [first, second] = sent.filter(entry => entry.type === type);
  return second === undefined ? first?.index : undefined;
}
