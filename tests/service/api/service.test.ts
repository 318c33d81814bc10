import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { goesTo } from '../../../src/pipeline/destinations.js';
import { parseCase } from '../../../src/record/parse.js';
import { parseSite } from '../../../src/site/parse.js';
import { examplesFolder } from '../../support/examples.js';
import { answerTo, type Running, startServe } from '../../support/serve.js';

/* The service as it is run: `casetally serve` in a process of its own, asked over HTTP; one thread, to be warm sooner. */

const TOKEN = 'a-token-of-the-tests-0123456789';
const folder = mkdtempSync(join(tmpdir(), 'service-'));
const siteText = `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "http://127.0.0.1:9/fhir" }
intake: { kits: kits }
service: { token: env:SERVICE_TOKEN, work: { threads: 1 } }
`;
const site = join(folder, 'site.yaml');
const caseText = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8');

const serve = (args: readonly string[], env: Record<string, string> = {}) =>
  startServe(args, { CASETALLY_DATA: join(folder, 'data'), ...env });

let service: Running;
beforeAll(async () => {
  writeFileSync(site, siteText);
  cpSync(join(examplesFolder, 'kits'), join(folder, 'kits'), { recursive: true });
  service = await serve(['--site', site], { SERVICE_TOKEN: TOKEN });
});
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

const ask = (path: string, init: RequestInit = {}, token: string | undefined = TOKEN) =>
  fetch(service.url + path, {
    ...init,
    headers: { ...(token && { authorization: `Bearer ${token}` }), ...init.headers },
  });
const post = (path: string, body: string, type = 'application/yaml') =>
  ask(path, { method: 'POST', body, headers: { 'content-type': type } });

describe('sources', () => {
  const source = {
    from: 'dose report',
    at: '2024-05-02T10:00:00Z',
    by: 'a.dcm',
    values: [{ path: ['radiation', 'peakSkinDose'], value: '1.10 Gy', as: 'set' }],
  };
  const parts = (...given: readonly (readonly [string, string])[]) => {
    const form = new FormData();
    for (const [name, text] of given) form.append(name, new Blob([text]), name);
    return form;
  };

  it('of kits and other programs are brought into the record that is sent, and nothing is kept', async () => {
    const body = parts(['case', caseText], ['source', JSON.stringify(source)]);
    const answer = await ask('/v1/intake/merge?kit=biopsy&kit=caval-filter', { method: 'POST', body });
    const merged = (await answer.json()) as { record: string; findings: { code: string }[]; set: unknown[] };
    expect(answer.status).toBe(200);
    expect(merged.record).toContain('  coaxial: { kind: coaxial needle');
    expect(merged.record).toContain('peakSkinDose: 1.10 Gy');
    expect(merged.findings.map(f => f.code)).toContain('intake.kit-other-kind');
    const again = await post('/intake/merge?kit=biopsy', merged.record);
    expect(((await again.json()) as { record: string }).record).toBe(merged.record);
  });

  it.each([
    ['a kit that there is not', '/intake/merge?kit=../site', caseText],
    ['an empty name', '/intake/merge?kit=', caseText],
    ['no record', '/intake/merge?kit=biopsy', 'x: ['],
  ])('%s is refused', async (_, path, body) => {
    expect((await post(path, body)).status).toBe(400);
  });

  it('that cannot be read are refused with their line, and so are sources elsewhere', async () => {
    const broken = parts(['case', caseText], ['source', '{"from":"rumour"}']);
    const answer = await ask('/intake/merge', { method: 'POST', body: broken });
    expect([answer.status, JSON.stringify(await answer.json())]).toEqual([
      400,
      expect.stringContaining('rumour'),
    ]);
    const elsewhere = parts(['case', caseText], ['source', JSON.stringify(source)]);
    expect((await ask('/cases/check', { method: 'POST', body: elsewhere })).status).toBe(400);
  });
});

