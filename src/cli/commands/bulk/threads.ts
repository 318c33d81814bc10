import { CasetallyError } from '../../../findings/errors.js';
import type { Turns } from '../../../pipeline/bulk/turns.js';
import { answered, ownError, told } from '../../../service/threads/outbox-questions.js';
import { WorkerPool } from '../../../service/threads/pool.js';
import { softwareVersion } from '../../about.js';
import type { BulkAnswer, BulkJob, BulkQuestion, BulkThreadData } from './job.js';
import type { Journal } from './journal.js';
import type { BulkStores } from './target.js';

/** Beside this file in `dist`; a thread cannot run the source, so that from there it is the built one as well. */
const script = new URL(
  import.meta.url.endsWith('.ts') ? '../../../../dist/cli/commands/bulk/thread.js' : './thread.js',
  import.meta.url,
);

/** No record waits for a thread for long: only a few are read ahead. */
const WAIT_SECONDS = 1_000_000;

/** What the threads work for. */
export type Threads = Omit<BulkThreadData, 'softwareVersion' | 'pdf'> &
  BulkStores & { readonly pdf?: boolean };

/** Starts the threads that work records out. Outbox and register stay with this one. */
export async function startThreads(
  { site, goal, data, outbox, register, pdf = true }: Threads,
  { turns, journal }: { readonly turns: Turns; readonly journal: Pick<Journal, 'begin'> },
  limits: { readonly threads: number; readonly seconds: number; readonly megabytes: number },
): Promise<WorkerPool<BulkJob, BulkAnswer, BulkQuestion>> {
  const threadData: BulkThreadData = { site, goal, data, softwareVersion, pdf };
  const answer = async (question: BulkQuestion): Promise<unknown> => {
    switch (question.ask) {
      case 'turn':
        return turns.declare(question.job, question.case);
      case 'writing':
        return undefined;
      case 'take':
        return register?.take(question.version, question.now);
      default:
        if (!outbox) throw new CasetallyError('usage', 'no outbox was opened for this.');
        if (question.ask === 'put') await journal.begin(question.key);
        return answered(question, outbox);
    }
  };
  const starting = WorkerPool.start<BulkJob, BulkAnswer, BulkQuestion>({
    ...{ script, data: threadData, room: 'narrow' },
    limits: { ...limits, waiting: Number.POSITIVE_INFINITY, waitSeconds: WAIT_SECONDS },
    onAsk: question => told(() => answer(question)),
    isLasting: ({ ask }) => ask === 'put' || ask === 'take' || ask === 'writing',
    waitsForOthers: ({ ask }) => ask === 'turn',
  });
  return starting.catch((error: unknown) => {
    throw ownError(error);
  });
}
