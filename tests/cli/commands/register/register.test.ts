import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type RunningSandbox, startSandbox } from '../../../../src/service/sandbox/server.js';
import { type DrainCase, drainCase, drainPatient } from '../../../support/drain-life.js';
import { casetally as runIn } from '../../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'cli-register-'));
afterAll(() => rmSync(folder, { recursive: true }));
let n = 0;
let data = '';
let cases = '';
beforeEach(() => {
  n += 1;
  data = join(folder, `data-${n}`);
  cases = join(folder, `cases-${n}`);
  mkdirSync(cases);
});

const site = join(folder, 'site.yaml');
const SYSTEM = 'https://ids.tawhai-inlet.example/cases';
writeFileSync(
  site,
  `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "${SYSTEM}" }
references: { patient: include, encounter: include, order: include, practitioner: include }
register: {}
`,
);

const casetally = (...args: string[]) => runIn([...args, '--data', data, '--site', site]);
const register = (...args: string[]) => casetally('register', ...args);
async function json<T>(...args: string[]): Promise<T> {
  const { out } = await register(...args, '--json');
  return JSON.parse(out) as T;
}
function write(...all: DrainCase[]): void {
  for (const one of all) writeFileSync(join(cases, `${one.id}-${one.report ? 2 : 1}.yaml`), drainCase(one));
}
interface Told {
  readonly id: string;
  readonly state: string;
  readonly dwellDays?: number;
}
const all = async () =>
  (await json<{ uses: Told[] }[]>('inside', drainPatient, '--all'))
    .flatMap(({ uses }) => uses)
    .map(({ id, state, dwellDays }) => [id, state, dwellDays]);

const placed = { id: 'A', date: '2024-01-10', placed: 'L1' };
const exchanged = { id: 'B', date: '2024-04-02', before: 'L1', placed: 'L2' };
const removed = { id: 'C', date: '2024-06-30', before: 'L2' };

describe('one drain: placed, exchanged, removed elsewhere', () => {
  it('is one history with its dwell to the day', async () => {
    write(placed, exchanged);
    const taken = await register('take', cases);
    expect([taken.code, taken.err]).toEqual([0, expect.not.stringContaining('error')]);
    const elsewhere = join(folder, 'elsewhere.yaml');
    writeFileSync(elsewhere, drainCase(removed));
    expect((await register('take', elsewhere, '--system', 'https://ids.hilltop.example/cases')).code).toBe(0);
    // 21 + 29 + 31 + 2 days, and 28 + 31 + 30 (calendar of 2024, from memory).
    expect(await all()).toEqual([
      ['A/new', 'removed', 83],
      ['B/new', 'removed', 89],
    ]);
    const history = await register('history', 'https://ids.hilltop.example/cases|C/old');
    expect(history.out.replaceAll('\n', ' ')).toContain('removed 2024-06-30, 89 days inside');
    expect(history.out).toMatch(/identifier and\s+lot/);
  });

  it('has a gap without the case in the middle, which is told and closes nothing', async () => {
    write(placed, removed);
    const taken = await register('take', cases);
    expect(taken.code).toBe(1);
    expect(taken.err).toContain('a case between them is not held');
    expect(await all()).toContainEqual(['A/new', 'inside', undefined]);
    expect((await json<{ gaps: object[] }>('unlinked')).gaps).toHaveLength(1);
    write(exchanged);
    await register('take', cases);
    expect((await json<{ gaps: object[] }>('unlinked')).gaps).toEqual([]);
    expect((await all()).map(([id, state]) => [id, state])).toEqual([
      ['A/new', 'removed'],
      ['B/new', 'removed'],
    ]);
  });

  it('is decided by a person where nothing but kind and place fits, and the decision can be taken back', async () => {
    write(placed, { id: 'C', date: '2024-02-01', before: 'L1', bare: true });
    const taken = await register('take', cases);
    expect(taken.code).toBe(1);
    expect(taken.err).toContain('A/new');
    const said = ['--by', 'Dr Pekwell', '--why', 'The only one there'];
    expect((await register('link', 'C', 'old', 'A/new', ...said)).out).toContain('now removed');
    expect(await all()).toEqual([['A/new', 'removed', 22]]);
    expect((await register('unlink', 'C', 'old', ...said)).code).toBe(0);
    expect(await all()).toContainEqual(['A/new', 'inside', undefined]);
    expect((await register('link', 'C', 'old', 'Z/new', ...said)).code).toBe(2);
    expect((await register('doctor')).code).toBe(0);
  });

  it('comes back when the removal is withdrawn, whatever comes first', async () => {
    const withdrawn = {
      id: 'C',
      date: '2024-02-01',
      before: 'L1',
      report:
        '{ status: withdrawn, author: ir, version: 2, signedAt: "10:00", change: { why: Wrong patient, by: ir, at: "11:00" } }',
    };
    write(withdrawn);
    await register('take', cases);
    write(placed, { id: 'C', date: '2024-02-01', before: 'L1' });
    await register('take', cases);
    expect(await all()).toContainEqual(['A/new', 'inside', undefined]);
  });
});

describe('two of one lot', () => {
  it('left removed: right stays', async () => {
    write({ ...placed, side: 'left' }, { id: 'A2', date: '2024-01-11', placed: 'L1', side: 'right' });
    write({ id: 'C', date: '2024-02-01', before: 'L1', side: 'left' });
    expect((await register('take', cases)).code).toBe(0);
    expect((await all()).map(([id, state]) => [id, state])).toEqual([
      ['A/new', 'removed'],
      ['A2/new', 'inside'],
    ]);
  });
});

