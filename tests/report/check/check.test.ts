import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { checkTemplates } from '../../../src/report/check/check.js';
import { dropped, markedDocument } from '../../../src/report/check/marks.js';
import { audiences } from '../../../src/report/options.js';
import { loadSources } from '../../../src/report/render/load.js';
import { documentOf } from '../../../src/report/view/document.js';
import { sectionsFor } from '../../../src/report/view/site-layout.js';
import { fullStates } from '../../support/report/assess.js';
import { bareCase, fullCase, noneCase } from '../../support/report/cases.js';
import { templatesFolder, viewOf } from '../../support/report/reports.js';

const shipped = loadSources(templatesFolder);
const trials = [
  { name: 'full', view: viewOf(fullCase, fullStates) },
  { name: 'none', view: viewOf(noneCase) },
  { name: 'bare', view: viewOf(bareCase, {}, 'de') },
];

const source = (name: string): string => {
  const text = shipped.get(name);
  if (text === undefined) throw new Error(`no template ${name}`);
  return text;
};
/** The shipped template with one piece changed; the piece must be there. */
const changed = (name: string, from: string, to: string): readonly [string, string] => {
  if (!source(name).includes(from)) throw new Error(`${name} does not hold ${from}`);
  return [name, source(name).replace(from, to)];
};
const check = (...own: readonly (readonly [string, string])[]) =>
  checkTemplates(shipped, new Map(own), trials);
const said = (findings: ReturnType<typeof check>) =>
  findings.map(f => `${f.code} ${f.path} ${f.params['fact'] ?? ''}`.trim());

describe('what passes', () => {
  it('the shipped templates, as if they were own', () => {
    expect(checkTemplates(shipped, shipped, trials)).toEqual([]);
  });
  it('an own part that a page calls, by language', () => {
    const line = '<p>{{#if (same @root.language "de")}}Hinweis{{else}}Note{{/if}}</p>';
    expect(check(changed('page', '</main>', '{{> local/line}}</main>'), ['local/line', line])).toEqual([]);
  });
  it('another order', () => {
    expect(
      check(
        changed(
          'text',
          '{{#each callout}}\n{{notice this}}\n{{/each}}\n\n{{pairs strip}}',
          '{{pairs strip}}\n\n{{#each callout}}\n{{notice this}}\n{{/each}}',
        ),
      ),
    ).toEqual([]);
  });
  it.each(audiences)('a layout that adds, leads, names and orders sections, for %s', audience => {
    const [first = '', second = ''] = sectionsFor[audience];
    const layout = JSON.stringify({
      order: [second, 'house', first],
      titles: { [first]: { en: 'First of all', de: 'Zuerst' } },
      lead: { [second]: ['See the ward folder.'] },
      add: [{ key: 'house', title: 'House rules', after: first, text: ['One.', { list: ['a', 'b'] }] }],
    });
    expect(check([`${audience}.yaml`, layout])).toEqual([]);
  });
  it('a layout that leaves out what may be left out', () => {
    expect(check(['referrer.yaml', 'omit: [others]'], ['record.yaml', 'omit: [codes, worked]'])).toEqual([]);
  });
});

const formatsOf = (findings: ReturnType<typeof check>) =>
  new Set(findings.filter(f => f.code === 'template.drops').map(f => f.params['format']));

describe('a layout that drops a fact is refused in every format, the PDF among them', () => {
  it.each([
    ['laterality', 'referrer', 'done'],
    ['in-situ devices', 'ward', 'inside'],
    ['retained parts', 'ward', 'inside'],
    ['complications', 'record', 'complications'],
    ['allergies', 'record', 'before'],
    ['laterality', 'record', 'case'],
    ['aftercare', 'ward', 'you'],
    ['allergies', 'patient', 'know'],
    ['what was done', 'patient', 'done'],
    ['aftercare', 'patient', 'help'],
  ])('%s: %s without %s', (fact, audience, key) => {
    const findings = check([`${audience}.yaml`, `omit: [${key}]`]);
    expect(said(findings)).toContain(`template.drops ${audience}.yaml ${fact}`);
    for (const format of ['html', 'text', 'xhtml', 'pdf']) expect(formatsOf(findings)).toContain(format);
  });
});

