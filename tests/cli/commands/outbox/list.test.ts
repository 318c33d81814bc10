import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { run } from '../../../../src/cli/program.js';
import { width } from '../../../../src/report/render/wrap.js';
import { startSandbox } from '../../../../src/service/sandbox/server.js';
import { examplesFolder } from '../../../support/examples.js';

/* The list of the outbox and what send says, as a person reads them: a server that takes cases, and one that is down. */

const folder = mkdtempSync(join(tmpdir(), 'casetally-list-'));
const data = join(folder, 'data');
const sandbox = await startSandbox();
afterAll(async () => {
  await sandbox.close();
  rmSync(folder, { recursive: true });
});

function siteFile(name: string, more = ''): string {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(
    path,
    `casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b31
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "${sandbox.baseUrl}", searchLag: 0 }
  archive: { url: "http://127.0.0.1:59999/fhir" }
${more}`,
  );
  return path;
}
const site = siteFile('site');
const frank = siteFile('frank', 'outbox: { initials: true }\n');

async function said(...args: string[]): Promise<{ code: number; text: string }> {
  const texts: string[] = [];
  const put = (text: string) => void texts.push(text);
  const output = { out: put, err: put, color: false, columns: args.includes('--narrow') ? 40 : 80 };
  const code = await run([...args.filter(arg => arg !== '--narrow'), '--data', data], output);
  return { code, text: texts.join('') };
}

const biopsy = join(examplesFolder, 'liver-biopsy.yaml');
let id = '';
beforeAll(async () => {
  const taken = await said('send', biopsy, '--to', 'records', '--site', site);
  expect(taken.code).toBe(0);
  // Verdict, then how many of which type: no id of a resource.
  expect(taken.text).toMatch(
    /^\S*examples\/liver-biopsy\.yaml: \d+ notes;\s+accepted by records\n\d+ created: 1 Patient, /,
  );
  expect(taken.text.match(/\d+ Device\b/g)).toHaveLength(1);
  const down = await said('send', biopsy, '--to', 'archive', '--site', site);
  expect(down.code).toBe(4);
  expect(down.text).toMatch(/not\s+delivered\s+to\s+archive\s+yet:\s+the\s+server\s+cannot\s+be\s+reached\n/);
  expect(down.text).toMatch(/Next: goes again at \d\d:\d\d/);
  [, id = ''] = /stored as ([\da-f-]{36})/.exec(down.text) ?? [];
});

it('names case, destination, state, age, reason and time, and nothing of the patient', async () => {
  const { code, text } = await said('outbox', 'list', '--site', site);
  expect(code).toBe(0);
  expect(text.split('\n')[0]).toBe('2 items: 1 waiting, 1 delivered');
  const flat = text.replace(/\s+/g, ' ');
  expect(flat).toMatch(/[\da-f]{8} HS-2024-0416-3 records delivered \d+ min accepted at \d\d:\d\d/);
  expect(flat).toMatch(/ HS-2024-0416-3 archive waiting \d+ min the server cannot .*goes again at/);
  expect(text).not.toMatch(/patient|\b\p{L}\.\p{L}\./u);
  expect(text.split('\n').filter(line => width(line) > 80)).toEqual([]);
});

it('shows initials where the site allows it, and there alone', async () => {
  expect((await said('outbox', 'list', '--site', frank)).text).toMatch(/ patient [\s\S]* (?:\p{L}\.){2,3} /u);
  expect((await said('outbox', 'list')).text).not.toMatch(/ (?:\p{L}\.){2,3} /u);
});

it('is read at 40 columns', async () => {
  const { text } = await said('outbox', 'list', '--narrow');
  expect(text.split('\n').filter(line => width(line) > 40)).toEqual([]);
  expect(text).toMatch(/^ {2}state: waiting$/m);
});

it('takes the beginning of an id that it shows, and says where several have it', async () => {
  const { code, text } = await said('outbox', 'show', id.slice(0, 8));
  expect([code, text]).toEqual([0, expect.stringMatching(new RegExp(`^id +${id}\\n`))]);
  expect(text).toMatch(/^reason +the server cannot be reached\nnext +goes again at/m);
  expect((await said('outbox', 'show', id.slice(0, 3))).code).toBe(2);
  expect((await said('outbox', 'show', '00000000')).text).toContain('the outbox has no item 00000000');
});

it('gives programs the words that they had', async () => {
  const items = JSON.parse((await said('outbox', 'list', '--json')).text);
  expect(Object.keys(items[1])).toEqual(
    'id destination state created attempts unknown reason digest next nextAt'.split(' '),
  );
  expect(items[1]).toMatchObject({ reason: 'not-connected', state: 'waiting', id });
  const receipt = JSON.parse((await said('outbox', 'receipt', items[0].id, '--json')).text);
  expect(receipt.entries[0]).toMatchObject({ type: expect.any(String), id: expect.any(String), status: 201 });
  const sent = JSON.parse((await said('send', biopsy, '--to', 'records', '--site', site, '--json')).text);
  expect(sent).toMatchObject({ state: 'delivered', destination: 'records', reason: 'accepted' });
  expect(sent.receipt.entries.length).toBeGreaterThan(10);
});
