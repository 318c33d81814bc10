import { openPostgresAudit, openSqliteAudit } from '../../src/audit/store/open.js';
import { unsealed } from '../../src/delivery/outbox/sealing.js';

/* A process that adds entries: place, name, how many. */

const [, , place = '', name = '', count = '0'] = process.argv;
const trail = await (place.startsWith('postgres')
  ? openPostgresAudit(place, { sealing: unsealed })
  : openSqliteAudit(place, { sealing: unsealed }));
for (let i = 0; i < Number(count); i += 1)
  await trail.append({
    ...{ id: `${name}-${i}`, kind: 'look', at: i, who: { kind: 'token', name } },
    ...{ doing: 'GET /outbox/:id', outcome: 200, about: [`item-${i}`] },
  });
await trail.close();
