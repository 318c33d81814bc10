import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { registryKey } from '../../../src/pipeline/registry/key.js';
import { registrySchema } from '../../../src/registry/options.js';
import { pseudonym } from '../../../src/registry/pseudonym.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'registry-key-'));
  writeFileSync(join(folder, 'plain.key'), 'sixteen bytes or more');
  writeFileSync(join(folder, 'newline.key'), 'sixteen bytes or more\n');
  writeFileSync(join(folder, 'short.key'), 'short');
});
afterAll(() => rmSync(folder, { recursive: true }));

const open = (settings: object) =>
  registryKey('devices', registrySchema.parse({ name: 'Test', ...settings }), folder);

describe('the secret of a registry', () => {
  it('is found from the folder of the site configuration', async () => {
    const { key, findings } = await open({ key: 'file:plain.key' });
    expect([Buffer.from(key.secret).toString(), key.id, findings]).toEqual([
      'sixteen bytes or more',
      'k1',
      [],
    ]);
  });

  it('that ends in a line break gives the pseudonyms that it gave before, and says so', async () => {
    const { key, findings } = await open({ key: 'file:newline.key' });
    expect(findings.map(({ code }) => code)).toEqual(['registry.key-newline']);
    const before = { id: 'k1', secret: Buffer.from('sixteen bytes or more\n') };
    expect(pseudonym(key, 'patient', 'x')).toBe(pseudonym(before, 'patient', 'x'));
    const agreed = await open({ key: 'file:newline.key', keyEndsInNewline: true });
    expect([agreed.findings, pseudonym(agreed.key, 'patient', 'x')]).toEqual([
      [],
      pseudonym(before, 'patient', 'x'),
    ]);
  });

  it('that ends in a line break is refused where the settings say that it does not', async () => {
    await expect(open({ key: 'file:newline.key', keyEndsInNewline: false })).rejects.toThrow('line break');
  });

  it('that is short, empty or not there is refused, with the place', async () => {
    await expect(open({ key: 'file:short.key' })).rejects.toThrow('shorter than 16 bytes');
    await expect(open({ key: 'env:CASETALLY_TEST_NO_SUCH_KEY' })).rejects.toThrow('missing');
    await expect(open({ key: 'file:none.key' })).rejects.toThrow(join(folder, 'none.key'));
  });

  it('is thrown away after the build where none is named', async () => {
    const [one, other] = [await open({}), await open({})];
    expect(one.findings.map(({ code }) => code)).toEqual(['registry.key-missing']);
    expect(Buffer.from(one.key.secret).equals(Buffer.from(other.key.secret))).toBe(false);
  });
});
