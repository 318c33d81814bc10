import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { languageData, languages, textsOf, type WordKey } from '../../../src/findings/languages.js';
import { isWordKey } from '../../../src/findings/say.js';
import { templatesFolder } from '../../support/report/reports.js';

const english = textsOf('en-GB');
const keys = Object.keys(english).filter(isWordKey);
const places = (text: string) => [...text.matchAll(/\{(\w+)(?::\w+)?\}/g)].map(m => m[1] ?? '').sort();

const sources = readdirSync(templatesFolder, { recursive: true, encoding: 'utf8' })
  .filter(name => name.endsWith('.hbs'))
  .map(name => [name, readFileSync(join(templatesFolder, name), 'utf8')] as const);

describe.each(languages)('words of %s', language => {
  const words = textsOf(language);
  it('has every key, and no key more', () => {
    expect(Object.keys(words).sort()).toEqual(Object.keys(english).sort());
  });
  it('has words for every key, with the same places to fill', () => {
    for (const key of keys) {
      expect(words[key]?.trim(), key).not.toBe('');
      expect(places(words[key] ?? ''), key).toEqual(places(english[key] ?? ''));
    }
  });
  it('asks only for forms that it has', () => {
    const { forms } = languageData(language);
    const asked = Object.values(words).flatMap(text =>
      [...text.matchAll(/\{\w+:(\w+)\}/g)].map(m => m[1] ?? ''),
    );
    expect([...new Set(asked)].filter(form => !Object.hasOwn(forms, form))).toEqual([]);
  });
  it('has both forms of every counted word', () => {
    for (const key of keys) {
      const twin = key.endsWith('.one') ? key.replace(/\.one$/, '.other') : key;
      expect(isWordKey(twin), twin).toBe(true);
    }
  });
});

describe('use', () => {
  const folder = fileURLToPath(new URL('../../../src/', import.meta.url));
  const code = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter(name => name.endsWith('.ts') && !name.includes('words/'))
    .map(name => readFileSync(join(folder, name), 'utf8'));
  // The review page: keys stand in its HTML as `{{key}}`.
  const page = fileURLToPath(new URL('../../../web/', import.meta.url));
  const onPage = readdirSync(page)
    .filter(name => /\.(?:ts|html)$/.test(name))
    .map(name => readFileSync(join(page, name), 'utf8').replace(/\{\{([\w.-]+)\}\}/g, "'$1'"));
  const all = [...code, ...onPage, ...sources.map(([, source]) => source)].join('\n');
  /** Heads of keys that are put together: `state.${…}`. */
  const heads = [...all.matchAll(/`([\w-]+(?:\.[\w-]+)*\.)\$\{/g)].map(match => match[1] ?? '');
  /** Written out, put together from its head, named by its tail in `fact(p, 'tail')`, or a word of a timeline. */
  const used = (key: string) => {
    const [head = '', ...rest] = key.replace(/\.(one|other)$/, '').split('.');
    const tail = rest.join('.');
    if (head === 'timeline') return new RegExp(`words\\.say\\([^)]*'${tail}'`).test(all);
    const quoted = [
      `'${head}.${tail}'`,
      `"${head}.${tail}"`,
      `'${tail}'`,
      ...(tail === '' ? [`'${head}'`] : []),
    ];
    return quoted.some(text => all.includes(text)) || heads.some(start => key.startsWith(start));
  };
  it('has no word that nothing says', () => {
    expect(keys.filter(key => !used(key))).toEqual([]);
  });
});

describe('templates', () => {
  it.each(sources)('%s names only words of the catalogue', (_, source) => {
    const used = [...source.matchAll(/[{(]t "([^"]+)"/g)].map(m => m[1] ?? '');
    expect(used.filter(key => !isWordKey(key))).toEqual([]);
  });
  it.each(sources)('%s holds no words of its own', (name, source) => {
    if (name.endsWith('style.hbs')) return;
    const bare = source.replace(/\{\{[^}]*\}\}/g, ' ').replace(/<[^>]*>/g, ' ');
    expect(bare.match(/[a-z]{3,}/gi) ?? []).toEqual([]);
  });
  it('leave the words of the readers to their documents, which use every one', () => {
    const view = fileURLToPath(new URL('../../../src/report/view/', import.meta.url));
    const said = readdirSync(view)
      .map(name => readFileSync(join(view, name), 'utf8'))
      .join('\n');
    const reader = keys.filter((key: WordKey) => /^(referrer|ward|patient)\./.test(key));
    expect(reader.length).toBeGreaterThan(10);
    expect(reader.filter(key => !said.includes(`'${key}'`))).toEqual([]);
  });
});
