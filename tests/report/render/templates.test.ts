import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { CasetallyError } from '../../../src/findings/errors.js';
import { lexicon } from '../../../src/findings/say.js';
import { clean } from '../../../src/report/characters.js';
import { audiences, formats } from '../../../src/report/options.js';
import { loadTemplates } from '../../../src/report/render/load.js';
import { cssText, markupHelpers } from '../../../src/report/render/markup.js';
import { compileTemplates } from '../../../src/report/render/templates.js';
import { textHelpers } from '../../../src/report/render/text.js';
import { templates, templatesFolder } from '../support/reports.js';

const data = { lexicon: lexicon('en-GB'), timeline: '', dose: '', pictures: [] };
const one = (source: string, context: object = {}, name = 'x/html') =>
  compileTemplates(new Map([[name, source]])).render(name, clean(context), data);

describe('templates', () => {
  it('there is one for every audience and format', () => {
    for (const audience of audiences)
      for (const format of formats) expect(templates.names).toContain(`${audience}/${format}`);
  });
  it('a later folder overrides one partial and keeps the rest', () => {
    const sources = new Map([
      ['a/html', '<p>{{> b/x}}</p>'],
      ['b/x', 'old'],
    ]);
    sources.set('b/x', 'new');
    expect(compileTemplates(sources).render('a/html', {}, data)).toBe('<p>new</p>');
  });
  it('escapes in markup and not in text', () => {
    expect(one('{{a}}', { a: '<b>&"\'' })).toBe('&lt;b&gt;&amp;&quot;&#x27;');
    expect(one('{{a}}', { a: '<b>&"\'' }, 'x/text')).toBe('<b>&"\'');
  });
  it('reaches the outer context from within a list of texts', () => {
    expect(one('{{#each list}}{{../name}}{{this}} {{/each}}', { list: ['a', 'b'], name: 'n' })).toBe(
      'na nb ',
    );
  });
  it('does not read a template in the data', () => {
    expect(one('{{a}}', { a: '{{b}}', b: 'no' })).toBe('{{b}}');
  });
  it.each([
    ['three braces', '{{{a}}}'],
    ['an ampersand', '{{&a}}'],
    ['an ampersand after a space', '{{ & a}}'],
    ['an ampersand behind a tilde', '{{~&a}}'],
    ['three braces around a tilde', '{{~{a}~}}'],
    ['three braces around a tilde, inside a block', '{{#if a}}{{~{a}}}{{/if}}'],
    ['an unknown name', '{{nobody}}'],
    ['an unknown name inside', '{{a.nobody}}'],
    ['an unknown helper', '{{shout a "b"}}'],
    ['an unknown partial', '{{> nowhere}}'],
    ['an unknown word', '{{t "no.such.word"}}'],
    ['the constructor', '{{a.constructor}}'],
    ['the prototype', '{{a.__proto__}}'],
    ['the console', '{{log "a"}}'],
    ['broken syntax', '{{#if a}}'],
  ])('%s is refused', (_, source) => {
    expect(() => one(source, { a: { c: 'text' } })).toThrow(CasetallyError);
  });
  it('finds nothing of the prototype by lookup either', () => {
    expect(one('{{lookup a "constructor"}}{{lookup a "__proto__"}}{{lookup a "toString"}}', { a: {} })).toBe(
      '',
    );
  });
  it('a partial of the text templates is out of reach for markup', () => {
    const both = compileTemplates(
      new Map([
        ['x/html', '{{> shared/text/y}}'],
        ['shared/text/y', '{{a}}'],
      ]),
    );
    expect(() => both.render('x/html', clean({ a: '<b>' }), data)).toThrow(CasetallyError);
  });
  it('a folder that is not there is a clear error', () => {
    expect(() => loadTemplates(join(templatesFolder, 'nowhere'))).toThrow(/cannot be read/);
  });
  it('CSS text can end neither string nor rule nor element', () => {
    expect(cssText('a"};</style>\n\u00e9')).toMatch(/^[A-Za-z0-9\\]+$/);
    expect(cssText('A1 b')).toBe('A1\\000020b');
  });
});

describe('README of the templates', () => {
  const text = readFileSync(join(templatesFolder, 'README.md'), 'utf8');
  it.each([...new Set([...Object.keys(markupHelpers), ...Object.keys(textHelpers)])])('tells of %s', name => {
    expect(text).toMatch(new RegExp(`\`${name}[ \`]`));
  });
});

describe('raw output', () => {
  const folder = fileURLToPath(new URL('../../../src/report/', import.meta.url));
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(name =>
    name.endsWith('.ts'),
  );
  it.each([
    ['noEscape', ['render/templates.ts']],
    ['SafeString', ['render/markup.ts']],
    ['allowProto', []],
  ])('%s stands in no other file than %j', (word, allowed) => {
    const found = files.filter(name => readFileSync(join(folder, name), 'utf8').includes(word));
    expect(found).toEqual(allowed);
  });
});
