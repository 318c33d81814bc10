import type { Connection, Params, Statement } from '../../delivery/outbox/connection.js';
import { inBatches, placesOf } from '../../delivery/outbox/statements.js';
import { batchOf, lineOf, type Row } from './rows.js';
import type {
  Access,
  BatchChange,
  BatchRow,
  BatchState,
  KeyPrint,
  Line,
  LineCounts,
  LineState,
  NewAnswer,
  NewLine,
  Resolved,
  Submissions,
  Withheld,
} from './submissions.js';
import { type SubmissionOptions, SubmissionTables } from './tables.js';

/** Everything that changes runs one after the other. */
const LOCK = 'registry';

/** What was given to registries, in a database. */
export class SqlSubmissions implements Submissions {
  readonly #db: Connection;
  readonly #tables: SubmissionTables;

  constructor(db: Connection, options: SubmissionOptions) {
    this.#db = db;
    this.#tables = new SubmissionTables(options);
  }

  async keys(registry: string): Promise<readonly KeyPrint[]> {
    const rows = await this.#read('*', 'registry_key', 'registry = $1 ORDER BY since, key_id', [registry]);
    return rows.map(row => ({
      keyId: String(row['key_id']),
      fingerprint: String(row['fingerprint']),
      since: Number(row['since']),
    }));
  }

