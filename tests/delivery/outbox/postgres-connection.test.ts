import { syncBuiltinESMExports } from 'node:module';
import timers from 'node:timers/promises';
import type pg from 'pg';
import { describe, expect, it } from 'vitest';
import type { Steps } from '../../../src/delivery/outbox/connection.js';
import { PostgresConnection } from '../../../src/delivery/outbox/postgres-connection.js';
import { CasetallyError } from '../../../src/findings/errors.js';

const BEGIN =
  "BEGIN; SET LOCAL synchronous_commit = on; SET LOCAL statement_timeout = '60s'; SET LOCAL lock_timeout = '30s'";
const coded = (code: string, message = 'CANARY postgres://u:p@h') =>
  Object.assign(new Error(message), { code });

/** A pool of connections to a server that answers as it is told; every statement is written down. */
function server(answer: (sql: string, params: unknown) => unknown = () => [], connecting?: () => unknown) {
  const sent: unknown[] = [];
  const released: unknown[] = [];
  const listeners = new Set<(error: Error) => void>();
  const idle: ((error: Error) => void)[] = [];
  const query = async (sql: string, params?: unknown) => {
    sent.push(params === undefined ? sql : [sql, params]);
    const rows = answer(sql, params);
    if (rows instanceof Error || typeof rows === 'string' || rows === null) throw rows;
    return { rows };
  };
  const client = {
    query,
    on: (event: string, listener: (error: Error) => void) => event === 'error' && listeners.add(listener),
    off: (event: string, listener: (error: Error) => void) => event === 'error' && listeners.delete(listener),
    release: (broken?: unknown) => released.push(broken),
  };
  const pool = {
    query,
    on: (event: string, listener: (error: Error) => void) => event === 'error' && idle.push(listener),
    connect: async () => {
      const failed = connecting?.();
      if (failed) throw failed;
      return client;
    },
    end: async () => {
      sent.push('end');
    },
  };
  return { pool: pool as unknown as pg.Pool, sent, released, listeners, idle };
}

const failed = (work: Promise<unknown>) =>
  work.then(
    () => 'done',
    error => error,
  );

describe('a transaction in PostgreSQL', () => {
  it('begins durable and bounded, is committed, and gives its connection back', async () => {
    const { pool, sent, released, listeners } = server(() => [{ a: 1 }]);
    const db = new PostgresConnection(pool);
    expect(await db.run({ sql: 'UPDATE x', params: ['a', 1, null] })).toEqual([{ a: 1 }]);
    expect(sent).toEqual([BEGIN, ['UPDATE x', ['a', 1, null]], 'COMMIT']);
    expect([released, listeners.size, db.place]).toEqual([[undefined], 0, 'the PostgreSQL database']);
  });

  it('with a lock waits for all others with it, on every machine and in every version', async () => {
    const { pool, sent } = server();
    const db = new PostgresConnection(pool);
    await db.run({ sql: 'UPDATE x', params: [] }, 'records');
    await db.decide({ sql: 'SELECT 1', params: [] }, () => undefined, 'gate records');
    await db.transact(function* () {
      yield { sql: 'SELECT 2', params: [] };
    }, 'records');
    const begins = sent.filter(sql => String(sql).startsWith('BEGIN'));
    const lock = (key: string) => `${BEGIN}; SELECT pg_advisory_xact_lock(${key})`;
    expect(begins).toEqual([
      lock('2444860105303366587'),
      lock('4347297906267720445'),
      lock('2444860105303366587'),
    ]);
  });

  it('decides by what it read, or not to write', async () => {
    const { pool, sent } = server(sql => (sql === 'SELECT' ? [{ n: 1 }] : [{ n: 2 }]));
    const db = new PostgresConnection(pool);
    const read = { sql: 'SELECT', params: ['d'] };
    const made = await db.decide<{ n: number }>(
      read,
      ([row]) => ({ sql: 'INSERT', params: [row?.n ?? 0] }),
      'd',
    );
    expect(made).toEqual([{ n: 2 }]);
    expect(await db.decide(read, () => undefined, 'd')).toEqual([]);
    expect(sent.slice(1)).toEqual([
      ...[['SELECT', ['d']], ['INSERT', [1]], 'COMMIT'],
      ...[expect.stringContaining(BEGIN), ['SELECT', ['d']], 'COMMIT'],
    ]);
  });

  it('takes steps with the rows of the last one', async () => {
    const { pool, sent } = server((_sql, params) => [{ of: params }]);
    function* steps(): Steps<unknown> {
      const first = yield { sql: 'A', params: [1] };
      const second = yield { sql: 'B', params: [2] };
      return [first, second];
    }
    expect(await new PostgresConnection(pool).transact(steps, 'l')).toEqual([[{ of: [1] }], [{ of: [2] }]]);
    expect(sent.slice(1)).toEqual([['A', [1]], ['B', [2]], 'COMMIT']);
  });

  it('that fails is taken back, and its connection is given back whole', async () => {
    const { pool, sent, released, listeners } = server(sql => (sql === 'UPDATE x' ? coded('23505') : []));
    const error = await failed(new PostgresConnection(pool, [0]).run({ sql: 'UPDATE x', params: [] }));
    expect(sent).toEqual([BEGIN, ['UPDATE x', []], 'ROLLBACK']);
    expect([released, listeners.size]).toEqual([[undefined], 0]);
    expect(error).toMatchObject({
      code: 'outbox-unreadable',
      message: 'The outbox in PostgreSQL cannot be used: it failed (23505).',
    });
  });

  it('on a connection that broke has it thrown away', async () => {
    const lost = coded('ECONNRESET');
    const first = server(sql => (sql === BEGIN ? [] : lost));
    await failed(new PostgresConnection(first.pool, []).run({ sql: 'UPDATE x', params: [] }));
    expect(first.released).toEqual([lost]);
    // A connection that breaks between two statements tells it to its listener alone.
    const second = server(() => {
      for (const listener of second.listeners) listener(lost);
      return [];
    });
    await new PostgresConnection(second.pool, []).run({ sql: 'UPDATE x', params: [] });
    expect(second.released).toEqual([lost]);
    // One that the server closes while nobody uses it ends nothing.
    expect(second.idle).toHaveLength(1);
    expect(second.idle[0]?.(lost)).toBeUndefined();
  });

  it('that Casetally itself refuses is refused as it was, at once', async () => {
    const { pool, sent } = server();
    const refusal = new CasetallyError('outbox-key', 'another key');
    const refusing = () => {
      throw refusal;
    };
    const db = new PostgresConnection(pool, [0, 0]);
    expect(await failed(db.decide({ sql: 'SELECT', params: [] }, refusing, 'd'))).toBe(refusal);
    expect(sent.at(-1)).toBe('ROLLBACK');
    expect(sent.filter(sql => sql === 'ROLLBACK')).toHaveLength(1);
  });
});

