import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/program.js';
import { openBytes, parseSite, printReport, readPictures, reportTools } from '../../../src/index.js';
import { examplesFolder } from '../../support/examples.js';
import { type Running, startServe } from '../../support/serve.js';

/* One report, whichever way it was asked for: command line, service, library. */

const TOKEN = 'a-token-of-the-tests-0123456789';
const folder = mkdtempSync(join(tmpdir(), 'service-reports-'));
const site = join(folder, 'site.yaml');
const siteText = `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a05
organization: { name: Test site }
contact: Interventional radiology, extension 4410
service: { token: env:SERVICE_TOKEN, work: { threads: 1 } }
`;
const pictured = join(examplesFolder, 'pictures', 'drain-check.yaml');
const plain = join(examplesFolder, 'liver-biopsy.yaml');

let service: Running;
beforeAll(async () => {
  writeFileSync(site, siteText);
  service = await startServe(['--site', site], {
    ...{ CASETALLY_DATA: join(folder, 'data'), SERVICE_TOKEN: TOKEN },
  });
}, 300_000);
afterAll(async () => {
  expect(await service.stop()).toBe(0);
  rmSync(folder, { recursive: true });
});

const ask = (query: string, body: string | FormData, headers: Record<string, string> = {}) =>
  fetch(`${service.url}/v1/cases/report${query}`, {
    ...{ method: 'POST', body },
    headers: {
      authorization: `Bearer ${TOKEN}`,
      ...(typeof body === 'string' && { 'content-type': 'application/yaml' }),
      ...headers,
    },
  });
const bytesOf = async (answer: Response) => Buffer.from(await answer.arrayBuffer());
const textOf = async (answer: Response) =>
  ((await answer.json()) as { issue: { details: { text: string } }[] }).issue[0]?.details.text;

async function byCommandLine(file: string, ...args: string[]): Promise<Buffer> {
  const out = join(folder, 'by-command-line');
  const said: string[] = [];
  const take = (text: string) => void said.push(text);
  const output = { out: take, err: take, color: false };
  const code = await run(['report', file, '--site', site, '--out', out, ...args], output);
  expect([code, code === 0 ? '' : said.join('')]).toEqual([0, '']);
  return readFileSync(out);
}

async function byLibrary(file: string, wanted: Parameters<typeof printReport>[2]): Promise<Buffer> {
  const parsed = parseSite(siteText).site;
  if (!parsed) throw new Error('not a site');
  const opened = { site: parsed, given: true, folder };
  const read = await openBytes(readFileSync(file), opened, Date.now());
  const pictures = async () => {
    if (!read.record) throw new Error('not whole');
    return readPictures(read.record, join(file, '..'));
  };
  const printed = await printReport(read, parsed, wanted, { ...reportTools(opened), pictures });
  if ('why' in printed) throw new Error(printed.why);
  return Buffer.from(printed.content);
}

describe('a report over HTTP', () => {
  it.each([
    ['ward', 'pdf', 'application/pdf', 'ward.pdf'],
    ['patient', 'html', 'text/html; charset=utf-8', 'patient.html'],
    ['record', 'text', 'text/plain; charset=utf-8', 'report.txt'],
  ] as const)(
    'for %s as %s is the same bytes as on the command line and in the library',
    async (audience, format, type, name) => {
      const answer = await ask(`?audience=${audience}&format=${format}`, readFileSync(plain, 'utf8'));
      expect([answer.status, answer.headers.get('content-type')]).toEqual([200, type]);
      expect(answer.headers.get('content-disposition')).toBe(`attachment; filename="${name}"`);
      expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
      const bytes = await bytesOf(answer);
      expect(bytes.length).toBeGreaterThan(1_000);
      expect(bytes.equals(await byCommandLine(plain, '--audience', audience, '--format', format))).toBe(true);
      expect(bytes.equals(await byLibrary(plain, { audience, format }))).toBe(true);
    },
    240_000,
  );

  it('shows the pictures that came with it, in another language, on another paper', async () => {
    const form = new FormData();
    form.append('case', new Blob([readFileSync(pictured)]), 'case');
    form.append('picture', new Blob([readFileSync(join(pictured, '..', 'check.png'))]), 'check.png');
    const answer = await ask('?format=pdf&language=de&paper=Letter', form);
    expect([answer.status, answer.headers.get('content-language')]).toEqual([200, 'de']);
    const args = ['--format', 'pdf', '--language', 'de', '--paper', 'Letter'];
    expect((await bytesOf(answer)).equals(await byCommandLine(pictured, ...args))).toBe(true);
  }, 240_000);

  it.each([
    ['application/pdf', 'application/pdf'],
    ['text/html,application/xhtml+xml;q=0.9', 'text/html; charset=utf-8'],
    ['application/json, text/plain;q=0.5, application/pdf;q=0.8', 'application/pdf'],
    ['*/*', 'text/plain; charset=utf-8'],
    ['text/html;q=0, text/*', 'text/plain; charset=utf-8'],
  ])(
    'for Accept: %s is %s',
    async (accept, type) => {
      const answer = await ask('', readFileSync(plain, 'utf8'), { accept });
      expect([answer.status, answer.headers.get('content-type')]).toEqual([200, type]);
    },
    240_000,
  );

  it.each([
    ['?audience=press', 400, 'Write ?audience='],
    ['?format=doc', 400, 'Write ?format='],
    ['?language=xx', 400, 'Write ?language='],
    ['?paper=A5', 400, 'Write ?paper='],
    ['?draft=no', 400, 'Write ?draft='],
    ['?format=pdf&format=text', 400, 'Write ?format='],
  ])('with %s is refused and says what may stand there', async (query, status, words) => {
    const answer = await ask(query, 'no case');
    expect([answer.status, await textOf(answer)]).toEqual([status, expect.stringContaining(words)]);
  });

  it('that nobody may have is refused with the findings; what is asked for as a draft is one', async () => {
    const wrong = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8').replace(
      /.*do: remove, device: wire.*\n/,
      '',
    );
    for (const query of ['?audience=ward', '?audience=patient&draft=yes']) {
      const answer = await ask(query, wrong);
      const said = (await answer.json()) as { findings: object[] };
      expect([query, answer.status, said.findings.length > 0]).toEqual([query, 422, true]);
    }
    const draft = await ask('?audience=ward&draft=yes', wrong);
    expect([draft.status, await draft.text()]).toEqual([
      200,
      expect.stringContaining('DRAFT, NOT THE RECORD'),
    ]);
    expect((await ask('', 'casetally: 1')).status).toBe(422);
    expect((await ask('', 'no case')).status).toBe(400);
    expect((await ask('', readFileSync(plain, 'utf8'), { accept: 'image/png' })).status).toBe(406);
    const form = new FormData();
    for (const name of ['case', 'previous']) form.append(name, new Blob([readFileSync(plain)]), name);
    expect(await textOf(await ask('', form))).toContain('leave out the earlier versions');
  }, 240_000);
});
