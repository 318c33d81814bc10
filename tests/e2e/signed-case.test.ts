import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { startSandbox } from '../../src/service/sandbox/server.js';
import { examplesFolder } from '../support/examples.js';
import { type Running, startServe } from '../support/serve.js';

/*
 * From the order to the outbox through the service as it is run: begun from an order at the embedded server and a kit,
 * entered, closed, signed, and left by itself, with the service stopped in between.
 */

const TOKEN = 'a-token-of-the-tests-0123456789';
const folder = mkdtempSync(join(tmpdir(), 'signed-case-'));
const site = join(folder, 'site.yaml');
const AUTHOR = 'Nyambura Hallowell';
const unsigned = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8').replace(
  /^report: .*$/m,
  'report: { status: preliminary, author: op }',
);

let records: Awaited<ReturnType<typeof startSandbox>>;
let service: Running;
const start = async () => {
  service = await startServe(['--site', site], {
    CASETALLY_DATA: join(folder, 'data'),
    SERVICE_TOKEN: TOKEN,
  });
};
beforeAll(async () => {
  const text = readFileSync(join(examplesFolder, 'intake', 'order.json'), 'utf8');
  const { entry } = JSON.parse(text) as { entry: readonly { resource: object }[] };
  records = await startSandbox({ preload: entry.map(({ resource }) => resource) });
  cpSync(join(examplesFolder, 'kits'), join(folder, 'kits'), { recursive: true });
  writeFileSync(
    site,
    `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a02
timeZone: Africa/Nairobi
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "${records.baseUrl}" }
intake: { kits: kits }
drafts: { graceMinutes: 0 }
service: { token: env:SERVICE_TOKEN, work: { threads: 1 } }
`,
  );
  await start();
});
afterAll(async () => {
  await service.stop();
  await records.close();
  rmSync(folder, { recursive: true, force: true });
});

const ask = async (method: string, path: string, body?: string, headers: Record<string, string> = {}) => {
  const answer = await fetch(`${service.url}/v1${path}`, {
    method,
    headers: { authorization: `Bearer ${TOKEN}`, 'content-type': 'application/json', ...headers },
    ...(body !== undefined && { body }),
  });
  return { status: answer.status, body: (await answer.json()) as Record<string, unknown> };
};
const decide = (path: string, version: number, body: object) =>
  ask('POST', path, JSON.stringify({ by: AUTHOR, ...body }), { 'if-match': `"${version}"` });

it('begins from an order and a kit as the command line does', async () => {
  const given = {
    order: 'OR-24-8812',
    from: 'records',
    kits: ['nephrostomy'],
    case: 'SB-1',
    date: '2024-03-14',
  };
  const begun = await ask('POST', '/intake/begin', JSON.stringify(given));
  expect([begun.status, begun.body['unreached']]).toEqual([200, false]);
  const record = parse(String(begun.body['record'])) as Record<string, Record<string, unknown>>;
  expect(record['case']).toMatchObject({ id: 'SB-1', order: expect.anything() });
  expect(record['patient']).toMatchObject({ birthDate: expect.anything() });
  expect(Object.keys(record['devices'] ?? {}).length).toBeGreaterThan(3);
  for (const [wrong, status] of [
    [{ order: 'none-of-these', from: 'records' }, 200],
    [{ order: 'x', from: 'elsewhere' }, 400],
    [{ kits: ['none'] }, 400],
    [{ more: 1 }, 400],
    [{ register: true, order: 'OR-24-8812', from: 'records' }, 400],
    [{ earlier: ['casetally: ['] }, 400],
    [{ earlier: ['x'.repeat(2_000_000)] }, 413],
  ] as const)
    expect([wrong, (await ask('POST', '/intake/begin', JSON.stringify(wrong))).status]).toEqual([
      wrong,
      status,
    ]);
  expect(service.log.join('\n')).not.toContain('OR-24-8812');
});

it('begins with what an earlier case left inside, as the command line does', async () => {
  const begun = await ask('POST', '/intake/begin', JSON.stringify({ earlier: [unsigned] }));
  expect(begun.status).toBe(200);
  const { devices } = parse(String(begun.body['record'])) as { devices: Record<string, unknown> };
  expect(Object.values(devices)).toEqual([
    expect.objectContaining({
      kind: 'drainage catheter',
      carried: expect.objectContaining({ case: expect.objectContaining({ value: 'KJ-2024-1107' }) }),
    }),
  ]);
});

