import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../../../src/cli/program.js';
import { drainCase, drainPatient } from '../../../support/drain-life.js';

const folder = mkdtempSync(join(tmpdir(), 'cli-measures-'));
afterAll(() => rmSync(folder, { recursive: true }));
const site = join(folder, 'site.yaml');
writeFileSync(
  site,
  `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
clinical: { radiation: { local: { PCN: { value: 10, source: local policy 2024 } } } }
register: {}
`,
);

async function register(...args: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const flags = ['--data', join(folder, 'data'), '--site', site];
  const code = await run(['register', ...args, ...flags], {
    out: text => void out.push(text),
    err: text => void err.push(text),
    color: false,
  });
  return { code, out: out.join(''), err: err.join('') };
}
const period = ['measures', '--from', '2024-01-01', '--to', '2024-12-31'];

describe('measures', () => {
  // Eight drains of 2024, six of which come out after 10 days, and a case of before.
  beforeAll(async () => {
    const cases = join(folder, 'cases');
    mkdirSync(cases);
    const write = (name: string, text: string) => writeFileSync(join(cases, `${name}.yaml`), text);
    const someone = (text: string, n: number) => text.replaceAll(drainPatient, `PT-70${n}`);
    for (let n = 0; n < 8; n += 1) {
      const placed = drainCase({ id: `A${n}`, date: '2024-05-01', placed: `L${n}` });
      const dosed = placed.replace('radiation: none', `radiation: { kermaAreaProduct: "${8 + n} Gy·cm2" }`);
      const graded = dosed.replace(
        'complications: none',
        'complications: [{ what: Bleeding, grade: { scale: CIRSE 2017, grade: 2 } }]',
      );
      write(`A${n}`, someone(n === 7 ? graded : dosed, n));
      const out = drainCase({ id: `B${n}`, date: '2024-05-11', before: `L${n}` });
      if (n < 6) write(`B${n}`, someone(out, n));
    }
    write('Z', someone(drainCase({ id: 'Z', date: '2023-05-01', placed: 'L9' }), 99));
    const taken = await register('take', cases);
    expect(taken.err).not.toContain('error');
    expect(taken.out).toContain('15 cases taken in');
  });

  it('are printed with denominators, what is missing, and intervals', async () => {
    const { code, out } = await register(...period, '--k', '1');
    const text = out.replaceAll(/\s+/g, ' ');
    expect(code).toBe(0);
    expect(text).toContain('nephrostomy catheter 8 6 2 0 10 (10 to not reached)');
    expect(text).toContain('nephrostomy 8 7 1 0 12.5% (2.2 to 47.1)');
    // 8 to 15 Gy·cm², and the level of 10 under another name of the kind.
    expect(text).toContain(
      'level: 10 above: 5 not above: 3 not recorded: 0 median: 11.5 (8 to 15) share above: 62.5% (30.6 to 86.3)',
    );
    expect(text).toContain('Decision support only');
    expect(text).not.toMatch(/PT-70|Tolmachev|Pekwell/);
  });

  it('do not show what is small, in any form', async () => {
    const { out } = await register(...period, '--json');
    const made = JSON.parse(out) as Record<string, Record<string, unknown>[]>;
    expect(made['dwell']).toEqual([
      {
        name: 'nephrostomy catheter',
        total: 8,
        counts: { removed: null, inside: null, 'not known': null },
      },
    ]);
    expect(made['complications']?.[0]).toMatchObject({ total: 8, counts: { none: null, some: null } });
    expect((await register(...period, '--csv')).out).toContain(
      'dwell,nephrostomy catheter,removed,not shown',
    );
    expect((await register(...period)).out).toMatch(/nephrostomy catheter +8 +– +– +–/);
  });

  it('tell that a period is empty', async () => {
    const { code, out } = await register('measures', '--from', '2022-01-01', '--to', '2022-12-31');
    expect([code, out]).toEqual([0, expect.stringContaining('holds nothing of this period')]);
  });

  it.each([
    [['--from', '2024-12-31', '--to', '2024-01-01'], 'before it begins'],
    [['--from', '2024-01-01', '--to', '2999-01-01'], 'still to come'],
    [['--from', '2024-01-01', '--to', '2024-02-30'], 'no day of the calendar'],
    [['--from', '2024-01-01', '--to', '2024-12-31', '--k', '2'], 'give 3 or more'],
    [['--from', '2024-01-01', '--to', '2024-12-31', '--within', '30,soon'], 'give days such as'],
  ])('refuse %j', async (flags, why) => {
    const { code, err } = await register('measures', ...flags);
    expect([code, err.replaceAll(/\s+/g, ' ')]).toEqual([2, expect.stringContaining(why)]);
  });
});
