import { Counter, Gauge, Histogram, Registry } from 'prom-client';
import type { Outbox } from '../outbox/outbox.js';
import type { WorkerEvent } from '../worker/worker.js';

/** Reasons that are about the token and not about the record. */
const TOKEN_REASONS: ReadonlySet<string> = new Set(['token-refused', 'token-unavailable', 'unauthorised']);

/** Figures of one outbox and its worker. No label has anything about a patient or a record. */
export interface DeliveryMetrics {
  /** Counts what a worker did. */
  observe(event: WorkerEvent): void;
  /** The figures as Prometheus text, with the state of the outbox as it is now. */
  text(): Promise<string>;
  readonly contentType: string;
}

const IN_STATE = ['waiting', 'sending', 'parked', 'delivered', 'unknown'] as const;

/**
 * Metrics of delivery: queue depth, age of the oldest, outcomes and requests by class, latency, token failures,
 * closed destinations.
 *
 * @param clock milliseconds since the epoch.
 */
export function deliveryMetrics(
  outbox: Pick<Outbox, 'depths' | 'gate'>,
  clock: () => number,
): DeliveryMetrics {
  const registers = [new Registry()];
  const [registry = new Registry()] = registers;
  const outcomes = new Counter({
    name: 'casetally_delivery_outcomes_total',
    help: 'What attempts came to',
    labelNames: ['destination', 'came', 'reason'],
    registers,
  });
  const requests = new Counter({
    name: 'casetally_delivery_requests_total',
    help: 'Requests that carried a submission, by class of answer',
    labelNames: ['destination', 'class', 'reason'],
    registers,
  });
  const latency = new Histogram({
    name: 'casetally_delivery_request_seconds',
    help: 'Time from a request to its answer',
    labelNames: ['destination'],
    buckets: [0.1, 0.3, 1, 3, 10, 30, 60],
    registers,
  });
  const tokens = new Counter({
    name: 'casetally_delivery_token_failures_total',
    help: 'Requests that failed for want of a token that is accepted',
    labelNames: ['destination', 'reason'],
    registers,
  });
  const depth = new Gauge({
    name: 'casetally_outbox_items',
    help: 'Items of the outbox by state; unknown counts those of them whose outcome is not known',
    labelNames: ['destination', 'state'],
    registers,
  });
  const oldest = new Gauge({
    name: 'casetally_outbox_oldest_seconds',
    help: 'Age of the oldest item that is not delivered; 0 when there is none',
    labelNames: ['destination'],
    registers,
  });
  const paused = new Gauge({
    name: 'casetally_destination_paused',
    help: '1 when a person must open the destination again',
    labelNames: ['destination'],
    registers,
  });
  const closed = new Gauge({
    name: 'casetally_destination_closed_seconds',
    help: 'Time for which the destination is still left alone',
    labelNames: ['destination'],
    registers,
  });

  return {
    contentType: registry.contentType,
    observe({ destination, came, reason = 'accepted', requests: made }) {
      outcomes.inc({ destination, came, reason });
      for (const request of made) {
        requests.inc({ destination, class: request.state, reason: request.reason });
        latency.observe({ destination }, request.durationMs / 1000);
        if (TOKEN_REASONS.has(request.reason)) tokens.inc({ destination, reason: request.reason });
      }
    },
    async text() {
      for (const gauge of [depth, oldest, paused, closed]) gauge.reset();
      for (const found of await outbox.depths()) {
        const { destination } = found;
        for (const state of IN_STATE) depth.set({ destination, state }, found[state]);
        const age = found.oldest === undefined ? 0 : Math.max(0, clock() - found.oldest);
        oldest.set({ destination }, age / 1000);
        const gate = await outbox.gate(destination);
        paused.set({ destination }, gate.paused === undefined ? 0 : 1);
        closed.set({ destination }, Math.max(0, gate.closedUntil - clock()) / 1000);
      }
      return registry.metrics();
    },
  };
}
