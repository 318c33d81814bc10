import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { type DrainCase, drainCase, drainPatient } from '../../../support/drain-life.js';
import { examplePath } from '../../../support/examples.js';
import { flat, casetally as runIn } from '../../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'cli-registry-'));
afterAll(() => rmSync(folder, { recursive: true }));
let n = 0;
let at = '';
const place = (...names: string[]) => join(at, ...names);
beforeEach(() => {
  n += 1;
  at = join(folder, `${n}`);
  for (const name of ['cases', 'answers']) mkdirSync(place(name), { recursive: true });
  secret('the first invented secret of the test');
  settings();
});

const secret = (text: string) => writeFileSync(place('key'), text);
function settings(more = ''): void {
  const definition = examplePath('registries/implant-returns.yaml');
  writeFileSync(
    place('site.yaml'),
    `casetallySite: 1
name: Tawhai Inlet
namespace: 6f1d3c1e-5a55-4a0e-9d0a-2f0f4c1b7a11
organization: { name: Tawhai Inlet Hospital }
identifiers: { case: "https://ids.tawhai-inlet.example/cases" }
register: {}
registries:
  returns: { name: Returns, key: "file:key", definition: "${definition}", folder: out, answers: answers, dates: day${more} }
`,
  );
}

const casetally = async (...args: string[]) => flat(await runIn(args));
const registry = (command: string, ...args: string[]) =>
  casetally(
    'registry',
    command,
    ...args,
    '--data',
    place('data'),
    ...(command === 'resolve' ? [] : ['--site', place('site.yaml')]),
  );
const send = (...args: string[]) => registry('send', place('cases'), ...args);
const take = () =>
  casetally('register', 'take', place('cases'), '--data', place('data'), '--site', place('site.yaml'));
const write = (...all: DrainCase[]) => {
  for (const one of all) writeFileSync(place('cases', `${one.id}.yaml`), drainCase(one));
};

type Row = Record<string, string>;
const sent = (): { id: string; rows: Row[] }[] =>
  (existsSync(place('out')) ? readdirSync(place('out')) : [])
    .filter(name => name.endsWith('.csv'))
    .map(name => ({
      id: name.slice('returns-'.length, -'.csv'.length),
      rows: parse(readFileSync(place('out', name)), { columns: true, delimiter: ';' }) as Row[],
    }));
/** Answers every batch that has no answer yet, a line for each of its entries. */
function answer(say: (row: Row) => string | undefined = () => 'TAKEN;;'): void {
  for (const { id, rows } of sent()) {
    const file = place('answers', `${id}.csv`);
    if (existsSync(file)) continue;
    const lines = rows.flatMap(row => {
      const said = say(row);
      return said === undefined ? [] : [`${row['entry']};${row['version']};${said}`];
    });
    writeFileSync(file, ['ENTRY;VERSION;RESULT;CODE;TEXT', ...lines, 'END;;;;', ''].join('\r\n'));
  }
}

const placed = { id: 'A', date: '2024-01-10', placed: 'L1' };
const exchanged = { id: 'B', date: '2024-04-02', before: 'L1', placed: 'L2', carried: 'date: 2024-01-10' };

