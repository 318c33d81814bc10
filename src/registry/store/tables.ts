import type { Params, Statement, Steps } from '../../delivery/outbox/connection.js';
import { keyOfSealed, type RowSealing, type Sealing } from '../../delivery/outbox/sealing.js';
import type { Dialect } from '../../delivery/outbox/sql-schema.js';
import { insert } from '../../delivery/outbox/statements.js';
import { lineOf, NAME_COLUMNS, nameParams, rowOfLine } from './rows.js';
import {
  type Access,
  type BatchRow,
  deviceText,
  type NewAnswer,
  type NewLine,
  type Resolved,
  type Withheld,
} from './submissions.js';

export interface SubmissionOptions {
  readonly dialect: Dialect;
  readonly sealing: Sealing;
}

/** The tables of what was given to registries, and the steps that a change of them is made of. */
export class SubmissionTables {
  readonly prefix: string;
  readonly rows: RowSealing;

  constructor({ dialect, sealing }: SubmissionOptions) {
    this.prefix = dialect.prefix;
    this.rows = {
      seal: text => sealing.seal(text, 'registry row'),
      // What was not sealed yet stands as it is.
      open: kept => (keyOfSealed(kept) === undefined ? kept : sealing.open(kept, 'registry row')),
    };
  }

  *add(
    batch: BatchRow,
    content: string,
    lines: readonly NewLine[],
    withheld: readonly Withheld[],
  ): Steps<void> {
    const { registry, id } = batch;
    yield insert(
      `${this.prefix}batch`,
      ['registry', 'id', 'state', 'manifest', 'content', 'made_at'],
      [registry, id, batch.state, JSON.stringify(batch.manifest), this.rows.seal(content), batch.madeAt],
    );
    for (const [n, line] of lines.entries()) {
      yield {
        sql: `UPDATE ${this.prefix}entry SET newest = 0 WHERE registry = $1 AND ${sameName(2)}`,
        params: [registry, ...nameParams(line.name)],
      };
      yield rowOfLine(this.prefix, { registry, batch: id }, line, n + 1, this.rows);
    }
    for (const { number, case: of, device, codes } of withheld)
      yield insert(
        `${this.prefix}withheld`,
        ['registry', 'batch', 'number', 'case_name', 'device', 'codes'],
        [registry, id, number, of, device, codes.join(' ')],
      );
  }

  *answer(registry: string, batch: string, { text, digest, at, verdicts }: NewAnswer): Steps<void> {
    yield insert(
      `${this.prefix}answer`,
      ['registry', 'batch', 'digest', 'at', 'body'],
      [registry, batch, digest, at, this.rows.seal(text)],
    );
    for (const { name, version, state, code, says } of verdicts)
      yield {
        sql: `UPDATE ${this.prefix}entry SET state = $1, code = $2, says = $3
          WHERE registry = $4 AND ${sameName(5)} AND version = $9 AND batch = $10 AND state IN ('open', 'missing')`,
        params: [
          ...[state, code ?? null, says === undefined ? null : this.rows.seal(says)],
          ...[registry, ...nameParams(name), version, batch],
        ],
      };
    const [open] = yield {
      sql: `SELECT count(*) AS n FROM ${this.prefix}entry WHERE registry = $1 AND batch = $2 AND state = 'open'`,
      params: [registry, batch],
    };
    if (Number(open?.['n'] ?? 0) === 0)
      yield {
        sql: `UPDATE ${this.prefix}batch SET state = 'answered', answered_at = $1, reason = NULL
          WHERE registry = $2 AND id = $3`,
        params: [at, registry, batch],
      };
  }

  *setAlike(registry: string, name: string, person: string, groups: readonly string[]): Steps<void> {
    const rows = yield this.select('group_key, person', 'alike', 'registry = $1 AND case_name = $2', [
      registry,
      name,
    ]);
    const wanted = new Set(groups);
    const kept = new Set(rows.flatMap(row => (row['person'] === person ? [String(row['group_key'])] : [])));
    if (kept.size === rows.length && kept.size === wanted.size && groups.every(group => kept.has(group)))
      return;
    yield {
      sql: `DELETE FROM ${this.prefix}alike WHERE registry = $1 AND case_name = $2`,
      params: [registry, name],
    };
    for (const group of wanted)
      yield insert(
        `${this.prefix}alike`,
        ['registry', 'group_key', 'person', 'case_name'],
        [registry, group, person, name],
      );
  }

  /** The look is kept in the same transaction: nobody learns anything that is not on the record. */
  *resolve({ at, by, why, pseudonym }: Omit<Access, 'found' | 'registry'>): Steps<readonly Resolved[]> {
    const rows = yield this.select(
      '*',
      'entry',
      'entry_alias = $1 OR case_alias = $1 OR patient_alias = $1 ORDER BY registry, case_name, device, part, version',
      [pseudonym],
    );
    const found = new Map<string, Resolved>();
    for (const row of rows) {
      const { registry, name, number } = lineOf(row, this.rows);
      const kind =
        row['entry_alias'] === pseudonym ? 'entry' : row['case_alias'] === pseudonym ? 'case' : 'patient';
      const device = kind === 'entry' && { device: deviceText(name) };
      const one: Resolved = { registry, kind, case: name.case, ...device, number };
      found.set(JSON.stringify(one), one);
    }
    const all = [...found.values()];
    yield insert(
      `${this.prefix}access`,
      ['at', 'by_name', 'why', 'registry', 'alias', 'found'],
      [at, this.rows.seal(by), this.rows.seal(why), all[0]?.registry ?? '', pseudonym, all.length],
    );
    return all;
  }

  /** Opens everything and seals it again. */
  *rekey(): Steps<number> {
    const { open, seal } = this.rows;
    const again = (text: unknown) => (typeof text === 'string' ? seal(open(text)) : null);
    const entries = yield this.select('*', 'entry', 'true', []);
    for (const row of entries)
      yield {
        sql: `UPDATE ${this.prefix}entry SET body = $1, says = $2
          WHERE registry = $3 AND case_name = $4 AND device = $5 AND part = $6 AND action = $7 AND version = $8`,
        params: [
          ...[again(row['body']), again(row['says']), String(row['registry'])],
          ...NAME_COLUMNS.map(column => String(row[column])),
          Number(row['version']),
        ],
      };
    let count = entries.length;
    for (const [table, columns] of [
      ['batch', ['content']],
      ['answer', ['body']],
      ['access', ['by_name', 'why']],
    ] as const)
      for (const row of yield this.select(`n, ${columns.join(', ')}`, table, 'true', [])) {
        count += 1;
        yield {
          sql: `UPDATE ${this.prefix}${table} SET ${columns.map((column, n) => `${column} = $${n + 1}`).join(', ')}
            WHERE n = $${columns.length + 1}`,
          params: [...columns.map(column => again(row[column])), Number(row['n'])],
        };
      }
    return count;
  }

  select(columns: string, from: string, where: string, params: Params): Statement {
    return { sql: `SELECT ${columns} FROM ${this.prefix}${from} WHERE ${where}`, params };
  }
}

/** Parameters of `nameParams`, from this place on. */
const sameName = (from: number): string =>
  NAME_COLUMNS.map((column, n) => `${column} = $${from + n}`).join(' AND ');
