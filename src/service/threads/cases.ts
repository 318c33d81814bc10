import { extname } from 'node:path';
import type { SecretSource } from '../../delivery/auth/secrets.js';
import { SECRET_REFERENCE } from '../../delivery/auth/secrets.js';
import type { Outbox } from '../../delivery/outbox/outbox.js';
import { insideContribution } from '../../pipeline/intake/earlier.js';
import type { OpenedSite } from '../../pipeline/open-case.js';
import { caseSystemOf } from '../../pipeline/settings.js';
import type { Register } from '../../register/store/register.js';
import { type Reply, refusal } from '../api/reply.js';
import type { CaseJob, CaseQuestion, CaseThreadData } from './case-job.js';
import { roomFor } from './memory.js';
import { answered, ownError, told } from './outbox-questions.js';
import { type Outcome, type PoolLimits, type PoolState, WorkerPool } from './pool.js';

/** Works cases out beside the thread that answers requests. */
export interface CaseWork {
  /** The answer to a request about a case. @param gone told when nobody waits for it any more */
  ask(job: CaseJob, gone: AbortSignal): Promise<Reply>;
  /** Why no more can be taken on now; undefined when it can. */
  busy(): Reply | undefined;
  readonly state: PoolState;
  close(): Promise<void>;
}

export interface CaseWorkPorts {
  readonly site: OpenedSite;
  readonly outbox: Pick<Outbox, 'list' | 'put'>;
  /** Absent where the site keeps none. */
  readonly register?: Pick<Register, 'people' | 'usesOf'>;
  readonly softwareVersion: string;
}

/** Beside this file, from `src` and from `dist` alike. */
const script = new URL(`./case-thread${extname(import.meta.url)}`, import.meta.url);

/**
 * Starts the threads; fulfilled when all of them can work.
 *
 * @throws CasetallyError 'definitions-missing' or what else keeps them from it.
 */
export async function startCaseWork(
  { site, outbox, register, softwareVersion }: CaseWorkPorts,
  limits: PoolLimits,
): Promise<CaseWork> {
  const data: CaseThreadData = { site, softwareVersion };
  const starting = WorkerPool.start<CaseJob, Reply, CaseQuestion>({
    ...{ script, data, limits, room: roomFor(limits.threads) },
    handOver: ({ body }) => (body.buffer instanceof ArrayBuffer ? [body.buffer] : []),
    onAsk: question =>
      told(async () => {
        if (question.ask !== 'inside') return answered(question, outbox);
        const { numbers, at } = question;
        return register && insideContribution(register, numbers, caseSystemOf(site.site), at);
      }),
    isLasting: ({ ask }) => ask === 'put',
  });
  const pool = await starting.catch((error: unknown) => {
    throw ownError(error);
  });
  return {
    ask: async (job, gone) => replyTo(await pool.run(job, gone), limits),
    busy: () => (pool.isFull ? tooMany() : undefined),
    get state() {
      return pool.state;
    },
    close: () => pool.close(),
  };
}

/** More is asked for at once than is worked on: nothing was begun. */
export const tooMany = (): Reply =>
  refusal(
    503,
    'throttled',
    'Too many cases are being worked out; nothing of this one was begun. Send it again later.',
    [],
    { 'retry-after': '5' },
  );

/** What a caller is told of a case that was not worked out to its end. */
function replyTo(outcome: Outcome<Reply>, { seconds, megabytes }: PoolLimits): Reply {
  if (outcome.kind === 'answered') return outcome.answer;
  if (!('lasting' in outcome)) return tooMany();
  const stored = outcome.lasting
    ? 'Whether it was taken in is not known: send it again, nothing is stored twice.'
    : 'Nothing of it was taken in.';
  if (outcome.kind === 'died')
    return refusal(500, 'exception', `A fault in Casetally itself ended the work on this case. ${stored}`);
  const why =
    outcome.kind === 'too-long'
      ? `took longer than ${seconds} seconds`
      : `took more than ${megabytes} MB of memory`;
  const setting = outcome.kind === 'too-long' ? 'seconds' : 'megabytes';
  return refusal(
    422,
    'too-costly',
    `Working this case out ${why} and was ended. ${stored} Look for what is far more than a case has; whoever runs the service sets the limit as service.work.${setting}.`,
  );
}

/** What the destinations of a site refer to, read now; what is not there is left out. */
export function secretsOf({ site }: OpenedSite, secrets: SecretSource): Map<string, string> {
  const found = new Map<string, string>();
  const visit = (value: unknown) => {
    if (typeof value === 'string') {
      const secret = SECRET_REFERENCE.test(value) ? secrets(value) : undefined;
      if (secret !== undefined) found.set(value, secret);
    } else if (typeof value === 'object' && value !== null) Object.values(value).forEach(visit);
  };
  visit(site.destinations);
  return found;
}
