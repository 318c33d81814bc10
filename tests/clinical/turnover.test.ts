import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/cli/commands/check.js';
import { turnovers } from '../../src/clinical/turnover.js';
import { messageOf } from '../../src/findings/finding.js';
import { parseCase } from '../../src/record/parse.js';
import type { CaseRecord } from '../../src/record/schema/record.js';

const text = (id: string, started: string, ended: string, room = 'Suite 1', date = '2024-03-14') => `
casetally: 1
case: { id: ${id}, status: completed, date: ${date}, timeZone: Europe/Lisbon, kind: nephrostomy, started: ${started}, ended: ${ended}, location: { name: ${room} } }
patient: { identifiers: [{ system: "urn:oid:1.2.3", value: "7" }] }
team: [{ key: op, role: operator, name: Dr Invented }]
indication: { text: Hydronephrosis }
report: { status: preliminary, author: op }
`;

function recordOf(...about: Parameters<typeof text>): CaseRecord {
  const { record, findings } = parseCase(text(...about));
  if (!record) throw new Error(findings.map(f => messageOf(f)).join('; '));
  return record;
}

describe('room turnover', () => {
  it('is the time from the end of one case to the start of the next in the room, in whatever order they are given', () => {
    const list = [
      recordOf('B', '"10:25"', '"11:00"'),
      recordOf('A', '"09:00"', '"10:02"'),
      recordOf('C', '"11:40"', '"12:00"', 'suite 1'),
      recordOf('X', '"10:10"', '"10:20"', 'Suite 2'),
      recordOf('N', '"08:00"', '"08:30"', 'Suite 1', '2024-03-15'),
    ];
    expect(turnovers(list)).toEqual([
      { room: 'Suite 1', before: 'A', after: 'B', minutes: 23 },
      { room: 'suite 1', before: 'B', after: 'C', minutes: 40 },
    ]);
    expect(turnovers(list.toReversed())).toEqual(turnovers(list));
  });

  it('counts over a change of the clock', () => {
    // Lisbon, 31 March 2024: 01:00 becomes 02:00 (IANA time zone database). 00:50 to 02:10 is twenty minutes.
    const night = '2024-03-31';
    expect(
      turnovers([
        recordOf('A', '"00:10"', '"00:50"', 'Suite 1', night),
        recordOf('B', '"02:10"', '"03:00"', 'Suite 1', night),
      ]),
    ).toMatchObject([{ minutes: 20 }]);
  });

  it('is not told where cases overlap, and nothing is said of one that has no end', () => {
    const [open] = [recordOf('O', '"09:00"', '"10:00"')];
    const { ended: _ended, ...rest } = open.case;
    expect(turnovers([{ ...open, case: rest }, recordOf('B', '"10:30"', '"11:00"')])).toEqual([]);
    expect(turnovers([open, recordOf('B', '"09:30"', '"11:00"')])).toEqual([
      { room: 'Suite 1', before: 'O', after: 'B', notAssessed: 'B began before O had ended' },
    ]);
  });

  it('stands below the findings of several cases, and in their JSON', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'casetally-turnover-'));
    const files = [
      ['a.yaml', text('A', '"09:00"', '"10:02"')],
      ['b.yaml', text('B', '"10:25"', '"11:00"')],
    ].map(([name = '', content = '']) => {
      writeFileSync(join(folder, name), content);
      return join(folder, name);
    });
    const run = async (json: boolean) => {
      const said: string[] = [];
      await check(files, { json }, { out: words => void said.push(words), err: () => {}, color: false });
      return said.join('');
    };
    expect(await run(false)).toMatch(/Room turnover[\s\S]*Suite 1 +A +B +23 min/);
    expect(JSON.parse(await run(true))[1].turnover).toEqual({
      room: 'Suite 1',
      before: 'A',
      after: 'B',
      minutes: 23,
    });
  });
});