describe('a layout that cannot be read is refused, with what was expected', () => {
  it.each([
    ['a slip in a key', 'omit: [insid]', /no section 'insid'; there are .*inside/],
    ['a slip in a field', 'ommit: [inside]', /ommit/],
    ['a title for nobody', 'titles: { nobody: x }', /no section 'nobody'/],
    ['a place for nobody', 'add: [{ key: a, title: A, after: b, text: [x] }]', /no section 'b'/],
    ['a key twice', 'add: [{ key: inside, title: A, text: [x] }]', /'inside' already/],
    ['no text', 'add: [{ key: a, title: A, text: [] }]', /add\.0\.text/],
    ['broken YAML', 'omit: [', /does not work/],
    ['aliases', 'omit: &a [others]\norder: *a', /does not work/],
    ['a list', '[omit]', /does not work/],
  ])('%s', (_, layout, why) => {
    const [one] = check(['ward.yaml', layout]);
    expect(one).toMatchObject({ code: 'template.broken', path: 'ward.yaml' });
    expect(one?.params['why']).toMatch(why);
  });
  it.each(['wards.yaml', 'ward.yml', 'ward.json', 'own/ward.yaml'])('a name for no reader: %s', name => {
    expect(check([name, 'omit: []'])[0]?.params['why']).toMatch(/named after its reader: record\.yaml/);
  });
  it('a template of an earlier release says how to move on', () => {
    const [one] = check(['ward/more/text', '{{heading "House rules"}}']);
    expect(one).toMatchObject({ code: 'template.broken', path: 'ward/more/text.hbs' });
    expect(one?.params['why']).toMatch(/into ward\.yaml/);
  });
});

describe('a template that drops a fact is refused, with its file', () => {
  it.each([
    ['patient identity', changed('parts/head', '<strong>{{value}}</strong>', '')],
    ['patient identity', changed('parts/head', '{{else}}{{value}}', '{{else}}')],
    ['status', changed('text', '{{pairs strip}}', '')],
    ['status', changed('parts/head', '{{this}}', '')],
    [
      'laterality',
      changed('parts/facts', '{{#each facts}}', '{{#each facts}}{{#unless (same key "side")}}').map(
        (text, i) => (i === 0 ? text : text.replace('{{/each}}', '{{/unless}}{{/each}}')),
      ) as [string, string],
    ],
    [
      'in-situ devices',
      changed('text', '{{node this}}', '{{#unless (same kind "table")}}{{node this}}{{/unless}}'),
    ],
    ['in-situ devices', changed('parts/list', '{{> parts/named}}', '{{#if alert}}{{> parts/named}}{{/if}}')],
    [
      'retained parts',
      changed('parts/table', '{{> parts/named}}', '{{#unless ../alert}}{{> parts/named}}{{/unless}}'),
    ],
    [
      'complications',
      changed('parts/section', '<h2>', '{{#if (same key "complications")}}{{else}}<h2>').map((text, i) =>
        i === 0 ? text : text.replace('</div>', '{{/if}}</div>'),
      ) as [string, string],
    ],
    ['allergies', changed('parts/facts', '{{#if said}}{{> parts/lines}}', '{{#if said}}')],
    [
      'allergies',
      changed('text', '{{node this}}', '{{#unless (same kind "paragraph")}}{{node this}}{{/unless}}'),
    ],
    [
      'aftercare',
      changed(
        'parts/table',
        '{{#each cells}}<td{{#if @root.onScreen}} data-label="{{label}}"{{/if}}>{{> parts/lines}}</td>{{/each}}',
        '',
      ),
    ],
    ['caution', ['parts/caution', '<p>{{title}}</p>'] as const],
    ['caution', changed('text', '{{para this}}', '')],
  ])('%s', (fact, own) => {
    expect(said(check(own))).toContain(`template.drops ${own[0]}.hbs ${fact}`);
  });

  it.each([
    ['in a comment', changed('parts/section', '{{> (node this)}}', '<!-- {{> (node this)}} -->')],
    [
      'for screen readers only',
      changed('parts/section', '{{> (node this)}}', '<div class="quiet">{{> (node this)}}</div>'),
    ],
  ])('printed %s, where nobody sees it', (_, own) => {
    expect(said(check(own))).toContain('template.drops parts/section.hbs in-situ devices');
  });
  it('a value without its label says nothing', () => {
    const own = changed('parts/facts', '{{label}}', '');
    expect(said(check(own))).toContain('template.drops parts/facts.hbs complications');
  });
  it('names only the file that does it', () => {
    const findings = check(['ward.yaml', 'omit: [done]'], ['referrer.yaml', 'titles: { done: Done }']);
    expect(new Set(findings.map(f => f.path))).toEqual(new Set(['ward.yaml']));
  });
});

