import type Sqlite from 'better-sqlite3';
import type { Statement } from '../../src/delivery/outbox/connection.js';
import { unsealed } from '../../src/delivery/outbox/sealing.js';
import { SQLITE } from '../../src/delivery/outbox/sql-schema.js';
import { insert } from '../../src/delivery/outbox/statements.js';
import { type CaseFacts, caseText } from '../../src/register/facts.js';
import { fold } from '../../src/register/fold.js';
import { laterIndexes } from '../../src/register/store/indexes.js';
import { numberKey, personId, rowsOfUse } from '../../src/register/store/rows.js';
import { REGISTER_VERSION, registerTables } from '../../src/register/store/schema.js';
import { system } from './people.js';

const ownSystem = `${system}/cases`;
const sealing = {
  seal: (text: string) => unsealed.seal(text, ''),
  open: (text: string) => unsealed.open(text, ''),
};

/**
 * Fills an empty register at once: each person is folded as the register folds them, and the rows are those that it
 * writes, but in one transaction, and the indexes are made at the end.
 */
export function fillAtOnce(db: Sqlite.Database, people: Iterable<readonly CaseFacts[]>): void {
  const statements = registerTables(SQLITE);
  const isIndex = (sql: string) => sql.startsWith('CREATE INDEX');
  for (const sql of statements.filter(one => !isIndex(one))) db.exec(sql);
  const prepared = new Map<string, Sqlite.Statement<unknown[]>>();
  const run = ({ sql, params }: Statement) => {
    const plain = sql.replaceAll(/\$\d+/g, '?');
    const made = prepared.get(sql) ?? db.prepare<unknown[]>(plain);
    prepared.set(sql, made);
    made.run(...params);
  };
  db.exec('BEGIN');
  for (const cases of people) for (const statement of rowsOfPerson(cases)) run(statement);
  db.exec('COMMIT');
  for (const sql of [...statements.filter(isIndex), ...laterIndexes(SQLITE)]) db.exec(sql);
  db.pragma(`user_version = ${REGISTER_VERSION}`);
}

function* rowsOfPerson(cases: readonly CaseFacts[]): Generator<Statement> {
  const number = cases[0]?.person;
  if (!number) return;
  const person = personId(number);
  yield insert('person', ['id', 'root'], [person, person]);
  yield insert(
    'person_number',
    ['number_key', 'system', 'person', 'number'],
    [numberKey(number.value), number.system, person, sealing.seal(JSON.stringify(number))],
  );
  for (const facts of cases)
    yield insert(
      'case_version',
      ['case_name', 'version', 'digest', 'status', 'date', 'person', 'taken_at', 'facts', 'record'],
      [
        caseText(facts.case, ownSystem),
        facts.version,
        facts.digest,
        facts.status,
        facts.date,
        person,
        0,
        sealing.seal(JSON.stringify(facts)),
        sealing.seal(''),
      ],
    );
  const { uses, unlinked, gaps } = fold(cases, [], { person, ownSystem });
  if (unlinked.length + gaps.length > 0) throw new Error('a person was made up with something to decide');
  for (const use of uses) yield* rowsOfUse('', use, sealing);
}

/** All rows of the tables, to compare two registers. */
export function rowsIn(db: Sqlite.Database): string {
  const tables = db
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    .all();
  return JSON.stringify(
    tables.map(({ name }) => [
      name,
      db
        .prepare(`SELECT * FROM ${name}`)
        .all()
        .map(row => JSON.stringify(row))
        .sort(),
    ]),
  );
}