describe('lists', () => {
  it('tell what is due, overdue and recalled, and end with 0 when empty', async () => {
    write(placed);
    await register('take', cases);
    // Twelve weeks from 10 January 2024 are 3 April.
    const due = await register('due', '--on', '2024-03-25', '--within', '2w');
    expect([due.code, due.out]).toEqual([0, expect.stringContaining('2024-04-03')]);
    expect((await register('due', '--on', '2024-03-25', '--within', '2w', '--fail-if-any')).code).toBe(1);
    expect((await register('due', '--on', '2024-03-01', '--within', '7d', '--fail-if-any')).code).toBe(0);
    expect(await json<object[]>('overdue', '--on', '2024-04-03')).toEqual([]);
    expect(await json<object[]>('overdue', '--on', '2024-04-04')).toMatchObject([{ use: { id: 'A/new' } }]);
    const ics = await register('due', '--on', '2024-03-25', '--within', '2w', '--ics');
    expect(ics.out).toContain('DTSTART;VALUE=DATE:20240403');
    expect(ics.out).not.toMatch(/Tolmachev|PT-700112/);
    const file = join(folder, 'recall.csv');
    writeFileSync(file, 'di,lot\r\n09506000117843,L1\r\n09506000117843,L9\r\n');
    const recall = await register('recall', file);
    expect(recall.out).toContain('2 lines: 1 carried now, 0 carried in the past, 0 that cannot be excluded.');
    expect(recall.out).not.toContain(drainPatient);
    expect((await register('recall', file, '--contacts')).out).toContain(drainPatient);
  });

  it('write drafts of a recall for those who decide, and nothing over them', async () => {
    write(placed);
    await register('take', cases);
    const file = join(folder, 'recall-drafts.csv');
    writeFileSync(file, 'di,lot\r\n09506000117843,L1\r\n');
    const drafts = join(folder, 'drafts');
    const { code, out } = await register('recall', file, '--drafts', drafts);
    expect([code, out.replaceAll(/\s+/g, ' ')]).toEqual([0, expect.stringContaining('nothing was sent')]);
    expect(out).not.toContain(drainPatient);
    const files = ['contacts.csv', 'Flag.ndjson', 'Communication.ndjson'];
    expect(readdirSync(drafts).sort()).toEqual(files.toSorted());
    for (const name of files) {
      expect(statSync(join(drafts, name)).mode & 0o777).toBe(0o600);
      expect(readFileSync(join(drafts, name), 'utf8')).toContain(drainPatient);
    }
    const before = readFileSync(join(drafts, 'contacts.csv'), 'utf8');
    rmSync(join(drafts, 'Flag.ndjson'));
    const again = await register('recall', file, '--drafts', drafts);
    expect([again.code, again.err]).toEqual([2, expect.stringContaining('not written over')]);
    expect(readFileSync(join(drafts, 'contacts.csv'), 'utf8')).toBe(before);
    expect(existsSync(join(drafts, 'Flag.ndjson'))).toBe(false);
  });

  it('refuse days and ages that are none, before anything is opened', async () => {
    expect((await register('due', '--on', '2024-02-30')).code).toBe(2);
    expect((await register('due', '--within', 'soon')).code).toBe(2);
    expect(existsSync(data)).toBe(false);
  });
});

describe('what is held back', () => {
  it('a record with an error, while the rest is taken in', async () => {
    write(placed);
    writeFileSync(
      join(cases, 'Q.yaml'),
      drainCase({ ...placed, id: 'Q' }).replace(/left:\n.*\n/, 'left: none\n'),
    );
    const taken = await register('take', cases);
    expect([taken.code, taken.out]).toEqual([1, expect.stringContaining('1 case taken in; 1 held back')]);
    expect((await all()).map(([id]) => id)).toEqual(['A/new']);
  });

  it('two texts of one version are told', async () => {
    write(placed);
    await register('take', cases);
    writeFileSync(join(cases, 'A-1.yaml'), drainCase({ ...placed, placed: 'L8' }));
    const taken = await register('take', cases);
    expect([taken.code, taken.err]).toEqual([1, expect.stringContaining('version 1')]);
  });
});

describe('what a destination accepted', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());

  it('is in the register, by way of the outbox and directly, once', async () => {
    write(placed, { ...exchanged, id: 'B' });
    const include = ['--to', server.baseUrl];
    expect((await casetally('send', join(cases, 'A-1.yaml'), ...include)).code).toBe(0);
    expect(await all()).toEqual([['A/new', 'inside', undefined]]);
    expect((await casetally('send', join(cases, 'B-1.yaml'), ...include, '--direct')).code).toBe(0);
    expect(await all()).toEqual([
      ['A/new', 'removed', 83],
      ['B/new', 'inside', undefined],
    ]);
    expect(await json<{ cases: number }>('doctor')).toMatchObject({ cases: 2, sound: true });
  });

  it('is taken in from the outbox when the register was away, or lost', async () => {
    write(placed);
    expect((await casetally('send', join(cases, 'A-1.yaml'), '--to', server.baseUrl)).code).toBe(0);
    for (const file of ['register.db', 'register.db-wal', 'register.db-shm'])
      rmSync(join(data, file), { force: true });
    expect(await all()).toEqual([['A/new', 'inside', undefined]]);
  });
});