describe('a template that lets text out, or other things in, is refused', () => {
  it.each([
    ['three braces', 'template.broken', '<p>{{{title}}}</p>'],
    ['three braces around a tilde', 'template.broken', '<p>{{~{title}~}}</p>'],
    ['an ampersand', 'template.broken', '<p>{{&title}}</p>'],
    ['a partial named by the record', 'template.broken', '{{> (lookup this "title")}}'],
    ['a name that is not there', 'template.broken', '<p>{{surname}}</p>'],
    ['a SafeString of its own', 'template.broken', '<p>{{SafeString title}}</p>'],
    ['the constructor', 'template.broken', '<p>{{constructor.name}}</p>'],
    ['broken syntax', 'template.broken', '<p>{{#if title}}</p>'],
    ['markup that does not close', 'template.unsafe', '<p>{{title}}'],
    ['a script', 'template.unsafe', '<script>{{title}}</script>'],
    [
      'an image from outside',
      'template.unsafe',
      '<p><img src="https://x.example/a.png" alt=""/>{{title}}</p>',
    ],
    ['a handler', 'template.unsafe', '<p onclick="x()">{{title}}</p>'],
    ['a style of an element', 'template.unsafe', '<p style="color: red">{{title}}</p>'],
    ['hidden', 'template.unsafe', '<p hidden="">{{title}}</p>'],
    ['text in a class', 'template.unsafe', '<p class="{{title}}">x</p>'],
    ['a link', 'template.unsafe', '<p><a href="{{title}}">x</a></p>'],
    ['a refresh', 'template.unsafe', '<meta http-equiv="refresh" content="0"/>'],
    ['text in a style', 'template.unsafe', '<style>p::before { content: "{{title}}"; }</style>'],
    ['a style from outside', 'template.unsafe', '<style>@import "https://x.example/a.css";</style>'],
    ['a style that hides', 'template.unsafe', '<style>.caution { display: none }</style>'],
  ])('%s', (_, code, text) => {
    // The page alone: what FHIR narratives refuse is another rule, tried below.
    const own = changed('page', '</main>', `${text}</main>`);
    expect(said(check(own))).toContain(`${code} page.hbs`);
  });
  it.each([
    ['a link', '<a href="#x">x</a>'],
    ['a document type', '<!DOCTYPE div>'],
    ['CDATA', '<p><![CDATA[x]]></p>'],
    ['markup that does not close', '<p>'],
  ])('%s in a FHIR narrative', (_, text) => {
    const own: readonly [string, string] = ['xhtml', source('xhtml').replace('</div>', `${text}</div>`)];
    expect(said(check(own))).toContain('template.broken xhtml.hbs');
  });
  it('a page without its content policy', () => {
    const own = changed('page', "default-src 'none'; ", '');
    expect(said(check(own))).toContain('template.unsafe page.hbs');
  });
  it('text that a layout adds is text, whatever it says', () => {
    const hostile = JSON.stringify({
      add: [
        { key: 'x', title: '<b>{{title}}</b>', text: ['<script>alert(1)</script>', { list: ['&amp;'] }] },
      ],
    });
    expect(check(['ward.yaml', hostile])).toEqual([]);
  });
  it('lines that no plain text field holds', () => {
    expect(said(check(changed('text', '{{title title}}', '{{title title}}\n{{name}}')))).toContain(
      'template.unsafe text.hbs',
    );
  });
  it('a file that nothing calls is told of, and stops nothing', () => {
    const [one, ...more] = check(['parts/refferer', '<p>{{title}}</p>']);
    expect(one).toMatchObject({ code: 'template.unused', severity: 'warning', path: 'parts/refferer.hbs' });
    expect(more).toEqual([]);
  });
});

