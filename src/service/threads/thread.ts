import { isMainThread, parentPort } from 'node:worker_threads';
import type { FromThread, ToThread } from './pool.js';

/** Asks the service something in the middle of a job. */
export type Ask<Question> = (question: Question) => Promise<unknown>;

/**
 * Serves jobs in a thread of a pool, one at a time.
 *
 * @param work never rejects for what a job holds.
 * @param handOver what of an answer is handed over in place of being copied.
 */
export function serveJobs<Job, Answer, Question>(
  work: (job: Job, ask: Ask<Question>) => Promise<Answer>,
  handOver: (answer: Answer) => readonly ArrayBuffer[] = () => [],
): void {
  const port = parentPort;
  if (isMainThread || !port) throw new Error('This module runs in a thread of a pool only.');
  const say = (message: FromThread<Answer, Question>, own: readonly ArrayBuffer[] = []) =>
    port.postMessage(message, [...own]);
  const open = new Map<number, (value: unknown) => void>();
  let asked = 0;
  const ask: Ask<Question> = question =>
    new Promise(resolve => {
      asked += 1;
      open.set(asked, resolve);
      say({ kind: 'ask', id: asked, question });
    });
  port.on('message', (message: ToThread<Job>) => {
    if (message.kind === 'told') {
      open.get(message.id)?.(message.value);
      open.delete(message.id);
    } else void work(message.job, ask).then(answer => say({ kind: 'answer', answer }, handOver(answer)));
  });
  say({ kind: 'ready' });
}
