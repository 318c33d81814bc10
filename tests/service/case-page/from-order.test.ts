import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { caseSystemOf } from '../../../src/pipeline/settings.js';
import { openSqliteRegister } from '../../../src/register/store/open.js';
import { startSandbox } from '../../../src/service/sandbox/server.js';
import { parseSite } from '../../../src/site/parse.js';
import { caseOf, device } from '../../register/facts.js';
import { chromium } from '../../support/browser.js';
import { examplesFolder } from '../../support/examples.js';
import { Room } from './room.js';

/* Beginning from an order that the embedded server holds, and from a kit. */

let records: Awaited<ReturnType<typeof startSandbox>>;
let room: Room;
beforeAll(async () => {
  const { entry } = JSON.parse(readFileSync(join(examplesFolder, 'intake', 'order.json'), 'utf8')) as {
    entry: readonly { resource: object }[];
  };
  records = await startSandbox({ preload: entry.map(({ resource }) => resource) });
  room = new Room(`destinations: { records: { url: "${records.baseUrl}" } }
intake: { kits: ${JSON.stringify(join(examplesFolder, 'kits'))} }
register: {}
`);
  await room.start();
  await hasInside();
});
afterAll(async () => {
  await room.end();
  await records.close();
});

/** The register has a drain inside the patient of the order, from a case in winter. */
async function hasInside(): Promise<void> {
  const { site } = parseSite(readFileSync(room.site, 'utf8'));
  const own = caseSystemOf(site!);
  const register = await openSqliteRegister(join(room.env.CASETALLY_DATA, 'register.db'), {
    ...{ sealing: unsealed, ownSystem: own },
  });
  const person = { system: 'https://ids.sandrigg-bay.example/patients', value: 'SB-204417' };
  const facts = caseOf('SB-24-0102', '2024-01-10', [device('drain', { serial: 'RQ-55-1' })], {
    ...{ case: { system: own, value: 'SB-24-0102' }, person, numbers: [person] },
  });
  await register.take({ facts, record: '' }, 1);
  await register.close();
}

const begun = () =>
  room.tab.until('location.hash', 'a case').then(() => room.tab.value<string>('location.hash'));

describe.skipIf(!chromium)('a case', () => {
  it('begins from an order and a kit, with the number in no address', async () => {
    await room.open();
    await room.press('Begin from an order or a kit');
    await room.type('#order', 'OR-24-8812');
    await room.press('Nephrostomy');
    expect(await room.faults()).toEqual([]);
    await room.press('Begin with these');
    const id = (await begun()).slice(1);
    const record = parse((await room.draft(id)).text) as Record<string, Record<string, unknown>>;
    expect(record['patient']).toMatchObject({ birthDate: '1962-09-27' });
    expect(Object.keys(record['devices'] ?? {}).length).toBeGreaterThan(3);
    // What the register has inside the patient comes in as carried.
    expect(Object.values(record['devices'] ?? {})).toContainEqual(
      expect.objectContaining({
        serial: 'RQ-55-1',
        carried: expect.objectContaining({ use: 'SB-24-0102/drain', date: '2024-01-10' }),
      }),
    );
    expect(JSON.stringify(room.tab.requests)).not.toContain('OR-24-8812');
    expect(room.log.join('\n')).not.toContain('OR-24-8812');
    expect(room.tab.complaints()).toEqual([]);
  });

  it('does not begin from an order that nobody knows, unless it is to', async () => {
    await room.open();
    await room.press('Begin from an order or a kit');
    await room.type('#order', 'none-of-these');
    await room.press('Begin with these');
    await room.reads('No such order was found');
    expect(await room.tab.value('location.hash')).toBe('');
    expect(await room.faults()).toEqual([]);
    await room.press('Begin with what was found');
    await begun();
  });
});
