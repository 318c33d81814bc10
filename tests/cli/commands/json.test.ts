import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { examplesFolder } from '../../support/examples.js';

/* What `--json` prints: one value that a program reads, and nothing beside it. */

const folder = mkdtempSync(join(tmpdir(), 'cli-json-'));
afterAll(() => rmSync(folder, { recursive: true }));
const sound = join(examplesFolder, 'liver-biopsy.yaml');
const wrong = join(folder, 'wrong.yaml');
writeFileSync(
  wrong,
  readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8').replace(
    /.*do: remove, device: wire.*\n/,
    '',
  ),
);
const half = join(folder, 'half.yaml');
writeFileSync(half, 'casetally: 1\n');

async function json(...args: string[]): Promise<{ code: number; said: unknown }> {
  const out: string[] = [];
  const err: string[] = [];
  const output = {
    ...{ out: (text: string) => void out.push(text), err: (text: string) => void err.push(text) },
    color: false,
  };
  const code = await run([...args, '--json'], output);
  expect(err.join('')).toBe('');
  return { code, said: JSON.parse(out.join('')) };
}
const plain = async (...args: string[]) => {
  const out: string[] = [];
  const code = await run(args, { out: text => void out.push(text), err: () => undefined, color: false });
  return { code, text: out.join('') };
};

describe('--json', () => {
  it('of prepare names what was written, or that nothing was', async () => {
    const out = join(folder, 'prepared');
    const { code, said } = await json('prepare', sound, '--out', out);
    const { written } = said as { written: string[] };
    expect([code, [...written].sort()]).toEqual([0, readdirSync(out).sort()]);
    expect(said).toMatchObject({ file: sound, out, findings: expect.any(Array) });
    for (const file of [wrong, half]) {
      const none = join(folder, 'none');
      const refused = await json('prepare', file, '--out', none);
      expect([refused.code, existsSync(none)]).toEqual([1, false]);
      expect(refused.said).toMatchObject({
        ...{ file, written: [] },
        findings: expect.arrayContaining([expect.objectContaining({ severity: 'error' })]),
      });
    }
  });

  it('of report holds the report, or says where it is, or why there is none', async () => {
    const shown = await json('report', sound, '--audience', 'ward');
    expect(shown).toMatchObject({ code: 0, said: { file: sound, audience: 'ward', format: 'text' } });
    expect((shown.said as { report: string }).report).toBe(
      (await plain('report', sound, '--audience', 'ward')).text,
    );
    const out = join(folder, 'ward.pdf');
    const file = await json('report', sound, '--audience', 'ward', '--format', 'pdf', '--out', out);
    expect([file.code, readFileSync(out).subarray(0, 5).toString()]).toEqual([0, '%PDF-']);
    expect(file.said).toMatchObject({ out });
    const none = await json('report', wrong, '--audience', 'patient');
    expect(none).toMatchObject({ code: 1, said: { why: expect.stringMatching(/./) } });
    expect(none.said).not.toHaveProperty('report');
    expect((await plain('report', sound, '--format', 'pdf', '--json')).code).toBe(2);
  });

  it('of aftercare is the format json', async () => {
    const { code, said } = await json('aftercare', sound);
    expect([code, said]).toEqual([0, JSON.parse((await plain('aftercare', sound, '--format', 'json')).text)]);
    expect((await plain('aftercare', sound, '--format', 'ics', '--json')).code).toBe(2);
  });

  it('of keys names the files, and no part of the private key', async () => {
    const { code, said } = await json('keys', '--out', join(folder, 'keys'));
    const { private: path, public: jwks, keyId } = said as Record<string, string>;
    expect([code, readdirSync(join(folder, 'keys')).length]).toEqual([0, 2]);
    expect(JSON.parse(readFileSync(jwks ?? '', 'utf8')).keys).toMatchObject([{ kid: keyId }]);
    const { d } = JSON.parse(readFileSync(path ?? '', 'utf8'));
    expect(d.length).toBeGreaterThan(20);
    expect(JSON.stringify(said)).not.toContain(d);
  });

  it('of registry build has entries or the folder, the manifest, and the findings of each file', async () => {
    const { code, said } = await json(
      'registry',
      'build',
      join(examplesFolder, 'ureteric-stent-tumour.yaml'),
      half,
    );
    expect(code).toBe(1);
    expect(said).toMatchObject({
      ...{ registry: 'unnamed registry', leftOut: 1, manifest: { entries: expect.any(Number) } },
      results: expect.arrayContaining([expect.objectContaining({ file: half })]),
    });
    const { ndjson, manifest } = said as { ndjson: string; manifest: { entries: number } };
    expect(ndjson.trim().split('\n')).toHaveLength(manifest.entries);
    const out = join(folder, 'registry');
    const written = await json('registry', 'build', sound, '--out', out);
    expect(written.said).toMatchObject({ out });
    expect(written.said).not.toHaveProperty('ndjson');
    expect(readdirSync(out).sort()).toEqual(['entries.ndjson', 'manifest.json']);
  });
});
