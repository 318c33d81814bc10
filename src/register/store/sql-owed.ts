import type { Fields } from '../../delivery/change/fields.js';
import type { Connection, Statement, Steps } from '../../delivery/outbox/connection.js';
import { inBatches, insert, placesOf } from '../../delivery/outbox/statements.js';
import type { PersonNumber } from '../facts.js';
import { type Closing, closingsOf } from '../wanted.js';
import { ask } from './asked.js';
import type { RegisterLists } from './lists.js';
import type { Change, Owed, OwedCase, OwedLease, OwedWork } from './owed.js';
import type { Row } from './rows.js';
import { LOCK, type RegisterTables } from './tables.js';

type Of = Pick<OwedCase, 'case' | 'destination'>;

/** What is owed to destinations, in the tables of the register. */
export class SqlOwed implements Owed {
  readonly #db: Connection;
  readonly #tables: RegisterTables;
  readonly #lists: RegisterLists;

  constructor(db: Connection, tables: RegisterTables, lists: RegisterLists) {
    this.#db = db;
    this.#tables = tables;
    this.#lists = lists;
  }

  async claim(
    destinations: readonly string[],
    now: number,
    leaseMs: number,
    cases?: readonly string[],
  ): Promise<OwedLease | undefined> {
    if (destinations.length === 0 || cases?.length === 0) return undefined;
    const { prefix } = this.#tables;
    return this.#db.transact(function* (): Steps<OwedLease | undefined> {
      const params = [...destinations, now, ...(cases ?? [])];
      const at = `$${destinations.length + 1}`;
      const ofCases = cases
        ? ` AND case_name IN (${cases.map((_, n) => `$${destinations.length + 2 + n}`).join(', ')})`
        : '';
      const [row] = yield {
        sql: `SELECT * FROM ${prefix}owed WHERE destination IN (${placesOf(destinations)})
          AND held = 0 AND due_at <= ${at} AND leased_until <= ${at}${ofCases}
          ORDER BY due_at, case_name, destination LIMIT 1`,
        params,
      };
      if (!row) return undefined;
      const { attempts, ...owed } = owedOf(row);
      yield {
        sql: `UPDATE ${prefix}owed SET leased_until = $1, attempts = attempts + 1
          WHERE case_name = $2 AND destination = $3`,
        params: [now + leaseMs, owed.case, owed.destination],
      };
      const generation = Number(row['generation']);
      return { ...owed, attempts: attempts + 1, generation, until: now + leaseMs };
    }, LOCK);
  }

  async work({ case: name, destination }: Of): Promise<OwedWork> {
    const rows = await this.#lists.read('DISTINCT person', 'use_event', 'case_name = $1', [name]);
    const people: { readonly closings: readonly Closing[]; readonly numbers: readonly PersonNumber[] }[] = [];
    for (const { person } of rows) {
      const id = String(person);
      const uses = await this.#db.transact(() => this.#tables.usesOf(id), LOCK);
      people.push({
        closings: closingsOf(uses, name),
        numbers: (await this.#lists.person(id))?.numbers ?? [],
      });
    }
    // A case that was moved to another person has left its mark with the first.
    const meant = people.some(({ closings }) => closings.length > 0)
      ? people.filter(({ closings }) => closings.length > 0)
      : people;
    const of = [name, destination];
    const changes = await this.#lists.read(
      '*',
      'changed',
      'case_name = $1 AND destination = $2 ORDER BY type, value',
      of,
    );
    const [last] = await this.#lists.read('at', 'accepted', 'case_name = $1 AND destination = $2', of);
    return {
      closings: meant.flatMap(({ closings }) => closings),
      changes: changes.map(changeOf),
      numbers: meant.flatMap(({ numbers }) => numbers),
      ...(last && { acceptedAt: Number(last['at']) }),
    };
  }

  remember({ case: name, destination }: Of, change: Change): Promise<void> {
    const key = [destination, change.type, change.value];
    const { before, after } = change;
    return this.#change(
      this.#forget(key),
      insert(
        `${this.#tables.prefix}changed`,
        ['destination', 'type', 'value', 'case_name', 'before', 'after'],
        [...key, name, JSON.stringify(before), JSON.stringify(after)],
      ),
    );
  }

  forget({ destination }: Of, { type, value }: Pick<Change, 'type' | 'value'>): Promise<void> {
    return this.#change(this.#forget([destination, type, value]));
  }

  #forget(key: readonly string[]): Statement {
    return {
      sql: `DELETE FROM ${this.#tables.prefix}changed WHERE destination = $1 AND type = $2 AND value = $3`,
      params: key,
    };
  }

  finish({ case: name, destination, generation, until }: OwedLease, now: number): Promise<void> {
    const { prefix } = this.#tables;
    const where = 'case_name = $1 AND destination = $2 AND leased_until = $3';
    const key = [name, destination, until];
    return this.#change(
      { sql: `DELETE FROM ${prefix}owed WHERE ${where} AND generation = $4`, params: [...key, generation] },
      { sql: `UPDATE ${prefix}owed SET leased_until = 0, due_at = $4 WHERE ${where}`, params: [...key, now] },
    );
  }

  postpone(
    { case: name, destination, generation, until }: OwedLease,
    reason: string,
    dueAt?: number,
  ): Promise<void> {
    const { prefix } = this.#tables;
    const where = 'case_name = $1 AND destination = $2 AND leased_until = $3';
    const key = [name, destination, until];
    return this.#change(
      {
        sql: `UPDATE ${prefix}owed SET reason = $5, held = $6, due_at = $7 WHERE ${where} AND generation = $4`,
        params: [...key, generation, reason, dueAt === undefined ? 1 : 0, dueAt ?? 0],
      },
      { sql: `UPDATE ${prefix}owed SET leased_until = 0 WHERE ${where}`, params: key },
    );
  }

  retry(now: number, destination?: string): Promise<void> {
    const { prefix } = this.#tables;
    const of = destination === undefined ? '' : ' AND destination = $2';
    return this.#change({
      sql: `UPDATE ${prefix}owed SET held = 0, due_at = 0
        WHERE leased_until <= $1 AND NOT (coalesce(reason, '') = 'rate-limit' AND due_at > $1)${of}`,
      params: destination === undefined ? [now] : [now, destination],
    });
  }

  async askAll(destination: string): Promise<number> {
    const tables = this.#tables;
    return this.#db.transact(function* (): Steps<number> {
      const roots = yield tables.select('DISTINCT person', 'use', "state = 'removed'", []);
      const plans = yield tables.select('DISTINCT person', 'plan', 'closed_how IS NOT NULL', []);
      const changed = yield tables.select('DISTINCT case_name', 'changed', 'destination = $1', [destination]);
      const names = new Set(changed.map(row => String(row['case_name'])));
      for (const person of new Set([...roots, ...plans].map(row => String(row['person'])))) {
        const uses = yield* tables.usesOf(person);
        for (const name of new Set(uses.flatMap(({ events }) => events.map(event => event.case))))
          if (closingsOf(uses, name).length > 0) names.add(name);
      }
      for (const name of names) {
        // Accepted before the register was told: when is not known.
        yield {
          sql: `INSERT INTO ${tables.prefix}accepted (case_name, destination, at) VALUES ($1, $2, 0)
            ON CONFLICT (case_name, destination) DO NOTHING`,
          params: [name, destination],
        };
        yield* ask(tables.prefix, name, destination);
      }
      return names.size;
    }, LOCK);
  }

  async list(): Promise<readonly OwedCase[]> {
    const rows = await this.#lists.read('*', 'owed', 'true ORDER BY destination, case_name', []);
    return rows.map(owedOf);
  }

  async nextDue(destinations: readonly string[]): Promise<number | undefined> {
    if (destinations.length === 0) return undefined;
    const due = 'min(CASE WHEN leased_until > due_at THEN leased_until ELSE due_at END) AS at';
    const where = `held = 0 AND destination IN (${placesOf(destinations)})`;
    const [row] = await this.#lists.read(due, 'owed', where, destinations);
    return row?.['at'] === null || row?.['at'] === undefined ? undefined : Number(row['at']);
  }

  async changed(destination: string, values: readonly string[]): Promise<ReadonlyMap<string, Fields>> {
    const found = new Map<string, Fields>();
    for (const some of inBatches(values)) {
      const where = `value IN (${placesOf(some)}) AND destination = $${some.length + 1}`;
      for (const row of await this.#lists.read('*', 'changed', where, [...some, destination])) {
        const { type, value, after } = changeOf(row);
        const newest = after.at(-1);
        if (newest) found.set(`${type} ${value}`, newest);
      }
    }
    return found;
  }

  #change(...statements: readonly Statement[]): Promise<void> {
    return this.#db.transact(function* (): Steps<void> {
      for (const one of statements) yield one;
    }, LOCK);
  }
}

function owedOf(row: Row): OwedCase {
  const { reason } = row;
  return {
    case: String(row['case_name']),
    destination: String(row['destination']),
    dueAt: Number(row['due_at']),
    attempts: Number(row['attempts']),
    held: Number(row['held']) === 1,
    ...(typeof reason === 'string' && { reason }),
  };
}

function changeOf(row: Row): Change {
  return {
    type: String(row['type']),
    value: String(row['value']),
    before: JSON.parse(String(row['before'])) as Fields,
    after: JSON.parse(String(row['after'])) as Fields[],
  };
}