describe('marks', () => {
  it.each(audiences)(
    'an empty report for %s drops everything that is marked, a marked fact is found',
    audience => {
      const view = trials[0]?.view;
      if (!view) throw new Error('no case');
      const { marks } = markedDocument(documentOf(view, { audience }));
      expect(dropped('', marks)).toEqual([...new Set(marks.map(mark => mark.fact))]);
      expect(dropped(marks.map(({ label, token }) => `${label ?? ''}: ${token}`).join('\n'), marks)).toEqual(
        [],
      );
    },
  );
  it('of one label and another value do not pass for each other', () => {
    const marks = [{ token: 'Zq1z', label: 'Zq0z', fact: 'allergies' as const }];
    expect(dropped('Zq0z other words Zq1z', marks)).toEqual(['allergies']);
    expect(dropped('Zq11z', [{ token: 'Zq1z', fact: 'status' as const }])).toEqual(['status']);
  });
});

describe('casetally templates check', () => {
  const folderOf = (files: Readonly<Record<string, string>>) => {
    const folder = mkdtempSync(join(tmpdir(), 'casetally-templates-'));
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), text);
    }
    return folder;
  };
  const cli = async (...args: string[]) => {
    let out = '';
    let err = '';
    const output = {
      out: (text: string) => (out += text),
      err: (text: string) => (err += text),
      color: false,
    };
    const code = await run(args, output);
    return { code, out, err };
  };
  it('0 for a good folder, on every example', async () => {
    const folder = folderOf({ 'ward.yaml': 'add: [{ key: house, title: House rules, text: [One.] }]' });
    expect(await cli('templates', 'check', folder)).toMatchObject({
      code: 0,
      out: expect.stringContaining('no findings'),
    });
  });
  it('1 for a bad one, with file and reason', async () => {
    const folder = folderOf({ 'patient.yaml': 'omit: [help]' });
    const { code, out } = await cli('templates', 'check', folder, '--json');
    expect(code).toBe(1);
    expect(JSON.parse(out).findings).toContainEqual(
      expect.objectContaining({
        code: 'template.drops',
        path: 'patient.yaml',
        params: expect.objectContaining({ fact: 'aftercare', audience: 'patient', format: 'pdf' }),
      }),
    );
  });
  it('1 for a folder without templates, an error for none', async () => {
    expect(await cli('templates', 'check', folderOf({ 'read.me': '' }))).toMatchObject({ code: 1 });
    expect((await cli('templates', 'check', '/nowhere')).err).toMatch(/cannot be read/);
  });

  const site =
    'casetallySite: 1\nname: A\nnamespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11\norganization: { name: A }\nreport: { templates: own }\n';
  const file = new URL('../../../examples/liver-biopsy.yaml', import.meta.url).pathname;
  it("the site's configuration names the folder, and its reports are made with it", async () => {
    const layout = 'add: [{ key: house, title: House rules, text: [Sheets are kept for a year.] }]';
    const folder = folderOf({ 'site.yaml': site, 'own/ward.yaml': layout });
    const { out } = await cli('report', file, '--audience', 'ward', '--site', join(folder, 'site.yaml'));
    expect(out).toContain('House rules\n-----------\nSheets are kept for a year.\n');
    const made = mkdtempSync(join(tmpdir(), 'casetally-out-'));
    const prepared = await cli('prepare', file, '--out', made, '--site', join(folder, 'site.yaml'));
    expect(prepared.err).not.toMatch(/template/);
    const { readFileSync } = await import('node:fs');
    expect(readFileSync(join(made, 'ward.txt'), 'utf8')).toContain('House rules');
    expect(readFileSync(join(made, 'ward.html'), 'utf8')).toContain('<h2>House rules</h2>');
  });
  it('a folder for an earlier release stops the report, with what to do, and is not left out in silence', async () => {
    const folder = folderOf({ 'site.yaml': site, 'own/ward/more/text.hbs': '{{heading "House rules"}}\n' });
    const { code, err } = await cli('report', file, '--site', join(folder, 'site.yaml'));
    expect(code).not.toBe(0);
    expect(err).toMatch(/ward\/more\/text.*into ward\.yaml/);
    expect(err).not.toMatch(/\n +at /);
  });
});
