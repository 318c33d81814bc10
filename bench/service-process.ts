/**
 * The service that `bench/service.ts` asks, in a process that measures its own event loop; or a process that does nothing
 * else, to tell how long this machine keeps anybody waiting.
 */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import type * as Sqlite from '../src/delivery/outbox/sqlite-outbox.js';
import type { OpenedSite } from '../src/pipeline/open-case.js';
import type * as Prepare from '../src/pipeline/prepare-opened.js';
import type * as Server from '../src/service/api/server.js';
import type * as Handlers from '../src/service/threads/case-handlers.js';
import type { CaseJob } from '../src/service/threads/case-job.js';
import type * as Cases from '../src/service/threads/cases.js';
import type * as Sent from '../src/service/threads/sent-case.js';
import type * as Sites from '../src/site/site.js';
import { builtIn, ownDist } from './measure.js';

/** A module as it was built: threads run built modules only. */
const built = builtIn(ownDist);

const { openSqliteOutbox } = await built<typeof Sqlite>('delivery/outbox/sqlite-outbox.js');
const { startService } = await built<typeof Server>('service/api/server.js');
const { startCaseWork } = await built<typeof Cases>('service/threads/cases.js');
const { unconfiguredSite } = await built<typeof Sites>('site/site.js');

const delay = monitorEventLoopDelay({ resolution: 5 });
let before = process.cpuUsage();
const { url, close } =
  process.env['BENCH_AS'] === 'idle' ? { url: '', close: async () => undefined } : await served();
process.on('message', async message => {
  if (message === 'measure') {
    delay.reset();
    delay.enable();
    before = process.cpuUsage();
    process.send?.({});
  } else if (message === 'measured') {
    delay.disable();
    const { user, system } = process.cpuUsage(before);
    const peakMB = Math.round(process.resourceUsage().maxRSS / 1024);
    process.send?.({
      p99: delay.percentile(99) / 1e6,
      max: delay.max / 1e6,
      cpu: (user + system) / 1e6,
      peakMB,
    });
  } else {
    await close();
    process.disconnect();
  }
});
// Whoever started it may have ended: nothing is left running.
process.once('disconnect', () => process.exit());
process.send?.({ url });

async function served() {
  let number = 0;
  const newId = () => {
    number += 1;
    return `item-${number}`;
  };
  const outbox = await openSqliteOutbox(join(process.env['BENCH_DATA'] ?? '', 'outbox.db'), { newId });
  const site = { site: unconfiguredSite, given: false, folder: process.cwd() };
  const { work } = unconfiguredSite.service;
  const cases =
    process.env['BENCH_AS'] === 'threads'
      ? await startCaseWork(
          { site, outbox, softwareVersion: 'bench' },
          { ...work, threads: work.threads ?? Math.max(2, availableParallelism() - 1) },
        )
      : await inOneProcess(site);
  const service = await startService(
    { site, outbox, cases, secrets: () => undefined, clock: () => Date.now(), softwareVersion: 'bench' },
    { port: 0, tokens: undefined },
  );
  return {
    url: service.baseUrl,
    close: async () => {
      await service.close();
      await cases.close();
      await outbox.close();
    },
  };
}

/** What the service would be without threads: every case is worked out where requests are answered. */
async function inOneProcess(site: OpenedSite): Promise<Cases.CaseWork> {
  const handlers = await built<typeof Handlers>('service/threads/case-handlers.js');
  const { sentCase } = await built<typeof Sent>('service/threads/sent-case.js');
  const { caseTools } = await built<typeof Prepare>('pipeline/prepare-opened.js');
  const ports = { site, tools: await caseTools(site, 'bench') };
  return {
    ask: async ({ body, type, maxBytes, wanted }: CaseJob) => {
      const sent = await sentCase(body, type, maxBytes);
      if ('refused' in sent) return sent.refused;
      if (wanted.do === 'check') return handlers.checkCaseHandler(sent, ports);
      if (wanted.do === 'report') return handlers.reportCaseHandler(sent, wanted.report, ports);
      if (wanted.do === 'prepare') return handlers.prepareCaseHandler(sent, wanted, ports);
      throw new Error('The bench stores nothing.');
    },
    busy: () => undefined,
    state: { threads: 0, busy: 0, waiting: 0, replaced: 0, failedStarts: 0 },
    close: async () => undefined,
  };
}
