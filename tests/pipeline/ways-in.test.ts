import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { softwareVersion } from '../../src/cli/about.js';
import { exportItem } from '../../src/cli/commands/outbox/outbox.js';
import { send } from '../../src/cli/commands/send.js';
import { processDeps } from '../../src/cli/process.js';
import { MemoryOutbox } from '../../src/delivery/outbox/memory-outbox.js';
import {
  caseTools,
  destinationAt,
  openBytes,
  openSqliteOutbox,
  parseSite,
  prepareOpened,
  readPictures,
  sendCase,
  submitCase,
} from '../../src/index.js';
import { acceptCaseHandler } from '../../src/service/threads/case-handlers.js';
import { examplesFolder } from '../support/examples.js';
import { answerReads } from '../support/reads.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-ways-'));
afterAll(() => rmSync(folder, { recursive: true }));

// Nobody listens there: what is stored stays stored.
const address = 'http://127.0.0.1:4/fhir';
const siteText = `
casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Invented Hospital }
destinations:
  records: { url: "${address}", timeout: 2, references: { patient: include, encounter: include, order: include } }
routes: [{ to: records, kinds: [Biopsy] }]
`;
const siteFile = join(folder, 'site.yaml');
writeFileSync(siteFile, siteText);
const file = join(examplesFolder, 'liver-biopsy.yaml');
const bytes = readFileSync(file);

const site = parseSite(siteText).site;
if (!site) throw new Error('not a site');
const opened = { site, given: true, folder };
const process = processDeps(join(folder, 'process'));
const secrets = () => undefined;

async function byCommandLine(): Promise<string> {
  const text: string[] = [];
  const output = { out: (line: string) => void text.push(line), err: () => undefined, color: false };
  const data = join(folder, 'data');
  expect(await send(file, { site: siteFile, data, json: true }, output)).toBe(4);
  const { item } = JSON.parse(text.join(''));
  text.length = 0;
  await exportItem(item, { data }, output);
  return text.join('');
}

async function byService(): Promise<string> {
  const outbox = new MemoryOutbox(process.newId);
  const tools = await caseTools(opened, softwareVersion);
  const ports = { site: opened, tools, store: outbox, secrets, process };
  const sent = { record: bytes, previous: [], pictures: new Map(), sources: [] };
  expect((await acceptCaseHandler(sent, undefined, ports)).status).toBe(202);
  return (await outbox.list())[0]?.payload ?? '';
}

async function prepared(under = site) {
  const read = await openBytes(bytes, opened);
  const tools = await caseTools(opened, softwareVersion);
  const pictures = read.record && (await readPictures(read.record, examplesFolder));
  const own = { ...opened, ...(under && { site: under }) };
  return { read, made: prepareOpened(read, own, tools, { ...(pictures && { pictures }) }) };
}

async function byLibrary(): Promise<string> {
  const outbox = await openSqliteOutbox(join(folder, 'library', 'outbox.db'), process);
  const { read } = await prepared();
  const { sent } = await sendCase(
    { checked: read, site: opened.site, how: 'store' },
    { prepare: async own => (await prepared(own)).made, secrets, process, outbox: async () => outbox },
  );
  expect(sent.map(({ kind, destination, code }) => [kind, destination, code])).toEqual([
    ['stored', 'records', 0],
  ]);
  const [item] = await outbox.list();
  await outbox.close();
  return item?.payload ?? '';
}

async function bySubmitCase(): Promise<string> {
  const include = { patient: 'include', encounter: 'include', order: 'include' } as const;
  const references = { ...opened.site.references, ...include };
  const { made } = await prepared({ ...opened.site, references });
  const { destination } = destinationAt(address);
  if (!made || !destination) throw new Error('not prepared');
  let posted = '';
  const fetch: typeof globalThis.fetch = async (_url, init) => {
    if (init?.method === 'POST') posted = String(init.body);
    return new Response('', { status: 503 });
  };
  // A server that lets nobody search: nothing is compared, and the case is sent.
  answerReads(async () => new Response('', { status: 400 }));
  await submitCase(made, destination, { ...process, fetch, sleep: async () => undefined, clock: rushing() });
  vi.unstubAllGlobals();
  return posted;
}

/** A clock that passes a minute each time it is looked at, so that nothing waits for searches to catch up. */
function rushing(): () => number {
  let now = 0;
  return () => {
    now += 60_000;
    return now;
  };
}

describe('command line, service and library', () => {
  it('send the same bytes of the same case', async () => {
    const text = await byCommandLine();
    expect(JSON.parse(text).type).toBe('transaction');
    expect(await byService()).toBe(text);
    expect(await byLibrary()).toBe(text);
    expect(await bySubmitCase()).toBe(text);
  }, 240_000);

  it('store nothing when one destination of several cannot take the case', async () => {
    const outbox = new MemoryOutbox(process.newId);
    const { read } = await prepared();
    const two = {
      ...opened.site,
      routes: [{ to: 'records' }, { to: 'odd' }],
      destinations: {
        ...opened.site.destinations,
        odd: { ...records(), plainHttp: false, url: 'http://fhir.example.org' },
      },
    };
    const { sent, unusable } = await sendCase(
      { checked: read, site: two, how: 'store' },
      { prepare: async own => (await prepared(own)).made, secrets, process, outbox: async () => outbox },
    );
    expect(sent).toEqual([]);
    expect(unusable.map(f => f.code)).toEqual(['delivery.address-not-secure']);
    expect(await outbox.list()).toEqual([]);
  }, 120_000);
});

function records() {
  const found = opened.site.destinations['records'];
  if (!found) throw new Error('no such destination');
  return found;
}
