import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import type { RequestEvent } from './api/app.js';
import type { CaseWork } from './threads/cases.js';

/** Figures of one service. No label has anything about a patient or a record. */
export interface ServiceMetrics {
  /** Counts a request. */
  observe(event: RequestEvent): void;
  /** The figures as Prometheus text. */
  text(): Promise<string>;
  readonly contentType: string;
}

/** Metrics of the service: requests, time, what waits for a thread, threads that were replaced, and the process itself. */
export function serviceMetrics(cases: Pick<CaseWork, 'state'>): ServiceMetrics {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  const requests = new Counter({
    name: 'casetally_service_requests_total',
    help: 'Requests by route and status',
    labelNames: ['method', 'route', 'status'],
    registers,
  });
  const latency = new Histogram({
    name: 'casetally_service_request_seconds',
    help: 'Time from a request to its answer',
    labelNames: ['route'],
    buckets: [0.01, 0.03, 0.1, 0.3, 1, 3, 10, 30, 100],
    registers,
  });
  for (const [name, help, key] of [
    ['casetally_service_threads', 'Threads that work cases out', 'threads'],
    ['casetally_service_threads_busy', 'Threads that have a case now', 'busy'],
    ['casetally_service_waiting', 'Cases that wait for a thread', 'waiting'],
  ] as const)
    new Gauge({
      ...{ name, help, registers },
      collect() {
        this.set(cases.state[key]);
      },
    });
  new Counter({
    name: 'casetally_service_threads_replaced_total',
    help: 'Threads that ended over a case and were started anew',
    registers,
    collect() {
      this.reset();
      this.inc(cases.state.replaced);
    },
  });
  return {
    contentType: registry.contentType,
    observe({ method, route, status, durationMs }) {
      requests.inc({ method, route, status });
      latency.observe({ route }, durationMs / 1000);
    },
    text: () => registry.metrics(),
  };
}
