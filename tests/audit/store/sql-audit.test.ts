import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import Database from 'better-sqlite3';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import type { AuditFact } from '../../../src/audit/event.js';
import { openPostgresAudit, openSqliteAudit } from '../../../src/audit/store/open.js';
import { SqlAudit } from '../../../src/audit/store/sql-audit.js';
import type { AuditTrail, TrailFilter } from '../../../src/audit/trail.js';
import { verifyTrail } from '../../../src/audit/verify.js';
import { run } from '../../../src/cli/program.js';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { SQLITE } from '../../../src/delivery/outbox/sql-schema.js';
import { SqliteConnection } from '../../../src/delivery/outbox/sqlite-connection.js';
import { postgresPrograms, startPostgres } from '../../support/postgres.js';

const folder = mkdtempSync(join(tmpdir(), 'audit-'));
afterAll(() => rmSync(folder, { recursive: true }));
let n = 0;
let data = '';
let path = '';
beforeEach(() => {
  n += 1;
  data = join(folder, `data-${n}`);
  path = join(data, 'audit.db');
});

const fact = (id: string, more: Partial<AuditFact> = {}): AuditFact => ({
  ...{ id, kind: 'look', at: Date.parse('2026-03-01T08:00:00Z'), who: { kind: 'typed', name: 'Ana Reyes' } },
  ...{ doing: 'GET /outbox/:id', outcome: 200, about: ['item-1'] },
  ...more,
});
async function filled(count: number, sealing = unsealed): Promise<AuditTrail> {
  const trail = await openSqliteAudit(path, { sealing });
  for (let i = 1; i <= count; i += 1) await trail.append(fact(`id-${i}`));
  return trail;
}
const verdictOf = (trail: AuditTrail) => verifyTrail(trail.kept());
const eventsOf = async (trail: AuditTrail, filter: TrailFilter) => {
  const ids = [];
  for await (const { id } of trail.events(filter)) ids.push(id);
  return ids;
};

