import type { Outbox } from '../../delivery/outbox/outbox.js';
import { CasetallyError, type ErrorCode } from '../../findings/errors.js';
import type { Ask } from './thread.js';

/* The outbox stays with the thread that started the others: those ask it. */

/** What a thread asks of the outbox. */
export type OutboxQuestion =
  | { readonly ask: 'list'; readonly filter: Parameters<Outbox['list']>[0] }
  | { readonly ask: 'put'; readonly item: Parameters<Outbox['put']>[0]; readonly now: number };

/** What was answered, or the error that came in its place. */
export type Told = { readonly value: unknown } | { readonly error: { code?: string; message: string } };

/** What the outbox says to a question. */
export async function answered(
  question: OutboxQuestion,
  outbox: Pick<Outbox, 'list' | 'put'>,
): Promise<unknown> {
  return question.ask === 'list' ? outbox.list(question.filter) : outbox.put(question.item, question.now);
}

/** An answer as it goes to a thread; never rejects. */
export async function told(answer: () => Promise<unknown>): Promise<Told> {
  try {
    return { value: await answer() };
  } catch (error) {
    const code = error instanceof CasetallyError ? error.code : undefined;
    const message = error instanceof Error ? error.message : 'unknown';
    return { error: { ...(code !== undefined && { code }), message } };
  }
}

/** Asks from within a thread. @throws what the answer threw. */
export async function asked<Question>(ask: Ask<Question>, question: Question): Promise<unknown> {
  const answer = (await ask(question)) as Told;
  if ('value' in answer) return answer.value;
  const { code, message } = answer.error;
  throw code === undefined ? new Error(message) : new CasetallyError(code as ErrorCode, message);
}

/** The outbox, from within a thread. */
export function storeThrough(ask: Ask<OutboxQuestion>): Pick<Outbox, 'list' | 'put'> {
  return {
    list: async filter => (await asked(ask, { ask: 'list', filter })) as Awaited<ReturnType<Outbox['list']>>,
    put: async (item, now) =>
      (await asked(ask, { ask: 'put', item, now })) as Awaited<ReturnType<Outbox['put']>>,
  };
}

/** An error that came from a thread, as what it was there: on the way it loses its class. */
export function ownError(error: unknown): unknown {
  if (!(error instanceof Error) || error.name !== 'CasetallyError' || !('code' in error)) return error;
  return new CasetallyError(error.code as ErrorCode, error.message, { cause: error });
}
