import type { Statement, Steps } from '../../delivery/outbox/connection.js';
import { keyOfSealed, type RowSealing, type Sealing } from '../../delivery/outbox/sealing.js';
import type { Dialect } from '../../delivery/outbox/sql-schema.js';
import { insert } from '../../delivery/outbox/statements.js';
import { compareText } from '../../findings/finding.js';
import { type CaseFacts, caseText, type PersonNumber } from '../facts.js';
import { fold } from '../fold.js';
import type { History, Use } from '../use.js';
import { casesChanged } from '../wanted.js';
import { accepted, ask } from './asked.js';
import type { NewVersion, SameSerial, Taken } from './register.js';
import { decisionOf, numberKey, personId, rowsOfUse, usesOfRows } from './rows.js';

export interface SqlRegisterOptions {
  readonly dialect: Dialect;
  readonly sealing: Sealing;
  /** Numbering system of the site's own case numbers, which names leave out. */
  readonly ownSystem: string;
}

/** Everything that changes runs one after the other: a person's history is always folded from all there is. */
export const LOCK = 'register';

/** The tables of the register, and the steps that a change of them is made of. */
export class RegisterTables {
  readonly prefix: string;
  readonly ownSystem: string;
  readonly #sealing: Sealing;
  /** For text of rows that lists are made from. */
  readonly rows: RowSealing;

  constructor({ dialect, sealing, ownSystem }: SqlRegisterOptions) {
    this.prefix = dialect.prefix;
    this.#sealing = sealing;
    this.rows = {
      seal: text => sealing.seal(text, 'register row'),
      open: sealed => sealing.open(sealed, 'register row'),
    };
    this.ownSystem = ownSystem;
  }

  /** Takes a version of a case in, and folds everybody anew whom the case is or was about. */
  *take({ facts, record, item, destination }: NewVersion, now: number): Steps<Taken> {
    const name = caseText(facts.case, this.ownSystem);
    if (item !== undefined) yield* this.setReplayed([item]);
    const changed = new Set<string>();
    const there = yield this.select('digest, person', 'case_version', 'case_name = $1 AND version = $2', [
      name,
      facts.version,
    ]);
    const isNew = !there.some(row => row['digest'] === facts.digest);
    const person = facts.person && personId(facts.person);
    if (isNew) {
      if (facts.person && person !== undefined) yield* this.know(person, facts);
      yield insert(`${this.prefix}case_version`, VERSION_COLUMNS, [
        name,
        facts.version,
        facts.digest,
        facts.status,
        facts.date,
        person ?? null,
        now,
        this.seal(JSON.stringify(facts), name, facts.version, 'facts'),
        this.seal(record, name, facts.version, 'record'),
      ]);
    }
    const touched = yield this.select(
      'DISTINCT p.root',
      `case_version v JOIN ${this.prefix}person p ON p.id = v.person`,
      'v.case_name = $1',
      [name],
    );
    let own: History | undefined;
    const root = person === undefined ? undefined : yield* this.rootOf(person);
    for (const row of touched) {
      const id = String(row['root']);
      const history = isNew ? yield* this.refold(id, changed) : yield* this.foldOf(id);
      if (id === root) own = history;
    }
    if (destination !== undefined) {
      yield* accepted(this.prefix, name, destination, now);
      changed.add(name);
    }
    const serials = own ? yield* this.sameSerialsOf(own.uses, name) : [];
    return {
      isNew,
      ...(root !== undefined && { person: root }),
      unlinked: (own?.unlinked ?? []).filter(one => one.case === name),
      gaps: (own?.gaps ?? []).filter(one => one.case === name),
      sameSerial: serials,
      versionTwice: there.some(row => row['digest'] !== facts.digest),
      changed: [...changed].sort(compareText),
    };
  }