describe('a registry that takes files in a folder', () => {
  it('is sent each entry once, and nothing a second time', async () => {
    write(placed, exchanged);
    const first = await send();
    expect([first.code, first.out]).toEqual([0, expect.stringContaining('3 entries for returns in 1 batch')]);
    expect(sent().map(({ rows }) => rows.map(row => row['EVENT']).sort())).toEqual([['IN', 'IN', 'OUT']]);
    const manifest: unknown = JSON.parse(
      readFileSync(place('out', `${sent()[0]?.id}.manifest.json`), 'utf8'),
    );
    expect(manifest).toMatchObject({ entries: 3, cases: 2, keyId: 'k1', withheld: [], format: 'text/csv' });
    for (const state of ['open', 'answered']) {
      const again = await send();
      expect([state, again.code, again.out]).toEqual([state, 0, expect.stringContaining('Nothing new')]);
      answer();
      await registry('reconcile');
    }
    expect(sent()).toHaveLength(1);
  });

  it('answers line by line: refused ones are named at their line of the record, mended and sent as the next version', async () => {
    write(placed, exchanged);
    await take();
    await send();
    answer(row => (row['EVENT'] === 'OUT' ? 'NOT TAKEN;R03;' : row['LOT'] === 'L2' ? undefined : 'KNOWN;;'));
    const read = await registry('reconcile');
    expect(read.code).toBe(3);
    expect(read.out).toContain('0 accepted, 1 held already, 1 refused, 1 left out');
    expect(read.err).toContain('The day of removal is before that of placing');
    expect(read.err).toMatch(/error 9:\d+ Case B/);
    // The same answer once more says nothing new.
    expect((await registry('reconcile')).out).toContain('0 answers read');
    const waiting = await send();
    expect([waiting.code, waiting.out]).toEqual([1, expect.stringContaining('Nothing new')]);
    expect(waiting.err).toContain('registry.not-mended');
    expect(waiting.err).toContain('registry.not-answered');
    write({ ...exchanged, before: 'L3' });
    const mended = await registry('resend', place('cases'));
    expect([mended.code, mended.out]).toEqual([0, expect.stringContaining('2 entries for returns')]);
    expect(
      sent()
        .flatMap(({ rows }) => rows.map(row => [row['EVENT'], row['version']]))
        .sort(),
    ).toEqual([
      ['IN', '1'],
      ['IN', '1'],
      ['IN', '1'],
      ['OUT', '1'],
      ['OUT', '2'],
    ]);
    answer();
    expect((await registry('reconcile')).code).toBe(0);
    expect((await send()).out).toContain(
      '3 entries accepted, 0 refused, 0 left out of an answer, 0 not answered',
    );
  });

  it('takes what was refused unchanged once it is told to', async () => {
    write(placed);
    await send();
    answer(() => 'NOT TAKEN;R01;');
    await registry('reconcile');
    expect((await registry('resend', place('cases'))).code).toBe(1);
    const forced = await registry('resend', place('cases'), '--refused');
    expect([forced.code, sent().length]).toEqual([0, 2]);
    expect(sent().flatMap(({ rows }) => rows.map(row => row['version']))).toEqual(['1', '1']);
  });

  it('hears that a case was withdrawn, and that a device was none', async () => {
    write(placed, exchanged);
    await send();
    answer();
    await registry('reconcile');
    const withdrawn =
      '{ status: withdrawn, author: ir, signedAt: "11:00", version: 2, change: { why: Other patient } }';
    write({ ...placed, report: withdrawn });
    const corrected =
      '{ status: amended, author: ir, signedAt: "11:00", version: 2, change: { why: Nothing was placed } }';
    write({ id: 'B', date: '2024-04-02', before: 'L1', carried: 'date: 2024-01-10', report: corrected });
    expect((await send()).code).toBe(0);
    const second = sent().flatMap(({ rows }) => rows.filter(row => row['version'] === '2'));
    // The removal now belongs to a case of another kind, and is told anew with it.
    expect(second.map(row => [row['EVENT'], row['status'], row['version']]).sort()).toEqual([
      ['IN', 'entered-in-error', '2'],
      ['IN', 'entered-in-error', '2'],
      ['OUT', 'completed', '2'],
    ]);
  });

  it('does not hear of what an error holds back, and does not take it back either', async () => {
    write(placed);
    await send();
    answer();
    await registry('reconcile');
    writeFileSync(place('cases', 'A.yaml'), drainCase(placed).replace('left:\n', 'was_left:\n'));
    const held = await send();
    expect([held.code, held.out]).toEqual([1, expect.stringContaining('Nothing new')]);
    expect(sent()).toHaveLength(1);
  });

  it('finds a batch that was written when the sending was cut off, and writes one that was not', async () => {
    write(placed);
    // A file stands where the folder would: nothing can be written.
    writeFileSync(place('out'), '');
    const stopped = await send();
    expect([stopped.code, stopped.out]).toEqual([4, expect.stringContaining('not sent')]);
    rmSync(place('out'));
    const later = await send();
    expect([later.code, later.out]).toEqual([0, expect.stringContaining('sent, and not answered yet')]);
    expect(sent()).toHaveLength(1);
    expect((await send()).out).toContain('Nothing new');
  });

  it('is not given anything twice after a backup came back', async () => {
    write(placed);
    await send();
    const copy = place('copy.db');
    const keep = (...args: string[]) => casetally('registry', ...args, '--data', place('data'));
    expect((await keep('backup', '--to', copy)).out).toContain('1 version of an entry');
    expect((await keep('backup', '--to', copy)).code).toBe(2);
    expect((await keep('restore', copy)).code).toBe(2);
    rmSync(place('data'), { recursive: true });
    expect((await keep('restore', copy)).code).toBe(0);
    expect((await send()).out).toContain('Nothing new');
    expect(sent()).toHaveLength(1);
  });

  it('is not answered by a file of another batch; one that is named by hand is read', async () => {
    write(placed);
    await send();
    writeFileSync(place('answers', 'monday.csv'), 'ENTRY;VERSION;RESULT;CODE;TEXT\r\nEND;;;;\r\n');
    const told = await registry('reconcile');
    expect([told.code, told.err]).toEqual([1, expect.stringContaining('holds the number of no batch')]);
    const row = sent()[0]?.rows[0];
    writeFileSync(
      place('by-hand.csv'),
      `ENTRY;VERSION;RESULT;CODE;TEXT\r\n${row?.['entry']};1;TAKEN;;\r\nEND;;;;\r\n`,
    );
    expect((await registry('reconcile', place('by-hand.csv'))).code).toBe(0);
    expect((await registry('reconcile', place('by-hand.csv'), '--batch', 'b-9')).code).toBe(2);
    expect((await registry('list')).out).toContain('1 entry accepted');
  });

  it('takes the days of the register, with what it knows of devices from before', async () => {
    write(placed, { ...exchanged, carried: '', before: 'L1' });
    await take();
    const days = await registry('send', '--from', '2024-04-01', '--to', '2024-04');
    expect(days.code).toBe(0);
    const rows = sent().flatMap(one => one.rows);
    // When it was placed stands in the case that placed it: 21 + 29 + 31 + 2 days inside.
    expect(rows.find(row => row['EVENT'] === 'OUT')).toMatchObject({ LOT: 'L1', PLACED: '2024', DAYS: '' });
    expect(rows).toHaveLength(2);
    expect((await registry('check', '--from', '2024')).out).toContain('1 new entry');
    expect((await registry('check', '--from', 'May')).code).toBe(2);
    expect((await registry('check', place('cases'), '--from', '2024')).code).toBe(2);
  });

  it('gets a removal without an identifier where the register knows which device it was', async () => {
    write(placed, { id: 'C', date: '2024-02-01', before: 'L1', bare: true, carried: 'use: A/new' });
    expect((await send()).err).toContain('lacks a device identifier');
    await take();
    const known = await send();
    expect(known.err).not.toContain('lacks a device identifier');
    const out = sent()
      .flatMap(one => one.rows)
      .find(row => row['EVENT'] === 'OUT');
    expect(out).toMatchObject({ DEVICE_ID: '09506000117843', LOT: 'L1' });
  });

  it('names nobody: neither in the file nor in its manifest', async () => {
    write(placed, exchanged);
    await send();
    const bytes = readdirSync(place('out')).map(name => readFileSync(place('out', name), 'utf8'));
    expect(bytes.join('')).not.toMatch(/Tolmachev|Pekwell|Tawhai|700112|1961/i);
  });
});

