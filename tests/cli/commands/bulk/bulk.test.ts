import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { CodeRow } from '../../../../src/pipeline/bulk/tally.js';
import { firstText, secondText } from '../../../support/corrected.js';
import { casetally, flat } from '../../../support/run.js';
import { madeCase, outboxCases, outboxRecords, siteText } from './made.js';

const root = mkdtempSync(join(tmpdir(), 'casetally-bulk-'));
afterAll(() => rmSync(root, { recursive: true }));
const site = join(root, 'site.yaml');
writeFileSync(site, siteText);
const routed = join(root, 'routed.yaml');
writeFileSync(routed, `${siteText}routes: [{ to: records, kinds: [biopsy] }]\n`);

let [n, data, cases, out] = [0, '', '', ''];
beforeEach(() => {
  n += 1;
  data = join(root, `data-${n}`);
  cases = join(root, `cases-${n}`);
  out = join(root, `out-${n}`);
  mkdirSync(cases);
});

const put = (name: string, content: string | Uint8Array, folder = cases) => {
  mkdirSync(join(folder, name, '..'), { recursive: true });
  writeFileSync(join(folder, name), content);
  return join(folder, name);
};
const plain = async (...args: string[]) => flat(await casetally(['bulk', ...args], 80));
const store = (place: string, ...args: string[]) =>
  plain(place, '--to', 'records', '--site', site, '--data', data, ...args);

interface Told {
  readonly done: number;
  readonly before: number;
  readonly repeated: number;
  readonly setAside: number;
  readonly unreadable: number;
  readonly passedOver: number;
  readonly codes: readonly CodeRow[];
  readonly setAsideFile?: string;
  readonly journal: string;
}
async function told(...args: string[]): Promise<Told & { code: number }> {
  const { code, out: text, err } = await casetally(['bulk', ...args, '--json']);
  if (text === '') throw new Error(err);
  return { ...(JSON.parse(text) as Told), code };
}
const stored = (place: string, ...args: string[]) =>
  told(place, '--to', 'records', '--site', site, '--data', data, ...args);

interface AsideRow {
  readonly record: string;
  readonly findings: readonly { code: string; message: string; remedy: string }[];
}
const setAside = ({ setAsideFile = '' }: Told): Record<string, string> =>
  Object.fromEntries(
    readFileSync(setAsideFile, 'utf8')
      .trim()
      .split('\n')
      .map(line => JSON.parse(line) as AsideRow)
      .map(({ record, findings }) => [record, findings.map(({ code }) => code).join(' ')]),
  );
const asJson = (text: string) => JSON.stringify(parse(text));

