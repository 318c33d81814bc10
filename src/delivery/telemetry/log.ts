import { type DestinationStream, type Logger, pino, stdTimeFunctions } from 'pino';
import type { WorkerEvent } from '../worker/worker.js';
import type { LogLevel } from './log-levels.js';

/**
 * A structured log: one JSON object a line, with level, time and message. Nothing but what is built up field by
 * field goes in, so that no patient data can.
 */
export function deliveryLog(level: LogLevel, stream: DestinationStream): Logger {
  return pino(
    {
      level,
      base: null,
      timestamp: stdTimeFunctions.isoTime,
      formatters: { level: label => ({ level: label }) },
    },
    stream,
  );
}

/** How much a person should care. */
const LEVELS: Readonly<Record<WorkerEvent['came'], 'info' | 'warn' | 'error'>> = {
  delivered: 'info',
  again: 'warn',
  parked: 'error',
  'lease-lost': 'warn',
  'too-early': 'info',
};

/**
 * Logs what came of an attempt. `item` is the same through every step from the outbox to the receipt; `requestId` is
 * what the server got as X-Request-Id.
 */
export function logEvent(log: Logger, event: WorkerEvent): void {
  const { item, destination, came, reason, attempts, durationMs, requests } = event;
  for (const { requestId, status, state, reason: why, durationMs: took } of requests)
    log.debug({ item, destination, requestId, status, state, reason: why, durationMs: took }, 'request');
  const requestId = requests.at(-1)?.requestId;
  log[LEVELS[came]]({ item, destination, requestId, came, reason, attempts, durationMs }, 'attempt');
}
