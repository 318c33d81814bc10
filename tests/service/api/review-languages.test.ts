import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Language, languageData, languages, textsOf } from '../../../src/findings/languages.js';
import { review, screen } from '../../../src/findings/words/en/review.js';
import { chromium, openTab, type Tab } from '../../support/browser.js';
import { exampleText } from '../../support/examples.js';
import { tokens } from '../../support/languages/english-left.js';
import { answerTo, type Running, startServe } from '../../support/serve.js';

/* The review page and the answers that it shows, in every language. The site of these tests is German. */

const root = join(import.meta.dirname, '..', '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'review-languages-'));
const site = join(folder, 'site.yaml');
const foreign = languages.filter(language => !language.startsWith('en'));
let service: Running;

beforeAll(async () => {
  writeFileSync(
    site,
    `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
language: de
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "http://127.0.0.1:9/fhir" }
  archive: { url: "http://127.0.0.1:9/fhir" }
service: { work: { threads: 1 } }
`,
  );
  service = await startServe(['--site', site, '--no-auth'], { CASETALLY_DATA: join(folder, 'data') });
});
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

const own = { ...review, ...screen };
const pageKeys = Object.keys(own) as (keyof typeof own)[];
const english = new Set(Object.values(own).flatMap(tokens));
const web = (name: string) => readFileSync(join(root, 'web', name), 'utf8');
const scripts = readdirSync(join(root, 'web'))
  .filter(name => name.endsWith('.ts'))
  .map(web);

/** Words of the page that are the same in English and in the language; read one by one. */
const alike: Readonly<Record<string, string>> = {
  de: 'html json jpeg png utf yaml javascript casetally check outbox work text person patient was serve link name browser minute stand',
  es: 'html json jpeg png utf yaml javascript casetally check outbox work error plan use serve',
  fr: 'html json jpeg png utf yaml javascript casetally check outbox work code date dates page destination destinations versions images patient service source plan configuration site moment serve minute minutes audit',
};

describe('the words of the page', () => {
  it('are in the catalogue, and nothing of the catalogue is unused', () => {
    const html = web('review.html') + web('frame.html') + web('sign-in.html');
    const named = [...html.matchAll(/\{\{((?:review|screen)\.[\w.-]+)\}\}/g)].map(([, key]) => key ?? '');
    expect(named.length).toBeGreaterThan(30);
    expect(named.filter(key => !Object.hasOwn(own, key))).toEqual([]);
    // What script or service puts in is named whole, or by its beginning.
    const service = ['api/page-words.ts', 'sign-in/pages.ts'].map(name =>
      readFileSync(join(root, 'src', 'service', name), 'utf8'),
    );
    const code = [...scripts, ...service].join('\n');
    const beginnings = [...code.matchAll(/`((?:screen|review)\.[\w.-]*)\$\{/g)].map(
      ([, begin]) => begin ?? '',
    );
    const unused = pageKeys.filter(
      key =>
        !named.includes(key) &&
        !code.includes(`'${key.replace(/\.(?:one|other)$/, '')}'`) &&
        !code.includes(`'${key}'`) &&
        !beginnings.some(begin => key.startsWith(begin) && !/\./.test(key.slice(begin.length))),
    );
    expect(unused).toEqual([]);
  });

  it('stand nowhere else: neither in the HTML nor in the scripts', () => {
    const text = (web('review.html') + web('sign-in.html'))
      .replace(/<!--[\s\S]*?-->|\{\{[\w.-]+\}\}/g, '')
      .replace(/<[^>]*>/g, ' ');
    expect(tokens(text)).toEqual(['casetally', 'casetally']);
    const told = [...web('review.html').matchAll(/\b(?:aria-label|title|alt|placeholder)="([^"]*)"/g)];
    expect(told.filter(([, said]) => !/^\{\{[\w.-]+\}\}$/.test(said ?? ''))).toEqual([]);
    // Two words beside each other in a text of the script; faults of the page itself aside, which nobody reads there.
    const sentences = scripts.flatMap(script =>
      [...script.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '').matchAll(/'([^'\n]*)'|`([^`\n]*)`/g)]
        .map(([, single, template]) => (single ?? template ?? '').replace(/\$\{.*/, ''))
        .filter(said => /\p{L}{2,}[ ,:]+\p{L}{2,}|\p{L}{3,}[:!?]$/u.test(said)),
    );
    expect(sentences.sort()).toEqual([
      'about:blank',
      // States of the tally, as programs read them.
      'removed with a part missing',
      'retained unintended',
      // A fault of the page itself.
      'the page has no ',
    ]);
  });

  it.each(foreign)('%s: every text is its own', language => {
    const texts = textsOf(language);
    const known = new Set(alike[language]?.split(' '));
    const left = pageKeys.flatMap(key =>
      tokens(texts[key] ?? '')
        .filter(word => english.has(word) && !known.has(word))
        .map(word => `${key}: ${word}`),
    );
    expect(left).toEqual([]);
    const places = (text: string) => [...text.matchAll(/\{\w+\}/g)].map(String).sort();
    for (const key of pageKeys) expect([key, places(texts[key] ?? '')]).toEqual([key, places(own[key])]);
  });
});

const post = async (path: string, body: string) => {
  const response = await fetch(`${service.url}/${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/yaml' },
    body,
  });
  // biome-ignore lint/suspicious/noExplicitAny: an answer as it came
  return { status: response.status, body: (await response.json()) as any };
};

describe('the answers in a language', () => {
  const text = exampleText('coaxial-exchange-short-wire.yaml');

  it('are said in it, beside what programs read, which no language changes', async () => {
    const [plain, german] = [await post('cases/check', text), await post('cases/check?language=de-AT', text)];
    const codes = (answer: typeof plain) => answer.body.findings.map((f: { code: string }) => f.code);
    expect(codes(german)).toEqual(codes(plain));
    const short = (answer: typeof plain) =>
      answer.body.findings.find((f: { severity: string }) => f.severity === 'warning').message;
    expect(short(plain)).toContain('too short');
    expect(short(german)).toContain('zu kurz');
    expect(plain.body.tally[0].said).toBeUndefined();
    expect(german.body.tally[0]).toMatchObject({
      state: plain.body.tally[0].state,
      said: { state: textsOf('de')[`state.${plain.body.tally[0].state}`] },
    });
    expect(german.body.aftercare[0].due).toEqual(plain.body.aftercare[0].due);
    expect(german.body.aftercare[0].said.when.join()).toContain('Oktober 2024');
    expect(german.body.calculations[0].what).not.toBe(plain.body.calculations[0].what);
  });

  it('have reports in it; a letter to the patient only where a clinician reviewed it', async () => {
    const spanish = await post('cases/prepare?language=es', text);
    expect(spanish.body.reports.ward.html).toContain('lang="es"');
    expect(spanish.body.reports.patient).toBeUndefined();
    const british = await post('cases/prepare?language=en-GB', text);
    expect(british.body.reports.patient.html).toContain('lang="en-GB"');
  });

  it('are refused where there is no such language', async () => {
    for (const path of ['cases/check', 'cases/prepare', 'cases'])
      expect((await post(`${path}?language=tlh`, text)).status).toBe(400);
    expect((await answerTo(`${service.url}/outbox/none?language=tlh`)).status).toBe(400);
  });

  it('are whole where a part of the record cannot be read', async () => {
    const broken = await post('cases/check?language=fr', exampleText('mistaken.yaml'));
    expect(broken.body.whole).toBe(false);
    expect(broken.body.tally.length).toBeGreaterThan(0);
    for (const { said } of broken.body.aftercare) expect(said.what).not.toBe('');
  });
});

describe('the page', () => {
  it('comes in the language of the site, else in the one that is asked for', async () => {
    const get = async (path: string) => answerTo(`${service.url}/${path}`);
    const asked: [string, Language][] = [
      ['review', 'de'],
      ['review?language=tlh', 'de'],
      ['review?language=fr-CH', 'fr'],
      ['review?language=es', 'es'],
      ['review?language=en', 'en-GB'],
      ['review/frame.html?language=es', 'es'],
    ];
    for (const [path, language] of asked) {
      const { status, headers, body } = await get(path);
      expect([path, status, headers['content-language']]).toEqual([path, 200, language]);
      expect(body).toContain(`<html lang="${language}"`);
      expect(body).not.toMatch(/\{\{|\{\w+\}(?![^"]*" \/>)/);
    }
    // Whoever reads it in another language than that of the report that leaves is told so.
    expect((await get('review?language=es')).body).toContain('Se muestra en Español');
    expect((await get('review')).body).not.toContain('Angezeigt auf');
    expect((await get('review')).body).toContain('keine Fachperson geprüft');
    expect((await get('review?language=en-GB')).body).not.toContain('No clinician');
  });

  it('stays small: 24 kB of HTML at most in any language, of which half are words', async () => {
    for (const language of languages) {
      const { body } = await answerTo(`${service.url}/review?language=${language}`);
      expect([language, Buffer.byteLength(body)]).toSatisfy(([, bytes]) => Number(bytes) < 24_000);
    }
  });
});

/** What the page says itself: not the words of findings, records and values, which tables and lists hold. */
const SAID = `(() => {
  const own = ['title', 'h1', 'h2', 'h3', 'label', 'legend', 'summary', 'button', 'caption', 'thead th', 'figcaption',
    'header p', '.hint:not(li .hint)', '.jump a:not(#languages a)', '#said', '#count', '#chosen', '#take-why', '#take-said', '#leaving',
    'li .head strong', 'li b', '.problem', '#confirm > div > p', '#no-report', '#stale', '#no-reports'];
  const texts = [...document.querySelectorAll(own.join())].map(e => e.textContent);
  const told = [...document.querySelectorAll('[aria-label], [title], [alt]')].flatMap(e =>
    ['aria-label', 'title', 'alt'].map(name => e.getAttribute(name) ?? ''));
  return [...texts, ...told].join('\\n');
})()`;

describe.skipIf(chromium === undefined).each(foreign)('the page in %s in a browser', language => {
  const said = async (tab: Tab) => {
    const known = new Set(alike[language]?.split(' '));
    const words = tokens((await tab.value<string>(SAID)).replace(/records|archive|[\w-]+\.yaml/g, ''));
    expect(words.length).toBeGreaterThan(100);
    return [...new Set(words.filter(word => english.has(word) && !known.has(word)))];
  };
  const check = async (tab: Tab, text: string) => {
    await tab.click('#record');
    await tab.value(`document.querySelector('#record').select()`);
    await tab.paste(text);
    await tab.click('#check');
    const { 'screen.checking': wait = '', 'screen.place': _, ...texts } = textsOf(language);
    const begin = (texts['screen.checked'] ?? '').split('{')[0] ?? '';
    await tab.until(
      `![${JSON.stringify(wait)}, ''].includes(document.querySelector('#said').textContent) && document.querySelector('#said').textContent.startsWith(${JSON.stringify(begin)})`,
      'an answer',
    );
  };

  it('says no English word of its own, and meets what the English one meets', async () => {
    const tab = await openTab();
    await tab.size(1280, 900);
    await tab.go(`${service.url}/review?language=${language}`);
    await tab.until(`document.querySelector('#place').textContent !== ''`, 'the page');
    expect(await tab.value('document.documentElement.lang')).toBe(language);
    expect(await said(tab)).toEqual([]);
    await check(tab, exampleText('mistaken.yaml'));
    expect(await said(tab)).toEqual([]);
    expect((await tab.axe()).faults).toEqual([]);
    await check(tab, exampleText('coaxial-exchange-short-wire.yaml'));
    await tab.until(`document.querySelector('#tally img').naturalWidth > 500`, 'the timeline');
    const inside = `document.querySelector('#report').contentDocument`;
    await tab.until(`${inside}.querySelector('h1')`, 'the report');
    expect(await tab.value(`${inside}.documentElement.lang`)).toBe(language);
    // Nobody reviewed these languages, so that there is no letter: the page says why.
    await tab.click('#reader-patient');
    expect(await tab.value(`document.querySelector('#no-report').checkVisibility()`)).toBe(true);
    expect(await tab.value(`document.querySelector('#save-html').checkVisibility()`)).toBe(false);
    await tab.click('#reader-ward');
    await tab.until(`${inside}.body.classList.contains('for-ward')`, 'the report for the ward');
    expect(await tab.value(`document.querySelector('#no-report').checkVisibility()`)).toBe(false);
    await tab.click('#take');
    expect(await said(tab)).toEqual([]);
    expect((await tab.axe()).faults).toEqual([]);
    await tab.size(320, 700);
    expect(await tab.value('document.documentElement.scrollWidth')).toBeLessThanOrEqual(320);
    if (process.env['CASETALLY_LOOK'] !== undefined) {
      const out = join(root, 'out', 'look', 'review');
      mkdirSync(out, { recursive: true });
      await tab.size(1280, 900);
      writeFileSync(join(out, `${language}.png`), await tab.picture());
    }
    expect(tab.complaints()).toEqual([]);
    await tab.close();
  });

  it('says before it goes that another language empties the page', async () => {
    const tab = await openTab();
    await tab.go(`${service.url}/review?language=${language}`);
    await tab.until(`document.querySelector('#place').textContent !== ''`, 'the page');
    const other = language === 'de' ? 'fr' : 'de';
    await tab.click('#record');
    await tab.paste('casetally: 1\n');
    await tab.click(`#languages a[hreflang="${other}"]`);
    expect(await tab.value('document.documentElement.lang')).toBe(language);
    expect(await tab.value(`document.querySelector('#leaving').textContent`)).toContain(
      languageData(other).name,
    );
    await tab.click(`#languages a[hreflang="${other}"]`);
    await tab.until(`document.documentElement?.lang === '${other}'`, 'the other language');
    await tab.close();
  });
});