describe('casetally bulk of a folder', () => {
  it('stores what is sound once, sets aside what is not, and passes over what is no case', async () => {
    put('a.yaml', madeCase('A-1'));
    put('deep/er/b.json', asJson(madeCase('B-1')));
    put('deep/c.YML', madeCase('C-1'));
    put('notes.txt', 'Somebody wrote this.');
    // A search that looks back for each line would take an hour.
    put('lines.yaml', '\n'.repeat(1_000_000));
    put('settings.yaml', siteText);
    put('.hidden.yaml', madeCase('H-1'));
    put('.kept/x.yaml', madeCase('H-2'));
    put('empty.yaml', '');
    put('zeros.yaml', new Uint8Array(512));
    put('latin.yaml', Buffer.from(madeCase('L-1').replace('Orla', 'Bj\u00f6rk'), 'latin1'));
    put('large.yaml', `${madeCase('G-1')}# ${'x'.repeat(1_100_000)}\n`);
    put('wrong.yaml', madeCase('W-1').replace('10 Fr x 25 cm', 'ten'));
    put('torn.json', asJson(madeCase('T-1')).slice(0, -200));
    put('elsewhere/away.yaml', madeCase('S-1'), root);
    symlinkSync(join(root, 'elsewhere', 'away.yaml'), join(cases, 'link.yaml'));
    symlinkSync(join(root, 'elsewhere'), join(cases, 'linked'));
    symlinkSync('.', join(cases, 'round'));
    symlinkSync('nowhere', join(cases, 'dead.yaml'));

    const first = await stored(cases);
    expect(first).toMatchObject({ done: 3, before: 0, repeated: 0, setAside: 10, passedOver: 4, code: 2 });
    expect(setAside(first)).toEqual({
      'empty.yaml': expect.stringMatching(/^record\./),
      'zeros.yaml': expect.stringMatching(/^record\./),
      'latin.yaml': 'record.not-text',
      'large.yaml': 'record.too-big',
      'torn.json': expect.stringMatching(/^record\./),
      'wrong.yaml': expect.stringMatching(/^record\./),
      ...Object.fromEntries(['link.yaml', 'linked', 'round', 'dead.yaml'].map(name => [name, 'bulk.link'])),
    });
    expect(first.codes.find(({ code }) => code === 'bulk.link')).toMatchObject({ cases: 4, setAside: 4 });
    expect(statSync(first.setAsideFile ?? '').mode & 0o777).toBe(0o600);
    expect(statSync(first.journal).mode & 0o777).toBe(0o600);
    expect(readFileSync(first.journal, 'utf8')).toMatch(/^(?:\+?[0-9a-f]{64}\n)+$/);
    expect((await outboxCases(data)).sort()).toEqual(['A-1', 'B-1', 'C-1']);

    // Mended, and one added: those alone are done.
    for (const name of ['empty.yaml', 'zeros.yaml', 'latin.yaml', 'large.yaml', 'torn.json'])
      rmSync(join(cases, name));
    for (const name of ['link.yaml', 'linked', 'round', 'dead.yaml']) rmSync(join(cases, name));
    put('wrong.yaml', madeCase('W-1'));
    const second = await stored(cases);
    expect(second).toMatchObject({ done: 1, before: 3, setAside: 0, code: 0 });
    expect(existsSync(first.setAsideFile ?? '')).toBe(false);
    expect((await outboxCases(data)).sort()).toEqual(['A-1', 'B-1', 'C-1', 'W-1']);
  });

  it('stores a case once that lies there twice, and a record again that was changed', async () => {
    put('a.yaml', madeCase('A-1'));
    put('copy.yaml', madeCase('A-1'));
    expect(await stored(cases)).toMatchObject({ done: 1, repeated: 1, code: 0 });
    for (const name of ['a.yaml', 'copy.yaml'])
      put(name, madeCase('A-1').replace('Pelvic collection', 'Large pelvic collection'));
    expect(await stored(cases)).toMatchObject({ done: 1, repeated: 1, before: 0 });
    expect(await outboxCases(data)).toEqual(['A-1', 'A-1']);
  });

  it('stores a correction after what it corrects, however they are named', async () => {
    put('1.yaml', secondText);
    const alone = await stored(cases);
    expect(alone).toMatchObject({ done: 0, setAside: 1, code: 1 });
    expect(setAside(alone)['1.yaml']).toContain('correction.earlier-not-given');
    put('2.yaml', firstText);
    expect(await stored(cases)).toMatchObject({ done: 2, setAside: 0, code: 0 });
    expect(await outboxRecords(data)).toEqual([firstText, secondText]);
  });

  it('stores the very item that send stores', async () => {
    const file = put('a.yaml', madeCase('A-1'));
    const { code } = await casetally(['send', file, '--to', 'records', '--site', site, '--data', data]);
    expect(code).toBe(4);
    expect(await stored(cases)).toMatchObject({ done: 1, code: 0 });
    // The outbox takes nothing twice that is the same byte for byte.
    expect(await outboxCases(data)).toEqual(['A-1']);
  });

  it('says what is wrong with the call before anything is begun', async () => {
    const empty = await store(cases);
    expect([empty.code, empty.err]).toEqual([2, expect.stringContaining('holds no case record.')]);
    put('notes.txt', 'no case');
    expect((await store(cases)).err).toContain(
      'holds no case record (1 file of other kinds). Records are files .yaml',
    );
    const one = put('a.yaml', madeCase('A-1'));
    expect((await store(one)).err).toContain(
      'is neither a folder nor a file of lines (.ndjson, .jsonl). For one case:',
    );
    expect((await store(join(root, 'none'))).err).toContain(
      'cannot be read: there is no such file or folder.',
    );
    const both = await store(cases, '--out', out);
    expect([both.code, both.err]).toEqual([2, expect.stringContaining('--to and --out do not go together')]);
    expect((await plain(cases)).err).toContain('no destination: give --to');
    expect((await plain(cases, '--to', 'elsewhere', '--site', site)).err).toContain(
      "'elsewhere' is neither a destination",
    );
    expect((await plain(cases, '--out', join(cases, 'out'))).err).toContain(
      'lies in the folder that is read',
    );
    expect((await plain(cases, '--out', join(site, 'out'))).err).toContain(
      'cannot be written: a part of the path is not a folder',
    );
    expect((await store(cases, '--sign', 'key')).err).toContain('--sign names no key');
    expect((await store(cases, '--threads', '0')).err).toContain('a whole number from 1 to 64');
    expect(existsSync(out)).toBe(false);
  });

  it('goes by the routes of the site, and sets aside what none of them takes', async () => {
    put('a.yaml', madeCase('A-1'));
    const made = await told(cases, '--site', routed, '--data', data);
    expect(made).toMatchObject({ done: 0, setAside: 1, unreadable: 0, code: 1 });
    expect(setAside(made)).toEqual({ 'a.yaml': 'bulk.no-route' });
  });

  it('says for people what came of it, with codes and without names', async () => {
    put('orla-finnwick.yaml', madeCase('A-1'));
    put('wrong-finnwick.yaml', madeCase('W-1').replace('10 Fr x 25 cm', 'ten'));
    const { code, out: text, err } = await store(cases, '--language', 'de');
    expect(code).toBe(1);
    expect(text).toContain(
      '1 case stored in the outbox, for a worker to send; 1 set aside. finding severity',
    );
    expect(text).toContain('what is done is not done twice.');
    expect(text + err).not.toMatch(/finnwick/i);
    const file = /(\S+set-aside\.ndjson)/.exec(text)?.[1] ?? '';
    expect(readFileSync(file, 'utf8')).toMatch(/"remedy":"[^"]*(?:Geben|Schreiben|Sie) /);
  });
});