describe('the service', () => {
  it('says that it is healthy without a token, and nothing else', async () => {
    const health = await ask('/healthz', {}, '');
    expect([health.status, await health.json()]).toEqual([200, { status: 'ok' }]);
    for (const path of ['/schema', '/destinations', '/outbox/x', '/cases/check', '/nothing']) {
      const answer = await ask(path, {}, '');
      expect(answer.status).toBe(401);
      expect(answer.headers.get('www-authenticate')).toBe('Bearer');
      expect(await answer.json()).toMatchObject({
        resourceType: 'OperationOutcome',
        issue: [{ code: 'login' }],
      });
    }
    expect((await ask('/schema', {}, `${TOKEN}x`)).status).toBe(401);
  });

  it('sends headers that keep answers from being run, framed, guessed or kept', async () => {
    const { headers } = await ask('/healthz');
    expect(headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('cache-control')).toBe('no-store');
    expect(headers.get('x-powered-by')).toBeNull();
    expect(headers.get('access-control-allow-origin')).toBeNull();
    expect(headers.get('content-type')).toMatch(/^application\/json/);
  });

  it('takes in a case that was entered as a draft', async () => {
    const yaml = { 'content-type': 'application/yaml', 'casetally-by': 'Ana%20Reyes' };
    const begun = await ask('/v1/drafts', { method: 'POST', body: caseText, headers: yaml });
    const { id } = (await begun.json()) as { id: string };
    const take = (version: number, to = 'records') =>
      ask(`/v1/drafts/${id}/take-in?to=${to}`, {
        method: 'POST',
        body: '{"by":"Ana Reyes"}',
        headers: { 'content-type': 'application/json', 'if-match': `"${version}"` },
      });
    expect((await take(1, 'nowhere')).status).toBe(400);
    const taken = await take(3);
    expect([taken.status, taken.headers.get('etag')]).toEqual([202, '"5"']);
    const { items } = (await taken.json()) as { items: { id: string; state: string }[] };
    expect(items).toMatchObject([{ state: 'waiting' }]);
    const draft = (await (await ask(`/v1/drafts/${id}`)).json()) as { state: string };
    expect(draft.state).toBe('taken-in');
  });

  it('says where each thing of a case is that is still entered', async () => {
    const begun = caseText.slice(0, caseText.indexOf('  - { at: "11:29"'));
    const answer = await post('/v1/cases/trays', begun);
    const { placed } = (await answer.json()) as { placed: { device: string; tray: string }[] };
    expect(placed.filter(({ tray }) => tray === 'in the patient').map(({ device }) => device)).toEqual([
      'wire',
      'drain',
    ]);
    expect((await post('/cases/trays', 'devices: 3\n')).status).toBe(422);
  });

  it('checks a case', async () => {
    const answer = await post('/cases/check', caseText);
    const body = (await answer.json()) as {
      whole: boolean;
      findings: { severity: string }[];
      tally: unknown[];
    };
    expect([answer.status, body.whole]).toEqual([200, true]);
    expect(body.findings.filter(f => f.severity === 'error')).toEqual([]);
    expect(body.tally.length).toBeGreaterThan(3);
  });

  it('prepares a case: document with the digits as recorded, and a report for each reader', async () => {
    const answer = await post('/cases/prepare', caseText, 'text/plain');
    const text = await answer.text();
    const body = JSON.parse(text);
    expect(answer.status).toBe(200);
    expect(body).toMatchObject({
      sendable: true,
      document: { resourceType: 'Bundle', type: 'document' },
      submission: { type: 'transaction' },
    });
    expect(body.goesTo).toEqual(['records']);
    expect(body.timeline).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
    expect(Object.keys(body.reports).sort()).toEqual(['patient', 'record', 'referrer', 'ward']);
    // The filter case records 64.0 Gy·cm2; a parse and a second writing would drop the closing zero.
    const filter = readFileSync(join(examplesFolder, 'caval-filter-retrieval-failed.yaml'), 'utf8');
    expect(filter).toContain('64.0 Gy·cm2');
    expect(await (await post('/cases/prepare', filter)).text()).toMatch(/"value": ?64\.0\b/);
  });

  it('gives no bundle and no letter while an error stands, and other reports only as drafts', async () => {
    const wrong = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8').replace(
      /.*do: remove, device: wire.*\n/,
      '',
    );
    const asked = async (query: string) => {
      const answer = await post(`/cases/prepare${query}`, wrong);
      return {
        status: answer.status,
        body: (await answer.json()) as { reports?: Record<string, { text: string }> },
      };
    };
    const plain = await asked('');
    expect(plain).toMatchObject({ status: 200, body: { sendable: false, reports: {} } });
    expect(plain.body).not.toHaveProperty('document');
    const draft = await asked('?draft=yes');
    expect(Object.keys(draft.body.reports ?? {}).sort()).toEqual(['record', 'referrer', 'ward']);
    expect(draft.body.reports?.['ward']?.text).toContain('DRAFT, NOT THE RECORD');
    expect((await asked('?audience=patient&draft=yes')).status).toBe(422);
    expect((await asked('?audience=ward')).status).toBe(422);
    expect((await asked('?audience=press')).status).toBe(400);
  });

  it('says that a case came without its pictures, and goes on', async () => {
    const withPicture = readFileSync(join(examplesFolder, 'pictures', 'drain-check.yaml'), 'utf8');
    const line = 1 + withPicture.split('\n').findIndex(text => text.includes('file: check.png'));
    const told = {
      code: 'picture.not-given',
      severity: 'warning',
      path: 'images[0].file',
      line,
      params: { file: 'check.png' },
    };
    const answer = await post('/cases/prepare', withPicture);
    const body = (await answer.json()) as { findings: object[]; reports: { record: { html: string } } };
    expect(answer.status).toBe(200);
    expect(body).toMatchObject({
      sendable: true,
      findings: expect.arrayContaining([expect.objectContaining(told)]),
    });
    expect(body.reports.record.html).toContain('File check.png');
    expect(body.reports.record.html).not.toContain('<img');
    const taken = await post('/cases?to=records', withPicture);
    expect(taken.status).toBe(202);
    expect(await taken.json()).toMatchObject({
      findings: expect.arrayContaining([expect.objectContaining(told)]),
    });
  });

  it('takes a case in once, durably, and tells where it stands', async () => {
    const first = await post('/cases?to=records', caseText);
    expect([first.status, first.status === 202 ? '' : await first.text()]).toEqual([202, '']);
    const { items } = (await first.json()) as { items: { id: string; state: string; destination: string }[] };
    expect(items).toMatchObject([{ state: 'waiting', destination: 'records' }]);
    expect(first.headers.get('location')).toBe(`/outbox/${items[0]!.id}`);
    const again = (await (await post('/cases', caseText)).json()) as { items: { id: string }[] };
    expect(again.items[0]!.id).toBe(items[0]!.id);
    const shown = await ask(`/outbox/${items[0]!.id}`);
    const text = await shown.text();
    expect(JSON.parse(text)).toMatchObject({ id: items[0]!.id, state: 'waiting', attempts: 0 });
    expect(text).not.toContain('resourceType');
    expect((await ask('/outbox/no-such')).status).toBe(404);
  });

  it('lists the outbox by state, and says where there is no receipt', async () => {
    const taken = await post('/v1/cases?to=records', caseText);
    expect(taken.status).toBe(202);
    const { items } = (await taken.json()) as { items: { id: string }[] };
    const id = items[0]!.id;
    const listed = async (query: string) => {
      const answer = await ask(`/outbox${query}`);
      const text = await answer.text();
      expect([answer.status, text.includes('resourceType')]).toEqual([200, false]);
      return JSON.parse(text) as { items: { id: string; state: string }[]; more: boolean };
    };
    const all = await listed('');
    expect(all.more).toBe(false);
    expect(all.items.map(item => item.id)).toContain(id);
    expect((await listed('?state=waiting')).items.map(item => item.id)).toContain(id);
    expect((await listed('?state=delivered')).items).toEqual([]);
    expect((await ask('/outbox?state=lost')).status).toBe(400);
    expect((await ask('/outbox?state=waiting&state=parked')).status).toBe(400);
    const receipt = await ask(`/outbox/${id}/receipt`);
    expect(receipt.status).toBe(404);
    expect(await receipt.text()).toContain('is waiting and has no receipt');
    expect((await ask('/outbox/no-such/receipt')).status).toBe(404);
    expect((await ask('/outbox', { method: 'POST' })).status).toBe(405);
  });

  it('answers under a versioned address as under the present one, and asks for the token there too', async () => {
    for (const path of ['/schema', '/destinations', '/outbox', '/outbox/no-such', '/healthz', '/cases']) {
      const [versioned, present] = await Promise.all([ask(`/v1${path}`), ask(path)]);
      expect(versioned.status).toBe(present.status);
      expect(await versioned.text()).toBe(await present.text());
      expect((await ask(`/v1${path}`, {}, '')).status).toBe(path === '/healthz' ? 200 : 401);
    }
    expect((await post('/v1/cases/check', caseText)).status).toBe(200);
    for (const path of ['/v1', '/v1/', '/v2/schema', '/v1/v1/schema', '/v1/schemas', '/v1/review'])
      expect((await ask(path)).status).toBe(404);
  });

  describe('in parts', () => {
    const text = (...path: string[]) => readFileSync(join(examplesFolder, ...path), 'utf8');
    const parts = (files: readonly (readonly [string, string | Uint8Array<ArrayBuffer>, string?])[]) => {
      const form = new FormData();
      for (const [name, content, file = 'file'] of files) form.append(name, new Blob([content]), file);
      return form;
    };
    const send = (path: string, form: FormData) => ask(path, { method: 'POST', body: form });
    const [older, newer] = [text('amended', 'version-1.yaml'), text('amended', 'version-2.yaml')];

    it('takes a corrected case with the version before it, as the command line does', async () => {
      const alone = (await (await post('/cases/prepare', newer)).json()) as { findings: { code: string }[] };
      expect(alone.findings.map(f => f.code)).toContain('correction.earlier-not-given');
      const answer = await send(
        '/cases/prepare',
        parts([
          ['case', newer],
          ['previous', older],
        ]),
      );
      expect(answer.status).toBe(200);
      const body = (await answer.json()) as { findings: { code: string }[]; submission: unknown };
      expect(body.findings.map(f => f.code)).not.toContain('correction.earlier-not-given');
      const out = join(folder, 'amended');
      const said: string[] = [];
      const take = (words: string) => void said.push(words);
      const files = ['version-2.yaml', 'version-1.yaml'].map(name => join(examplesFolder, 'amended', name));
      const code = await run(
        ['prepare', files[0] ?? '', '--previous', files[1] ?? '', '--site', site, '--out', out],
        { out: take, err: take, color: false },
      );
      expect([code, said.join('')]).toEqual([0, expect.any(String)]);
      // One case, whichever way it came: the bytes that leave are the same.
      expect(body.submission).toEqual(JSON.parse(readFileSync(join(out, 'submission.json'), 'utf8')));
      expect(
        (
          await send(
            '/cases?to=records',
            parts([
              ['case', newer],
              ['previous', older],
            ]),
          )
        ).status,
      ).toBe(202);
    });

    it('refuses a case whose earlier version cannot be read as a whole', async () => {
      const broken = older.replace('casetally: 1', 'casetally: 1\nhobby: chess');
      const answer = await send(
        '/cases/prepare',
        parts([
          ['case', newer],
          ['previous', broken],
        ]),
      );
      expect(answer.status).toBe(422);
      expect(await answer.json()).toMatchObject({
        issue: [{ details: { text: expect.stringContaining('earlier version') } }, {}],
        findings: [{ code: 'record.unknown-key', path: 'hobby' }],
      });
    });

    it('shows the pictures that came with the case', async () => {
      const form = parts([
        ['case', text('pictures', 'drain-check.yaml')],
        ['picture', new Uint8Array(readFileSync(join(examplesFolder, 'pictures', 'check.png'))), 'check.png'],
      ]);
      const body = (await (await send('/cases/prepare', form)).json()) as {
        findings: { code: string }[];
        reports: { record: { html: string } };
      };
      expect(body.reports.record.html).toContain('src="data:image/jpeg;base64,');
      expect(body.findings.filter(f => f.code.startsWith('picture.'))).toEqual([]);
      const other = parts([
        ['case', text('pictures', 'drain-check.yaml')],
        ['picture', 'no picture', 'check.png'],
      ]);
      expect(await (await send('/cases/prepare', other)).json()).toMatchObject({
        sendable: true,
        findings: expect.arrayContaining([expect.objectContaining({ code: 'picture.wrong-type' })]),
      });
    });

    it('proposes the events of lines, and keeps nothing', async () => {
      const lines = '12:40 drain flushed with 10 of saline\r\nwibble\r\n';
      const answer = await send(
        '/cases/events',
        parts([
          ['case', newer],
          ['lines', lines],
        ]),
      );
      const body = (await answer.json()) as {
        readings: { certainty: string; events: object[] }[];
        contribution: { from: string; values: { as: string }[] };
      };
      expect(answer.status).toBe(200);
      expect(body.readings.map(({ certainty }) => certainty)).toEqual(['understood', 'not understood']);
      expect(body.readings[0]?.events).toEqual([
        { at: '12:40', do: 'flush', device: 'drain', volume: '10 mL', agent: 'saline' },
      ]);
      expect([body.contribution.from, body.contribution.values.map(({ as }) => as)]).toEqual([
        'line',
        ['propose-entry'],
      ]);
      const taken = await send(
        '/cases/events?accept=yes',
        parts([
          ['case', newer],
          ['lines', lines],
        ]),
      );
      expect(((await taken.json()) as typeof body).contribution.values.map(({ as }) => as)).toEqual(['add']);
      for (const path of ['/cases/events?at=25:00', '/cases/events?accept=all'])
        expect(
          (
            await send(
              path,
              parts([
                ['case', newer],
                ['lines', lines],
              ]),
            )
          ).status,
          path,
        ).toBe(400);
      expect((await send('/cases/events', parts([['case', newer]]))).status).toBe(400);
    });

    it('says what is wrong with the parts', async () => {
      const faults: [number, FormData][] = [
        [400, parts([['previous', older]])],
        [
          400,
          parts([
            ['case', newer],
            ['case', newer],
          ]),
        ],
        [
          400,
          parts([
            ['case', newer],
            ['note', 'x'],
          ]),
        ],
        [
          413,
          parts([
            ['case', newer],
            ['previous', `${older}\n#${'x'.repeat(1_000_000)}`],
          ]),
        ],
      ];
      for (const [status, form] of faults) expect((await send('/cases/check', form)).status).toBe(status);
      for (const type of ['multipart/form-data', 'multipart/form-data; boundary=x'])
        expect((await post('/cases/check', newer, type)).status).toBe(400);
    });
  });

  it('names the destinations and nothing else of them', async () => {
    const answer = await ask('/destinations');
    const text = await answer.text();
    expect([answer.status, JSON.parse(text)]).toEqual([200, { destinations: [{ name: 'records' }] }]);
    expect(text).not.toContain('127.0.0.1');
  });

  it('says where a case goes: by the routes, else to the only destination, else nowhere of itself', async () => {
    const two = siteText.replace(
      /( {2}records:.*\n)/,
      '$1  archive: { url: "http://127.0.0.1:9/archive" }\n',
    );
    const routed = `${two}routes: [{ to: archive, kinds: [abscess drainage] }]\n`;
    const { record } = parseCase(caseText);
    const rows: [string, string[]][] = [
      [routed, ['archive']],
      [`${two}routes: [{ to: archive, kinds: [embolisation] }]\n`, []],
      [two, []],
    ];
    for (const [text, expected] of rows) {
      const { site: parsed } = parseSite(text);
      expect(parsed && goesTo(parsed, record), text).toEqual(expected);
    }
    // The service says what that function says; the one of the other tests has a single destination and no routes.
    const file = join(folder, 'routed.yaml');
    writeFileSync(file, routed);
    const other = await serve(['--site', file], { SERVICE_TOKEN: TOKEN });
    const answer = await fetch(`${other.url}/cases/prepare`, {
      method: 'POST',
      body: caseText,
      headers: { authorization: `Bearer ${TOKEN}`, 'content-type': 'application/yaml' },
    });
    expect(await answer.json()).toMatchObject({ goesTo: ['archive'] });
    expect(await other.stop()).toBe(0);
  });

  it('refuses with what is wrong: no case, half a case, another destination, type, size, method', async () => {
    const rows: [Promise<Response>, number, string][] = [
      [post('/cases/check', '\u0000\u0001'), 400, 'structure'],
      [post('/cases/check', ''), 400, 'structure'],
      [post('/cases', 'casetally: 1\n'), 422, 'invalid'],
      [post('/cases/prepare', '{"casetally": 1}', 'application/json'), 422, 'invalid'],
      [post('/cases?to=http://127.0.0.1:9/elsewhere', caseText), 400, 'invalid'],
      [post('/cases/check', caseText, 'application/xml'), 415, 'not-supported'],
      [post('/cases/check', `# ${'x'.repeat(1_000_001)}`), 413, 'too-long'],
      [ask('/cases'), 405, 'not-supported'],
      [ask('/destinations', { method: 'POST' }), 405, 'not-supported'],
      [ask('/review', { method: 'POST' }), 405, 'not-supported'],
      [ask('/nothing'), 404, 'not-found'],
    ];
    for (const [asked, status, code] of rows) {
      const answer = await asked;
      const body = (await answer.json()) as { findings: unknown[]; issue: { code: string }[] };
      expect([answer.status, body.issue[0]?.code]).toEqual([status, code]);
      if (status === 422) expect(body.findings.length).toBeGreaterThan(0);
    }
  });

  it('logs requests and nothing of a case', async () => {
    const canary = 'Canary-Quintanar-4711';
    await post('/cases/check', `casetally: 1\npatient: { name: ${canary} }\n`);
    await ask(`/outbox/${canary}`);
    await ask(`/${canary}`);
    const events = () => service.log.filter(line => line.startsWith('{')).map(line => JSON.parse(line));
    await expect.poll(() => events().at(-1)).toMatchObject({ method: 'GET', route: 'none', status: 404 });
    expect(events().length).toBeGreaterThan(10);
    expect(events().at(-2)).toMatchObject({ route: '/outbox/:id', status: 404 });
    expect(service.log.join('\n')).not.toMatch(new RegExp(`${canary}|${TOKEN}`));
  });

  it('starts without a token on this machine alone, open to its programs only when told to', async () => {
    const bare = join(folder, 'bare.yaml');
    writeFileSync(bare, siteText.replace('token: env:SERVICE_TOKEN, ', ''));
    await expect(serve(['--site', bare, '--host', '0.0.0.0'])).rejects.toThrow(/exit 2.*needs a token/s);
    await expect(serve(['--site', bare, '--no-auth', '--host', '0.0.0.0'])).rejects.toThrow(/exit 2/);
    await expect(serve(['--site', site], { SERVICE_TOKEN: 'short' })).rejects.toThrow(/fewer than 20/);
    const open = await serve(['--site', bare, '--no-auth']);
    expect((await fetch(`${open.url}/schema`)).status).toBe(200);
    const page = await fetch(`${open.url}/schema`, { headers: { origin: 'https://page.example.org' } });
    expect(page.status).toBe(403);
    const own = await fetch(`${open.url}/cases/check`, {
      method: 'POST',
      body: caseText,
      headers: { origin: open.url, 'content-type': 'application/yaml' },
    });
    expect(own.status).toBe(200);
    const port = Number(new URL(open.url).port);
    for (const headers of [
      { origin: 'null' },
      { origin: `http://127.0.0.1:${port + 1}` },
      { origin: `http://localhost:${port}` },
      { origin: `https://127.0.0.1:${port}` },
      { origin: open.url, 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
      { 'sec-fetch-site': 'none' },
    ])
      expect((await answerTo(`${open.url}/schema`, headers)).status, JSON.stringify(headers)).toBe(403);
    const rebound = { host: 'rebound.example.org', origin: 'http://rebound.example.org' };
    expect((await answerTo(`${open.url}/schema`, rebound)).status).toBe(403);
    expect((await answerTo(`${open.url}/schema`, { host: 'rebound.example.org' })).status).toBe(403);
    expect(await open.stop()).toBe(0);
  });
});