  async setKey(registry: string, { keyId, fingerprint, since }: KeyPrint): Promise<void> {
    await this.#run({
      sql: `INSERT INTO ${this.#tables.prefix}registry_key (registry, key_id, fingerprint, since)
        VALUES ($1, $2, $3, $4) ON CONFLICT (registry, key_id) DO NOTHING`,
      params: [registry, keyId, fingerprint, since],
    });
  }

  async linesOfCase(registry: string, name: string): Promise<readonly Line[]> {
    const where = 'registry = $1 AND case_name = $2 AND newest = 1 ORDER BY device, part, action';
    return this.#lines(where, [registry, name]);
  }

  addBatch(
    batch: BatchRow,
    content: string,
    lines: readonly NewLine[],
    withheld: readonly Withheld[],
  ): Promise<void> {
    return this.#db.transact(() => this.#tables.add(batch, content, lines, withheld), LOCK);
  }

  async setBatch(registry: string, id: string, { state, at, reason }: BatchChange): Promise<void> {
    const answered = state === 'answered' ? ', answered_at = $2' : '';
    // The time of a try is that of its beginning.
    const tried = state === 'sending' ? '$2' : 'coalesce(tried_at, $2)';
    await this.#run({
      sql: `UPDATE ${this.#tables.prefix}batch SET state = $1, tried_at = ${tried}${answered}, reason = $3
        WHERE registry = $4 AND id = $5`,
      params: [state, at, reason ?? null, registry, id],
    });
  }

  async batches(registry: string, states?: readonly BatchState[]): Promise<readonly BatchRow[]> {
    const only =
      states === undefined ? '' : ` AND state IN (${states.map((_, n) => `$${n + 2}`).join(', ')})`;
    const rows = await this.#read(BATCH, 'batch', `registry = $1${only} ORDER BY n`, [
      registry,
      ...(states ?? []),
    ]);
    return rows.map(batchOf);
  }

  async batch(registry: string, id: string): Promise<BatchRow | undefined> {
    const [row] = await this.#read(BATCH, 'batch', 'registry = $1 AND id = $2', [registry, id]);
    return row && batchOf(row);
  }

  async content(registry: string, id: string): Promise<string> {
    const [row] = await this.#read('content', 'batch', 'registry = $1 AND id = $2', [registry, id]);
    return row ? this.#tables.rows.open(String(row['content'])) : '';
  }

  lines(registry: string, batch: string): Promise<readonly Line[]> {
    return this.#lines('registry = $1 AND batch = $2 ORDER BY line', [registry, batch]);
  }

  linesIn(registry: string, states: readonly LineState[]): Promise<readonly Line[]> {
    const where = `registry = $1 AND newest = 1 AND state IN (${states.map((_, n) => `$${n + 2}`).join(', ')})`;
    return this.#lines(`${where} ORDER BY batch, line`, [registry, ...states]);
  }

  async withheld(registry: string, batch: string): Promise<readonly Withheld[]> {
    const rows = await this.#read('*', 'withheld', 'registry = $1 AND batch = $2 ORDER BY number', [
      registry,
      batch,
    ]);
    return rows.map(row => ({
      number: Number(row['number']),
      case: String(row['case_name']),
      device: String(row['device']),
      codes: String(row['codes']).split(' '),
    }));
  }

  setAnswer(registry: string, batch: string, answer: NewAnswer): Promise<void> {
    return this.#db.transact(() => this.#tables.answer(registry, batch, answer), LOCK);
  }

  async hasAnswer(registry: string, digest: string): Promise<boolean> {
    const rows = await this.#read('digest', 'answer', 'registry = $1 AND digest = $2', [registry, digest]);
    return rows.length > 0;
  }

  async counts(registry: string): Promise<LineCounts> {
    const rows = await this.#read(
      'state, count(*) AS n',
      'entry',
      'registry = $1 AND newest = 1 GROUP BY state',
      [registry],
    );
    const counts = { open: 0, accepted: 0, duplicate: 0, refused: 0, missing: 0 };
    for (const row of rows) counts[String(row['state']) as LineState] = Number(row['n']);
    return counts;
  }

  setAlike(registry: string, name: string, person: string, groups: readonly string[]): Promise<void> {
    return this.#db.transact(() => this.#tables.setAlike(registry, name, person, groups), LOCK);
  }

  async alike(registry: string, groups: readonly string[]): Promise<ReadonlyMap<string, number>> {
    const counted = new Map<string, number>();
    for (const some of inBatches([...new Set(groups)])) {
      const { sql, params } = this.#tables.select(
        'group_key, count(DISTINCT person) AS n',
        'alike',
        `group_key IN (${placesOf(some)}) AND registry = $${some.length + 1} GROUP BY group_key`,
        [...some, registry],
      );
      for (const row of await this.#db.read<Row>(sql, params))
        counted.set(String(row['group_key']), Number(row['n']));
    }
    return counted;
  }

  resolve(access: Omit<Access, 'found' | 'registry'>): Promise<readonly Resolved[]> {
    return this.#db.transact(() => this.#tables.resolve(access), LOCK);
  }

  async accesses(): Promise<readonly Access[]> {
    const rows = await this.#read('*', 'access', 'true ORDER BY n', []);
    return rows.map(row => ({
      at: Number(row['at']),
      by: this.#tables.rows.open(String(row['by_name'])),
      why: this.#tables.rows.open(String(row['why'])),
      registry: String(row['registry']),
      pseudonym: String(row['alias']),
      found: Number(row['found']),
    }));
  }

  sentUnder(registry: string, keyId: string): Promise<readonly Line[]> {
    const where = 'registry = $1 AND entry_alias LIKE $2 ORDER BY case_name, device, part, action, version';
    return this.#lines(where, [registry, `${keyId}.%`]);
  }

  rekey(): Promise<number> {
    return this.#db.transact(() => this.#tables.rekey(), LOCK);
  }

  integrity(): Promise<readonly string[]> {
    return this.#db.integrity();
  }

  close(): Promise<void> {
    return this.#db.close();
  }

  async #lines(where: string, params: Params): Promise<Line[]> {
    return (await this.#read('*', 'entry', where, params)).map(row => lineOf(row, this.#tables.rows));
  }

  #read(columns: string, from: string, where: string, params: Params): Promise<readonly Row[]> {
    const { sql } = this.#tables.select(columns, from, where, params);
    return this.#db.read<Row>(sql, params);
  }

  async #run(statement: Statement): Promise<void> {
    await this.#db.run(statement, LOCK);
  }
}

const BATCH = 'registry, id, state, manifest, made_at, tried_at, answered_at, reason';
