/**
 * One run of a worker as a process of its own, to be killed: says 'ack CASE/VERSION' for each that it has taken in,
 * and 'done' at the end. With --die-after N it ends itself by SIGKILL after the N-th step, where steps are the
 * durable writes and the requests that write.
 */
import { parseArgs } from 'node:util';
import { openStore } from './store.js';
import { workOff } from './work.js';

const { values } = parseArgs({
  options: {
    db: { type: 'string', default: '' },
    schema: { type: 'string' },
    server: { type: 'string', default: '' },
    work: { type: 'string', default: '{}' },
    'die-after': { type: 'string', default: '0' },
  },
});

let left = Number(values['die-after']);
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
    if (left === 0) process.kill(process.pid, 'SIGKILL');
  },
  line => console.log(line),
);
await store.close();
console.log('done');
