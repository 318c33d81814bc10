import { DuckDBInstance } from '@duckdb/node-api';
import type { RecallLine } from '../../src/register/store/register.js';

/** What DuckDB counts in the devices as they were made up: it has never seen the register. */
export interface Counted {
  readonly inside: number;
  readonly overdue: number;
  readonly recall: Readonly<Record<'carries now' | 'carried' | 'perhaps', number>>;
  readonly insideOf: (person: string) => Promise<number>;
  readonly close: () => void;
}

/** @param devices CSV of `Truth` @param lines CSV of line, di and lot */
export async function countedIn(devices: string, lines: string, today: string): Promise<Counted> {
  const instance = await DuckDBInstance.create(':memory:');
  const db = await instance.connect();
  const count = async (sql: string, ...values: string[]): Promise<number> => {
    const reader = await db.runAndReadAll(sql, values);
    return Number(reader.getRows()[0]?.[0] ?? -1);
  };
  for (const [name, file] of [
    ['device', devices],
    ['line', lines],
  ])
    await db.run(
      `CREATE TABLE ${name} AS SELECT * FROM read_csv('${file}', header = true, all_varchar = true, nullstr = '')`,
    );
  // Joined by equality twice, since a join by OR looks at every pair.
  const hits = `(SELECT l.line, d.* FROM line l JOIN device d ON d.di = l.di WHERE d.lot IS NULL OR d.lot = l.lot
    UNION SELECT l.line, d.* FROM line l JOIN device d ON d.lot = l.lot WHERE d.di IS NULL OR d.di = l.di)`;
  const whole = 'di IS NOT NULL AND lot IS NOT NULL';
  return {
    inside: await count('SELECT count(*) FROM device WHERE ended IS NULL'),
    overdue: await count('SELECT count(*) FROM device WHERE ended IS NULL AND latest < $1', today),
    recall: {
      'carries now': await count(`SELECT count(*) FROM ${hits} WHERE ${whole} AND ended IS NULL`),
      carried: await count(`SELECT count(*) FROM ${hits} WHERE ${whole} AND ended IS NOT NULL`),
      perhaps: await count(`SELECT count(*) FROM ${hits} WHERE NOT (${whole})`),
    },
    insideOf: person => count('SELECT count(*) FROM device WHERE person = $1 AND ended IS NULL', person),
    close: () => {
      db.closeSync();
      instance.closeSync();
    },
  };
}

export const csvOfLines = (lines: readonly RecallLine[]): string =>
  `line,di,lot\n${lines.map(({ line, di, lot }) => `${line},${di ?? ''},${lot ?? ''}\n`).join('')}`;
