import { execFile } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../src/cli/program.js';
import { type RunningSandbox, startSandbox } from '../../src/service/sandbox/server.js';
import { program } from '../support/built.js';
import { examplesFolder } from '../support/examples.js';

/* The command line as scripts use it: exit codes and output; the built program in its own process where that is asked. */

const root = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'casetally-'));
const example = (name: string) => join(examplesFolder, name);

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** A process of its own: what is asked of the program as a whole. */
function casetally(args: readonly string[], input = ''): Promise<Ran> {
  return new Promise(resolve => {
    const child = execFile(
      process.execPath,
      [program, ...args],
      {
        cwd: folder,
        maxBuffer: 64 * 1024 * 1024,
        env: { ...process.env, CASETALLY_DATA: join(folder, 'data') },
      },
      (error, out, err) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : error ? -1 : 0, out, err });
      },
    );
    child.stdin?.end(input);
  });
}

/** The same command in this process, which has read fonts and definitions: what is asked of a command. */
async function command(...args: readonly string[]): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(args, {
    out: text => void out.push(text),
    err: text => void err.push(text),
    color: false,
  });
  return { code, out: out.join(''), err: err.join('') };
}

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('check', () => {
  it('gives 0 and a tally for a sound case', async () => {
    const { code, out } = await casetally(['check', example('abscess-drain.yaml'), '--json']);
    const result = JSON.parse(out) as { findings: object[]; tally: { device: string; state: string }[] };
    expect(code).toBe(0);
    expect(result.tally.length).toBeGreaterThan(3);
    for (const row of result.tally)
      expect(row).toMatchObject({ device: expect.any(String), state: expect.any(String) });
  });

  it('gives 1 for the planted mistakes, each with line and remedy', async () => {
    const { code, out } = await command('check', example('mistaken.yaml'), '--json');
    const { findings } = JSON.parse(out) as { findings: Record<string, unknown>[] };
    expect(code).toBe(1);
    for (const f of findings)
      expect(f).toMatchObject({
        severity: expect.any(String),
        code: expect.any(String),
        path: expect.any(String),
        message: expect.any(String),
        remedy: expect.any(String),
        basis: expect.any(String),
      });
    expect(findings.filter(f => f['severity'] === 'error').every(f => typeof f['line'] === 'number')).toBe(
      true,
    );
  });

  it('gives 2 with line and column for a truncated file', async () => {
    const text = readFileSync(example('abscess-drain.yaml'), 'utf8');
    const cut = text.slice(0, text.indexOf('{', text.length / 2) + 8);
    writeFileSync(join(folder, 'cut.yaml'), cut);
    const { code, out } = await casetally(['check', 'cut.yaml']);
    expect(code).toBe(2);
    expect(out).toMatch(/^cut\.yaml: 1 error; cannot be read\nerror {2}[\s\S]*?\n {2}\d+ \| .*\n +\| +\^/);
  });

  it('gives an array with file names for several cases', async () => {
    const { code, out } = await command(
      'check',
      example('abscess-drain.yaml'),
      example('mistaken.yaml'),
      '--json',
    );
    expect(code).toBe(1);
    expect((JSON.parse(out) as { file: string }[]).map(r => r.file)).toEqual([
      example('abscess-drain.yaml'),
      example('mistaken.yaml'),
    ]);
  });

  it.each([
    [['check'], 'missing required argument'],
    [['check', 'no-such-file.yaml'], 'no such file'],
    [['nonsense'], 'unknown command'],
    [['report', example('abscess-drain.yaml'), '--audience', 'press'], 'record, referrer'],
  ])('gives 2 and a plain sentence for %j', async (args, words) => {
    const { code, out, err } = await casetally(args);
    expect(code).toBe(2);
    expect(`${out}${err}`).toContain(words);
    expect(err).not.toMatch(/\n\s+at /);
  });
});

describe('prepare', () => {
  it('writes the files of the contract', async () => {
    const { code } = await casetally(['prepare', example('embolisation.yaml'), '--out', 'prepared']);
    expect(code).toBe(0);
    const names = readdirSync(join(folder, 'prepared'));
    for (const name of [
      'submission.json',
      'document.json',
      'report.html',
      'report.txt',
      'findings.json',
      'tally.json',
      'tally.svg',
    ])
      expect(names).toContain(name);
    expect(JSON.parse(readFileSync(join(folder, 'prepared', 'submission.json'), 'utf8'))).toMatchObject({
      resourceType: 'Bundle',
      type: 'transaction',
    });
    const validated = await command(
      'validate',
      join(folder, 'prepared', 'document.json'),
      join(folder, 'prepared', 'submission.json'),
      '--json',
    );
    expect(validated.code).toBe(0);
    for (const outcome of JSON.parse(validated.out) as { issue: { severity: string }[] }[])
      expect(outcome.issue.filter(i => i.severity === 'error' || i.severity === 'fatal')).toEqual([]);
  });

  it('writes nothing for a case that cannot be read', async () => {
    const { code, err } = await command(
      'prepare',
      example('mistaken.yaml'),
      '--out',
      join(folder, 'nothing'),
    );
    expect(code).toBe(1);
    expect(err).toMatch(/nothing\s+was\s+written/);
    expect(existsSync(join(folder, 'nothing'))).toBe(false);
  });

  it('leaves nothing behind when the folder cannot be written', async () => {
    writeFileSync(join(folder, 'in-the-way'), '');
    const { code, err } = await command(
      'prepare',
      example('abscess-drain.yaml'),
      '--out',
      join(folder, 'in-the-way', 'out'),
    );
    expect(code).toBe(2);
    expect(err).toContain('cannot be written');
    expect(readdirSync(folder).filter(name => name.startsWith('.'))).toEqual([]);
  });
});

