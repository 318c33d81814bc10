import {
  chmodSync,
  cpSync,
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
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { examplesFolder } from '../../../support/examples.js';
import { casetally as runIn } from '../../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'intake-'));
const site = join(folder, 'site.yaml');
const place = (name: string) => join(folder, name);

beforeAll(() => {
  cpSync(join(examplesFolder, 'kits'), place('kits'), { recursive: true });
  writeFileSync(
    site,
    'casetallySite: 1\nname: test\nnamespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02\norganization: { name: Test }\ntimeZone: Europe/Lisbon\nintake: { kits: kits }\n',
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const casetally = (...args: readonly string[]) => runIn(args);

describe('casetally new', () => {
  it('writes a record that reads, says what is open, and is for its owner alone', async () => {
    const out = place('new.yaml');
    const { code, err } = await casetally(
      'new',
      '--kit',
      'Nephrostomy',
      '--case',
      'HB-0200',
      '--date',
      '2024-05-02',
      '--out',
      out,
      '--site',
      site,
    );
    expect([code, err]).toEqual([0, expect.stringContaining('written; 20 values, 6 proposals as comments')]);
    expect(statSync(out).mode & 0o777).toBe(0o600);
    const text = readFileSync(out, 'utf8');
    expect(parse(text)).toMatchObject({
      casetally: 1,
      case: { id: 'HB-0200', date: '2024-05-02' },
      devices: { tube: { kind: 'nephrostomy catheter', size: '8 Fr' } },
    });
    for (const open of ['case.status', 'case.kind', 'patient', 'team', 'indication', 'report'])
      expect(text).toContain(`# open: ${open}:`);
    expect(text).toContain('# open: each device from a kit');
    expect(text).toContain('# from the kit Nephrostomy, drugs: { drug: lidocaine,');
  });

  it('gives a record of which check tells what is missing', async () => {
    const { code, out } = await casetally('check', place('new.yaml'), '--site', site, '--json');
    expect(code).toBe(1);
    const { findings } = JSON.parse(out) as { findings: { code: string; path: string; line?: number }[] };
    const missing = findings.filter(f => f.code === 'record.missing').map(f => f.path);
    expect(missing.sort()).toEqual(['case.kind', 'case.status', 'indication', 'patient', 'report', 'team']);
  });

  it('prints where no file is named, and begins with nothing at all', async () => {
    const { code, out } = await casetally('new');
    expect([code, parse(out)]).toEqual([0, { casetally: 1 }]);
    expect((await casetally('check', '/dev/null')).code).toBe(2);
  });

  it('takes a number of a case as text, whatever it looks like', async () => {
    for (const id of ['007', '1.30', 'null', 'a: b', '# x', '{', 'true', '"', 'é']) {
      const { out } = await casetally('new', '--case', id);
      expect((parse(out) as { case: { id: unknown } }).case.id).toBe(id);
    }
  });

  it.each([
    ['a file that is there', ['--out', site]],
    ['no such day', ['--date', '2024-02-30']],
    ['no such kit', ['--kit', 'nothing', '--site', site]],
    ['a kit without a site', ['--kit', 'biopsy']],
    ['a file that is no kit', ['--kit', site]],
    ['a file that is not there', ['--kit', './none.yaml']],
    ['an empty number', ['--case', ' ']],
  ])('%s is a wrong call, and nothing is written', async (_, args) => {
    const before = readdirSync(folder);
    const { code, err } = await casetally('new', ...args);
    expect([code, err]).not.toEqual([2, '']);
    expect(code).toBe(2);
    expect(err).not.toContain('    at ');
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe('casetally add', () => {
  const text = readFileSync(join(examplesFolder, 'liver-biopsy.yaml'), 'utf8');
  it('brings a kit into a record in place, and keeps its rights', async () => {
    const file = place('case.yaml');
    writeFileSync(file, text);
    chmodSync(file, 0o640);
    const { code } = await casetally('add', file, '--kit', 'port', '--site', site);
    const now = readFileSync(file, 'utf8');
    expect([code, statSync(file).mode & 0o777]).toEqual([0, 0o640]);
    expect(now).toContain('  peel: { kind: peel-away sheath');
    const lines = now.split('\n');
    expect(text.split('\n').filter(line => !lines.includes(line))).toEqual([]);
    const check = await casetally('check', file, '--site', site, '--json');
    expect(check.out).toContain('intake.kit-device-open');
    await casetally('add', file, '--kit', 'port', '--site', site);
    expect(readFileSync(file, 'utf8')).toBe(now);
  });

  it('writes through a link to the file that it names, with a mark of the byte order', async () => {
    const [file, link] = [place('real.yaml'), place('link.yaml')];
    writeFileSync(file, `\uFEFF${text}`);
    symlinkSync(file, link);
    await casetally('add', link, '--kit', 'port', '--site', site);
    expect(readFileSync(file, 'utf8').startsWith('\uFEFF')).toBe(true);
    expect(readFileSync(link, 'utf8')).toContain('peel: {');
  });

  it('ends with 1 where something disagrees, and leaves what was typed', async () => {
    const file = place('typed.yaml');
    const typed =
      'casetally: 1\ncase: { id: X, date: 2024-05-02 }\ndevices:\n  coaxial: { kind: coaxial needle, size: 19 G }\n';
    writeFileSync(file, typed);
    const { code, out } = await casetally('add', file, '--kit', 'biopsy', '--site', site, '--json');
    const result = JSON.parse(out) as { findings: { code: string }[]; written: boolean };
    expect([code, result.written]).toEqual([1, true]);
    expect(result.findings.map(f => f.code)).toContain('intake.disagrees');
    expect(readFileSync(file, 'utf8')).toContain('  coaxial: { kind: coaxial needle, size: 19 G }\n');
  });

  it('writes another file where one is named, and leaves the record', async () => {
    const [file, out] = [place('before.yaml'), place('after.yaml')];
    writeFileSync(file, text);
    await casetally('add', file, '--kit', 'port', '--out', out, '--site', site);
    expect([readFileSync(file, 'utf8'), statSync(out).mode & 0o777]).toEqual([text, 0o600]);
  });

  it('reads no more lines than somebody says, and leaves the record', async () => {
    const [file, said] = [place('long.yaml'), place('said.txt')];
    writeFileSync(file, text);
    writeFileSync(said, '10:12 wire in\n'.repeat(80_000));
    const { code, err } = await casetally('add', file, '--lines', said, '--site', site);
    expect([code, readFileSync(file, 'utf8')]).toEqual([2, text]);
    expect(err).toContain('said.txt has 1120000 bytes; up to 1000000 are read.');
  });

  it.each([
    ['no source', ['add', site]],
    ['no record', ['add', site, '--kit', 'port']],
    ['no file', ['add', 'none.yaml', '--kit', 'port']],
    ['a folder', ['add', folder, '--kit', 'port']],
  ])('%s is a wrong call', async (_, args) => {
    const { code, err } = await casetally(...args, '--site', site);
    expect(code).toBe(2);
    expect(err).not.toContain('    at ');
  });
});
