import { randomUUID } from 'node:crypto';
import { setPriority } from 'node:os';
import { resolve } from 'node:path';
import { workerData } from 'node:worker_threads';
import { type SecretSource, secretSource } from '../../delivery/auth/secrets.js';
import { statementsInMemory } from '../../delivery/destination/capability-cache.js';
import { sourceFrom } from '../../pipeline/outbox-item.js';
import { caseTools } from '../../pipeline/prepare-opened.js';
import { faultReply } from '../api/fault.js';
import { type Reply, refusal } from '../api/reply.js';
import type { BringPorts } from './bring-handler.js';
import {
  acceptCaseHandler,
  checkCaseHandler,
  prepareCaseHandler,
  reportCaseHandler,
} from './case-handlers.js';
import type { CaseJob, CaseQuestion, CaseThreadData } from './case-job.js';
import { asked, storeThrough } from './outbox-questions.js';
import { sentCase } from './sent-case.js';
import { type Ask, serveJobs } from './thread.js';

/* A thread that works cases out: the module that the pool of the service starts. */

const { site, softwareVersion } = workerData as CaseThreadData;
const tools = await caseTools(site, softwareVersion);
const sending = {
  clock: () => Date.now(),
  newId: () => randomUUID(),
  random: Math.random,
  sourceOf: sourceFrom,
  statements: statementsInMemory(),
};

// On Linux this is about this thread alone: whoever asks for health or the outbox is answered before a case is printed.
if (process.platform === 'linux')
  try {
    setPriority(5);
  } catch {
    // Not allowed everywhere; it goes without.
  }

// Bytes are made here and handed over: to copy or encode a megabyte holds up whoever answers requests.
serveJobs<CaseJob, Reply, CaseQuestion>(
  async (job, ask) => inBytes(await answerOrFault(job, ask)),
  ({ body }) => (body instanceof Uint8Array && body.buffer instanceof ArrayBuffer ? [body.buffer] : []),
);

function inBytes(reply: Reply): Reply {
  const { body } = reply;
  return { ...reply, body: typeof body === 'string' ? new TextEncoder().encode(body) : body.slice() };
}

async function answerOrFault(job: CaseJob, ask: Ask<CaseQuestion>): Promise<Reply> {
  try {
    return await answerTo(job, ask);
  } catch (error) {
    return faultReply(error, job.maxBytes);
  }
}

async function answerTo({ body, type, maxBytes, wanted }: CaseJob, ask: Ask<CaseQuestion>): Promise<Reply> {
  const ports = { site, tools, language: wanted.language };
  // What reads sources of a record is loaded when it is asked for: grammar and form would slow down the start of every thread.
  if (wanted.do === 'dose')
    return (await import('./dose-handler.js')).doseHandler(body, type, maxBytes, ports);
  if (wanted.do === 'from-response')
    return (await import('./response-handler.js')).fromResponseHandler(body, type, ports);
  if (wanted.do === 'bring')
    return (await import('./bring-handler.js')).bringHandler(wanted, {
      ...{ ...ports, process: sending, secrets: handedOver(wanted.secrets) },
      inside: insideThrough(ask),
    });
  if (wanted.do === 'validate')
    return (await import('./validate-handler.js')).validateHandler(body, wanted, tools);
  if (wanted.do === 'process')
    return (await import('./process-handler.js')).processHandler(body, maxBytes, ports);
  const sent = await sentCase(body, type, maxBytes);
  if ('refused' in sent) return sent.refused;
  if (sent.sources.length > 0 && wanted.do !== 'merge')
    return refusal(400, 'invalid', 'Sources are brought into a record at /intake/merge alone.');
  switch (wanted.do) {
    case 'check':
      return checkCaseHandler(sent, ports);
    case 'merge':
      return (await import('./merge-handler.js')).mergeHandler(sent, wanted.kits, ports);
    case 'trays':
      return (await import('./trays-handler.js')).traysHandler(sent, ports);
    case 'ready':
      return (await import('./ready-handler.js')).readyHandler(sent, wanted.sign, ports);
    case 'events':
      return (await import('./events-handler.js')).eventsHandler(sent, wanted, ports);
    case 'prepare':
      return prepareCaseHandler(sent, wanted, ports);
    case 'report':
      return reportCaseHandler(sent, wanted.report, ports);
    case 'store':
      return acceptCaseHandler(sent, wanted.to, {
        ...ports,
        process: sending,
        store: storeThrough(ask),
        secrets: handedOver(wanted.secrets),
      });
  }
}

/** The register, from within a thread. */
const insideThrough =
  (ask: Ask<CaseQuestion>): BringPorts['inside'] =>
  async (numbers, at) =>
    (await asked(ask, { ask: 'inside', numbers, at })) as Awaited<ReturnType<BringPorts['inside']>>;

/** Secrets that the service read; where they lie is known without reading them. */
function handedOver(secrets: ReadonlyMap<string, string>): SecretSource {
  const { where } = secretSource(
    {},
    () => undefined,
    path => resolve(site.folder, path),
  );
  return Object.assign((reference: string) => secrets.get(reference), { ...(where && { where }) });
}
