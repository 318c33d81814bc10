/** One of several processes that put items into the same outbox and work them off. Its place is in CASETALLY_DATA. */
import { randomUUID } from 'node:crypto';
import { isPostgresAddress, openPostgresOutbox } from '../../../src/delivery/outbox/open-postgres.js';
import { openSqliteOutbox } from '../../../src/delivery/outbox/sqlite-outbox.js';

const [worker = '', count = '0'] = process.argv.slice(2);
const place = process.env['CASETALLY_DATA'] ?? '';
const open = isPostgresAddress(place) ? openPostgresOutbox : openSqliteOutbox;
const outbox = await open(place, { newId: randomUUID });
const mine: string[] = [];
for (let i = 0; i < Number(count); i += 1) {
  const caseKey = `${worker}-${i}`;
  await outbox.put(
    { destination: 'd', caseKey, patientKey: `p${i % 20}`, payload: caseKey, digest: caseKey },
    Date.now(),
  );
  const lease = await outbox.claim('d', Date.now(), 60_000);
  if (!lease) continue;
  if (!(await outbox.begin(lease, Date.now()))) throw new Error('lease lost at once');
  mine.push(lease.item.id);
  const parked = { reason: 'taken', by: worker, at: 0, findings: [] };
  if (!(await outbox.settle(lease, { kind: 'parked', parked }, Date.now()))) throw new Error('not settled');
}
await outbox.close();
console.log(JSON.stringify(mine));
