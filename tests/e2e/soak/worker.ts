/**
 * The worker of a soak, a process of its own so that its memory is measured alone: takes in cases of several
 * patients for several destinations, delivers all of them, and prints a line of JSON for each sample of memory
 * (after a collection, so what is counted is what is held). Run with --expose-gc.
 */
import { randomUUID } from 'node:crypto';
import { parseArgs } from 'node:util';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { drain, type WorkerDeps } from '../../../src/delivery/worker/worker.js';
import { destination, submissionText } from '../../delivery/samples.js';

const { values } = parseArgs({
  options: {
    db: { type: 'string', default: '' },
    servers: { type: 'string', default: '' },
    cases: { type: 'string', default: '0' },
    patients: { type: 'string', default: '1' },
    samples: { type: 'string', default: '40' },
  },
});
const servers = values.servers.split(',');
const cases = Number(values.cases);
const patients = Number(values.patients);
const every = Math.ceil((cases * servers.length) / Number(values.samples));

const outbox = await openSqliteOutbox(values.db, { newId: randomUUID });
for (let i = 0; i < cases; i += 1) {
  const caseKey = `p${i % patients}.${Math.floor(i / patients)}`;
  const payload = submissionText(caseKey);
  for (const name of servers.keys()) {
    const item = { caseKey, patientKey: `p${i % patients}`, payload, digest: digestOf(payload) };
    await outbox.put({ ...item, destination: `d${name}` }, Date.now());
  }
}

let delivered = 0;
function sample(): void {
  globalThis.gc?.();
  const { heapUsed, external, rss } = process.memoryUsage();
  console.log(JSON.stringify({ delivered, held: heapUsed + external, rss }));
}

const deps: WorkerDeps = {
  outbox,
  targets: servers.map((url, i) => ({
    destination: destination(url, { name: `d${i}`, timeoutMs: 1_000, searchLagMs: 0 }),
  })),
  clock: Date.now,
  newId: randomUUID,
  random: Math.random,
  policy: {
    backoff: { baseMs: 5, capMs: 50 },
    breakerAfter: 5,
    breaker: { baseMs: 5, capMs: 50 },
    maxAgeMs: 3_600_000,
  },
  onEvent: ({ came }) => {
    if (came !== 'delivered') return;
    delivered += 1;
    if (delivered % every === 0) sample();
  },
};
for (;;) {
  await drain(deps);
  const open = (await outbox.depths()).some(depth => depth.waiting + depth.sending > 0);
  if (!open) break;
  await new Promise(resolve => setTimeout(resolve, 5));
}
const depths = await outbox.depths();
const total = (state: 'delivered' | 'parked') => depths.reduce((sum, depth) => sum + depth[state], 0);
await outbox.close();
console.log(JSON.stringify({ done: true, delivered: total('delivered'), parked: total('parked') }));