describe('into a record that is there', () => {
  const add = (given: object) => ask('POST', '/intake/add', JSON.stringify(given));
  const short = '# typed by hand\ncasetally: 1\ncase: { id: SB-2, date: 2024-03-14 } # the second\n';

  it('brings order, kit and earlier case as the command line does, and leaves every other byte', async () => {
    const given = { record: short, order: 'OR-24-8812', from: 'records', kits: ['nephrostomy'] };
    const { status, body } = await add({ ...given, earlier: [] });
    expect([status, body['unreached']]).toEqual([200, false]);
    const text = String(body['record']);
    expect(text).toContain('# typed by hand\n');
    expect(text).toContain('# the second\n');
    const record = parse(text) as Record<string, Record<string, unknown>>;
    expect(record['case']).toMatchObject({ id: 'SB-2', order: expect.anything() });
    expect(Object.keys(record['devices'] ?? {}).length).toBeGreaterThan(3);
    expect(await add({ ...given, record: text })).toMatchObject({
      body: { record: text, set: [], added: [] },
    });
  });

  it('holds back an order and an earlier case of another patient', async () => {
    const other = `${short}patient: { birthDate: 1950-01-01, sex: female }\n`;
    const { body } = await add({ record: other, order: 'OR-24-8812', from: 'records', earlier: [unsigned] });
    expect(body['record']).toBe(other);
    expect(body['held']).toHaveLength(2);
    expect(body['findings']).toEqual(
      expect.arrayContaining([expect.objectContaining({ code: 'intake.other-patient', severity: 'error' })]),
    );
  });

  it('is refused with a reason where there is no record, none that can be read, or too much', async () => {
    for (const [wrong, status] of [
      [{ kits: ['nephrostomy'] }, 400],
      [{ record: '', kits: ['nephrostomy'] }, 400],
      [{ record: short, case: 'SB-3' }, 400],
      [{ record: 'casetally: [' }, 400],
      [{ record: short, earlier: ['casetally: ['] }, 400],
      [{ record: short, register: true }, 400],
      [{ record: 'x'.repeat(2_000_000) }, 413],
    ] as const) {
      const { status: given, body } = await add(wrong);
      expect([wrong, given]).toEqual([wrong, status]);
      const [issue] = body['issue'] as { details: { text: string } }[];
      expect(issue?.details.text).toMatch(/\w+ \w+/);
    }
  });
});

it('is closed and signed, and leaves once, with the service down in between', async () => {
  const begun = await ask('POST', '/drafts', unsigned, {
    ...{ 'content-type': 'application/yaml', 'casetally-by': encodeURIComponent(AUTHOR) },
  });
  const id = String(begun.body['id']);
  expect(await decide(`/drafts/${id}/close`, 1, {})).toMatchObject({ status: 200 });
  expect(await decide(`/drafts/${id}/to-sign`, 2, { author: 'op' })).toMatchObject({
    ...{ status: 200, body: { ready: true, goesTo: ['records'] } },
  });
  expect(await decide(`/drafts/${id}/sign`, 2, { author: 'op' })).toMatchObject({
    body: { state: 'signed', by: `${AUTHOR} (token service.token)`, verified: false },
  });
  expect(await service.stop()).toBe(0);
  await start();
  const draft = () => ask('GET', `/drafts/${id}`);
  await expect.poll(async () => (await draft()).body['state'], { timeout: 60_000 }).toBe('taken-in');
  const { items } = (await draft()).body as { items: string[] };
  expect(items).toHaveLength(1);
  const listed = await ask('GET', `/drafts?on=${String(begun.body['day'])}`);
  expect(listed.body).toMatchObject({
    drafts: [{ id, next: 'delivery', items: [{ id: items[0], destination: 'records', state: 'waiting' }] }],
  });
  const audited = service.log.filter(line => line.includes('"audit"'));
  expect(audited.length).toBeGreaterThan(0);
});
