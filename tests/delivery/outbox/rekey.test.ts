import { describe, expect, it } from 'vitest';
import type { Connection, Statement } from '../../../src/delivery/outbox/connection.js';
import { sealAnew } from '../../../src/delivery/outbox/rekey.js';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { postgresIn, SQLITE } from '../../../src/delivery/outbox/sql-schema.js';

const key = (n: number) => sealingWith([Buffer.alloc(32, n).toString('base64')]);
const both = sealingWith([1, 2].map(n => Buffer.alloc(32, n).toString('base64')) as [string, string]);

interface Row {
  readonly id: string;
  readonly [column: string]: string | null;
}
const row = (id: string, payload: string, context: string | null = null): Row => ({
  ...{ id, payload, context, parked: null, receipt: null, accepted: null },
});

/** A database with rows, of which some are gone by the time that they are looked at. */
function database(rows: Row[], gone: string[] = []) {
  const written: Statement[] = [];
  const read: string[] = [];
  const locks: string[] = [];
  let tidied = 0;
  const db: Pick<Connection, 'read' | 'decide' | 'tidy' | 'place'> = {
    place: '/the/place',
    read: async sql => {
      read.push(sql);
      if (sql.includes('count(*)')) {
        const keys = rows.map(({ payload }) => (payload?.startsWith('ct1.') ? payload.slice(4, 16) : null));
        return keys.map(held => ({ key: held, items: 1 })) as never;
      }
      return rows.map(({ id }) => ({ id })) as never;
    },
    decide: async (statement, then, lock) => {
      read.push(statement.sql);
      locks.push(lock);
      const [id] = statement.params;
      const made = then(rows.filter(r => r.id === id && !gone.includes(r.id)) as never);
      if (!made) return [];
      written.push(made);
      return [{}] as never;
    },
    tidy: async () => {
      tidied += 1;
    },
  };
  return { db: db as Connection, written, read, locks, tidied: () => tidied };
}

describe('sealing anew', () => {
  it('goes item by item, writes what is to be changed alone, and counts it', async () => {
    const old = key(2);
    const { db, written, read, locks, tidied } = database(
      [
        row('a', old.seal('{"a":1}', 'a/payload'), old.seal('{"of":"a"}', 'a/context')),
        row('b', both.seal('{"b":1}', 'b/payload')),
        row('c', '{"c":1}'),
        row('d', old.seal('{"d":1}', 'd/payload')),
      ],
      ['d'],
    );
    expect(await sealAnew(db, postgresIn('s'), both)).toBe(2);
    expect(written.map(({ sql }) => sql)).toEqual([
      'UPDATE s.item SET payload = $2, context = $3 WHERE id = $1 RETURNING 1',
      'UPDATE s.item SET payload = $2 WHERE id = $1 RETURNING 1',
    ]);
    const [a, c] = written.map(({ params }) => params.map(String));
    expect([a?.[0], key(1).open(a?.[1] ?? '', 'a/payload'), key(1).open(a?.[2] ?? '', 'a/context')]).toEqual([
      ...['a', '{"a":1}', '{"of":"a"}'],
    ]);
    expect([c?.[0], key(1).open(c?.[1] ?? '', 'c/payload')]).toEqual(['c', '{"c":1}']);
    // In PostgreSQL nobody writes the row between the reading and the writing of it.
    expect(read.slice(1)).toEqual([
      'SELECT id FROM s.item ORDER BY sequence',
      ...Array.from({ length: 4 }, () => 'SELECT * FROM s.item WHERE id = $1 FOR UPDATE'),
    ]);
    expect([locks, tidied()]).toEqual([['rekey a', 'rekey b', 'rekey c', 'rekey d'], 1]);
  });

  it('that changes nothing leaves the files alone', async () => {
    const { db, written, read, tidied } = database([row('a', '{}')]);
    expect(await sealAnew(db, SQLITE, unsealed)).toBe(0);
    expect([written, tidied(), read[2]?.trim()]).toEqual([[], 0, 'SELECT * FROM item WHERE id = $1']);
  });

  it('with a key missing begins nothing', async () => {
    const { db, written, read } = database([row('a', '{}'), row('b', key(2).seal('{}', 'b/payload'))]);
    await expect(sealAnew(db, SQLITE, key(1))).rejects.toMatchObject({
      code: 'outbox-key',
      message: expect.stringContaining('The outbox in /the/place has 1 item sealed with the key'),
    });
    expect([written, read.length]).toEqual([[], 1]);
  });
});
