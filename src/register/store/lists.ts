import type { Connection } from '../../delivery/outbox/connection.js';
import { inBatches, placesOf } from '../../delivery/outbox/statements.js';
import { distinctNumbers } from '../../registry/patient-number.js';
import type { Gap, Unlinked } from '../use.js';
import { recallHits } from './recall.js';
import type {
  PersonRow,
  PlanFilter,
  PlanRow,
  RecallHit,
  RecallLine,
  RegisterCounts,
  SameSerial,
  UseSummary,
} from './register.js';
import { numberKey, planOfRow, type Row, summaryOf } from './rows.js';
import { planColumns } from './schema.js';
import type { RegisterTables } from './tables.js';

/** What is read of the register without its history. */
export class RegisterLists {
  readonly #db: Connection;
  readonly #tables: RegisterTables;

  constructor(db: Connection, tables: RegisterTables) {
    this.#db = db;
    this.#tables = tables;
  }

  async people(value: string, system?: string): Promise<readonly PersonRow[]> {
    const rows = await this.read(
      'DISTINCT p.root',
      `person_number n JOIN ${this.#tables.prefix}person p ON p.id = n.person`,
      `n.number_key = $1${system === undefined ? '' : ' AND n.system = $2'}`,
      [numberKey(value), ...(system === undefined ? [] : [system])],
    );
    const found = await Promise.all(rows.map(row => this.person(String(row['root']))));
    return found.flatMap(one => one ?? []);
  }