describe('a database that is away for a moment', () => {
  // SQLSTATE: PostgreSQL documentation, appendix A; the rest are codes of Node.js.
  it.each([
    ...['08000', '08006', '57P01', '57P02', '57P03', '40001', '40P01', '55P03'],
    ...['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'EHOSTUNREACH', 'ENETUNREACH', 'EAI_AGAIN'],
  ])('is tried again after %s, and then said to be away', async code => {
    let tries = 0;
    const { pool } = server(
      () => [],
      () => {
        tries += 1;
        return coded(code);
      },
    );
    const error = await failed(new PostgresConnection(pool, [0, 0]).run({ sql: 'UPDATE x', params: [] }));
    expect(tries).toBe(3);
    expect(error).toMatchObject({ code: 'outbox-away', message: expect.stringMatching(` \\(${code}\\)$`) });
    expect(error.message).toMatch(/^The outbox in the PostgreSQL database cannot be reached/);
    expect(`${error.stack}`).not.toMatch(/CANARY|postgres:\/\//);
  });

  it('is tried again when the connection is terminated, which has words and no code', async () => {
    let tries = 0;
    const { pool } = server(sql => {
      if (sql !== 'UPDATE x') return [];
      tries += 1;
      return tries === 1 ? new Error('Connection terminated unexpectedly') : [{ a: 1 }];
    });
    expect(await new PostgresConnection(pool, [0]).run({ sql: 'UPDATE x', params: [] })).toEqual([{ a: 1 }]);
    const gone = server(() => new Error('Connection terminated'));
    expect(await failed(new PostgresConnection(gone.pool, []).read('SELECT'))).toMatchObject({
      code: 'outbox-away',
      message: expect.stringMatching(/ \(no answer\)$/),
    });
  });

  it('is given some sixteen seconds', async () => {
    const waits: unknown[] = [];
    const sleep = timers.setTimeout;
    timers.setTimeout = (async (ms: unknown) => waits.push(ms)) as unknown as typeof sleep;
    syncBuiltinESMExports();
    try {
      const { pool } = server(
        () => [],
        () => coded('ECONNREFUSED'),
      );
      const end = await failed(new PostgresConnection(pool).read('SELECT'));
      expect(end).toMatchObject({ code: 'outbox-away' });
    } finally {
      timers.setTimeout = sleep;
      syncBuiltinESMExports();
    }
    expect(waits).toEqual([200, 500, 1_000, 2_000, 4_000, 8_000]);
  });
});

describe('a fault of PostgreSQL', () => {
  const unusable = (why: string, code: string) =>
    `The outbox in PostgreSQL cannot be used: ${why} (${code}).`;
  it.each<[code: string, named: string, message: string | RegExp]>([
    ['53100', 'outbox-full', /^There is no room left .* \(53100\)$/],
    ['25006', 'outbox-read-only', /^The outbox in the PostgreSQL database cannot be written to.* \(25006\)$/],
    ['XX001', 'outbox-damaged', / is damaged: .* \(XX001\)$/],
    ['XX002', 'outbox-damaged', / is damaged: .* \(XX002\)$/],
    ['53200', 'outbox-away', / cannot be reached .* \(53200\)$/],
    ['53300', 'outbox-away', / cannot be reached .* \(53300\)$/],
    ['ENOENT', 'outbox-away', / cannot be reached .* \(ENOENT\)$/],
    ['ENOTFOUND', 'outbox-away', / cannot be reached .* \(ENOTFOUND\)$/],
    ['28P01', 'outbox-unreadable', unusable('it does not accept the user or the password', '28P01')],
    ['28000', 'outbox-unreadable', unusable('it does not accept the user or the password', '28000')],
    ['3D000', 'outbox-unreadable', unusable('there is no such database', '3D000')],
    [
      '42501',
      'outbox-unreadable',
      unusable('the user may not do this; it needs to create and use the schema of the outbox', '42501'),
    ],
    ['53400', 'outbox-unreadable', unusable('it failed', '53400')],
    ['XX003', 'outbox-unreadable', unusable('it failed', 'XX003')],
    ['57P04', 'outbox-unreadable', unusable('it failed', '57P04')],
    ['080061', 'outbox-unreadable', unusable('it failed', '080061')],
    ['x08006', 'outbox-unreadable', unusable('it failed', 'x08006')],
    ['531000', 'outbox-unreadable', unusable('it failed', '531000')],
    ['x53100', 'outbox-unreadable', unusable('it failed', 'x53100')],
    ['250060', 'outbox-unreadable', unusable('it failed', '250060')],
    ['x25006', 'outbox-unreadable', unusable('it failed', 'x25006')],
    ['XX0010', 'outbox-unreadable', unusable('it failed', 'XX0010')],
    ['xXX001', 'outbox-unreadable', unusable('it failed', 'xXX001')],
    ['532000', 'outbox-unreadable', unusable('it failed', '532000')],
    ['x53200', 'outbox-unreadable', unusable('it failed', 'x53200')],
  ])('%s is %s, and nothing of its words is passed on', async (code, named, message) => {
    const { pool } = server(sql => (sql === 'SELECT' ? coded(code) : []));
    const error = await failed(new PostgresConnection(pool, []).read('SELECT'));
    expect(error).toMatchObject({
      code: named,
      message: typeof message === 'string' ? message : expect.stringMatching(message),
    });
    expect(`${error.stack} ${String(error.cause)}`).not.toMatch(/CANARY|postgres:\/\//);
  });

  it.each(['a text', null, new Error('The Connection terminated')])(
    'that has no code is one without an answer',
    async thrown => {
      const { pool } = server(sql => (sql === 'SELECT' ? thrown : []));
      expect(await failed(new PostgresConnection(pool, [0]).read('SELECT'))).toMatchObject({
        code: 'outbox-unreadable',
        message: unusable('it failed', 'no answer'),
      });
    },
  );
});

it('tables are read, tidied and closed under the name of their schema', async () => {
  const { pool, sent } = server(() => [{ id: 'a' }]);
  const db = new PostgresConnection(pool);
  const other = new PostgresConnection(pool, [], 'register');
  expect(await db.rows('item')).toEqual([{ id: 'a' }]);
  await other.rows('note');
  await db.tidy();
  await other.tidy(['note', 'gone']);
  expect(await db.integrity()).toEqual([]);
  await db.close();
  expect(sent.filter(sql => sql !== BEGIN && sql !== 'COMMIT')).toEqual([
    ['SELECT * FROM casetally.item ORDER BY sequence', []],
    ['SELECT * FROM register.note ORDER BY sequence', []],
    'VACUUM casetally.queue_item, casetally.content',
    'VACUUM register.note, register.gone',
    'end',
  ]);
  const full = server(() => coded('53100'));
  expect(await failed(new PostgresConnection(full.pool).tidy())).toMatchObject({ code: 'outbox-full' });
});