  *usesOf(person: string): Steps<Use[]> {
    const uses = yield this.select('*', 'use', "person = $1 ORDER BY coalesce(placed, ''), id", [person]);
    const events = yield this.select('*', 'use_event', 'person = $1 ORDER BY use_id, n', [person]);
    const plans = yield this.select('*', 'plan', 'person = $1 ORDER BY use_id, n', [person]);
    return usesOfRows(uses, events, plans, this.rows);
  }

  *setReplayed(items: readonly string[]): Steps<void> {
    for (const item of items)
      yield {
        sql: `INSERT INTO ${this.prefix}replayed (item) VALUES ($1) ON CONFLICT (item) DO NOTHING`,
        params: [item],
      };
  }

  /** Knows a person and all numbers that a case gives them. */
  *know(person: string, { person: number, numbers }: CaseFacts): Steps<void> {
    yield {
      sql: `INSERT INTO ${this.prefix}person (id, root) VALUES ($1, $1) ON CONFLICT (id) DO NOTHING`,
      params: [person],
    };
    for (const one of [...(number ? [number] : []), ...numbers])
      yield {
        sql: `INSERT INTO ${this.prefix}person_number (number_key, system, person, number)
          VALUES ($1, $2, $3, $4) ON CONFLICT (number_key, system, person) DO NOTHING`,
        params: [
          numberKey(one.value),
          one.system,
          person,
          this.#sealing.seal(JSON.stringify({ system: one.system, value: one.value }), 'register number'),
        ],
      };
  }

  *rootOf(person: string): Steps<string | undefined> {
    const [row] = yield this.select('root', 'person', 'id = $1', [person]);
    return row && String(row['root']);
  }

  /** The history of a person, from all versions of all cases that any version puts in them. */
  *foldOf(root: string): Steps<History> {
    const people = yield this.select('id', 'person', 'root = $1', [root]);
    const own = new Set(people.map(row => String(row['id'])));
    const rows = yield this.select(
      'v.case_name, v.version, v.digest, v.person, v.facts',
      'case_version v',
      `v.case_name IN (SELECT w.case_name FROM ${this.prefix}case_version w
         JOIN ${this.prefix}person p ON p.id = w.person WHERE p.root = $1)
       ORDER BY v.case_name, v.version, v.digest`,
      [root],
    );
    const newest = new Map(rows.map(row => [row['case_name'], row['person']]));
    const versions = rows.flatMap((row): CaseFacts[] => {
      if (!own.has(String(row['person']))) return [];
      const name = String(row['case_name']);
      const facts = JSON.parse(this.open(row['facts'], name, Number(row['version']), 'facts')) as CaseFacts;
      // A later version says that it was somebody else.
      return own.has(String(newest.get(name))) ? [facts] : [{ ...facts, status: 'withdrawn' }];
    });
    const decisions = yield this.select(
      'd.*',
      'decision d',
      `d.case_name IN (SELECT w.case_name FROM ${this.prefix}case_version w
         JOIN ${this.prefix}person p ON p.id = w.person WHERE p.root = $1) ORDER BY d.n`,
      [root],
    );
    return fold(versions, decisions.map(decisionOf), { person: root, ownSystem: this.ownSystem });
  }

  /**
   * Folds a person anew, and asks for what destinations are to be told of it.
   * @param changed gathers the cases of which they are told.
   * @param before what was kept of the person, where that is not read here.
   */
  *refold(root: string, changed = new Set<string>(), before?: readonly Use[]): Steps<History> {
    const kept = before ?? (yield* this.usesOf(root));
    const history = yield* this.foldOf(root);
    for (const name of casesChanged(kept, history.uses)) {
      yield* ask(this.prefix, name);
      changed.add(name);
    }
    yield* this.forget(root);
    for (const use of history.uses) yield* statements(rowsOfUse(this.prefix, use, this.rows));
    for (const one of history.unlinked)
      yield insert(
        `${this.prefix}unlinked`,
        ['case_name', 'device', 'person', 'date', 'body'],
        [one.case, one.device, root, one.date, this.rows.seal(JSON.stringify(one))],
      );
    for (const { use, case: name, device } of history.gaps)
      yield insert(
        `${this.prefix}gap`,
        ['use_id', 'case_name', 'device', 'person'],
        [use, name, device, root],
      );
    return history;
  }

