import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { examplesFolder } from '../../support/examples.js';
import { type Running, startServe } from '../../support/serve.js';

/* One case never stops another: the service with one thread, one second a case and nobody waiting. */

const folder = mkdtempSync(join(tmpdir(), 'service-limits-'));
const siteText = (service: string) => `casetallySite: 1
name: test site
namespace: 7c8b1b1e-52f0-5d0a-9a55-3c1f6d3f0a03
organization: { name: Test site }
references: { patient: include, encounter: include, order: include }
destinations: { records: { url: "http://127.0.0.1:9/fhir" } }
${service}
`;
const text = readFileSync(join(examplesFolder, 'abscess-drain.yaml'), 'utf8');
const withDevices = (count: number) => {
  const more = Array.from(
    { length: count },
    (_, i) => `  extra${i}: { kind: access needle, use: unopened }\n`,
  );
  return text.replace('devices:\n', `devices:\n${more.join('')}`);
};
/** Within all bounds, and far more than a second of work. */
const heavy = withDevices(490);

async function serve(name: string, service: string): Promise<Running> {
  const site = join(folder, `${name}.yaml`);
  writeFileSync(site, siteText(service));
  return startServe(['--no-auth', '--site', site], { CASETALLY_DATA: join(folder, name) });
}
const post = (to: Running, path: string, body: string) =>
  fetch(to.url + path, { method: 'POST', body, headers: { 'content-type': 'application/yaml' } });

const narrow = (waiting: number) => `service: { work: { threads: 1, seconds: 1, waiting: ${waiting} } }`;
let usual: Running;
let one: Running;
let some: Running;
beforeAll(async () => {
  [usual, one, some] = await Promise.all([
    serve('usual', ''),
    serve('one', narrow(0)),
    serve('some', narrow(20)),
  ]);
}, 300_000);
afterAll(async () => {
  expect(await Promise.all([usual, one, some].map(service => service.stop()))).toEqual([0, 0, 0]);
  rmSync(folder, { recursive: true });
});

describe('a case that is more than a case can be', () => {
  it.each([
    ['2,000 devices', withDevices(2_000), 'record.too-many-entries'],
    [
      'a word of 100,000 characters',
      text.replace('planned: CT-guided drainage', `planned: ${'x'.repeat(100_000)}`),
      'record.too-long',
    ],
    ['a size of 200,000 digits', text.replace('18 G x 15 cm', '9'.repeat(200_000)), 'record.too-long'],
  ])('%s is answered with a finding that says what and where', async (_, body, code) => {
    for (const path of ['/cases/check', '/cases/prepare', '/cases/report', '/cases']) {
      const answer = await post(usual, path, body);
      const said = (await answer.json()) as { issue: object[] };
      expect([path, answer.status]).toEqual([path, 400]);
      expect(said.issue).toContainEqual(
        expect.objectContaining({ details: expect.objectContaining({ coding: [{ code }] }) }),
      );
    }
  });
});

describe('a case that takes too long', () => {
  it('is ended and said so, while health, outbox and those behind it are answered', async () => {
    const order: string[] = [];
    const noted = async (name: string, asked: Promise<Response>) => {
      const answer = await asked;
      order.push(name);
      return answer;
    };
    const ended = noted('heavy', post(some, '/cases/prepare', heavy));
    const behind = noted('behind', post(some, '/cases/check', 'no case'));
    const [health, listed] = await Promise.all(
      ['/healthz', '/outbox'].map(path => noted('quick', fetch(some.url + path))),
    );
    expect([health?.status, listed?.status]).toEqual([200, 200]);
    const answer = await ended;
    expect([answer.status, (await behind).status]).toEqual([422, 400]);
    expect(order).toEqual(['quick', 'quick', 'heavy', 'behind']);
    const { issue } = (await answer.json()) as { issue: { code: string; details: { text: string } }[] };
    expect(issue).toMatchObject([{ code: 'too-costly' }]);
    expect(issue[0]?.details.text).toMatch(
      /took longer than 1 seconds and was ended\. Nothing of it was taken in\..*service\.work\.seconds/,
    );
    expect((await post(some, '/cases', heavy)).status).toBe(422);
    const { items } = (await (await fetch(`${some.url}/outbox`)).json()) as { items: object[] };
    expect(items).toEqual([]);
  });

  it('turns away what more cases than may wait ask for, and says when to come again', async () => {
    const running = post(one, '/cases/prepare', heavy);
    let turned: Response;
    do turned = await post(one, '/cases/check', 'no case');
    while (turned.status === 400);
    expect([turned.status, turned.headers.get('retry-after')]).toEqual([503, '5']);
    expect(await turned.json()).toMatchObject({
      resourceType: 'OperationOutcome',
      issue: [
        { code: 'throttled', details: { text: expect.stringContaining('nothing of this one was begun') } },
      ],
    });
    expect((await fetch(`${one.url}/healthz`)).status).toBe(200);
    expect((await running).status).toBe(422);
  });

  it('is not begun for somebody who is gone', async () => {
    const running = post(some, '/cases/prepare', heavy);
    const left = new AbortController();
    const gone = fetch(`${some.url}/cases/prepare`, {
      ...{ method: 'POST', body: heavy, signal: left.signal },
      headers: { 'content-type': 'application/yaml' },
    }).catch(() => 'gone');
    await fetch(`${some.url}/healthz`);
    left.abort();
    expect(await gone).toBe('gone');
    expect((await running).status).toBe(422);
    expect((await post(some, '/cases/check', 'no case')).status).toBe(400);
    const lines = some.log.filter(line => line.startsWith('{')).map(line => JSON.parse(line));
    expect(lines.filter(line => line.left)).toMatchObject([{ route: '/cases/prepare', left: true }]);
  });
});

describe('many large requests at once', () => {
  /** Begins to send a body and goes no further; gives the first line of the answer. */
  const begun = (bytes: number, type: string) =>
    new Promise<{ line: string; end: () => void }>((resolve, reject) => {
      const { port } = new URL(some.url);
      const socket = connect(Number(port), '127.0.0.1', () =>
        socket.write(
          `POST /cases/check HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nContent-Type: ${type}\r\nContent-Length: ${bytes}\r\n\r\n`,
        ),
      );
      const end = () => socket.destroy();
      socket.on('error', reject);
      socket.once('data', data => resolve({ line: data.toString('latin1').split('\r\n')[0] ?? '', end }));
      // What is let in is read, and nothing is answered as long as more is to come.
      setTimeout(() => resolve({ line: 'is read', end }), 500);
    });

  it('are read as far as memory goes, and the others are told to come again', async () => {
    const parts = 'multipart/form-data; boundary=x';
    const held = [];
    for (let n = 0; n < 6; n += 1) held.push(await begun(63_000_000, parts));
    expect(held.map(({ line }) => line)).toEqual([
      ...Array<string>(4).fill('is read'),
      ...Array<string>(2).fill('HTTP/1.1 503 Service Unavailable'),
    ]);
    for (const { end } of held) end();
    let again = await post(some, '/cases/check', 'no case');
    while (again.status === 503) again = await post(some, '/cases/check', 'no case');
    expect(again.status).toBe(400);
  });
});