describe('casetally bulk of a file of lines', () => {
  const lines = (name: string, content: string) => put(name, content);

  it('takes marks, CRLF, blank lines and the same case twice, and a last line that is whole', async () => {
    const [a, b, c] = ['A-1', 'B-1', 'C-1'].map(id => asJson(madeCase(id)));
    const file = lines('may.ndjson', `\ufeff${a}\r\n\r\n${b}\r\n   \n${a}\n${c}`);
    expect(await stored(file)).toMatchObject({ done: 3, repeated: 1, setAside: 0, code: 0 });
    expect((await outboxCases(data)).sort()).toEqual(['A-1', 'B-1', 'C-1']);
    // Other lines before them: what is done is known by its bytes.
    writeFileSync(file, `${asJson(madeCase('D-1'))}\n${c}\n${b}\n`);
    expect(await stored(file)).toMatchObject({ done: 1, before: 2 });
  });

  it('sets aside a line of 100 MB, one that is no case and a half last one, by their numbers', async () => {
    const whole = asJson(madeCase('A-1'));
    const file = lines('may.ndjson', `${whole}\n`);
    const more = (text: string) => writeFileSync(file, text, { flag: 'a' });
    const before = process.memoryUsage().arrayBuffers;
    for (let mb = 0; mb < 100; mb += 1) more('x'.repeat(1_000_000));
    more(`\n"no case"\n${whole.slice(0, 300)}`);
    const made = await stored(file);
    expect(made).toMatchObject({ done: 1, setAside: 3, unreadable: 3, code: 2 });
    expect(setAside(made)).toEqual({
      'may.ndjson:2': 'record.too-big',
      'may.ndjson:3': expect.stringMatching(/^record\./),
      'may.ndjson:4': expect.stringMatching(/^record\..* bulk\.cut-off$/),
    });
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(50_000_000);
    rmSync(file);
  });

  it('that is empty holds no case', async () => {
    const { code, err } = await store(lines('none.ndjson', '\ufeff\r\n\n'));
    expect([code, err]).toEqual([2, expect.stringContaining('holds no case record.')]);
  });
});

