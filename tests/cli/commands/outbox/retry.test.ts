import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { list } from '../../../../src/cli/commands/outbox/list.js';
import { show } from '../../../../src/cli/commands/outbox/outbox.js';
import { retry } from '../../../../src/cli/commands/outbox/retry.js';
import { send } from '../../../../src/cli/commands/send.js';
import type { Output } from '../../../../src/cli/output.js';
import { startSandbox } from '../../../../src/service/sandbox/server.js';
import { examplesFolder } from '../../../support/examples.js';
import { passingOn } from '../../../support/passing-on.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-retry-'));
const sandbox = await startSandbox();
let refusals: { readonly headers: Record<string, string> }[] = [];
let posts = 0;
const busy = await passingOn(sandbox.baseUrl);
busy.inTheWay = ({ method }) => {
  posts += method === 'POST' ? 1 : 0;
  const refusal = method === 'POST' ? refusals.shift() : undefined;
  return refusal && { status: 429, ...refusal };
};
afterAll(async () => {
  busy.close();
  await sandbox.close();
  rmSync(folder, { recursive: true });
});

function capture(): Output & { text: string[]; errors: string[] } {
  const [text, errors]: [string[], string[]] = [[], []];
  return { text, errors, out: l => void text.push(l), err: l => void errors.push(l), color: false };
}

let run = 0;
let site = '';
let data = '';
beforeEach(() => {
  run += 1;
  posts = 0;
  data = join(folder, `data-${run}`);
  site = join(folder, `site-${run}.yaml`);
  writeFileSync(
    site,
    `casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b1${run}
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "${busy.baseUrl}", timeout: 60, searchLag: 0 }
`,
  );
});

const example = join(examplesFolder, 'liver-biopsy.yaml');
const sent = async (): Promise<{ id: string; code: number; json: Record<string, unknown> }> => {
  const output = capture();
  const code = await send(example, { to: 'records', site, data, json: true, previous: [] }, output);
  const json = JSON.parse(output.text.join(''));
  return { id: json.item, code, json };
};
const sleeps: number[] = [];
const wait = (ms: number) => {
  sleeps.push(ms);
  return new Promise<void>(resolve => void setTimeout(resolve, ms));
};

describe('retry before a time that a server named', () => {
  it('waits for it on a terminal, and sends then', async () => {
    refusals = [{ headers: { 'retry-after': '2' } }];
    const { id, code, json } = await sent();
    expect([code, json['next']]).toEqual([4, expect.stringMatching(/the server asked for time/)]);
    expect(Date.parse(String(json['nextAt']))).toBeGreaterThan(Date.now());
    const output = capture();
    sleeps.length = 0;
    expect(await retry(id, { data, site }, output, wait)).toBe(0);
    expect(sleeps).toHaveLength(1);
    expect(sleeps[0]).toBeGreaterThan(0);
    expect(output.errors.join('')).toContain('waiting until');
    expect(posts).toBe(2);
  });

  it('says it where nobody sits at a terminal, however often it is asked', async () => {
    refusals = [{ headers: { 'retry-after': '30' } }];
    const { id } = await sent();
    for (const _ of [1, 2]) {
      const output = capture();
      expect(await retry(id, { data, site, json: true }, output)).toBe(4);
      const [row] = JSON.parse(output.text.join(''));
      expect(row.next).toMatch(/^goes again at .*the server asked for time\)$/);
    }
    expect(posts).toBe(1);
    const shown = capture();
    await show(id, { data, json: true }, shown);
    const listed = capture();
    await list({ data, json: true }, listed);
    for (const row of [JSON.parse(shown.text.join('')), JSON.parse(listed.text.join(''))[0]])
      expect([row.next, Date.parse(row.nextAt)]).toEqual([
        expect.stringMatching(/^goes again at/),
        expect.any(Number),
      ]);
  });

  it('is refused with --now, before and after another retry', async () => {
    refusals = [{ headers: { 'retry-after': '30' } }];
    const { id } = await sent();
    await expect(retry(id, { data, site, now: true }, capture(), wait)).rejects.toThrow(
      /that the server named/,
    );
    await retry(id, { data, site }, capture());
    await expect(retry(id, { data, site, now: true }, capture(), wait)).rejects.toThrow(
      /that the server named/,
    );
    expect(posts).toBe(1);
  });
});

describe('retry where a server asked for time and named none', () => {
  it('keeps the time, and goes at once with --now', async () => {
    refusals = [{ headers: {} }];
    const { id } = await sent();
    expect(await retry(id, { data, site }, capture())).toBe(4);
    expect(posts).toBe(1);
    expect(await retry(id, { data, site, now: true }, capture())).toBe(0);
    expect(posts).toBe(2);
  });
});