  async person(id: string): Promise<PersonRow | undefined> {
    const rows = await this.read(
      'n.number',
      `person_number n JOIN ${this.#tables.prefix}person p ON p.id = n.person`,
      'p.root = $1 ORDER BY n.system, n.number_key',
      [id],
    );
    if (rows.length === 0) return undefined;
    const numbers = rows.map(row => String(row['number']));
    return { id, numbers: distinctNumbers(numbers.map(sealed => this.#tables.openNumber(sealed))) };
  }

  async plans(filter: PlanFilter): Promise<readonly PlanRow[]> {
    const { where, params } = whereOf(filter);
    const most = filter.limit === undefined ? '' : ` LIMIT ${Math.trunc(filter.limit)}`;
    const rows = await this.read(
      `${PLAN_SELECT}, u.*`,
      this.#plansOfUses,
      `${where} ORDER BY p.day, u.id, p.n${most}`,
      params,
    );
    return rows.map(row => {
      const { closed: _closed, ...plan } = planOfRow(row, this.#tables.rows, 'p_');
      return { ...plan, use: summaryOf(row, this.#tables.rows) };
    });
  }

  async planCount(filter: PlanFilter): Promise<number> {
    const { where, params } = whereOf(filter);
    // An open plan is of a use that is inside or not accounted for; those of the latter are few, and are taken out
    // without a look at each use.
    const few = `(p.use_id, p.person) NOT IN (SELECT id, person FROM ${this.#tables.prefix}use WHERE state = 'unknown')`;
    const [row] =
      filter.kind === undefined
        ? await this.read('count(*) AS n', 'plan p', where.replace(INSIDE, few), params)
        : await this.read('count(*) AS n', this.#plansOfUses, where, params);
    return Number(row?.['n'] ?? 0);
  }

  get #plansOfUses(): string {
    return `plan p JOIN ${this.#tables.prefix}use u ON u.id = p.use_id AND u.person = p.person`;
  }

  async unreviewed(on: string): Promise<readonly UseSummary[]> {
    const rows = await this.read(
      'u.*',
      'use u',
      `u.retrievable = 1 AND u.state = 'inside' AND NOT EXISTS (
         SELECT 1 FROM ${this.#tables.prefix}plan p WHERE p.use_id = u.id AND p.person = u.person AND p.closed_how IS NULL
           AND coalesce(p.latest, p.due) >= $1)
       ORDER BY coalesce(u.placed, ''), u.id`,
      [on],
    );
    return rows.map(row => summaryOf(row, this.#tables.rows));
  }

  async unlinked(): Promise<readonly Unlinked[]> {
    const rows = await this.read('body', 'unlinked', 'true ORDER BY date, case_name, device', []);
    return rows.map(row => JSON.parse(this.#tables.rows.open(String(row['body']))) as Unlinked);
  }

  async gaps(): Promise<readonly Gap[]> {
    const rows = await this.read('*', 'gap', 'true ORDER BY use_id, case_name, device', []);
    return rows.map(row => ({
      person: String(row['person']),
      use: String(row['use_id']),
      case: String(row['case_name']),
      device: String(row['device']),
    }));
  }

  recall(lines: readonly RecallLine[]): Promise<readonly RecallHit[]> {
    return recallHits(lines, async (where, params) =>
      (await this.read('*', 'use', where, params)).map(row => summaryOf(row, this.#tables.rows)),
    );
  }

  async insideWithoutIdentifier(): Promise<number> {
    const [row] = await this.read(
      'count(*) AS n',
      'use',
      "di IS NULL AND state IN ('inside', 'unknown')",
      [],
    );
    return Number(row?.['n'] ?? 0);
  }

  async counts(): Promise<RegisterCounts> {
    const count = async (what: string, table: string, where = 'true') =>
      Number((await this.read(`count(${what}) AS n`, table, where, []))[0]?.['n'] ?? 0);
    return {
      cases: await count('DISTINCT case_name', 'case_version'),
      people: await count('DISTINCT root', 'person'),
      uses: await count('*', 'use'),
      inside: await count('*', 'use', "state = 'inside'"),
      unlinked: await count('*', 'unlinked'),
      gaps: await count('*', 'gap'),
      withoutPerson: await count('*', 'case_version', 'person IS NULL'),
    };
  }

  async sameSerials(): Promise<readonly SameSerial[]> {
    const rows = await this.read(
      'a.di, a.serial, a.id AS use, b.id AS other',
      `use a JOIN ${this.#tables.prefix}use b ON b.di = a.di AND b.serial = a.serial AND b.person > a.person`,
      "a.serial IS NOT NULL AND a.state <> 'withdrawn' AND b.state <> 'withdrawn' ORDER BY 1, 2, 3, 4",
      [],
    );
    return rows.map(row => ({
      di: String(row['di']),
      serial: String(row['serial']),
      use: String(row['use']),
      other: String(row['other']),
    }));
  }

  async notReplayed(items: readonly string[]): Promise<readonly string[]> {
    const known = new Set<unknown>();
    for (const some of inBatches(items))
      for (const row of await this.read('item', 'replayed', `item IN (${placesOf(some)})`, some))
        known.add(row['item']);
    return items.filter(item => !known.has(item));
  }

  read(
    columns: string,
    from: string,
    where: string,
    params: readonly (string | number)[],
  ): Promise<readonly Row[]> {
    const { sql } = this.#tables.select(columns, from, where, params);
    return this.#db.read<Row>(sql, params);
  }
}

const PLAN_SELECT = planColumns.map(column => `p.${column} AS p_${column}`).join(', ');

const INSIDE = "u.state = 'inside'";

/** Open plans about what is inside, as a condition with its parameters. */
function whereOf({ from, to, overdueOn, kind, by }: PlanFilter): { where: string; params: string[] } {
  const where: string[] = ['p.closed_how IS NULL', INSIDE];
  const params: string[] = [];
  const add = (sql: string, value: string) => {
    params.push(value);
    where.push(sql.replaceAll('?', `$${params.length}`));
  };
  if (from !== undefined) add('p.day >= ?', from);
  if (to !== undefined) add('p.day <= ?', to);
  // A day that is named may pass while the last one allowed has not.
  if (overdueOn !== undefined) add('p.day < ? AND coalesce(p.latest, p.due) < ?', overdueOn);
  if (kind !== undefined) add('(u.kind = ? OR u.family = ?)', kind);
  if (by !== undefined) add('p.by_role = ?', by);
  return { where: where.join(' AND '), params };
}