describe('casetally bulk --out', () => {
  it('writes what prepare writes, a folder a case', async () => {
    const file = put('a.yaml', madeCase('A-1'));
    put('sub/a.yaml', madeCase('A-2'));
    put('../a.yaml', madeCase('A-3'), join(cases, 'sub'));
    expect(await told(cases, '--out', out, '--site', site)).toMatchObject({ done: 2, code: 0 });
    const folders = readdirSync(out).sort();
    expect(folders).toEqual(['a', 'bulk-journal.txt', expect.stringMatching(/^sub-a\.[0-9a-f]{16}$/)]);
    const one = join(root, `one-${n}`);
    await casetally(['prepare', readFileSync(file, 'utf8') === '' ? '' : file, '--out', one, '--site', site]);
    const names = readdirSync(one).sort();
    expect(readdirSync(join(out, 'a')).sort()).toEqual(names);
    for (const name of names)
      expect(readFileSync(join(out, 'a', name)), name).toEqual(readFileSync(join(one, name)));
    // A folder that was taken away is made again, nothing else.
    rmSync(join(out, 'a'), { recursive: true });
    expect(await told(cases, '--out', out, '--site', site)).toMatchObject({ done: 1, before: 1 });
    expect(readdirSync(out).sort()).toEqual(folders);
  });

  it('keeps the same record under two names, and lines, apart', async () => {
    const record = madeCase('A-1');
    put('a.yaml', record);
    put('b.yaml', record);
    expect(await told(cases, '--out', out)).toMatchObject({ done: 2, repeated: 0 });
    const file = put('may.ndjson', [`A-1`, `A-2`].map(id => `${asJson(madeCase(id))}\n`).join(''), root);
    expect(await told(file, '--out', join(out, 'lines'))).toMatchObject({ done: 2 });
    expect(readdirSync(join(out, 'lines')).filter(name => /^may\.[0-9a-f]{16}$/.test(name)).length).toBe(2);
  });

  it('waits for no other run with the same outputs', async () => {
    put('a.yaml', madeCase('A-1'));
    put('bulk-journal.txt.lock', `${process.ppid}\n`, out);
    const { code, err } = await plain(cases, '--out', out);
    expect([code, err]).toEqual([
      2,
      expect.stringContaining(`another run (process ${process.ppid}) is at work`),
    ]);
    // Left by one that is no more.
    put('bulk-journal.txt.lock', '999999999\n', out);
    expect((await plain(cases, '--out', out)).code).toBe(0);
    expect(existsSync(join(out, 'bulk-journal.txt.lock'))).toBe(false);
  });
});

describe('casetally bulk --register', () => {
  it('takes cases into the register, once', async () => {
    put('a.yaml', madeCase('A-1'));
    put('b.yaml', madeCase('B-1'));
    put('wrong.yaml', madeCase('W-1').replace('10 Fr x 25 cm', 'ten'));
    const args = [cases, '--register', '--site', site, '--data', data];
    expect(await told(...args)).toMatchObject({ done: 2, setAside: 1 });
    expect(await told(...args)).toMatchObject({ done: 0, before: 2, setAside: 1 });
    const { out: text } = await casetally([
      'register',
      'inside',
      'P-20931',
      '--site',
      site,
      '--data',
      data,
      '--json',
    ]);
    expect(
      [...text.matchAll(/"case": "([AB]-1)"/g)].length + [...text.matchAll(/[AB]-1/g)].length,
    ).toBeGreaterThan(0);
  });
});
