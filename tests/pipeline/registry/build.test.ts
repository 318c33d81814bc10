import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { messageOf } from '../../../src/findings/finding.js';
import { openBytes } from '../../../src/pipeline/open-case.js';
import { type RegistryBuild, RegistryBuilder } from '../../../src/pipeline/registry/build.js';
import type { BuiltFile } from '../../../src/pipeline/registry/collect.js';
import { registrySchema } from '../../../src/registry/options.js';
import { unconfiguredSite } from '../../../src/site/site.js';
import { exampleFiles, exampleText, testTools } from '../../support/examples.js';

const key = { id: 'k1', secret: Buffer.from('a secret of the test, long enough') };
// biome-ignore lint/suspicious/noExplicitAny: data of an example, to be changed at any depth
type Loose = Record<string, any>;

const stent = 'ureteric-stent-tumour.yaml';
const changed = (file: string, change: (data: Loose) => void): string => {
  const data: Loose = parse(exampleText(file));
  change(data);
  return stringify(data);
};
const version = (number: number, more: Loose = {}) =>
  changed(stent, data => {
    if (number > 1)
      Object.assign(data['report'], { status: 'amended', version: number, change: { why: 'Lot corrected' } });
    Object.assign(data['report'], more);
  });

async function build(texts: readonly string[], settings: object = {}): Promise<Built> {
  const options = registrySchema.parse({ name: 'Test', ...settings });
  const { validator } = testTools();
  const builder = await RegistryBuilder.open({ name: 'test', options, key, validator });
  const site = { site: unconfiguredSite, given: false, folder: '.' };
  for (const [n, text] of texts.entries())
    builder.add(`case-${n}.yaml`, await openBytes(Buffer.from(text), site));
  return read(builder);
}

/** A build read whole, since its lines are gone when the builder is closed. */
function read(builder: RegistryBuilder): Built {
  const built = builder.finish();
  const whole = { ...built, text: [...built.pieces()].join(''), files: [...built.files] };
  builder.close();
  return whole;
}

type Built = Omit<RegistryBuild, 'files'> & { readonly text: string; readonly files: readonly BuiltFile[] };

const fates = ({ files }: Built) => files.map(({ fate }) => fate);
const codes = ({ files }: Built) => files.map(file => file.findings.map(({ code }) => code));
const lines = ({ text }: Built): Loose[] =>
  text
    .split('\n')
    .filter(line => line !== '')
    .map(line => JSON.parse(line) as Loose);

describe('the gate of a build', () => {
  it('holds a case with an error back, and names its errors', async () => {
    const wrong = changed('nephrostomy-exchange-transplant.yaml', data => {
      data['left'] = 'none';
      data['aftercare'] = [];
    });
    const built = await build([wrong, exampleText(stent)]);
    expect(fates(built)).toEqual(['held back', 'entered']);
    expect(codes(built)[0]).toContain('registry.held-back');
    expect(built.files[0]?.findings.filter(({ severity }) => severity === 'error').length).toBeGreaterThan(1);
    const only = await build([exampleText(stent)]);
    expect(built.text).toBe(only.text);
  });

  it('lets a preliminary report wait', async () => {
    const built = await build([version(1, { status: 'preliminary' })]);
    expect([fates(built), built.text, built.manifest.waiting]).toEqual([['waiting'], '', 1]);
  });

  it('counts the newest version alone, in whatever order they are given', async () => {
    const one = version(1);
    const two = version(2);
    const built = await build([two, one]);
    expect(fates(built)).toEqual(['entered', 'superseded']);
    expect(built.text).toBe((await build([two])).text);
    expect((await build([one, two])).text).toBe(built.text);
  });

  it('does not fall back on the version before one that is held back', async () => {
    const two = changed(stent, data => {
      Object.assign(data['report'], { status: 'amended', version: 2, change: { why: 'Stent added' } });
      data['events'] = data['events'].slice(0, 2);
    });
    const built = await build([version(1), two]);
    expect(fates(built)).toEqual(['superseded', 'held back']);
    expect(built.text).toBe('');
  });

  it('gives one entry for a case that is given twice, and none for two texts of one version', async () => {
    const twice = await build([version(1), version(1)]);
    expect(fates(twice)).toEqual(['entered', 'superseded']);
    expect(twice.text).toBe((await build([version(1)])).text);
    const other = await build([version(1), version(1, { author: 'ir' })]).catch(() => undefined);
    const differs = await build([version(1), changed(stent, data => (data['conclusion'] = 'Otherwise.'))]);
    expect(other === undefined || fates(other).length === 2).toBe(true);
    expect(fates(differs)).toEqual(['held back', 'held back']);
    expect(codes(differs)[1]).toContain('registry.version-twice');
    expect(differs.text).toBe('');
  });

  it('turns a withdrawn case into entries entered in error', async () => {
    const built = await build([version(1), version(2, { status: 'withdrawn' })]);
    expect(lines(built).length).toBeGreaterThan(0);
    expect(new Set(lines(built).map(line => line['status']))).toEqual(new Set(['entered-in-error']));
  });

  it('holds an entry back that does not conform to our profile of it', async () => {
    const { validator } = testTools();
    const builder = await RegistryBuilder.open({
      name: 'test',
      // A numbering system that is no address: FHIR does not take it.
      options: { ...registrySchema.parse({ name: 'Test' }), pseudonymSystem: 'our numbers' },
      key,
      validator,
    });
    const site = { site: unconfiguredSite, given: false, folder: '.' };
    builder.add('case.yaml', await openBytes(Buffer.from(exampleText(stent)), site));
    const built = read(builder);
    expect(fates(built)).toEqual(['held back']);
    expect(codes(built)[0]?.some(code => code.startsWith('conformance.'))).toBe(true);
    expect(built.text).toBe('');
  });

  it('takes every example that has no error', async () => {
    const built = await build(exampleFiles.map(exampleText));
    const held = built.files.filter(({ fate }) => fate === 'held back');
    for (const { findings } of held)
      expect(findings.map(f => f.code)).toEqual(
        expect.arrayContaining([expect.stringMatching(/^registry\.(?:held-back|.*-missing)$/)]),
      );
    expect(built.manifest.entries).toBeGreaterThan(10);
  });
});

