/**
 * One run of a worker as a process of its own, to be killed: says 'ack CASE/VERSION' for each that it has taken in,
 * and 'done' at the end. With --stop-after N it ends itself by SIGKILL after the N-th step, where steps are the
 * durable writes and the requests that write, or with --asleep stops there until it is woken. With --only-deliver it delivers what others take in, until it is killed.
 */
import { writeSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { openStore } from './store.js';
import { workOff } from './work.js';

const { values } = parseArgs({
  options: {
    db: { type: 'string', default: '' },
    schema: { type: 'string' },
    server: { type: 'string', default: '' },
    work: { type: 'string', default: '{}' },
    'stop-after': { type: 'string', default: '0' },
    asleep: { type: 'boolean', default: false },
    'only-deliver': { type: 'boolean', default: false },
  },
});

let left = Number(values['stop-after']);
const store = await openStore({
  place: values.db,
  ...(values.schema !== undefined && { schema: values.schema }),
});
console.log('started');
await workOff(
  JSON.parse(values.work),
  values.server,
  store,
  () => {
    left -= 1;
    if (left !== 0) return;
    if (values.asleep) writeSync(1, 'asleep\n');
    process.kill(process.pid, values.asleep ? 'SIGSTOP' : 'SIGKILL');
  },
  line => console.log(line),
  values['only-deliver'],
);
await store.close();
console.log('done');