describe('report, schema, label, registry', () => {
  it.each(['record', 'referrer'])('prints the %s report as text and page', async audience => {
    const text = await command('report', example('liver-biopsy.yaml'), '--audience', audience);
    expect(text.code).toBe(0);
    expect(text.out.split('\n').every(line => [...line].length <= 80)).toBe(true);
    const page = await command(
      'report',
      example('liver-biopsy.yaml'),
      '--audience',
      audience,
      '--format',
      'html',
    );
    expect(page.out).toMatch(/^<!DOCTYPE html>/i);
  });

  it('prints the schema that is shipped for editors', async () => {
    const { out } = await command('schema');
    expect(out).toBe(readFileSync(join(root, 'case-record.schema.json'), 'utf8'));
  });

  // FDA UDI formats by issuing agency, version 1.3 (27 January 2017).
  it('reads a published label', async () => {
    const { code, out } = await command(
      'label',
      '(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234',
      '--json',
    );
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      issuer: 'gs1',
      di: '51022222233336',
      manufactured: '2014-12-31',
      expires: '2015-07-07',
      lot: 'A213B1',
      serial: '1234',
    });
  });

  it('reads a label a line from standard input', async () => {
    const { code, out } = await casetally(['label', '--stdin'], '(01)51022222233336\nnonsense\n');
    expect(code).toBe(2);
    expect(
      out
        .trim()
        .split('\n')
        .map(line => (JSON.parse(line) as { di?: string }).di),
    ).toEqual(['51022222233336', undefined]);
  });

  it('builds registry entries without a name, a number or a birth date in them', async () => {
    const { code } = await command(
      'registry',
      'build',
      example('ureteric-stent-tumour.yaml'),
      '--out',
      join(folder, 'registry'),
    );
    expect(code).toBe(0);
    const lines = readFileSync(join(folder, 'registry', 'entries.ndjson'), 'utf8');
    const manifest = JSON.parse(readFileSync(join(folder, 'registry', 'manifest.json'), 'utf8')) as {
      entries: number;
    };
    expect(manifest.entries).toBe(lines.trim().split('\n').length);
    for (const secret of ['Quillfeather', 'GG0093177', '1959', 'GG-23-1194', 'Gumleaf', '007733', 'Teague'])
      expect(lines).not.toContain(secret);
  });
});

describe('send', () => {
  let server: RunningSandbox;
  beforeAll(async () => {
    server = await startSandbox();
  });
  afterAll(() => server.close());

  it('creates everything once, and nothing when sent again', async () => {
    const first = await casetally(['send', example('gastrostomy.json'), '--to', server.baseUrl]);
    expect(first.code).toBe(0);
    const held = server.repository.all().length;
    expect(held).toBeGreaterThan(20);
    const second = await command(
      'send',
      example('gastrostomy.json'),
      '--to',
      server.baseUrl,
      '--json',
      '--data',
      join(folder, 'data'),
    );
    expect(second.code).toBe(0);
    expect(server.repository.all().length).toBe(held);
  });

  it('supersedes the first version of a case by the second, through the outbox', async () => {
    const [one, two] = [example('amended/version-1.yaml'), example('amended/version-2.yaml')];
    const before = new Set(server.repository.all().map(r => r.id));
    expect((await command('send', one, '--to', server.baseUrl, '--data', join(folder, 'data'))).code).toBe(0);
    const second = () =>
      command('send', two, '--previous', one, '--to', server.baseUrl, '--data', join(folder, 'data'));
    const sent = await second();
    expect(sent.err).not.toMatch(/^error/m);
    expect(sent.code).toBe(0);
    const held = server.repository.all();
    const documents = held.filter(r => r.resourceType === 'DocumentReference' && !before.has(r.id));
    expect(documents.map(r => ('status' in r ? r.status : '')).sort()).toEqual(['current', 'superseded']);
    const again = await second();
    expect(again.code).toBe(0);
    expect(server.repository.all().length).toBe(held.length);
  });

  it('sends nothing in a dry run', async () => {
    const held = server.repository.all().length;
    const { code, out } = await command(
      'send',
      example('liver-biopsy.yaml'),
      '--to',
      server.baseUrl,
      '--dry-run',
      '--data',
      join(folder, 'data'),
    );
    expect(code).toBe(0);
    expect(out).toContain('nothing was sent');
    expect(server.repository.all().length).toBe(held);
  });

  it('gives 1 and sends nothing for a case with errors', async () => {
    const { code, err } = await command(
      'send',
      example('mistaken.yaml'),
      '--to',
      server.baseUrl,
      '--data',
      join(folder, 'data'),
    );
    expect(code).toBe(1);
    expect(err).toMatch(/^\S+: \d+ errors, .*;\s+nothing\s+was\s+sent/);
  });

  it('gives 4 when nobody listens', async () => {
    const { code } = await command(
      'send',
      example('liver-biopsy.yaml'),
      '--to',
      'http://127.0.0.1:59999/fhir',
      '--data',
      join(folder, 'data'),
    );
    expect(code).toBe(4);
  });

  it('gives 2 for a destination that is not there', async () => {
    cpSync(example('site.yaml'), join(folder, 'site.yaml'));
    const { code, err } = await command(
      'send',
      example('liver-biopsy.yaml'),
      '--to',
      'nowhere',
      '--site',
      join(folder, 'site.yaml'),
      '--data',
      join(folder, 'data'),
    );
    expect(code).toBe(2);
    expect(err).toContain('nowhere');
  });
});
