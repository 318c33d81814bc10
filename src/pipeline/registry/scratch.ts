import { hash } from 'node:crypto';
import type Sqlite from 'better-sqlite3';
import { loadSqlite } from '../../delivery/outbox/sqlite-outbox.js';

/** How many rows are read at a time. */
const PAGE = 200;

const TABLES = `
CREATE TABLE file (seq INTEGER PRIMARY KEY, name TEXT, body TEXT NOT NULL);
CREATE TABLE serial (key BLOB NOT NULL, seq INTEGER NOT NULL, body TEXT NOT NULL);
CREATE TABLE alike (many BLOB NOT NULL, person TEXT NOT NULL, PRIMARY KEY (many, person)) WITHOUT ROWID;
CREATE TABLE line (entry TEXT NOT NULL, body TEXT NOT NULL);`;

interface Row {
  readonly seq: number;
  readonly body: string;
}

const short = (text: string): Buffer => hash('sha256', text, 'buffer').subarray(0, 16);

/**
 * What a build keeps of its cases until all of them are read. It lies on the disk, so that a build of a million entries
 * needs no more memory than one of a thousand: in a database without a name, which nobody else can open and which is gone
 * when it is closed or the process ends.
 */
export class Scratch<File, Sighting, Line> {
  readonly #db: Sqlite.Database;
  readonly #insert: Record<'file' | 'serial' | 'alike' | 'line', Sqlite.Statement>;
  readonly #count: Sqlite.Statement<[Buffer, number], { n: number }>;
  readonly #replace: Sqlite.Statement;
  readonly #one: Sqlite.Statement<[number], Row>;
  readonly #page: Sqlite.Statement<[number], Row>;

  private constructor(db: Sqlite.Database) {
    this.#db = db;
    db.pragma('journal_mode = OFF');
    db.pragma('synchronous = OFF');
    db.pragma('cache_size = -16000');
    db.exec(TABLES);
    this.#insert = {
      file: db.prepare('INSERT INTO file (name, body) VALUES (?, ?)'),
      serial: db.prepare('INSERT INTO serial (key, seq, body) VALUES (?, ?, ?)'),
      alike: db.prepare('INSERT OR IGNORE INTO alike (many, person) VALUES (?, ?)'),
      line: db.prepare('INSERT INTO line (entry, body) VALUES (?, ?)'),
    };
    this.#count = db.prepare('SELECT count(*) AS n FROM (SELECT 1 FROM alike WHERE many = ? LIMIT ?)');
    this.#replace = db.prepare('UPDATE file SET body = ? WHERE seq = ?');
    this.#one = db.prepare('SELECT seq, body FROM file WHERE seq = ?');
    this.#page = db.prepare(`SELECT seq, body FROM file WHERE seq > ? ORDER BY seq LIMIT ${PAGE}`);
  }

  /** @throws CasetallyError 'optional-package-missing'. */
  static async open<File, Sighting, Line>(): Promise<Scratch<File, Sighting, Line>> {
    const Database = await loadSqlite();
    return new Scratch(new Database(''));
  }

  /** @param name of the case, where the file is one */
  add(name: string | undefined, file: File): number {
    return Number(this.#insert.file.run(name ?? null, JSON.stringify(file)).lastInsertRowid);
  }

  replace(seq: number, file: File): void {
    this.#replace.run(JSON.stringify(file), seq);
  }

  file(seq: number): File | undefined {
    const row = this.#one.get(seq);
    return row && (JSON.parse(row.body) as File);
  }

  /** Every file in the order in which they were added. */
  *files(): Generator<readonly [number, File]> {
    for (let after = 0; ; ) {
      const rows = this.#page.all(after);
      for (const { seq, body } of rows) yield [seq, JSON.parse(body) as File];
      const last = rows.at(-1);
      if (!last) return;
      after = last.seq;
    }
  }

  /** The files of each case that came more than once. */
  *repeated(): Generator<readonly (readonly [number, File])[]> {
    this.#db.exec('CREATE INDEX IF NOT EXISTS file_name ON file (name)');
    yield* this.#grouped(
      'SELECT name AS key FROM file WHERE name IS NOT NULL GROUP BY name HAVING count(*) > 1 ORDER BY min(seq)',
      'SELECT seq, body FROM file WHERE name = ? ORDER BY seq',
    );
  }

  /** @param key what is the same wherever it is the same serial number */
  sight(key: string, seq: number, sighting: Sighting): void {
    this.#insert.serial.run(short(key), seq, JSON.stringify(sighting));
  }

  /** Where each serial number was seen that was seen more than once, with the file it was seen in. */
  *sightings(): Generator<readonly (readonly [number, Sighting])[]> {
    this.#db.exec('CREATE INDEX IF NOT EXISTS serial_key ON serial (key)');
    yield* this.#grouped(
      'SELECT key FROM serial GROUP BY key HAVING count(*) > 1 ORDER BY min(rowid)',
      'SELECT seq, body FROM serial WHERE key = ? ORDER BY rowid',
    );
  }

  *#grouped<Body>(keys: string, rows: string): Generator<readonly (readonly [number, Body])[]> {
    const of = this.#db.prepare<[unknown], Row>(rows);
    // Read whole: those that come twice are few, and the connection takes nothing else while it walks.
    for (const { key } of this.#db.prepare<[], { key: unknown }>(keys).all())
      yield of.all(key).map(({ seq, body }) => [seq, JSON.parse(body) as Body]);
  }

  /** Counts a person in a group of people who are alike; more than `enough` of them are not kept. */
  addAlike(group: string, person: string, enough: number): void {
    const key = short(group);
    if ((this.#count.get(key, enough)?.n ?? 0) < enough) this.#insert.alike.run(key, person);
  }

  /** How many people are in a group, `enough` at most. */
  alike(group: string, enough: number): number {
    return this.#count.get(short(group), enough)?.n ?? 0;
  }

  /** @param entry what the lines go by */
  addLine(entry: string, line: Line): void {
    this.#insert.line.run(entry, JSON.stringify(line));
  }

  /** The lines in the order of their entries. */
  *lines(): Generator<Line> {
    this.#db.exec('CREATE INDEX IF NOT EXISTS line_entry ON line (entry)');
    const page = this.#db.prepare<[string, number], { entry: string; row: number; body: string }>(
      `SELECT entry, rowid AS row, body FROM line WHERE (entry, rowid) > (?, ?) ORDER BY entry, rowid LIMIT ${PAGE}`,
    );
    for (let [entry, row] = ['', 0]; ; ) {
      const rows = page.all(entry, row);
      for (const { body } of rows) yield JSON.parse(body) as Line;
      const last = rows.at(-1);
      if (!last) return;
      [entry, row] = [last.entry, last.row];
    }
  }

  close(): void {
    this.#db.close();
  }
}
