import type { Finding } from '../../answers.js';
import { language, say } from '../../words.js';
import { addressOf } from '../desk/service.js';

/** What the service answered, or why it refused in words for whoever is at the page. Status 0: no answer at all. */
export type Answer<T> =
  | { readonly ok: true; readonly body: T }
  | {
      readonly ok: false;
      readonly status: number;
      /** Of FHIR's issue types, as the service names them. */
      readonly code?: string;
      readonly text: string;
      readonly findings: readonly Finding[];
    };

interface Asking {
  /** Sent as JSON; a text as a record. Without either it is asked for with GET. */
  readonly json?: object;
  readonly record?: string;
  /** The version of a draft that it is asked for. */
  readonly version?: number;
  /** Who begins a draft, where nobody signs in. */
  readonly by?: string | undefined;
}

/** Longest wait for an answer, in milliseconds: a case that is prepared takes a while on a busy machine. */
const PATIENCE = 60_000;
/** From one asking to the next while the service is away, in milliseconds. */
const AGAIN = 5_000;

/** Asks the service, in the language of the page unless the path names another. What is of a patient goes in the body. */
export async function ask<T>(
  path: string,
  { json, record, version, by }: Asking = {},
  signal?: AbortSignal,
): Promise<Answer<T>> {
  const address = addressOf(path);
  if (!address.searchParams.has('language')) address.searchParams.set('language', language);
  const sends = json !== undefined || record !== undefined;
  const patience = AbortSignal.timeout(PATIENCE);
  let response: Response;
  let body: unknown;
  try {
    response = await fetch(address, {
      method: sends ? 'POST' : 'GET',
      headers: {
        'x-casetally-page': 'yes',
        ...(json !== undefined && { 'content-type': 'application/json' }),
        ...(record !== undefined && record !== '' && { 'content-type': typeOf(record) }),
        ...(version !== undefined && { 'if-match': `"${version}"` }),
        ...(by !== undefined && { 'casetally-by': encodeURIComponent(by) }),
      },
      ...(sends && { body: json === undefined ? record : JSON.stringify(json) }),
      cache: 'no-store',
      redirect: 'error',
      signal: signal ? AbortSignal.any([signal, patience]) : patience,
    });
    body = await response.json();
  } catch {
    return { ok: false, status: 0, text: say('case.ask.away'), findings: [] };
  }
  if (response.ok) return { ok: true, body: body as T };
  return refused(response.status, body as Refused);
}

/**
 * Asks, and asks again while the service is away, so that whoever is at the page need not.
 * @param told is given each answer
 * @returns ends it
 */
export function keepAsking<T>(path: string, asking: Asking, told: (answer: Answer<T>) => void): () => void {
  let over = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const look = async () => {
    const answer = await ask<T>(path, asking);
    if (over) return;
    told(answer);
    if (!answer.ok && isAway(answer.status)) timer = setTimeout(look, AGAIN);
  };
  void look();
  return () => {
    over = true;
    clearTimeout(timer);
  };
}

const isAway = (status: number) => status === 0 || status === 429 || status >= 500;

/** An OperationOutcome, or problem details. */
interface Refused {
  readonly issue?: readonly { readonly code: string; readonly details: { readonly text: string } }[];
  readonly code?: string;
  readonly detail?: string;
  readonly findings?: readonly Finding[];
}

function refused(status: number, { issue, code, detail, findings = [] }: Refused): Answer<never> {
  const kind = code ?? issue?.[0]?.code;
  const said = detail ?? issue?.[0]?.details.text;
  // The service says why in English; other languages by the kind of refusal.
  const text =
    status === 401 || said === undefined || !language.startsWith('en') ? textOf(status, kind) : said;
  return { ok: false, status, ...(kind !== undefined && { code: kind }), text, findings };
}

function textOf(status: number, code: string | undefined): string {
  if (status === 401 || code === 'login') return say('case.ask.nobody');
  if (status === 403) return say('case.ask.forbidden');
  if (status === 404) return say('case.ask.missing');
  if (status === 409 || status === 412) return say('case.ask.changed');
  if (status === 422) return say('case.ask.findings');
  if (isAway(status)) return say('case.ask.away');
  return say('case.ask.other', { status });
}

const typeOf = (record: string) =>
  record.trimStart().startsWith('{') ? 'application/json' : 'application/yaml';
