/**
 * One run of a worker as a process of its own, to be killed. Puts the cases given into the outbox, saying
 * 'ack CASE' for each that it has taken in, delivers everything, and says 'done'. With --die-after N it ends
 * itself by SIGKILL after the N-th step, where steps are the durable writes and the requests.
 */
import { randomUUID } from 'node:crypto';
import { parseArgs } from 'node:util';
import type { Outbox } from '../../../src/delivery/outbox/outbox.js';
import { digestOf } from '../../../src/delivery/request/submission.js';
import { drain } from '../../../src/delivery/worker/worker.js';
import { destination, submissionText } from '../../delivery/samples.js';
import { openStore } from './store.js';

const { values } = parseArgs({
  options: {
    db: { type: 'string', default: '' },
    schema: { type: 'string' },
    server: { type: 'string', default: '' },
    cases: { type: 'string', default: '' },
    'die-after': { type: 'string', default: '0' },
    lanes: { type: 'string', default: '1' },
    'lease-ms': { type: 'string', default: '400' },
  },
});

let left = Number(values['die-after']);
function step(): void {
  left -= 1;
  if (left === 0) process.kill(process.pid, 'SIGKILL');
}

/** Steps before and after everything: a crash may come before a write is durable, or just after. */
async function around<T>(work: () => Promise<T>): Promise<T> {
  step();
  const result = await work();
  step();
  return result;
}

const store = await openStore({
  place: values.db,
  ...(values.schema !== undefined && { schema: values.schema }),
});
const outbox: Outbox = new Proxy(store, {
  get(target, name) {
    const member: unknown = Reflect.get(target, name);
    if (typeof member !== 'function') return member;
    const stepping = ['put', 'claim', 'begin', 'settle', 'setGate'].includes(String(name));
    return (...args: unknown[]) =>
      stepping ? around(() => member.apply(target, args)) : member.apply(target, args);
  },
});

for (const caseKey of values.cases.split(',').filter(Boolean)) {
  const payload = submissionText(caseKey);
  const now = Date.now();
  await outbox.put(
    { destination: 'd', caseKey, patientKey: caseKey, payload, digest: digestOf(payload) },
    now,
  );
  console.log(`ack ${caseKey}`);
}

const target = {
  destination: destination(values.server, { name: 'd', timeoutMs: 300, searchLagMs: 0 }),
  fetch: ((url, init) =>
    init?.method === 'POST' ? around(() => fetch(url, init)) : fetch(url, init)) as typeof fetch,
};
for (;;) {
  await drain({
    outbox,
    targets: [target],
    clock: Date.now,
    newId: randomUUID,
    random: () => 0,
    lanes: Number(values.lanes),
    leaseMs: Number(values['lease-ms']),
    policy: {
      backoff: { baseMs: 5, capMs: 20 },
      breakerAfter: 5,
      breaker: { baseMs: 5, capMs: 20 },
      maxAgeMs: 600_000,
    },
  });
  const [depth] = await store.depths();
  if (!depth || depth.waiting + depth.sending === 0) break;
  await new Promise(resolve => setTimeout(resolve, 10));
}
await store.close();
console.log('done');
