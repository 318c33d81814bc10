import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { readableRows } from '../../../src/delivery/outbox/readable-rows.js';

interface Damage {
  /** What the counter of the table says; absent where it has none, or 'hurt'. */
  readonly seq?: number | 'hurt';
  /** The highest number found in the table; absent where it has no rows, or 'hurt'. */
  readonly max?: number | 'hurt';
  readonly hurt?: readonly number[];
}

/** A database whose tables cannot be read as a whole; it has the rows of even numbers. */
function damaged({ seq, max, hurt = [] }: Damage) {
  const asked = { sql: new Set<string>(), count: 0, last: 0 };
  const read = <T>(value: T | 'hurt'): T => {
    if (value === 'hurt') throw new Error('database disk image is malformed');
    return value;
  };
  const db = {
    prepare: (sql: string) => ({
      all: () => read('hurt'),
      get(rowid?: number) {
        if (rowid !== undefined && sql !== 'SELECT * FROM note NOT INDEXED WHERE rowid = ?') return undefined;
        if (rowid === undefined) asked.sql.add(sql);
        if (sql.includes('sqlite_sequence')) return seq === undefined ? undefined : { last: read(seq) };
        if (sql.includes('max(')) return { last: read(max ?? null) };
        asked.count += 1;
        asked.last = rowid ?? 0;
        if (hurt.includes(asked.last)) read('hurt');
        return asked.last % 2 === 0 && asked.last < 10 ? { n: asked.last } : undefined;
      },
    }),
  };
  return { db: db as unknown as Database.Database, asked };
}

describe('the rows of a table that can be read', () => {
  it('are all of a whole one, in order', () => {
    const db = new Database(':memory:');
    db.exec("CREATE TABLE note (n INTEGER PRIMARY KEY, text); INSERT INTO note VALUES (2, 'b'), (1, 'a')");
    expect(readableRows(db, 'note')).toStrictEqual({
      rows: [
        { n: 1, text: 'a' },
        { n: 2, text: 'b' },
      ],
      lost: false,
    });
    db.close();
  });

  it.each<[what: string, damage: Damage, rows: number[], last: number]>([
    ['as far as its counter goes', { seq: 5, max: 3 }, [2, 4], 5],
    ['as far as its rows go, where the counter is behind', { seq: 1, max: 6 }, [2, 4, 6], 6],
    ['past the one that is hurt', { seq: 6, hurt: [4] }, [2, 6], 6],
    ['by its rows where its counter is hurt', { seq: 'hurt', max: 4 }, [2, 4], 4],
    ['by its counter where its last page is hurt', { seq: 4, max: 'hurt' }, [2, 4], 4],
    ['by its rows where it has no counter', { max: 2 }, [2], 2],
    ['and are none where nothing tells of any', { seq: 'hurt', max: 'hurt' }, [], 0],
    ['no further than ten million, whatever a hurt counter says', { seq: 10_000_003 }, [2, 4, 6, 8], 1e7],
  ])('are looked for %s', (_what, damage, rows, last) => {
    const { db, asked } = damaged(damage);
    expect(readableRows(db, 'note')).toStrictEqual({ rows: rows.map(n => ({ n })), lost: true });
    expect([asked.count, asked.last]).toEqual([last, last]);
    expect([...asked.sql]).toEqual([
      expect.stringContaining('FROM sqlite_sequence'),
      expect.stringContaining('FROM note NOT INDEXED'),
    ]);
  });
});
