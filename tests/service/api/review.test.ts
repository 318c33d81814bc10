import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAUTION } from '../../../src/cli/about.js';
import { chromium, openTab, type Tab } from '../../support/browser.js';
import { program } from '../../support/built.js';
import { exampleText } from '../../support/examples.js';
import { answerTo, type Running, startServe } from '../../support/serve.js';

/* The review page as a person uses it: served by `casetally serve`, worked by mouse and keyboard in Chromium. */

const root = join(import.meta.dirname, '..', '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'review-'));
const data = join(folder, 'data');
const site = join(folder, 'site.yaml');
const guarded = join(folder, 'guarded.yaml');
const TOKEN = 'a-token-of-the-tests-0123456789';
const REASON = 'A code of the procedure is not known here';

let refusing: Server;
let service: Running;

const capable = {
  resourceType: 'CapabilityStatement',
  status: 'active',
  date: '2024-01-01',
  kind: 'instance',
  fhirVersion: '4.0.1',
  format: ['json'],
  rest: [{ mode: 'server', interaction: [{ code: 'transaction' }] }],
};
const refusal = {
  resourceType: 'OperationOutcome',
  issue: [{ severity: 'error', code: 'business-rule', diagnostics: REASON }],
};

/** A destination that takes nothing, so that what is sent to it is parked. */
function startRefusing(): Promise<Server> {
  const server = createServer((request, response) => {
    request.resume();
    const asked = request.method === 'GET' && request.url?.startsWith('/fhir/metadata');
    const said = asked ? capable : refusal;
    response.writeHead(asked ? 200 : 422, {
      'content-type': 'application/fhir+json',
    });
    response.end(JSON.stringify(said));
  });
  return new Promise(resolve => server.listen(0, '127.0.0.1', () => resolve(server)));
}

const cli = (...args: string[]) =>
  promisify(execFile)(process.execPath, [program, ...args], {
    cwd: root,
    env: { ...process.env, CASETALLY_DATA: data },
  }).catch((error: { stdout: string; stderr: string }) => error);

beforeAll(async () => {
  refusing = await startRefusing();
  const text = `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "http://127.0.0.1:${(refusing.address() as AddressInfo).port}/fhir" }
  archive: { url: "http://127.0.0.1:9/fhir" }
`;
  // One thread: what it reads of fonts and definitions once serves all cases.
  writeFileSync(site, `${text}service: { work: { threads: 1 } }\n`);
  writeFileSync(guarded, `${text}service: { token: env:SERVICE_TOKEN, work: { threads: 1 } }\n`);
  service = await startServe(['--site', site, '--no-auth'], { CASETALLY_DATA: data });
});
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  refusing.close();
  rmSync(folder, { recursive: true, force: true });
});

const webFiles = readdirSync(join(root, 'web'));
const web = (name: string) => readFileSync(join(root, 'web', name), 'utf8');

