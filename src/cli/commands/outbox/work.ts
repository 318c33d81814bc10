import type { Outbox } from '../../../delivery/outbox/outbox.js';
import { deliveryLog, logEvent } from '../../../delivery/telemetry/log.js';
import type { LogLevel } from '../../../delivery/telemetry/log-levels.js';
import { deliveryMetrics } from '../../../delivery/telemetry/metrics.js';
import { runWorker } from '../../../delivery/worker/worker.js';
import { type ExitCode, exitCodes } from '../../exit.js';
import { type MetricsServer, serveMetrics } from '../../metrics-server.js';
import type { Output } from '../../output.js';
import { processDeps } from '../../process.js';
import { toldToStop } from '../../running.js';
import { openTargets } from '../open-destination.js';
import { type OutboxFlags, withFedOutbox } from './outbox.js';

interface WorkFlags extends OutboxFlags {
  readonly metricsPort?: number;
  readonly logLevel?: LogLevel;
}

/**
 * Sends what is due until it is told to stop; what is being sent is finished first. Writes a log of one JSON object
 * a line to standard output.
 */
export function work(flags: WorkFlags, output: Output): Promise<ExitCode> {
  return withFedOutbox(flags, output, async (outbox, site, feed) => {
    const waiting = (await outbox.depths()).map(depth => depth.destination);
    const names = [...Object.keys(site.site.destinations), ...waiting];
    const process = { ...processDeps(flags.data), alsoWrote: feed.alsoWrote };
    const targets = await openTargets(site, names, flags, process, output);
    const stop = new AbortController();
    void toldToStop().then(() => stop.abort());
    const log = deliveryLog(flags.logLevel ?? 'info', { write: line => output.out(line) });
    const metrics = deliveryMetrics(outbox, process.clock);
    let server: MetricsServer | undefined;
    if (flags.metricsPort !== undefined)
      server = await serveMetrics(flags.metricsPort, { metrics, ready: () => answers(outbox) });
    try {
      const destinations = targets.map(t => t.destination.name);
      log.info({ destinations, ...(server && { metricsPort: server.port }) }, 'worker started');
      const carrying = feed.keepCarryingOut(outbox, stop.signal, ({ destination, came, reason }) => {
        const told = { destination, came, ...(reason !== undefined && { reason }) };
        if (came === 'done') log.debug(told, 'looked at what an earlier case left');
        else log.warn(told, 'what an earlier case left is not brought up to date');
      });
      try {
        await runWorker({
          ...process,
          outbox,
          targets,
          stop: stop.signal,
          onEvent: event => {
            metrics.observe(event);
            logEvent(log, event);
          },
        });
      } finally {
        // It ends with the worker, however that ends.
        stop.abort();
        await carrying;
      }
      log.info('worker stopped');
    } finally {
      await server?.close();
    }
    return exitCodes.ok;
  });
}

async function answers(outbox: Outbox): Promise<boolean> {
  await outbox.depths();
  return true;
}
