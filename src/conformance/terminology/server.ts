import type { Answers } from './terminology.js';

/** A membership that the packages could not decide. */
export interface Question {
  readonly valueSet: string;
  /** Absent for elements of type code, whose system the value set gives. */
  readonly system?: string;
  readonly code: string;
}

/** Answers of terminology servers, kept; give it to `createValidator` and fill it between two validations. */
export class AnswerBook implements Answers {
  private readonly known = new Map<string, boolean>();

  member(valueSet: string, system: string | undefined, code: string): boolean | undefined {
    return this.known.get(keyOf({ valueSet, code, ...(system !== undefined && { system }) }));
  }

  add(question: Question, isMember: boolean): void {
    this.known.set(keyOf(question), isMember);
  }

  has(question: Question): boolean {
    return this.known.has(keyOf(question));
  }

  /** All answers, to be written to a cache file. */
  entries(): readonly (readonly [string, boolean])[] {
    return [...this.known].sort(([a], [b]) => (a < b ? -1 : 1));
  }

  /** A book with the answers of an earlier one. */
  static from(entries: Iterable<readonly [string, boolean]>): AnswerBook {
    const book = new AnswerBook();
    for (const [key, isMember] of entries) book.known.set(key, isMember);
    return book;
  }
}

export interface TerminologyServer {
  /** FHIR base address. */
  readonly base: string;
  readonly fetch: typeof fetch;
  readonly signal?: AbortSignal;
  /** For authorization; never logged. */
  readonly headers?: Readonly<Record<string, string>>;
}

/** A question that stays open, and why. */
export interface Unanswered {
  readonly question: Question;
  readonly reason: string;
}

/**
 * Asks a terminology server (`ValueSet/$validate-code`) what `book` does not know yet. Only a Parameters
 * resource with a boolean `result` is an answer; everything else, a status of 200 included, leaves the
 * question open. Source: R4 ValueSet operations, $validate-code.
 */
export async function askTerminologyServer(
  questions: Iterable<Question>,
  book: AnswerBook,
  server: TerminologyServer,
): Promise<Unanswered[]> {
  const open = new Map<string, Question>();
  for (const question of questions) if (!book.has(question)) open.set(keyOf(question), question);
  const unanswered: Unanswered[] = [];
  const queue = [...open.values()];
  const worker = async () => {
    for (let question = queue.shift(); question; question = queue.shift()) {
      const answer = await ask(question, server);
      if (typeof answer === 'boolean') book.add(question, answer);
      else unanswered.push({ question, reason: answer });
    }
  };
  await Promise.all([worker(), worker(), worker(), worker()]);
  return unanswered;
}

async function ask(question: Question, server: TerminologyServer): Promise<boolean | string> {
  const [url = '', version] = question.valueSet.split('|');
  const search = new URLSearchParams({ url, code: question.code });
  if (version !== undefined) search.set('valueSetVersion', version);
  if (question.system === undefined) search.set('inferSystem', 'true');
  else search.set('system', question.system);
  try {
    const response = await server.fetch(
      `${server.base.replace(/\/$/, '')}/ValueSet/$validate-code?${search}`,
      {
        headers: { accept: 'application/fhir+json', ...server.headers },
        ...(server.signal && { signal: server.signal }),
      },
    );
    return (
      read((await response.json()) as unknown) ?? `the server gave no result (status ${response.status})`
    );
  } catch (error) {
    return `the server could not be asked: ${error instanceof Error ? error.message : String(error)}`;
  }
}

function read(body: unknown): boolean | undefined {
  const { resourceType, parameter } = (body ?? {}) as { resourceType?: unknown; parameter?: unknown };
  if (resourceType !== 'Parameters' || !Array.isArray(parameter)) return undefined;
  const result = parameter.find((p: { name?: unknown }) => p?.name === 'result') as
    | { valueBoolean?: unknown }
    | undefined;
  return typeof result?.valueBoolean === 'boolean' ? result.valueBoolean : undefined;
}

function keyOf({ valueSet, system, code }: Question): string {
  return `${valueSet} ${system ?? ''} ${code}`;
}