describe('the files of the page', () => {
  it('are led to from the root in a browser, and only there', async () => {
    const browser = { accept: 'text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8' };
    const led = await answerTo(`${service.url}/`, browser);
    // This one keeps drafts, so that people begin with their cases.
    expect([led.status, led.headers.location]).toEqual([302, 'case']);
    expect((await answerTo(`${service.url}/`, { accept: '*/*' })).status).toBe(404);
    const below = await answerTo(`${service.url}/review/`, browser);
    expect([below.status, below.headers.location]).toEqual([302, '../review']);
  });

  it('come without a token, each with a policy of its own', async () => {
    const page = await answerTo(`${service.url}/review`);
    expect([page.status, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
    const policy = String(page.headers['content-security-policy']).split('; ');
    expect(policy).toEqual(
      expect.arrayContaining([
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "connect-src 'self'",
        "img-src 'self' data: blob:",
        "frame-ancestors 'none'",
        "form-action 'none'",
      ]),
    );
    expect(page.headers['x-frame-options']).toBe('DENY');
    const frame = await answerTo(`${service.url}/review/frame.html`);
    const framePolicy = String(frame.headers['content-security-policy']);
    expect(framePolicy).toContain("default-src 'none'; style-src 'unsafe-inline'; img-src data:;");
    expect(framePolicy).toMatch(/; sandbox allow-same-origin$/);
    expect(framePolicy).not.toContain('script');
    expect(frame.headers['x-frame-options']).toBe('SAMEORIGIN');
    for (const { headers } of [page, frame]) {
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['cache-control']).toBe('no-store');
      expect(headers['access-control-allow-origin']).toBeUndefined();
    }
  });

  it('are all there that the page names, with their types, and no others', async () => {
    const { body } = await answerTo(`${service.url}/review`);
    const named = [...body.matchAll(/(?:href|src)="review\/([^"]+)"/g)].map(([, name]) => name ?? '');
    expect(named).toContain('review.js');
    for (const name of new Set(named)) {
      const { status, headers } = await answerTo(`${service.url}/review/${name}`);
      const type = name.endsWith('.js') ? 'javascript' : name.endsWith('.css') ? 'css' : 'html';
      expect([name, status, headers['content-type']]).toEqual([name, 200, `text/${type}; charset=utf-8`]);
    }
    for (const name of [
      'review.html',
      'none.js',
      '..%2f..%2fpackage.json',
      '%2e%2e%2findex.js',
      'constructor',
    ])
      expect([name, (await answerTo(`${service.url}/review/${name}`)).status]).toEqual([name, 404]);
  });

  it('take nothing from outside, keep nothing, and never read a text as markup', () => {
    const scripts = webFiles.filter(name => name.endsWith('.ts'));
    expect(scripts.length).toBeGreaterThan(5);
    for (const name of scripts)
      expect(web(name), name).not.toMatch(
        /innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|localStorage|sessionStorage|indexedDB|document\.cookie|history\.|console\.|serviceWorker|from '[^.]/,
      );
    const addresses = webFiles
      .filter(name => /\.(html|css)$/.test(name))
      .flatMap(name => [...web(name).matchAll(/(?:https?:)?\/\/\w[^"'\s]*|url\(|@import/g)].map(String));
    expect(addresses).toEqual([]);
    expect(web('review.html')).not.toMatch(/<script(?![^>]*src=)|<style|\sstyle=|\son\w+=/);
  });

  it('state the caution in the words of all other results', async () => {
    const words = (await answerTo(`${service.url}/review`)).body.replace(/<[^>]+>/g, '').replace(/\s+/g, ' ');
    expect(words).toContain(CAUTION);
  });
});

/** Fills the record in as pasting does, and presses Check. */
async function check(tab: Tab, text: string): Promise<string> {
  await tab.value(`document.querySelector('#said').textContent = ''`);
  await tab.click('#record');
  await tab.value(`document.querySelector('#record').select()`);
  await tab.paste(text);
  await tab.click('#check');
  await tab.until(`/^(Checked|Not checked)/.test(document.querySelector('#said').textContent)`, 'an answer');
  return tab.value(`document.querySelector('#said').textContent`);
}

const text = (selector: string) => `document.querySelector(${JSON.stringify(selector)})?.innerText ?? ''`;
const posts = (tab: Tab, path: RegExp) =>
  tab.requests.filter(({ method, url }) => method === 'POST' && path.test(url));

// Skipped, and said so, where there is no Chromium.
describe.skipIf(chromium === undefined)('the page in a browser', () => {
  let tab: Tab;
  const open = async (url: string) => {
    tab = await openTab();
    await tab.size(1280, 900);
    await tab.go(`${url}/review`);
    await tab.until(`document.querySelector('#token-row') && location.pathname === '/review'`, 'the page');
    return tab;
  };
  const close = async () => {
    // No error of a script, no refusal by a policy, nothing that could not be loaded.
    expect(tab.complaints()).toEqual([]);
    await tab.close();
  };

  it('a mistaken case: every finding with its line, and no way to take it in', async () => {
    await open(service.url);
    expect((await tab.axe()).faults).toEqual([]);
    const mistaken = exampleText('mistaken.yaml');
    const { stdout } = await cli('check', 'examples/mistaken.yaml', '--json', '--site', site);
    const { findings } = JSON.parse(stdout) as {
      findings: { severity: string; line?: number; message: string }[];
    };
    const errors = findings.filter(({ severity }) => severity === 'error');
    expect(errors.length).toBeGreaterThan(20);

    expect(await check(tab, mistaken)).toContain(`${errors.length} errors`);
    const listed = await tab.value<{ words: string; line: string; message: string }[]>(
      `[...document.querySelectorAll('#finding-lists li')].map(li => ({
        words: li.querySelector('strong').innerText,
        line: li.querySelector('button')?.innerText ?? '',
        message: li.querySelectorAll('p')[1].innerText }))`,
    );
    const said = (severity: string, word: string) =>
      findings
        .filter(f => f.severity === severity)
        .map(f => ({ words: word, line: f.line === undefined ? '' : `Line ${f.line}`, message: f.message }));
    const inLines = [
      ...said('error', 'Error'),
      ...said('warning', 'Warning'),
      ...said('information', 'Information'),
    ];
    const sorted = (rows: typeof listed) => rows.map(row => JSON.stringify(row)).sort();
    expect(sorted(listed)).toEqual(sorted(inLines));
    // Here the worst for the patient comes first: what may have stayed inside, then slips of the keyboard.
    const at = (text: string) => listed.findIndex(({ message }) => message.includes(text));
    expect(at('no removal is recorded')).toBeGreaterThanOrEqual(0);
    expect(at('no removal is recorded')).toBeLessThan(at('is not a time'));
    expect(await tab.value(`document.querySelectorAll('#finding-lists li p:nth-of-type(3) b').length`)).toBe(
      findings.length,
    );
    expect(await tab.value(`document.querySelector('#take').disabled`)).toBe(true);
    expect(await tab.value(text('#take-why'))).toBe(`Not possible: the record has ${errors.length} errors.`);
    expect(await tab.value(text('#no-reports'))).toContain('no reports');
    expect(posts(tab, /\/cases(\?|$|\/prepare)/)).toEqual([]);
    expect(await tab.axe()).toMatchObject({
      faults: [],
      met: expect.arrayContaining(['color-contrast', 'label']),
    });

    const third = errors.find(({ message }) => message === listed[2]?.message);
    await tab.click('#finding-lists li:nth-child(3) button');
    const place = await tab.value<{ line: string; active: string; seen: boolean }>(`(() => {
      const field = document.querySelector('#record');
      const top = (${third?.line} - 1) * parseFloat(getComputedStyle(field).lineHeight) - field.scrollTop;
      return { line: field.value.slice(field.selectionStart, field.selectionEnd), active: document.activeElement.id,
        seen: top >= 0 && top < field.clientHeight };
    })()`);
    expect(place).toEqual({
      line: mistaken.split('\n')[(third?.line ?? 0) - 1],
      active: 'record',
      seen: true,
    });
    await close();
  });

  it('a good case: reports for each reader, then taken in once however often it is pressed', async () => {
    await open(service.url);
    expect(await check(tab, exampleText('coaxial-exchange-short-wire.yaml'))).toBe(
      'Checked: 0 errors, 1 warning, 4 notes.',
    );
    expect(await tab.value(text('#tally'))).toContain('wire180: 0.018 in guidewire, 180 cm');
    await tab.until(`document.querySelector('#tally img').naturalWidth > 500`, 'the timeline');
    expect(await tab.value(text('#care'))).toContain('Due Thursday 17 October 2024 (2 weeks after the case)');
    expect(await tab.value(text('#worked'))).toContain('CKD-EPI 2021');

    const inFrame = 'document.querySelector("#report").contentDocument';
    await tab.until(`${inFrame}.querySelector('h1')`, 'the report');
    expect(await tab.value(`${inFrame}.body.className`)).toContain('for-record');
    // The style of the report holds, and nothing runs in its frame.
    expect(await tab.value(`getComputedStyle(${inFrame}.querySelector('h2')).color`)).toBe('rgb(20, 72, 90)');
    expect(await tab.value(`document.querySelector('#report').sandbox.value`)).toBe('allow-same-origin');
    for (const reader of ['referrer', 'ward', 'patient']) {
      await tab.click(`#reader-${reader}`);
      await tab.until(`${inFrame}.body.classList.contains('for-${reader}')`, reader);
      expect(await tab.value(`document.querySelector('#save-html').download`)).toBe(`${reader}.html`);
      expect(await tab.value(`document.querySelector('#save-html').href`)).toMatch(/^blob:http/);
      expect(await tab.value(`document.querySelector('#report-text').value`)).toContain('Palmarola');
    }
    expect((await tab.axe()).faults).toEqual([]);

    expect(await tab.value(`document.querySelector('#confirm').hidden`)).toBe(true);
    await tab.click('#take');
    const asked = await tab.value<string>(text('#confirm'));
    expect(asked).toMatch(/records[\s\S]*archive[\s\S]*1 warning goes with it[\s\S]*85 cm too short/);
    // The two have no route, so that one must be chosen.
    await tab.click('#take-now');
    expect(await tab.value(text('#take-said'))).toBe('Choose where it goes.');
    expect(posts(tab, /\/cases(\?|$)/)).toEqual([]);
    await tab.click('#to-records');
    await tab.click('#take-now', 2);
    await tab.until(`document.querySelector('#items li')`, 'the item');
    await new Promise(resolve => setTimeout(resolve, 300));
    expect(posts(tab, /\/cases(\?|$)/)).toHaveLength(1);
    expect(await tab.value(`document.querySelectorAll('#items li').length`)).toBe(1);
    expect(await tab.value(text('#items'))).toContain('records: waiting to be sent');
    expect(await tab.value(`document.querySelector('#take').disabled`)).toBe(true);
    const listed = JSON.parse((await cli('outbox', 'list', '--json')).stdout) as { id: string }[];
    expect(listed).toHaveLength(1);
    expect(await tab.value(text('#items'))).toContain(listed[0]?.id);
    expect((await tab.axe()).faults).toEqual([]);

    // The destination refuses it: reason and remedy come by themselves.
    await cli('outbox', 'retry', String(listed[0]?.id), '--site', site);
    await tab.until(`/parked/.test(${text('#items')})`, 'that it was parked');
    expect(await tab.value(text('#items'))).toMatch(/Reason: [a-z][\s\S]*Remedy: [A-Z]/);
    expect(await tab.value(text('#items'))).toContain(REASON);
    expect(await tab.value(text('#items'))).not.toContain('not yet known');
    expect((await tab.axe()).faults).toEqual([]);
    await close();
  });

  it('a corrected case: the version before it goes with it, and another choice closes the way', async () => {
    await open(service.url);
    const choose = (id: string, name: string, content: string) =>
      tab.value(`(() => {
        const field = document.querySelector('#${id}');
        const files = new DataTransfer();
        files.items.add(new File([${JSON.stringify(content)}], ${JSON.stringify(name)}));
        field.files = files.files;
        field.dispatchEvent(new Event('change'));
      })()`);
    const said = () => tab.value<string>(text('#finding-lists'));
    const newer = exampleText('amended/version-2.yaml');
    await check(tab, newer);
    expect(await said()).toContain('which is not at hand');
    await tab.click('summary');
    await choose('previous', 'version-1.yaml', exampleText('amended/version-1.yaml'));
    expect(await tab.value(text('#chosen'))).toBe('Sent with the record: version-1.yaml.');
    expect(await tab.value(`document.querySelector('#stale').hidden`)).toBe(false);
    expect(await check(tab, newer)).toMatch(/^Checked: 0 errors/);
    expect(await said()).not.toContain('which is not at hand');
    expect(await tab.value(`document.querySelector('#take').disabled`)).toBe(false);
    expect((await tab.axe()).faults).toEqual([]);
    await tab.click('#alone');
    expect(await tab.value(text('#chosen'))).toBe('No files chosen.');
    expect(await tab.value(`document.querySelector('#take').disabled`)).toBe(true);
    await close();
  });

  it('only what was checked may leave: a change of the text closes the way', async () => {
    await open(service.url);
    await check(tab, exampleText('abscess-drain.yaml'));
    await tab.click('#take');
    await tab.click('#record');
    await tab.paste('# one line more\n');
    expect(await tab.value(`document.querySelector('#stale').hidden`)).toBe(false);
    expect(
      await tab.value(
        `[document.querySelector('#take').disabled, document.querySelector('#confirm').hidden]`,
      ),
    ).toEqual([true, true]);
    expect(await check(tab, exampleText('abscess-drain.yaml'))).toMatch(/^Checked: 0 errors/);
    expect(await tab.value(`document.querySelector('#stale').hidden`)).toBe(true);
    expect(await tab.value(`document.querySelector('#take').disabled`)).toBe(false);
    // No record at all is said so, and what stood there before goes.
    expect(await check(tab, '{ "a": ')).toMatch(/^Not checked/);
    expect(await tab.value(`document.querySelector('#results').hidden`)).toBe(true);
    expect(tab.complaints()).toEqual([expect.stringContaining('400')]);
    await close();
  });

  it('markup in a record stays text, in findings, tables and reports', async () => {
    await open(service.url);
    const attack = `<img src=x onerror="window.ran=1"><script>window.ran=1</script><b id=planted>`;
    const yaml = exampleText('abscess-drain.yaml')
      .replace(/kind: abscess drainage/, () => `kind: ${JSON.stringify(attack)}`)
      .replace(/ {2}urgency: urgent/, () => `  urgency: urgent\n  ${JSON.stringify(attack)}: 1`);
    expect(await check(tab, yaml)).toMatch(/^Checked: 1 error,/);
    expect(await tab.value(text('#finding-lists'))).toContain(
      '\'<img src=x onerror="window.ran=1"><script>window.ran=1</s',
    );
    const whole = exampleText('abscess-drain.yaml').replace(
      /(patient:[\s\S]*?\n {2}name: ).*/,
      (_, before: string) => `${before}${JSON.stringify(attack)}`,
    );
    expect(whole).toContain('planted');
    expect(await check(tab, whole)).toMatch(/^Checked: 0 errors/);
    const inFrame = 'document.querySelector("#report").contentDocument';
    await tab.until(`${inFrame}.body.innerText.includes('onerror')`, 'the report');
    for (const document of ['document', inFrame])
      expect(
        await tab.value(`${document}.querySelectorAll('script:not([src]), [onerror], #planted').length`),
      ).toBe(0);
    expect(await tab.value(`[typeof window.ran, typeof ${inFrame}.defaultView.ran]`)).toEqual([
      'undefined',
      'undefined',
    ]);
    await close();
  });

  it('the frame of the reports runs nothing and fetches nothing, whatever is put into it', async () => {
    await open(service.url);
    const inside = `document.querySelector('#report').contentDocument`;
    await tab.until(`${inside}.URL.includes('/review/frame.html')`, 'the frame');
    await tab.value(`(() => {
      const script = ${inside}.createElement('script');
      script.textContent = 'parent.ran = 1';
      const image = ${inside}.createElement('img');
      image.src = '/healthz?image';
      ${inside}.body.append(script, image);
    })()`);
    await new Promise(resolve => setTimeout(resolve, 300));
    expect(await tab.value('typeof window.ran')).toBe('undefined');
    expect(tab.complaints().join('\n')).toMatch(/script[\s\S]*img-src|img-src[\s\S]*script/);
    expect(service.log.filter(line => line.includes('"/healthz"'))).toEqual([]);
    await tab.close();
  });

  it('asks for the token where one is needed, and keeps it nowhere', async () => {
    const locked = await startServe(['--site', guarded], { CASETALLY_DATA: data, SERVICE_TOKEN: TOKEN });
    try {
      await open(locked.url);
      await tab.until(`!document.querySelector('#token-row').hidden`, 'the field for the token');
      expect((await tab.axe()).faults).toEqual([]);
      expect(await check(tab, exampleText('liver-biopsy.yaml'))).toBe(
        'Not checked. A bearer token is needed.',
      );
      expect(await tab.value('document.activeElement.id')).toBe('token');
      await tab.paste(`${TOKEN}`);
      expect(await check(tab, exampleText('liver-biopsy.yaml'))).toMatch(/^Checked: 0 errors/);
      expect(
        await tab.value(`indexedDB.databases().then(d => [localStorage.length, sessionStorage.length, document.cookie,
          history.state, d.length, location.search])`),
      ).toEqual([0, 0, '', null, 0, '']);
      expect(JSON.stringify(tab.requests)).not.toContain(TOKEN);
      await tab.go(`${locked.url}/review`);
      await tab.until(`!document.querySelector('#token-row').hidden`, 'the field for the token');
      expect(
        await tab.value(`[document.querySelector('#token').value, document.querySelector('#record').value]`),
      ).toEqual(['', '']);
      expect(new Set(tab.complaints().map(line => /\d{3}/.exec(line)?.[0]))).toEqual(new Set(['401']));
      await close();
    } finally {
      expect(await locked.stop()).toBe(0);
      expect(locked.log.join('\n')).not.toContain(TOKEN);
    }
  });

  it('works by keyboard alone, and at a width of 320 pixels without scrolling sideways', async () => {
    await open(service.url);
    await tab.size(320, 700);
    const focused = () => tab.value<string>(`document.activeElement.id || document.activeElement.tagName`);
    const order: string[] = [];
    while (order.at(-1) !== 'record' && order.length < 10) {
      await tab.press('Tab');
      order.push(await focused());
    }
    expect(order).toEqual(['file', 'record']);
    await tab.paste(exampleText('abscess-drain.yaml'));
    await tab.press('Tab');
    expect(await focused()).toBe('SUMMARY');
    await tab.press('Tab');
    expect(await focused()).toBe('check');
    // The ring around what has the focus can be seen: three pixels.
    expect(await tab.value(`getComputedStyle(document.activeElement).outlineWidth`)).toBe('3px');
    await tab.press('Enter');
    await tab.until(`document.querySelector('#said').textContent.startsWith('Checked')`, 'an answer');
    expect(await focused()).toBe('check');
    const passed: string[] = [];
    while (passed.at(-1) !== 'take' && passed.length < 150) {
      await tab.press('Tab');
      passed.push(await focused());
    }
    expect(
      passed.filter(id => ['reader-record', 'save-html', 'report', 'SUMMARY', 'take'].includes(id)),
    ).toEqual(['reader-record', 'save-html', 'report', 'SUMMARY', 'take']);
    await tab.press('Enter');
    expect(await focused()).toBe('confirm-heading');
    expect(await tab.value('document.documentElement.scrollWidth')).toBeLessThanOrEqual(320);
    // The answer to each press is in a region that is read out.
    expect(await tab.value(`[...document.querySelectorAll('#said, #take-said')].map(e => e.role)`)).toEqual([
      'status',
      'status',
    ]);
    expect((await tab.axe()).faults).toEqual([]);
    await close();
  });
});
