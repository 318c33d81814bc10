import type { Finding, Refusal } from './answers.js';

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

/** Asks this service. The token goes in a header only; a record, and what goes with it, only in the body. */
export async function ask<T>(path: string, token: string, record?: string | FormData): Promise<Answer<T>> {
  if (!/^[\x21-\x7e]*$/.test(token))
    return { ok: false, status: 401, text: 'The token holds characters that no token has.', findings: [] };
  let response: Response;
  let body: unknown;
  try {
    response = await fetch(path, {
      method: record === undefined ? 'GET' : 'POST',
      headers: {
        ...(token !== '' && { authorization: `Bearer ${token}` }),
        // That of parts names their border, which the browser makes.
        ...(typeof record === 'string' && { 'content-type': typeOf(record) }),
      },
      ...(record !== undefined && { body: record }),
      cache: 'no-store',
      credentials: 'omit',
      redirect: 'error',
      signal: AbortSignal.timeout(PATIENCE),
    });
    body = await response.json();
  } catch {
    return { ok: false, status: 0, text: 'The service does not answer.', findings: [] };
  }
  if (response.ok) return { ok: true, body: body as T };
  const { issue, findings } = body as Partial<Refusal>;
  const text = issue?.[0]?.details.text ?? `The service answers with ${response.status}.`;
  return { ok: false, status: response.status, text, findings: findings ?? [] };
}

const typeOf = (record: string) =>
  record.trimStart().startsWith('{') ? 'application/json' : 'application/yaml';
