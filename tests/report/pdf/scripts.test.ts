import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as hb from 'harfbuzzjs';
import { afterAll, describe, expect, it } from 'vitest';
import { createdAt } from '../../../src/report/pdf/created.js';
import { loadPdf } from '../../../src/report/pdf/load.js';
import { scriptFonts } from '../../../src/report/pdf/script-fonts.js';
import { shapedFont } from '../../../src/report/pdf/shape.js';
import { documentOf } from '../../../src/report/view/document.js';
import { buildView } from '../../../src/report/view/view.js';
import { assessment, fullStates, read } from '../../support/report/assess.js';
import { fullCase } from '../../support/report/cases.js';
import { lacking, poppler } from './support.js';

/* Names in scripts that the shipped typeface lacks, with and without the font that a site may install. */

const root = join(import.meta.dirname, '..', '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'script-fonts-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const DEVANAGARI = '@expo-google-fonts/noto-sans-devanagari';
/** A conjunct, a vowel sign that is drawn before its letter, an r above: all that shaping is for. */
const NAME = 'श्री हर्षवर्धन द्विवेदी';

const named = (name: string) => {
  const data = read(fullCase);
  return { ...data, patient: { ...data.patient, name } };
};
const documentFor = (name: string) => {
  const record = named(name);
  const view = buildView(record, assessment(record, fullStates));
  return { record, document: documentOf(view, { audience: 'ward' }) };
};
const pdfOf = async (name: string, from: string) => {
  const { record, document } = documentFor(name);
  return (await loadPdf(from)).render(document, { created: createdAt(record) });
};

describe('without a font', () => {
  const found = async (text: string) =>
    (await loadPdf(folder)).findings({ patient: { name: text } }).map(({ code, path, params }) => ({
      code,
      path,
      ...params,
    }));

  it('a finding names what is lost, where, and the package that has it', async () => {
    expect(await found('राम')).toEqual([
      {
        code: 'report.font-not-installed',
        path: 'patient.name',
        characters: 'U+0930, U+093E, U+092E',
        packages: DEVANAGARI,
      },
    ]);
  });

  it.each([
    ['山田 さくら', ['jp']],
    ['山田\u3000太郎', ['sc', 'tc', 'hk', 'jp', 'kr']],
    ['김철수', ['kr']],
    ['สมชาย', ['thai']],
    ['شہناز', ['arabic']],
    ['Ράλλης, Жанна, דנה, سلام', []],
  ])('%s', async (text, fonts) => {
    const packages = (await found(text)).map(one => 'packages' in one && one.packages);
    const wanted = fonts.map(font => `@expo-google-fonts/noto-sans-${font}`).join(', ');
    expect(packages).toEqual(fonts.length === 0 ? [] : [wanted]);
  });

  it('what no package has is told apart', async () => {
    expect((await found('राम \u{1f9ea}')).map(({ code }) => code)).toEqual([
      'report.font-not-installed',
      'report.character-not-in-font',
    ]);
  });

  it('is told of what does not come from the record as well, once', async () => {
    const { record, document } = documentFor('राम');
    const { findings } = await loadPdf(folder);
    expect(findings(record, document).map(({ path, params }) => [path, params['characters']])).toEqual([
      ['patient.name', 'U+0930, U+093E, U+092E'],
    ]);
    const ours = documentFor('Ram');
    const other = { ...ours, document: { ...ours.document, above: 'राम 555' } };
    expect(findings(other.record, other.document).map(({ path, code }) => [path, code])).toEqual([
      ['', 'report.font-not-installed'],
    ]);
  });
});

describe('with the font', () => {
  it('nothing is lost, and the same bytes come whatever was written before', async () => {
    const { record, document } = documentFor(NAME);
    expect((await loadPdf(root)).findings(record, document)).toEqual([]);
    const first = await pdfOf(NAME, root);
    await pdfOf('कृष्ण षष्ठी', root);
    expect(Buffer.from(await pdfOf(NAME, root)).equals(first)).toBe(true);
  });

  it('a report that needs no other font is the same as without', async () => {
    const plain = await pdfOf('Zoë Kowalska', folder);
    expect(Buffer.from(await pdfOf('Zoë Kowalska', root)).equals(plain)).toBe(true);
  });

  it('only the signs that are drawn go into the file: 24 kB at most', async () => {
    const grown = (await pdfOf(NAME, root)).length - (await pdfOf('Ram Kumar', root)).length;
    expect(grown).toBeGreaterThan(2_000);
    expect(grown).toBeLessThan(24_000);
  });

  it.skipIf(lacking)('the name is found and copied as it is written', async () => {
    const pdf = await pdfOf(NAME, root);
    expect(poppler('pdftotext', ['-layout'], pdf)).toContain(NAME);
    const fonts = poppler('pdffonts', [], pdf).split('\n');
    const own = fonts.filter(line => line.includes('NotoSansDevanagari'));
    expect(own.length).toBeGreaterThan(0);
    // Embedded, a subset, with a map to Unicode.
    for (const line of own) expect(line).toMatch(/ yes yes yes /);
    if (process.env['CASETALLY_LOOK'] !== undefined) {
      const out = join(root, 'out', 'look');
      mkdirSync(out, { recursive: true });
      spawnSync('pdftoppm', ['-r', '110', '-l', '1', '-png', '-', join(out, 'devanagari')], { input: pdf });
    }
  });

  // Signs and their order: The Unicode Standard, section 12.1, Devanagari (rules R1 to R19), from memory.
  it('conjuncts, vowel signs and the r above are shaped', () => {
    const path = createRequire(join(root, 'any.js')).resolve(
      `${DEVANAGARI}/400Regular/NotoSansDevanagari_400Regular.ttf`,
    );
    const font = shapedFont(readFileSync(path), hb);
    const glyphs = (text: string) =>
      font.layout(text).glyphs.map(({ id }) => Number.parseInt(String(id), 10));
    const single = (sign: string) => font.glyphForCodePoint(sign.codePointAt(0) ?? 0).id;
    // ka + virama + ssa: one sign of its own, neither of the two.
    expect(glyphs('क्ष')).toHaveLength(1);
    expect([single('क'), single('ष')]).not.toContain(glyphs('क्ष')[0]);
    // The vowel sign i stands before its letter.
    expect(glyphs('नि').at(-1)).toBe(single('न'));
    // ra + virama before a letter: above it, and so after it.
    expect(glyphs('र्म')[0]).toBe(single('म'));
    expect(glyphs('र्म')).toHaveLength(2);
  });
});

describe('the packages', () => {
  it('are optional peers of Casetally', () => {
    const { peerDependencies, peerDependenciesMeta } = JSON.parse(
      readFileSync(join(root, 'package.json'), 'utf8'),
    );
    const fonts = Object.keys(peerDependencies).filter(name => name.startsWith('@expo-google-fonts/'));
    expect(fonts.sort()).toEqual(scriptFonts.map(({ name }) => name).sort());
    for (const name of fonts) expect(peerDependenciesMeta[name]).toEqual({ optional: true });
  });

  /** A package as it may lie there after a copy that went wrong. */
  const broken = (name: string, fonts: Readonly<Record<string, string>>) => {
    const site = join(folder, name);
    const home = join(site, 'node_modules', DEVANAGARI);
    for (const part of ['400Regular', '700Bold']) mkdirSync(join(home, part), { recursive: true });
    writeFileSync(join(home, 'package.json'), '{"version": "9.0.0"}');
    for (const [file, text] of Object.entries(fonts)) writeFileSync(join(home, file), text);
    return site;
  };

  it('that are laid out otherwise are named, with what to do', async () => {
    const site = broken('other', {});
    await expect(loadPdf(site)).rejects.toThrow(/noto-sans-devanagari at .* install version 0\.4 of it/);
  });

  it('that are damaged are named where they are needed, and harm no other report', async () => {
    const site = broken('damaged', {
      '400Regular/NotoSansDevanagari_400Regular.ttf': 'no font',
      '700Bold/NotoSansDevanagari_700Bold.ttf': '',
    });
    expect((await pdfOf('Zoë Kowalska', site)).length).toBeGreaterThan(10_000);
    await expect(pdfOf('राम', site)).rejects.toThrow(/Regular\.ttf cannot be read: install/);
  });
});