describe('the manifest', () => {
  it('describes exactly what is in the file, whatever the order of cases', async () => {
    const texts = exampleFiles.map(exampleText);
    const one = await build(texts);
    const other = await build([...texts].reverse());
    expect(other.text).toBe(one.text);
    expect(other.manifest).toEqual(one.manifest);
    // Aftercare is the hospital's: neither what is asked for nor the doing of it.
    expect(one.text).not.toMatch(/"resourceType":"(?:CarePlan|ServiceRequest|Task)"/);
    expect(one.manifest.entries).toBe(lines(one).length);
    expect(one.manifest.sha256).toBe(createHash('sha256').update(one.text).digest('hex'));
  });

  it('names no number of the site, also of what is held back', async () => {
    const texts = exampleFiles.map(exampleText);
    const { manifest } = await build(texts);
    expect(manifest.heldBack.length).toBeGreaterThan(0);
    const said = JSON.stringify(manifest);
    for (const text of texts) {
      const data = parse(text) as Loose;
      expect(said).not.toContain(data['case'].id);
      for (const { value } of data['patient'].identifiers) expect(said).not.toContain(`${value}`);
    }
    for (const number of manifest.heldBack) expect(number).toMatch(/^k1\.[0-9a-f]{32}$/);
  });

  it('counts files that are no case', async () => {
    const built = await build(['not: a case', exampleText(stent), '\u0000']);
    expect(built.manifest.unreadable).toBe(2);
    expect(built.noCase).toBe(true);
    expect(built.manifest.cases).toBe(1);
  });
});

describe('a serial number that comes again', () => {
  const serial = (id: string, number: string, more: (data: Loose) => void = () => {}) =>
    changed(stent, data => {
      data['case'].id = id;
      data['patient'].identifiers = [{ system: 'https://ids.harbour.example/mrn', value: number }];
      more(data);
    });

  it('in another person is said, in the case that came later', async () => {
    const later = serial('B-2', 'H-2', data => (data['case'].date = '2030-01-01'));
    const built = await build([later, serial('B-1', 'H-1')]);
    const found = built.files.map(({ findings }) =>
      findings.filter(f => f.code === 'label.serial-other-case'),
    );
    expect(found[0]?.length).toBeGreaterThan(0);
    expect(found[1]).toEqual([]);
    const [first] = found[0] ?? [];
    expect(first && messageOf(first)).toContain('B-1');
  });

  it('in the same case, or when it is the one that was carried in, is none', async () => {
    const carried = serial('B-2', 'H-1', data => {
      for (const device of Object.values<Loose>(data['devices']))
        device['carried'] ??= { date: '2023-11-08' };
      data['case'].date = '2030-01-01';
    });
    const built = await build([serial('B-1', 'H-1'), serial('B-1', 'H-1'), carried]);
    expect(codes(built).flat()).not.toContain('label.serial-other-case');
  });
});
