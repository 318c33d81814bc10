import { generateKeyPairSync } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { casetally as runIn } from '../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const example = (version: number) =>
  join(import.meta.dirname, '..', '..', 'examples', 'amended', `version-${version}.yaml`);

const casetally = (...args: readonly string[]) => runIn(args);

describe('casetally compare', () => {
  it('prints what differs, and ends well', async () => {
    const { code, out } = await casetally('compare', example(1), example(2));
    expect(code).toBe(0);
    expect(out).toContain('- Device second  (devices.second)');
    expect(out).toContain('65 mL of pus drained [-through two drains-]');
    expect(out).toMatch(/\n10 facts differ\.\n$/);
  });

  it('says that two are the same', async () => {
    expect(await casetally('compare', example(1), example(1))).toMatchObject({
      code: 0,
      out: 'Both tell the same.\n',
    });
  });

  it('gives JSON with digests of both', async () => {
    const { out } = await casetally('compare', example(1), example(2), '--json');
    const result = JSON.parse(out) as { old: { digest: string }; changes: { path: string }[] };
    expect(result.old.digest).toMatch(/^sha256:[0-9a-f]{64}$/);
    expect(result.changes.map(change => change.path)).toContain('devices.second');
  });

  it('ends with 2 when one cannot be read', async () => {
    const file = join(folder, 'broken.yaml');
    writeFileSync(file, 'casetally: 1\ncase: {}\n');
    const { code, err } = await casetally('compare', example(1), file);
    expect(code).toBe(2);
    expect(err).toContain('record.missing');
  });
});

describe('casetally prepare --previous --sign, and verify', () => {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-384' });
  const key = join(folder, 'key.pem');
  const jwk = join(folder, 'public.json');
  writeFileSync(key, privateKey.export({ format: 'pem', type: 'pkcs8' }));
  writeFileSync(jwk, JSON.stringify(publicKey.export({ format: 'jwk' })));
  const out = join(folder, 'out');
  const at = (name: string) => join(out, name);

  it('writes the changes and the signature, which holds', async () => {
    const prepared = await casetally(
      ...['prepare', example(2), '--previous', example(1), '--out', out, '--sign', `file:${key}`],
    );
    expect(prepared.code).toBe(0);
    expect(readdirSync(out)).toEqual(expect.arrayContaining(['changes.json', 'document.jws']));
    expect(readFileSync(at('submission.json'), 'utf8')).toContain('"superseded"');
    const verify = ['verify', at('document.json'), '--jws', at('document.jws'), '--key', jwk];
    expect(await casetally(...verify)).toMatchObject({ code: 0 });
    writeFileSync(at('document.json'), `${readFileSync(at('document.json'), 'utf8')} `);
    expect(await casetally(...verify)).toMatchObject({ code: 1 });
  });

  it('refuses a key on the command line', async () => {
    const { code, err } = await casetally('prepare', example(1), '--out', out, '--sign', 'secret');
    expect(code).toBe(2);
    expect(err).toContain('env:NAME or file:PATH');
    expect(err).not.toContain('secret');
  });

  it('ends with 2 when the earlier version cannot be read', async () => {
    const broken = join(folder, 'broken.yaml');
    const { code } = await casetally(
      'prepare',
      example(2),
      '--previous',
      broken,
      '--out',
      join(folder, 'no'),
    );
    expect(code).toBe(2);
    expect(readdirSync(folder)).not.toContain('no');
  });
});
