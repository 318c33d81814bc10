import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import type { AuditFact } from '../../../src/audit/event.js';
import { copyAudit } from '../../../src/audit/store/copies.js';
import { openSqliteAudit } from '../../../src/audit/store/open.js';
import { verifyTrail } from '../../../src/audit/verify.js';
import { run } from '../../../src/cli/program.js';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';

const folder = mkdtempSync(join(tmpdir(), 'audit-copies-'));
afterAll(() => rmSync(folder, { recursive: true }));
const dataOf = (name: string) => join(folder, name);
const fileOf = (name: string) => join(folder, name, 'audit.db');

const fact = (id: string): AuditFact => ({
  ...{ id, kind: 'look', at: Date.parse('2026-03-01T08:00:00Z'), who: { kind: 'typed', name: 'Ana Reyes' } },
  ...{ doing: 'GET /outbox/:id', outcome: 200, about: ['item-1'] },
});
async function trailOf(name: string, count: number, sealing = unsealed) {
  const trail = await openSqliteAudit(fileOf(name), { sealing });
  for (let n = 1; n <= count; n += 1) await trail.append(fact(`${name}-${n}`));
  return trail;
}
async function cli(...args: string[]) {
  const said: string[] = [];
  const add = (text: string) => void said.push(text);
  return { code: await run(['audit', ...args], { out: add, err: add, color: false }), text: said.join('') };
}

describe('a copy of the audit trail', () => {
  it('is made while entries are added, is for its owner only, and goes on where it was put back', async () => {
    const trail = await trailOf('hospital', 3);
    const copy = join(folder, 'copy.db');
    const head = await trail.head();
    const made = await cli('backup', '--data', dataOf('hospital'), '--to', copy);
    expect(made.code).toBe(0);
    expect(made.text.replace(/\s+/g, ' ')).toContain(`3 entries, up to 3:${head?.digest}`);
    expect(statSync(copy).mode & 0o777).toBe(0o600);
    await trail.append(fact('after the copy'));
    await trail.close();

    const back = await cli('restore', copy, '--data', dataOf('other'), '--json');
    expect(JSON.parse(back.text)).toEqual({
      from: copy,
      to: fileOf('other'),
      entries: 3,
      head: `3:${head?.digest}`,
    });
    expect((await cli('verify', '--data', dataOf('other'), '--head', `3:${head?.digest}`)).code).toBe(0);
    const later = (await cli('head', '--data', dataOf('hospital'))).text.trim();
    // What was added since is told as missing.
    expect((await cli('verify', '--data', dataOf('other'), '--head', later)).code).toBe(1);
    const goesOn = await trailOf('other', 1);
    expect(await verifyTrail(goesOn.kept())).toMatchObject({ sound: true, head: { n: 4 } });
    await goesOn.close();
  });

  it('of a sealed trail needs no key, and holds no name', async () => {
    const sealing = sealingWith([Buffer.alloc(32, 3).toString('base64')]);
    await (await trailOf('sealed', 2, sealing)).close();
    const copy = join(folder, 'sealed-copy.db');
    expect(await copyAudit(fileOf('sealed'), copy)).toMatchObject({ entries: 2, head: { n: 2 } });
    const db = new Database(copy, { readonly: true });
    expect(JSON.stringify(db.prepare('SELECT * FROM audit_entry').all())).not.toContain('Reyes');
    db.close();
  });

  it('of an empty one has no head', async () => {
    await (await trailOf('empty', 0)).close();
    expect(await copyAudit(fileOf('empty'), join(folder, 'empty.db'))).toEqual({
      entries: 0,
      head: undefined,
    });
  });

  it.each([
    ['over a file that is there', 'hospital', 'there.db', /is there already/],
    ['of a trail that is not there', 'nowhere', 'nothing.db', /There is no file/],
    ['of another kind of store', 'outbox', 'wrong.db', /not an audit trail/],
  ])('is not made %s', async (_what, from, to, why) => {
    if (to === 'there.db') writeFileSync(join(folder, to), 'kept');
    if (from === 'outbox') {
      await (await trailOf('outbox', 0)).close();
      const db = new Database(fileOf('outbox'));
      db.exec('ALTER TABLE audit_entry RENAME TO item');
      db.close();
    }
    const { code, text } = await cli('backup', '--data', dataOf(from), '--to', join(folder, to));
    expect(code).toBe(2);
    expect(text.replace(/\s+/g, ' ')).toMatch(why);
    expect(existsSync(join(folder, `${to}.${process.pid}.part`))).toBe(false);
  });

  it('is for a trail in a file: one in PostgreSQL is copied with the database', async () => {
    const { code, text } = await cli(
      'backup',
      '--data',
      'postgres://db.example/x',
      '--to',
      join(folder, 'p.db'),
    );
    expect(code).toBe(2);
    expect(text).toContain('pg_dump');
  });
});
