import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import {
  changesSince,
  claimIn,
  itemTable,
  postgresIn,
  SCHEMA_VERSION,
  SQLITE,
  tables,
} from '../../../src/delivery/outbox/sql-schema.js';

/** As it was released: stores of every version are brought up to the present one. */
const CHANGES = (prefix: string, number: string, options: string) => [
  [`ALTER TABLE ${prefix}item ADD COLUMN overwrite ${number} NOT NULL DEFAULT 0`],
  [`ALTER TABLE ${prefix}item ADD COLUMN accepted text`],
  [
    `ALTER TABLE ${prefix}item RENAME TO queue_item`,
    `CREATE TABLE ${prefix}content (
  sequence ${number} PRIMARY KEY REFERENCES ${prefix}queue_item (sequence) ON DELETE CASCADE,
  payload  text NOT NULL,
  context  text
) ${options}`,
    `INSERT INTO ${prefix}content (sequence, payload, context) SELECT sequence, payload, context FROM ${prefix}queue_item`,
    `ALTER TABLE ${prefix}queue_item DROP COLUMN payload`,
    `ALTER TABLE ${prefix}queue_item DROP COLUMN context`,
  ],
];

it.each([0, 1, 2, 3, 4])('a store of version %d is changed by what came after it', version => {
  const after = (all: string[][]) => all.slice(Math.max(0, version - 1)).flat();
  expect(changesSince(version, SQLITE)).toEqual(after(CHANGES('', 'INTEGER', 'STRICT')));
  expect(changesSince(version, postgresIn('s'))).toEqual(after(CHANGES('s.', 'bigint', '')));
});

it('the table of items is called as its version called it', () => {
  expect([1, 3, 4, SCHEMA_VERSION].map(itemTable)).toEqual(['item', 'item', 'queue_item', 'queue_item']);
});

it('a store that is made anew has what one of version 1 has once it is up to date', () => {
  const folder = mkdtempSync(join(tmpdir(), 'schema-'));
  const old = join(folder, 'old.db');
  copyFileSync(join(import.meta.dirname, 'earlier', 'schema-1.sqlite'), old);
  const shapeOf = (path: string, statements: readonly string[]) => {
    const db = new Database(path);
    for (const sql of statements) db.exec(sql);
    const names = db.prepare<[], { type: string; name: string }>(
      "SELECT type, name FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' ORDER BY name",
    );
    const shape = names.all().map(({ type, name }) => ({
      name,
      strict: /STRICT$/.test(
        String(db.prepare('SELECT sql FROM sqlite_schema WHERE name = ?').pluck().get(name)),
      ),
      of:
        type === 'table'
          ? db.prepare('SELECT name, type, "notnull", pk FROM pragma_table_info(?) ORDER BY name').all(name)
          : db.prepare('SELECT name FROM pragma_index_info(?)').all(name),
    }));
    db.close();
    return shape;
  };
  const made = shapeOf(':memory:', tables(SQLITE));
  expect(shapeOf(old, changesSince(1, SQLITE))).toEqual(made);
  const names = made.map(({ name, strict }) => [name, strict]);
  expect(names).toEqual([
    ['content', true],
    ['gate', true],
    ['item_case', false],
    ['item_due', false],
    ['item_patient', false],
    ['queue_item', true],
  ]);
  rmSync(folder, { recursive: true });
});

it('a row that another connection is writing is passed over where there are several', () => {
  expect(claimIn(postgresIn('s'))).toMatch(/ORDER BY i.sequence\s+LIMIT 1\s+FOR UPDATE OF i SKIP LOCKED\)/);
  expect(claimIn(SQLITE)).toMatch(/ORDER BY i.sequence\s+LIMIT 1\s+\)/);
});