describe('the trail in a file', () => {
  it('goes on where it ended, and writes the same id once', async () => {
    const first = await filled(3);
    const head = await first.append(fact('id-3'));
    expect(head).toEqual(await first.head());
    await first.close();
    const again = await filled(5);
    expect(await verdictOf(again)).toEqual({ sound: true, head: await again.head() });
    expect(await again.head()).toMatchObject({ n: 5 });
    await again.close();
  });

  it('reads further than one page, by time and by who', async () => {
    const trail = await filled(1_050);
    await trail.append(fact('later', { at: 9e12, who: { kind: 'token', name: 'ward-3' } }));
    const person = {
      kind: 'person',
      name: 'Ben Okri',
      issuer: 'https://id.example.org',
      subject: '4711',
    } as const;
    await trail.append(fact('person', { who: person }));
    expect(await verdictOf(trail)).toMatchObject({ sound: true, head: { n: 1_052 } });
    expect(await eventsOf(trail, { from: 9e12 })).toEqual(['later']);
    expect(await eventsOf(trail, { to: 9e12, who: 'REYES' })).toHaveLength(1_050);
    expect(await eventsOf(trail, { who: '4711' })).toEqual(['person']);
    expect(await eventsOf(trail, { who: '471' })).toEqual([]);
    await trail.close();
  });

  const damage: [string, string, number][] = [
    ['an entry was edited', `UPDATE audit_entry SET entry = replace(entry, 'Ana', 'Eva') WHERE n = 3`, 3],
    ['an entry was removed', 'DELETE FROM audit_entry WHERE n = 3', 3],
    [
      'a digest was changed',
      `UPDATE audit_entry SET digest = replace(digest, substr(digest, 1, 1), 'g') WHERE n = 3`,
      3,
    ],
    [
      'two changed places',
      'UPDATE audit_entry SET n = -3 WHERE n = 3; UPDATE audit_entry SET n = 3 WHERE n = 4; UPDATE audit_entry SET n = 4 WHERE n = -3',
      3,
    ],
  ];
  it.each(damage)('that had %s is broken there, as casetally audit verify says', async (_, sql, at) => {
    await (await filled(6)).close();
    const raw = new Database(path);
    raw.exec(sql);
    raw.close();
    const said: string[] = [];
    const output = {
      out: (t: string) => void said.push(t),
      err: (t: string) => void said.push(t),
      color: false,
    };
    expect(await run(['audit', 'verify', '--data', data], output)).toBe(1);
    expect(said.join('')).toMatch(new RegExp(`^Broken at entry ${at}: `));
  });

  it('is headed, listed, exported and verified at the command line, the end that was cut off too', async () => {
    await (await filled(4)).close();
    const cli = async (...args: string[]) => {
      const said: string[] = [];
      const output = {
        out: (t: string) => void said.push(t),
        err: (t: string) => void said.push(t),
        color: false,
      };
      return { code: await run(['audit', ...args], output), text: said.join('') };
    };
    const head = (await cli('head', '--data', data)).text.trim();
    expect(head).toMatch(/^4:[0-9a-f]{64}$/);
    const listed = await cli('list', '--data', data, '--to', '2026-03-01', '--who', 'ana');
    expect(listed.text.split('\n')[0]).toContain(
      'Ana Reyes  Patient Record: GET /outbox/:id  answered with 200',
    );
    expect((await cli('list', '--data', data, '--from', '2026-03-02')).text).toBe('');
    expect((await cli('list', '--data', data, '--from', 'monday')).code).toBe(2);
    const exported = await cli('export', '--data', data);
    expect(
      exported.text
        .trim()
        .split('\n')
        .map(line => JSON.parse(line).resourceType),
    ).toEqual(Array(4).fill('AuditEvent'));
    expect((await cli('verify', '--data', data, '--head', head)).code).toBe(0);
    const raw = new Database(path);
    raw.exec('DELETE FROM audit_entry WHERE n > 2');
    raw.close();
    expect((await cli('verify', '--data', data)).code).toBe(0);
    expect(await cli('verify', '--data', data, '--head', head)).toEqual({
      code: 1,
      text: 'Broken at entry 3: the trail ends with entry 2, and entry 4 was there once.\n',
    });
    expect((await cli('verify', '--data', data, '--head', '4')).code).toBe(2);
  });

  it('is sealed where the outbox is, and stays sound under another key', async () => {
    const [a, b] = [Buffer.alloc(32, 1), Buffer.alloc(32, 2)].map(key => key.toString('base64')) as [
      string,
      string,
    ];
    const trail = await filled(3, sealingWith([a]));
    const head = await trail.head();
    await trail.close();
    expect(readFileSync(path).includes('Ana Reyes')).toBe(false);
    await expect(openSqliteAudit(path, { sealing: unsealed })).rejects.toMatchObject({ code: 'outbox-key' });
    const both = await openSqliteAudit(path, { sealing: sealingWith([b, a]), anyKeys: true });
    expect(await both.rekey()).toBe(3);
    await both.close();
    const later = await openSqliteAudit(path, { sealing: sealingWith([b]) });
    expect(await verdictOf(later)).toEqual({ sound: true, head });
    await later.close();
  });

  it('says when its disk is full, and is sound and goes on once there is room', async () => {
    await (await filled(1)).close();
    const raw = new Database(path);
    const pages = Number(raw.pragma('page_count', { simple: true }));
    raw.pragma(`max_page_count = ${pages + 1}`);
    const trail = new SqlAudit(new SqliteConnection(raw, path), { dialect: SQLITE, sealing: unsealed });
    let written = 1;
    const fill = async () => {
      for (; ; written += 1) await trail.append(fact(`more-${written}`, { about: Array(20).fill('item') }));
    };
    await expect(fill()).rejects.toMatchObject({ code: 'outbox-full' });
    expect(await verdictOf(trail)).toMatchObject({ sound: true, head: { n: written } });
    raw.pragma('max_page_count = 100000');
    expect(await trail.append(fact('again'))).toMatchObject({ n: written + 1 });
    await trail.close();
  });
});

const writer = fileURLToPath(new URL('../writer.ts', import.meta.url));
const write = (place: string, name: string) =>
  promisify(execFile)(process.execPath, ['--import', 'tsx', writer, place, name, '60']);

describe('several processes', () => {
  it('make one chain in a file', async () => {
    await (await filled(0)).close();
    await Promise.all(['a', 'b', 'c'].map(name => write(path, name)));
    const trail = await filled(0);
    expect(await verdictOf(trail)).toMatchObject({ sound: true, head: { n: 180 } });
    await trail.close();
  });

  it.skipIf(postgresPrograms() === undefined)('make one chain in PostgreSQL', async () => {
    const server = await startPostgres();
    try {
      await (await openPostgresAudit(server.address, { sealing: unsealed })).close();
      await Promise.all(['a', 'b', 'c'].map(name => write(server.address, name)));
      const trail = await openPostgresAudit(server.address, { sealing: unsealed });
      expect(await verdictOf(trail)).toMatchObject({ sound: true, head: { n: 180 } });
      expect(await eventsOf(trail, { who: 'b' })).toHaveLength(60);
      await trail.close();
    } finally {
      await server.stop();
    }
  });
});