  *forget(root: string): Steps<void> {
    for (const table of ['plan', 'use_event', 'use', 'unlinked', 'gap'])
      yield { sql: `DELETE FROM ${this.prefix}${table} WHERE person = $1`, params: [root] };
  }

  *sameSerialsOf(uses: readonly Use[], name: string): Steps<SameSerial[]> {
    const found: SameSerial[] = [];
    for (const { id, di, serial, person, events, state } of uses) {
      if (di === undefined || serial === undefined || state === 'withdrawn') continue;
      if (!events.some(event => event.case === name)) continue;
      const others = yield this.select(
        'id',
        'use',
        "di = $1 AND serial = $2 AND person <> $3 AND state <> 'withdrawn' ORDER BY id",
        [di, serial, person],
      );
      found.push(...others.map(row => ({ di, serial, use: id, other: String(row['id']) })));
    }
    return found;
  }

  *note(values: Readonly<Record<string, string | number | null>>): Steps<void> {
    const [last] = yield this.select('coalesce(max(n), 0) AS n', 'decision', 'true', []);
    const columns = ['n', ...Object.keys(values)];
    yield insert(`${this.prefix}decision`, columns, [Number(last?.['n'] ?? 0) + 1, ...Object.values(values)]);
  }

  select(columns: string, from: string, where: string, params: readonly (string | number)[]): Statement {
    return { sql: `SELECT ${columns} FROM ${this.prefix}${from} WHERE ${where}`, params };
  }

  seal(text: string, name: string, version: number, what: string): string {
    return this.#sealing.seal(text, `register ${what} ${name} ${version}`);
  }

  /** Opens everything and seals it again. */
  *rekey(): Steps<number> {
    const versions = yield this.select(
      'case_name, version, digest, facts, record',
      'case_version',
      'true',
      [],
    );
    for (const row of versions) {
      const [name, version] = [String(row['case_name']), Number(row['version'])];
      const again = (what: 'facts' | 'record') =>
        this.seal(this.#plain(row[what], `register ${what} ${name} ${version}`), name, version, what);
      yield {
        sql: `UPDATE ${this.prefix}case_version SET facts = $1, record = $2
          WHERE case_name = $3 AND version = $4 AND digest = $5`,
        params: [again('facts'), again('record'), name, version, String(row['digest'])],
      };
    }
    const numbers = yield this.select('number_key, system, person, number', 'person_number', 'true', []);
    for (const row of numbers)
      yield {
        sql: `UPDATE ${this.prefix}person_number SET number = $1 WHERE number_key = $2 AND system = $3 AND person = $4`,
        params: [
          this.#sealing.seal(this.#plain(row['number'], 'register number'), 'register number'),
          String(row['number_key']),
          String(row['system']),
          String(row['person']),
        ],
      };
    // What lists are made from is made anew.
    for (const row of yield this.select('DISTINCT root', 'person', 'true', [])) {
      const root = String(row['root']);
      const { uses } = yield* this.foldOf(root);
      yield* this.refold(root, undefined, uses);
    }
    return versions.length + numbers.length;
  }

  /** What was not sealed yet stands as it is. */
  #plain(text: unknown, about: string): string {
    const kept = String(text);
    return keyOfSealed(kept) === undefined ? kept : this.#sealing.open(kept, about);
  }

  openNumber(sealed: string): PersonNumber {
    return JSON.parse(this.#sealing.open(sealed, 'register number')) as PersonNumber;
  }

  open(text: unknown, name: string, version: number, what: string): string {
    return this.#sealing.open(String(text), `register ${what} ${name} ${version}`);
  }
}

const VERSION_COLUMNS = [
  'case_name',
  'version',
  'digest',
  'status',
  'date',
  'person',
  'taken_at',
  'facts',
  'record',
];

function* statements(all: readonly Statement[]): Steps<void> {
  for (const one of all) yield one;
}
