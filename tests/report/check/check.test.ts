import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { checkTemplates } from '../../../src/report/check/check.js';
import { dropped, markedView } from '../../../src/report/check/marks.js';
import { audiences } from '../../../src/report/options.js';
import { loadSources } from '../../../src/report/render/load.js';
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
  it('an added section in both hands, by language, with an own partial', () => {
    const section = '<div class="section"><h2>Local</h2><p>{{title}}</p>{{> local/line}}</div>';
    const line = '<p>{{#if (same @root.language "de")}}Hinweis{{else}}Note{{/if}}</p>';
    expect(
      check(['record/more', section], ['local/line', line], ['ward/more/text', '{{heading "Local"}}']),
    ).toEqual([]);
  });
  it('another order', () => {
    expect(
      check(changed('referrer/body', 'facts.side facts.caseStatus', 'facts.caseStatus facts.side')),
    ).toEqual([]);
  });
});

describe('a template that drops a fact is refused, with its file', () => {
  it.each([
    ['patient identity', changed('shared/markup/header', '{{identity.name}}', '')],
    ['patient identity', changed('patient/header', '{{identity.birthDate}}', '')],
    ['status', changed('shared/text/header', 'facts.status ', '')],
    ['status', changed('shared/markup/header', '{{this}}', '')],
    ['laterality', changed('referrer/body', 'facts.side ', '')],
    ['in-situ devices', changed('ward/text', '{{> shared/text/inside}}', '')],
    [
      'in-situ devices',
      changed(
        'patient/body',
        '{{#each patient.inside}}',
        '{{#each patient.next}}{{/each}}{{#each patient.inside}}{{#if alert}}{{lookup lines 0}}{{/if}}{{/each}}{{#each (lookup patient "none")}}',
      ),
    ],
    [
      'retained parts',
      changed('shared/markup/inside', '{{{name}}'.slice(1), '{{#unless alert}}{{name}}{{/unless}}'),
    ],
    ['complications', changed('ward/body', ' facts.complications', '')],
    ['allergies', changed('referrer/text', 'facts.allergies ', '')],
    ['allergies', changed('patient/text', '{{#each patient.know}}\n{{para this}}', '{{#each patient.know}}')],
    [
      'aftercare',
      changed(
        'record/body',
        '{{> shared/markup/section}}',
        '{{#unless (same key "aftercare")}}{{> shared/markup/section}}{{/unless}}',
      ),
    ],
    ['aftercare', changed('shared/markup/tasks', '{{#each call}}<br/>{{this}}{{/each}}', '')],
    ['caution', ['shared/markup/caution', '<p>{{title}}</p>'] as const],
    ['caution', changed('shared/text/caution', '{{para this}}', '')],
  ])('%s', (fact, own) => {
    expect(said(check(own))).toContain(`template.drops ${own[0]}.hbs ${fact}`);
  });

  it.each([
    [
      'in a comment',
      changed('ward/body', '{{> shared/markup/inside}}', '<!-- {{> shared/markup/inside}} -->'),
    ],
    [
      'for screen readers only',
      changed(
        'ward/body',
        '{{> shared/markup/inside}}',
        '<div class="quiet">{{> shared/markup/inside}}</div>',
      ),
    ],
  ])('printed %s, where nobody sees it', (_, own) => {
    expect(said(check(own))).toContain('template.drops ward/body.hbs in-situ devices');
  });
  it('a value without its label says nothing', () => {
    const own = changed('referrer/body', ' facts.complications', '');
    const bare = `${own[1]}<p>{{#each facts.complications.lines}}{{this}} {{/each}}</p>`;
    expect(said(check([own[0], bare]))).toContain('template.drops referrer/body.hbs complications');
  });
  it('names only the file that does it', () => {
    const findings = check(changed('ward/body', ' facts.complications', ''), [
      'record/more',
      '<p>{{title}}</p>',
    ]);
    expect(new Set(findings.map(f => f.path))).toEqual(new Set(['ward/body.hbs']));
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
    const own = changed('ward/html', '{{> ward/body}}', `{{> ward/body}}${text}`);
    expect(said(check(own))).toContain(`${code} ward/html.hbs`);
  });
  it.each([
    ['a link', '<a href="#x">x</a>'],
    ['a document type', '<!DOCTYPE div>'],
    ['CDATA', '<p><![CDATA[x]]></p>'],
    ['markup that does not close', '<p>'],
  ])('%s in a FHIR narrative', (_, text) => {
    const own: readonly [string, string] = [
      'referrer/xhtml',
      source('referrer/xhtml').replace('</div>', `${text}</div>`),
    ];
    expect(said(check(own))).toContain('template.broken referrer/xhtml.hbs');
  });
  it('a page without its content policy', () => {
    const own = changed('shared/page/page', "default-src 'none'; ", '');
    expect(said(check(own))).toContain('template.unsafe shared/page/page.hbs');
  });
  it('lines that no plain text field holds', () => {
    expect(said(check(['ward/more/text', '{{caseId}}']))).toContain('template.unsafe ward/more/text.hbs');
  });
  it('a file that nothing calls is told of, and stops nothing', () => {
    const [one, ...more] = check(['refferer/body', '<p>{{title}}</p>']);
    expect(one).toMatchObject({ code: 'template.unused', severity: 'warning', path: 'refferer/body.hbs' });
    expect(more).toEqual([]);
  });
});

describe('marks', () => {
  it.each(audiences)(
    'an empty report for %s drops everything that is marked, a marked fact is found',
    audience => {
      const view = trials[0]?.view;
      if (!view) throw new Error('no case');
      const { marks } = markedView(view, audience);
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
    const folder = folderOf({ 'ward/more/text.hbs': '{{heading "House rules"}}' });
    expect(await cli('templates', 'check', folder)).toMatchObject({
      code: 0,
      out: expect.stringContaining('no findings'),
    });
  });
  it('1 for a bad one, with file and reason', async () => {
    const folder = folderOf({ 'patient/body.hbs': changed('patient/body', '{{patient.call}}', '')[1] });
    const { code, out } = await cli('templates', 'check', folder, '--json');
    expect(code).toBe(1);
    expect(JSON.parse(out).findings).toContainEqual(
      expect.objectContaining({
        code: 'template.drops',
        path: 'patient/body.hbs',
        params: expect.objectContaining({ fact: 'aftercare', audience: 'patient' }),
      }),
    );
  });
  it('1 for a folder without templates, an error for none', async () => {
    expect(await cli('templates', 'check', folderOf({ 'read.me': '' }))).toMatchObject({ code: 1 });
    expect((await cli('templates', 'check', '/nowhere')).err).toMatch(/cannot be read/);
  });
  it("the site's configuration names the folder, and its reports are made with it", async () => {
    const site =
      'casetallySite: 1\nname: A\nnamespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11\norganization: { name: A }\nreport: { templates: own }\n';
    const folder = folderOf({ 'site.yaml': site, 'own/ward/more/text.hbs': '{{heading "House rules"}}\n' });
    const file = new URL('../../../examples/liver-biopsy.yaml', import.meta.url).pathname;
    const { out } = await cli('report', file, '--audience', 'ward', '--site', join(folder, 'site.yaml'));
    expect(out).toContain('House rules\n-----------\n');
    const made = mkdtempSync(join(tmpdir(), 'casetally-out-'));
    const prepared = await cli('prepare', file, '--out', made, '--site', join(folder, 'site.yaml'));
    expect(prepared.err).not.toMatch(/template/);
    const { readFileSync } = await import('node:fs');
    expect(readFileSync(join(made, 'ward.txt'), 'utf8')).toContain('House rules');
  });
});