describe('people who are few', () => {
  it('go out with their dates to the day once enough of them are alike', async () => {
    const many = Array.from({ length: 5 }, (_, k) => ({ ...placed, id: `A${k}`, patient: `PT-${k}` }));
    write(...many.slice(0, 4));
    await send();
    expect(sent().flatMap(({ rows }) => rows.map(row => row['PLACED']))).toEqual(Array(4).fill('2024'));
    write(...many);
    await send();
    const dates = sent().flatMap(({ rows }) => rows.map(row => row['PLACED']));
    // What went out stays as it went out.
    expect(dates.sort()).toEqual(['2024', '2024', '2024', '2024', '2024-01-10']);
  });
});

describe('the secret of a registry', () => {
  it('is refused when it is another under the same name, whatever command comes', async () => {
    write(placed);
    await send();
    secret('another invented secret of the test');
    for (const command of ['send', 'check', 'build', 'resend']) {
      const refused = await registry(command, place('cases'));
      expect([command, refused.code, refused.err]).toEqual([
        command,
        2,
        expect.stringContaining("is another than the one that was used as 'k1'"),
      ]);
    }
  });

  it('does not end in a line break when it is new, unless the settings say that it does', async () => {
    write(placed);
    secret('the first invented secret of the test\n');
    expect((await send()).code).toBe(2);
    settings(', keyEndsInNewline: true');
    expect((await send()).code).toBe(0);
  });

  it('can change: what was sent is not sent again, old pseudonyms still lead back, and a sealed table joins them', async () => {
    write(placed);
    await send();
    answer();
    await registry('reconcile');
    const [old] = sent().flatMap(({ rows }) => rows);
    writeFileSync(place('key2'), 'the second invented secret of the test');
    settings(', keyId: k2, formerKeys: [{ keyId: k1, key: "file:key" }]');
    const text = readFileSync(place('site.yaml'), 'utf8').replace(
      'key: "file:key", d',
      'key: "file:key2", d',
    );
    writeFileSync(place('site.yaml'), text);
    expect((await send()).out).toContain('Nothing new');
    write(placed, exchanged);
    await send();
    const fresh = sent()
      .flatMap(({ rows }) => rows)
      .filter(row => row['entry']?.startsWith('k2.'));
    expect(fresh).toHaveLength(2);
    const why = ['--by', 'Dr Pekwell', '--why', 'A recall'];
    for (const pseudonym of [old?.['patient'], old?.['entry'], fresh[0]?.['patient']]) {
      const found = await registry('resolve', pseudonym ?? '', ...why);
      expect([found.code, found.out]).toEqual([0, expect.stringContaining(drainPatient)]);
    }
    expect((await registry('resolve', 'k1.00000000000000000000000000000000', ...why)).code).toBe(1);
    expect((await registry('resolve', old?.['patient'] ?? '')).code).toBe(2);
    expect((await registry('resolve', '--log')).out.match(/Dr Pekwell/g)).toHaveLength(4);
    writeFileSync(place('seal'), Buffer.alloc(32, 3).toString('base64'));
    const seal = ['--seal', `file:${place('seal')}`];
    expect((await registry('rekey', ...seal, '--out', place('table'))).out).toContain('3 pseudonyms');
    expect(readFileSync(place('table'), 'utf8')).not.toContain('k1.');
    const table = await registry('rekey', ...seal, '--read', place('table'));
    const { pseudonyms } = JSON.parse(table.out) as { pseudonyms: { old: string; new: string }[] };
    expect(pseudonyms.find(one => one.old === old?.['patient'])?.new).toBe(fresh[0]?.['patient']);
    expect((await registry('rekey', ...seal)).code).toBe(2);
    // A former secret that is another one would pair people wrongly.
    secret('some other invented secret of the test');
    expect((await registry('rekey', ...seal, '--out', place('table'))).code).toBe(2);
  });

  it('is needed to send at all', async () => {
    write(placed);
    writeFileSync(
      place('site.yaml'),
      readFileSync(place('site.yaml'), 'utf8').replace('key: "file:key", ', ''),
    );
    const refused = await send();
    expect([refused.code, refused.err]).toEqual([2, expect.stringContaining('no secret for pseudonyms')]);
  });
});
