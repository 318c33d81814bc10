import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { casetally, flat } from '../../../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'drafts-commands-'));
afterAll(() => rmSync(folder, { recursive: true }));
const key = Buffer.alloc(32, 3).toString('base64');
const second = Buffer.alloc(32, 4).toString('base64');

let n = 0;
let at: string;
beforeEach(() => {
  n += 1;
  at = join(folder, `${n}`);
  vi.stubEnv('CASETALLY_OUTBOX_KEY', key);
});
afterEach(() => void vi.unstubAllEnvs());

const RECORD =
  '# kept\ncasetally: 1\ncase: { id: C-1, date: 2024-03-31 }\npatient: { name: Ada Quintanar }\n';
const drafts = async (...args: string[]) => flat(await casetally(['drafts', ...args, '--data', at]));
const asJson = async (...args: string[]) => {
  const { code, out } = await casetally(['drafts', ...args, '--data', at, '--json']);
  return { code, ...(JSON.parse(out) as { id: string; [more: string]: unknown }) };
};
async function imported(text = RECORD): Promise<string> {
  const file = join(folder, 'record.yaml');
  writeFileSync(file, text);
  return (await asJson('import', file, '--by', 'Nurse Aho')).id;
}

describe('drafts on the command line', () => {
  it('are begun from a record, listed, shown and written out with the same bytes', async () => {
    const id = await imported();
    expect((await drafts('list')).out).toMatch(
      new RegExp(`${id}.*2024-03-31.*open.*C-1.*Ada Quintanar.*Nurse Aho`),
    );
    expect((await drafts('list', '--on', '2024-04-01')).out).toBe('No drafts. ');
    expect(await asJson('list', '--on', '2024-03-31')).toMatchObject({
      code: 0,
      drafts: [{ id, version: 1 }],
    });
    expect((await drafts('show', id)).out).toContain('case C-1, Ada Quintanar, 2024-03-31, open');
    expect((await casetally(['drafts', 'export', id, '--data', at])).out).toBe(RECORD);
    const out = join(folder, `${n}.yaml`);
    expect((await drafts('export', id, '--of-version', '1', '--out', out)).code).toBe(0);
    expect([readFileSync(out, 'utf8'), statSync(out).mode & 0o777]).toEqual([RECORD, 0o600]);
    expect((await drafts('export', id, '--out', out)).code).toBe(2);
  });

  it('are discarded with who and why, and erased after the days of the site', async () => {
    const id = await imported();
    const kept = await imported();
    const why = ['--by', 'Dr Okonjo', '--why', 'Begun twice'];
    expect((await drafts('discard', id, ...why)).code).toBe(0);
    expect(await asJson('discard', id, ...why)).toMatchObject({
      code: 1,
      kind: 'not so',
      state: 'discarded',
    });
    expect((await drafts('show', id)).out).toMatch(/discarded.*Dr Okonjo.*Begun twice/);
    expect(await asJson('purge')).toMatchObject({ removed: 0 });
    const site = join(folder, 'site.yaml');
    writeFileSync(
      site,
      'casetallySite: 1\nname: x\nnamespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a04\norganization: { name: x }\ndrafts: { discardedDays: 0 }\n',
    );
    await new Promise(resolve => setTimeout(resolve, 5));
    expect(await asJson('purge', '--site', site)).toMatchObject({ removed: 1 });
    expect((await drafts('show', id)).code).toBe(2);
    expect((await drafts('show', kept)).code).toBe(0);
  });

  it.each([
    [2, ['show', 'none']],
    [2, ['export', 'none']],
    [2, ['discard', 'none', '--by', 'x', '--why', 'y']],
    [2, ['discard', 'none', '--by', ' ', '--why', 'y']],
    [2, ['list', '--on', 'today']],
    [2, ['import', '/nowhere.yaml', '--by', 'x']],
    [2, ['import', '/nowhere.yaml']],
    [2, ['restore', '/nowhere.db']],
  ])('end with %i for %j', async (code, args) => {
    expect((await drafts(...args)).code).toBe(code);
  });

  it('refuse a text that is no record, and a version that is not there', async () => {
    const file = join(folder, 'no.yaml');
    writeFileSync(file, 'a: [');
    expect((await drafts('import', file, '--by', 'x')).code).toBe(1);
    writeFileSync(file, new Uint8Array([0xff, 0xfe]));
    expect(await asJson('import', file, '--by', 'x')).toMatchObject({
      code: 1,
      findings: [{ code: 'record.not-text' }],
    });
    const id = await imported();
    for (const version of ['2', '0', 'x'])
      expect((await drafts('export', id, '--of-version', version)).code).toBe(2);
  });

  it('are copied, put back, and sealed anew with the outbox', async () => {
    const id = await imported();
    const copy = join(folder, `${n}-copy.db`);
    expect(await asJson('backup', '--to', copy)).toMatchObject({ code: 0, versions: 1 });
    expect((await drafts('restore', copy)).code).toBe(2);
    vi.stubEnv('CASETALLY_OUTBOX_KEY', `${second},${key}`);
    const rekeyed = flat(await casetally(['outbox', 'rekey', '--data', at]));
    expect([rekeyed.code, rekeyed.out]).toEqual([0, expect.stringContaining('2 rows of drafts')]);
    vi.stubEnv('CASETALLY_OUTBOX_KEY', second);
    expect((await drafts('export', id)).code).toBe(0);
    // The copy has the old key.
    at = join(folder, `${n}-back`);
    expect((await drafts('restore', copy)).code).toBe(0);
    expect((await drafts('list')).err).toContain('sealed with the key');
    vi.stubEnv('CASETALLY_OUTBOX_KEY', key);
    expect((await drafts('export', id)).code).toBe(0);
  });
});
