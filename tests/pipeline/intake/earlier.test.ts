import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { unsealed } from '../../../src/delivery/outbox/sealing.js';
import { earlierCaseContribution, registerContribution } from '../../../src/pipeline/intake/earlier.js';
import { openBytes } from '../../../src/pipeline/open-case.js';
import { takeCase } from '../../../src/pipeline/register/take.js';
import { caseSystemOf } from '../../../src/pipeline/settings.js';
import { openSqliteRegister } from '../../../src/register/store/open.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { drainCase } from '../../support/drain-life.js';
import { exampleText } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'intake-earlier-'));
afterAll(() => rmSync(folder, { recursive: true }));
const site = { site: unconfiguredSite, given: false, folder: '.' };
const own = caseSystemOf(unconfiguredSite);
const at = '2024-06-04T08:12:00+12:00';
const open = (text: string) => openBytes(Buffer.from(text), site);
const opened = (one: Parameters<typeof drainCase>[0]) => open(drainCase(one));
const placed = { id: 'A', date: '2024-01-10', placed: 'L1' };
const number = { system: 'https://ids.tawhai-inlet.example/patients', value: 'PT-700112' };

describe('devices of an earlier case', () => {
  it('come in as carried, with what describes them and where they were placed', async () => {
    const made = earlierCaseContribution(await opened(placed), unconfiguredSite, at);
    expect(made).toMatchObject({
      from: 'earlier case',
      by: 'A',
      about: { identifiers: [number] },
      findings: [],
    });
    expect(Object.fromEntries(made?.values.map(({ path, value }) => [path.join('.'), value]) ?? [])).toEqual({
      'devices.earlier-nephrostomy-catheter.kind': 'nephrostomy catheter',
      'devices.earlier-nephrostomy-catheter.size': '8 Fr',
      'devices.earlier-nephrostomy-catheter.udi': '09506000117843',
      'devices.earlier-nephrostomy-catheter.lot': 'L1',
      'devices.earlier-nephrostomy-catheter.carried': {
        case: { system: own, value: 'A' },
        date: '2024-01-10',
        site: 'left Renal pelvis',
        side: 'left',
      },
    });
  });

  it('that came out in it are not among them', async () => {
    const removed = await opened({ id: 'B', date: '2024-02-01', before: 'L1', carried: 'date: 2024-01-10' });
    expect(earlierCaseContribution(removed, unconfiguredSite, at)?.values).toEqual([]);
  });

  it('a fragment is told, and is for a person to write', async () => {
    const made = earlierCaseContribution(
      await open(exampleText('fractured-wire-tip.yaml')),
      unconfiguredSite,
      at,
    );
    expect(made?.findings.map(({ code }) => code)).toEqual(['intake.not-taken']);
  });

  it('what is no case gives nothing', async () => {
    expect(earlierCaseContribution(await open('casetally: 1\n'), unconfiguredSite, at)).toBeUndefined();
  });
});

describe('devices of the register', () => {
  it('come in with their name there, and the case that placed them', async () => {
    const register = await openSqliteRegister(join(folder, 'register.db'), {
      sealing: unsealed,
      ownSystem: own,
    });
    await takeCase(await opened(placed), unconfiguredSite, register, 0);
    const exchanged = {
      id: 'B',
      date: '2024-02-01',
      before: 'L1',
      placed: 'L2',
      carried: 'date: 2024-01-10',
    };
    await takeCase(await opened(exchanged), unconfiguredSite, register, 0);
    const [person] = await register.people(number.value, number.system);
    const uses = await register.usesOf(person?.id ?? '');
    await register.close();
    const made = registerContribution(uses, own, { number, at });
    expect(made.values.map(({ path, value }) => [path.at(-1), value])).toEqual([
      ['kind', 'nephrostomy catheter'],
      ['udi', '09506000117843'],
      ['lot', 'L2'],
      [
        'carried',
        {
          use: 'B/new',
          case: { system: own, value: 'B' },
          date: '2024-02-01',
          site: 'left Renal pelvis',
          side: 'left',
        },
      ],
    ]);
  });
});
