import { describe, expect, it } from 'vitest';
import type { Connection, Statement } from '../../../src/delivery/outbox/connection.js';
import { sealAnew } from '../../../src/delivery/outbox/rekey.js';
import { sealingWith, unsealed } from '../../../src/delivery/outbox/sealing.js';
import { postgresIn, SQLITE } from '../../../src/delivery/outbox/sql-schema.js';

const key = (n: number) => sealingWith([Buffer.alloc(32, n).toString('base64')]);
const both = sealingWith([1, 2].map(n => Buffer.alloc(32, n).toString('base64')) as [string, string]);

interface Row {
  readonly id: string;
  readonly sequence: number;
  readonly payload: string;
  readonly [column: string]: string | number | null;
}
const row = (id: string, payload: string, context: string | null = null): Row => ({
  ...{ id, sequence: ' abcde'.indexOf(id), payload, context, parked: null, receipt: null, accepted: null },
});

/** A database with rows, of which some are gone by the time that they are looked at. */
function database(rows: Row[], gone: string[] = []) {
  const written: Statement[] = [];
  const read: string[] = [];
  const locks: string[] = [];
  let tidied = 0;
  const db: Pick<Connection, 'read' | 'transact' | 'tidy' | 'place'> = {
    place: '/the/place',
    read: async sql => {
      read.push(sql);
      if (sql.includes('count(*)')) {
        const keys = rows.map(({ payload }) => (payload.startsWith('ct1.') ? payload.slice(4, 16) : null));
        return keys.map(held => ({ key: held, items: 1 })) as never;
      }
      return rows.map(({ id }) => ({ id })) as never;
    },
    transact: async (steps, lock) => {
      locks.push(lock);
      const run = steps();
      let step = run.next();
      while (!step.done) {
        const { sql, params } = step.value;
        if (sql.startsWith('SELECT')) read.push(sql);
        else written.push(step.value);
        step = run.next(rows.filter(({ id }) => id === params[0] && !gone.includes(id)) as never);
      }
      return step.value;
    },
    tidy: async () => {
      tidied += 1;
    },
  };
  return { db: db as Connection, written, read, locks, tidied: () => tidied };
}

describe('sealing anew', () => {
  it('goes item by item, writes what is to be changed alone, each in its table, and counts items', async () => {
    const old = key(2);
    const { db, written, read, locks, tidied } = database(
      [
        {
          ...row('a', old.seal('{"a":1}', 'a/payload'), old.seal('{"of":"a"}', 'a/context')),
          receipt: old.seal('{"r":1}', 'a/receipt'),
        },
        row('b', both.seal('{"b":1}', 'b/payload')),
        { ...row('c', both.seal('{"c":1}', 'c/payload')), parked: '{"reason":"x"}' },
        row('d', old.seal('{"d":1}', 'd/payload')),
        row('e', '{"e":1}'),
      ],
      ['d'],
    );
    expect(await sealAnew(db, postgresIn('s'), both)).toBe(3);
    expect(written.map(({ sql }) => sql)).toEqual([
      'UPDATE s.queue_item SET receipt = $2 WHERE sequence = $1',
      'UPDATE s.content SET payload = $2, context = $3 WHERE sequence = $1',
      'UPDATE s.queue_item SET parked = $2 WHERE sequence = $1',
      'UPDATE s.content SET payload = $2 WHERE sequence = $1',
    ]);
    const [ofA, a, c, e] = written.map(({ params }) => params.map(String));
    const opened = (text: string | undefined, about: string) => key(1).open(text ?? '', about);
    expect([ofA?.[0], opened(ofA?.[1], 'a/receipt')]).toEqual(['1', '{"r":1}']);
    expect([a?.[0], opened(a?.[1], 'a/payload'), opened(a?.[2], 'a/context')]).toEqual([
      ...['1', '{"a":1}', '{"of":"a"}'],
    ]);
    expect([c?.[0], opened(c?.[1], 'c/parked')]).toEqual(['3', '{"reason":"x"}']);
    expect([e?.[0], opened(e?.[1], 'e/payload')]).toEqual(['5', '{"e":1}']);
    // In PostgreSQL nobody writes the row between the reading and the writing of it.
    expect(read[1]).toBe('SELECT id FROM s.queue_item ORDER BY sequence');
    expect(read.slice(2)).toEqual(
      Array.from({ length: 5 }, () =>
        expect.stringMatching(/ FROM s\.queue_item WHERE id = \$1 FOR UPDATE$/),
      ),
    );
    expect([locks, tidied()]).toEqual([['rekey a', 'rekey b', 'rekey c', 'rekey d', 'rekey e'], 1]);
  });

  it('that changes nothing leaves the files alone', async () => {
    const { db, written, read, tidied } = database([row('a', '{}')]);
    expect(await sealAnew(db, SQLITE, unsealed)).toBe(0);
    expect([written, tidied()]).toEqual([[], 0]);
    expect(read[2]?.trim()).toMatch(/ FROM queue_item WHERE id = \$1$/);
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
