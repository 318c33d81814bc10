import type { Finding, Refusal } from './answers.js';
import { language, say } from './words.js';

/** What the service answered: the body, or why there is none. Status 0: there was no answer at all. */
export type Answer<T> =
  | { readonly ok: true; readonly body: T }
  | {
      readonly ok: false;
      readonly status: number;
      readonly text: string;
      readonly findings: readonly Finding[];
    };

/** Longest wait for an answer, in milliseconds. */
const PATIENCE = 60_000;

/** Sends values to this service as JSON: what changes something without a record. */
export const tell = <T>(path: string, values: object): Promise<Answer<T>> =>
  ask(path, '', JSON.stringify(values));

/**
 * Asks this service. The token goes in a header only; a record, and what goes with it, only in the body. Without a token
 * whoever is signed in is asked for.
 */
export async function ask<T>(path: string, token: string, record?: string | FormData): Promise<Answer<T>> {
  if (!/^[\x21-\x7e]*$/.test(token))
    return { ok: false, status: 401, text: say('screen.token-characters'), findings: [] };
  const address = new URL(path, document.baseURI);
  address.searchParams.set('language', language);
  let response: Response;
  let body: unknown;
  try {
    response = await fetch(address, {
      method: record === undefined ? 'GET' : 'POST',
      headers: {
        ...(token !== '' && { authorization: `Bearer ${token}` }),
        // Says that a page of the service asks: no form can, and no page of elsewhere may.
        ...(record !== undefined && { 'x-casetally-page': 'yes' }),
        // That of parts names their border, which the browser makes.
        ...(typeof record === 'string' && { 'content-type': typeOf(record) }),
      },
      ...(record !== undefined && { body: record }),
      cache: 'no-store',
      credentials: token === '' ? 'same-origin' : 'omit',
      redirect: 'error',
      signal: AbortSignal.timeout(PATIENCE),
    });
    body = await response.json();
  } catch {
    return { ok: false, status: 0, text: say('screen.no-answer'), findings: [] };
  }
  if (response.ok) return { ok: true, body: body as T };
  const { issue, findings } = body as Partial<Refusal>;
  return {
    ok: false,
    status: response.status,
    text: refusalText(issue?.[0], response.status),
    findings: findings ?? [],
  };
}

/** Why the service refused: it says so in English, other languages by the kind of refusal. */
function refusalText(issue: Refusal['issue'][number] | undefined, status: number): string {
  if (issue && language.startsWith('en')) return issue.details.text;
  const kind = KINDS.find(one => one === issue?.code);
  return kind ? say(`screen.refused.${kind}`) : say('screen.refused.other', { status });
}

const KINDS = [
  'login',
  'forbidden',
  'too-long',
  'structure',
  'invalid',
  'not-found',
  'throttled',
  'transient',
  'too-costly',
  'exception',
] as const;

const typeOf = (record: string) =>
  record.trimStart().startsWith('{') ? 'application/json' : 'application/yaml';
