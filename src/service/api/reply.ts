import { type Finding, findingRowsIn, messageOf, remedyOf } from '../../findings/finding.js';
import { byHarm } from '../../findings/harm.js';
import type { Language } from '../../findings/languages.js';
import type { Sink } from './draft-changes.js';

/**
 * What a handler answers. `body` is JSON text, so that FHIR decimals keep their digits, unless the headers name another
 * type.
 */
export interface Reply {
  readonly status: number;
  readonly body: string | Uint8Array;
  readonly headers?: Readonly<Record<string, string>>;
  /** What goes into the log beside the route; nothing of a case. */
  readonly noted?: {
    readonly items?: readonly string[];
    readonly drafts?: readonly string[];
    readonly person?: string;
  };
  /** Ids for the audit trail alone, beside those of `noted`: never a name or a number of a patient. */
  readonly about?: readonly string[];
  /** Goes on after the head of the answer, which has no body of its own then. */
  readonly stream?: (sink: Sink) => void;
}

/** The body as text: that of a thread comes as bytes. */
export const bodyText = ({ body }: Reply): string =>
  typeof body === 'string' ? body : Buffer.from(body).toString('utf8');

/** What an answer may have beside its members. */
interface ReplyOptions {
  /** Members that are JSON text already. */
  readonly raw?: Readonly<Record<string, string>>;
  /** Of findings; English where absent. */
  readonly language?: Language | undefined;
}

/** A JSON object, findings with their text. */
export function reply(status: number, members: object, { raw = {}, language }: ReplyOptions = {}): Reply {
  const texts = Object.entries(raw).map(([name, text]) => `${JSON.stringify(name)}:${text.trim()}`);
  const inner = JSON.stringify(members, findingRowsIn(language)).slice(1, -1);
  return { status, body: `{${[inner, ...texts].filter(text => text !== '').join(',')}}` };
}

/** FHIR IssueType of a refusal. */
type IssueType =
  | 'structure'
  | 'invalid'
  | 'login'
  | 'forbidden'
  | 'not-found'
  | 'too-long'
  | 'not-supported'
  | 'transient'
  | 'throttled'
  | 'too-costly'
  | 'conflict'
  | 'exception';

/** Issues of an OperationOutcome; `expression` is the place in the record. */
export const issuesOf = (findings: readonly Finding[], language?: Language): object[] =>
  findings.map(f => {
    const remedy = remedyOf(f, language);
    return {
      severity: f.severity,
      code: issueTypes[f.severity],
      details: { coding: [{ code: f.code }], text: messageOf(f, language) },
      ...(remedy !== '' && { diagnostics: remedy }),
      ...(f.path !== '' && { expression: [f.path] }),
    };
  });

const issueTypes = {
  fatal: 'invalid',
  error: 'invalid',
  warning: 'business-rule',
  information: 'informational',
} as const;

/**
 * A refusal in the shape of an OperationOutcome: what Casetally found stands as issues, and once more in full under
 * `findings`, with lines, codes and remedies.
 */
export function refusal(
  status: number,
  code: IssueType,
  text: string,
  findings: readonly Finding[] = [],
  headers: Readonly<Record<string, string>> = {},
  language?: Language,
): Reply {
  const first = { severity: status >= 500 ? 'fatal' : 'error', code, details: { text } };
  const ordered = byHarm(findings);
  const issue = issuesOf(ordered, language);
  return {
    ...reply(
      status,
      { resourceType: 'OperationOutcome', issue: [first, ...issue], findings: ordered },
      { language },
    ),
    headers,
  };
}
