import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ageMs, outboxDoctor, purge } from '../../../src/cli/commands/outbox/keep.js';
import { list } from '../../../src/cli/commands/outbox/list.js';
import { send } from '../../../src/cli/commands/send.js';
import { worstOf } from '../../../src/cli/exit.js';
import type { Output } from '../../../src/cli/output.js';
import { type RunningSandbox, startSandbox } from '../../../src/service/sandbox/server.js';
import { examplesFolder } from '../../support/examples.js';

const folder = mkdtempSync(join(tmpdir(), 'casetally-send-'));
let servers: RunningSandbox[];
beforeAll(async () => {
  servers = [await startSandbox(), await startSandbox()];
});
afterAll(async () => {
  await Promise.all(servers.map(server => server.close()));
  rmSync(folder, { recursive: true });
});

const example = join(examplesFolder, 'liver-biopsy.yaml');
const held = (index: number) => servers[index]?.repository.all().length ?? -1;

function capture(): Output & { text: string[]; errors: string[] } {
  const text: string[] = [];
  const errors: string[] = [];
  return {
    text,
    errors,
    out: line => void text.push(line),
    err: line => void errors.push(line),
    color: false,
  };
}

/** A site with two destinations, and a third where nobody listens. */
function siteFile(name: string, routes: string): string {
  const path = join(folder, `${name}.yaml`);
  const at = (index: number) => servers[index]?.baseUrl;
  const text = `
casetallySite: 1
name: Invented Hospital
namespace: 5b0f3c52-9d1e-4d0c-8c6a-0d6f2a7e4b11
organization: { name: Invented Hospital }
references: { patient: include, encounter: include, order: include }
destinations:
  records: { url: "${at(0)}", timeout: 60 }
  archive: { url: "${at(1)}", timeout: 60, mode: batch }
  newer: { url: "${at(1)}", timeout: 60, fhirVersion: 5.0.0 }
  away: { url: "http://127.0.0.1:4/fhir", timeout: 2, metadataAge: 0 }
routes: ${routes}
`;
  writeFileSync(path, text);
  return path;
}

const run = async (site: string, flags: object = {}) => {
  const output = capture();
  const data = join(folder, `data-${site.replace(/\W/g, '')}`);
  const code = await send(example, { site, data, json: true, ...flags }, output);
  return { code, data, told: output.text.length > 0 ? JSON.parse(output.text.join('')) : undefined, output };
};

describe('casetally send without --to', () => {
  it('goes to every destination that the routes name, with a receipt of each', async () => {
    const { code, told } = await run(siteFile('both', '[{ to: records }, { to: archive, kinds: [Biopsy] }]'));
    expect(told.map((t: { destination: string; state: string }) => [t.destination, t.state])).toEqual([
      ['records', 'delivered'],
      ['archive', 'delivered'],
    ]);
    expect(code).toBe(0);
    expect(told[0].receipt.baseUrl).toBe(servers[0]?.baseUrl);
    expect(told[1].receipt.baseUrl).toBe(servers[1]?.baseUrl);
    expect([held(0) > 15, held(1)]).toEqual([true, held(0)]);
  });

  it('ends with the worst exit code, and what can be delivered is', async () => {
    const { code, told } = await run(siteFile('one-away', '[{ to: away }, { to: records }]'));
    expect(told.map((t: { state: string }) => t.state)).toEqual(['waiting', 'delivered']);
    expect(code).toBe(4);
  });

  it('sends to the one that is named all the same', async () => {
    const { code, told } = await run(siteFile('named', '[{ to: away }]'), { to: 'records' });
    expect([code, told.destination, told.state]).toEqual([0, 'records', 'delivered']);
  });

  it('says that no route takes the case', async () => {
    await expect(run(siteFile('none', '[{ to: records, kinds: [angioplasty] }]'))).rejects.toThrow(
      /no route .* 'biopsy'/,
    );
  });

  it('is not sent where the server speaks another release of FHIR', async () => {
    const before = held(1);
    const { code, told } = await run(siteFile('newer', '[]'), { to: 'newer' });
    expect([code, told.state, told.reason]).toEqual([3, 'waiting', 'other-version']);
    const codes = told.findings.map((f: { code: string }) => f.code);
    expect(codes).toContain('delivery.other-version');
    expect(codes).toContain('delivery.lost-in-version');
    expect(held(1)).toBe(before);
  });
});

describe('worstOf', () => {
  it.each([
    [[], 0],
    [[0, 0], 0],
    [[0, 4], 4],
    [[3, 4, 0], 3],
    [[1, 3], 1],
  ] as const)('%j: %d', (codes, worst) => {
    expect(worstOf(codes)).toBe(worst);
  });
});

describe('keeping the outbox', () => {
  it('purges what was received long ago and nothing else', async () => {
    const { data } = await run(siteFile('purge', '[{ to: records }, { to: away }]'));
    const left = async () => {
      const output = capture();
      await list({ data, json: true }, output);
      return JSON.parse(output.text.join('')).map((i: { state: string }) => i.state);
    };
    const out = capture();
    expect(await purge({ data, olderThan: '1h', json: true }, out)).toBe(0);
    expect(JSON.parse(out.text.join(''))).toEqual({ removed: 0 });
    expect(await left()).toEqual(['delivered', 'waiting']);
    await new Promise(resolve => setTimeout(resolve, 5));
    const all = capture();
    await purge({ data, olderThan: '0h' }, all);
    expect(all.text.join('')).toContain('1 items older than 0h removed');
    expect(await left()).toEqual(['waiting']);
  });

  it.each(['90', '90 d', '-1d', 'd', '1y', ''])('%j is no age', text => {
    expect(() => ageMs(text)).toThrow(/is no age/);
  });

  it('finds a submission that was changed, a receipt that is missing, and a broken file', async () => {
    const { data } = await run(siteFile('doctor', '[{ to: records }, { to: archive }]'));
    const path = join(data, 'outbox.db');
    const look = async () => {
      const output = capture();
      const code = await outboxDoctor({ data, json: true }, output);
      return { code, ...JSON.parse(output.text.join('')) };
    };
    expect(await look()).toMatchObject({ code: 0, sound: true, items: 2, store: [], faults: [] });
    const db = new Sqlite(path);
    db.exec(`UPDATE content SET payload = replace(payload, 'transaction', 'Transaction') WHERE sequence = 1;
             UPDATE queue_item SET receipt = NULL WHERE sequence = 2`);
    db.close();
    expect(await look()).toMatchObject({
      code: 1,
      sound: false,
      faults: [
        { fault: 'the submission does not have its digest' },
        { fault: 'the receipt is missing or about another submission' },
      ],
    });
    const again = new Sqlite(path);
    again.exec("UPDATE queue_item SET receipt = 'not JSON' WHERE sequence = 2");
    // A state that no item can have, as a damaged file may hold it.
    again.pragma('ignore_check_constraints = ON');
    again.exec("UPDATE queue_item SET state = 'odd' WHERE sequence = 1");
    again.close();
    const broken = await look();
    expect([broken.code, broken.store]).toEqual([1, ['CHECK constraint failed in queue_item']]);
    expect(broken.faults[1]).toMatchObject({ fault: 'cannot be opened with the keys given, or was changed' });
  });
});
