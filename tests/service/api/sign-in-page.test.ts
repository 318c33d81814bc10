import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { chromium, openTab, type Tab } from '../../support/browser.js';
import { type Running, startServe } from '../../support/serve.js';

/* `casetally serve` without a token and without a provider: a person opens the link that it prints, in Chromium. */

const folder = mkdtempSync(join(tmpdir(), 'sign-in-'));
const data = join(folder, 'data');
let service: Running;
let tab: Tab | undefined;
beforeAll(async () => {
  const site = join(folder, 'site.yaml');
  writeFileSync(
    site,
    `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
service: { work: { threads: 1 } }
`,
  );
  service = await startServe(['--site', site], { CASETALLY_DATA: data });
  if (chromium) tab = await openTab();
});
afterAll(async () => {
  await tab?.close();
  rmSync(folder, { recursive: true, force: true });
});

const links = () => service.log.flatMap(line => /http:\/\/\S+\/sign-in\/once#\S+/.exec(line) ?? []);
const look = async (name: string) => {
  if (!process.env['CASETALLY_LOOK'] || !tab) return;
  mkdirSync('out/look', { recursive: true });
  writeFileSync(`out/look/${name}.png`, await tab.picture());
};

it('prints a link on this machine alone, once it serves', async () => {
  expect((await fetch(`${service.url}/outbox`)).status).toBe(401);
  while (links().length === 0) await new Promise(resolve => setTimeout(resolve, 10));
  expect(links()).toEqual([expect.stringMatching(/^http:\/\/127\.0\.0\.1:\d+\/sign-in\/once#[\w-]{43}$/)]);
});

it.skipIf(!chromium)(
  'opens by its link, once; shows who is signed in; signs out and leaves nothing',
  async () => {
    if (!tab) throw new Error('no browser');
    await tab.go(`${service.url}/review`);
    await tab.until(`!document.querySelector('#sign-in').hidden`, 'a way in');
    expect(await tab.value(`document.querySelector('#token-row').hidden`)).toBe(true);
    await tab.go(`${service.url}/sign-in`);
    await tab.until(
      `document.querySelector('#said').textContent.includes('without a link')`,
      'what is missing',
    );
    await tab.click('#renew');
    await tab.until(`document.querySelector('#said').textContent.includes('was printed')`, 'another link');
    while (links().length < 2) await new Promise(resolve => setTimeout(resolve, 10));
    // The first was replaced.
    await tab.go(links()[0] ?? '');
    await tab.until(`document.activeElement?.id === 'name'`, 'the field');
    await tab.until(`location.hash === ''`, 'an address without the code');
    await tab.paste('Ana <b>Reyes</b>');
    await tab.press('Enter');
    await tab.until(`document.querySelector('#said').textContent.includes('used already')`, 'a refusal');
    await tab.go(links()[1] ?? '');
    await tab.until(`document.activeElement?.id === 'name'`, 'the field');
    expect((await tab.axe()).faults).toEqual([]);
    await look('sign-in');
    await tab.click('#in');
    await tab.until(`document.body.innerText.includes('Here: Ana <b>Reyes</b>')`, 'the cases');
    await tab.go(`${service.url}/review`);
    await tab.until(`document.querySelector('#person')?.textContent.includes('Ana')`, 'the name');
    expect(await tab.value(`document.querySelector('#person').textContent`)).toBe(
      'Signed in: Ana <b>Reyes</b> (name typed on this machine, not verified)',
    );
    expect(await tab.value('document.cookie')).toBe('');
    expect((await tab.axe()).faults).toEqual([]);
    await look('signed-in');
    await tab.click('#record');
    await tab.paste('casetally: 1');
    await tab.click('#check');
    await tab.until(`!document.querySelector('#results').hidden`, 'results without a token');
    await tab.click('#sign-out');
    await tab.until(`document.querySelector('#person').textContent === 'You are signed out.'`, 'signed out');
    expect(await tab.value(`document.body.textContent.includes('casetally: 1')`)).toBe(false);
    await look('signed-out');
    expect(await tab.value(`fetch('outbox').then(answer => answer.status)`)).toBe(401);
  },
);

it('stops while people are signed in, and its trail is sound', async () => {
  expect(await service.stop()).toBe(0);
  const said: string[] = [];
  const output = {
    out: (t: string) => void said.push(t),
    err: (t: string) => void said.push(t),
    color: false,
  };
  expect(await run(['audit', 'verify', '--data', data], output)).toBe(0);
  expect(said.join('')).toMatch(/^Sound: [1-9]/);
});
