import type { Connection, Steps } from '../../delivery/outbox/connection.js';
import type { CaseFacts } from '../facts.js';
import type { MeasureRows } from '../measures/rows.js';
import type { Decision, Gap, Unlinked, Use } from '../use.js';
import { RegisterLists } from './lists.js';
import { measureRows } from './measure-rows.js';
import type { Owed } from './owed.js';
import type {
  CaseText,
  Joined,
  NewVersion,
  PersonRow,
  PlanFilter,
  PlanRow,
  RecallHit,
  RecallLine,
  Register,
  RegisterCounts,
  SameSerial,
  Taken,
  Unsound,
  UseSummary,
} from './register.js';
import { personId } from './rows.js';
import { SqlOwed } from './sql-owed.js';
import { LOCK, RegisterTables, type SqlRegisterOptions } from './tables.js';

const VERSION = 'case_name = $1 AND version = $2 AND digest = $3';

/** The register in a database. */
export class SqlRegister implements Register {
  readonly owed: Owed;
  readonly #db: Connection;
  readonly #tables: RegisterTables;
  readonly #lists: RegisterLists;

  constructor(db: Connection, options: SqlRegisterOptions) {
    this.#db = db;
    this.#tables = new RegisterTables(options);
    this.#lists = new RegisterLists(db, this.#tables);
    this.owed = new SqlOwed(db, this.#tables, this.#lists);
  }

  take(version: NewVersion, now: number): Promise<Taken> {
    return this.#db.transact(() => this.#tables.take(version, now), LOCK);
  }

  async decide(decision: Decision): Promise<{ readonly person: string } | undefined> {
    return this.#db.transact(() => this.#decide(decision), LOCK);
  }

  *#decide(decision: Decision): Steps<{ readonly person: string } | undefined> {
    const [at] = yield this.#tables.select('person', 'use_event', TOLD_AS, [
      `${decision.case}/${decision.device}`,
    ]);
    const person = at && String(at['person']);
    if (person === undefined) return undefined;
    if (decision.kind === 'link') {
      const [use] = yield this.#tables.select('person', 'use_event', TOLD_AS, [decision.use]);
      if (use?.['person'] !== person) return undefined;
    }
    yield* this.#tables.note({
      kind: decision.kind,
      case_name: decision.case,
      device: decision.device,
      use_ref: decision.kind === 'link' ? decision.use : null,
      by_name: decision.by,
      why: decision.why,
      at: decision.at,
    });
    yield* this.#tables.refold(person);
    return { person };
  }

  async join(joined: Joined): Promise<string | undefined> {
    return this.#db.transact(() => this.#join(joined), LOCK);
  }

  *#join({ one, other, by, why, at }: Joined): Steps<string | undefined> {
    const ids = [personId(one), personId(other)];
    const roots: string[] = [];
    for (const id of ids) {
      const [row] = yield this.#tables.select('root', 'person', 'id = $1', [id]);
      if (!row) return undefined;
      roots.push(String(row['root']));
    }
    const [root = '', gone = ''] = roots.toSorted();
    yield* this.#tables.note({ kind: 'join', one: ids[0] ?? '', other: ids[1] ?? '', by_name: by, why, at });
    if (root === gone) return root;
    const before = [...(yield* this.#tables.usesOf(root)), ...(yield* this.#tables.usesOf(gone))];
    yield { sql: `UPDATE ${this.#tables.prefix}person SET root = $1 WHERE root = $2`, params: [root, gone] };
    yield* this.#tables.forget(gone);
    yield* this.#tables.refold(root, undefined, before);
    return root;
  }

  async usesOf(person: string): Promise<readonly Use[]> {
    return this.#db.transact(() => this.#tables.usesOf(person), LOCK);
  }

  async use(name: string): Promise<Use | undefined> {
    const [row] = await this.#lists.read('use_id, person', 'use_event', TOLD_AS, [name]);
    if (!row) return undefined;
    const uses = await this.usesOf(String(row['person']));
    return uses.find(({ id }) => id === row['use_id']);
  }

  setReplayed(items: readonly string[]): Promise<void> {
    return this.#db.transact(() => this.#tables.setReplayed(items), LOCK);
  }

  async rebuild(
    factsOf: (record: string, facts: CaseFacts) => Promise<CaseFacts | undefined>,
  ): Promise<{ readonly unread: readonly string[] }> {
    const keys = await this.#lists.read(
      'case_name, version, digest',
      'case_version',
      'true ORDER BY case_name, version',
      [],
    );
    const unread: string[] = [];
    for (const { case_name: name, version, digest } of keys) {
      const params = [String(name), Number(version), String(digest)];
      const [row] = await this.#lists.read('facts, record', 'case_version', VERSION, params);
      if (!row) continue;
      const before = this.#tables.open(row['facts'], String(name), Number(version), 'facts');
      const record = this.#tables.open(row['record'], String(name), Number(version), 'record');
      const facts = await factsOf(record, JSON.parse(before) as CaseFacts);
      if (!facts) unread.push(String(name));
      else if (JSON.stringify(facts) !== before)
        await this.#db.transact(() => this.#renew(facts, params), LOCK);
    }
    for (const { root } of await this.#lists.read('DISTINCT root', 'person', 'true', []))
      await this.#db.transact(() => this.#tables.refold(String(root)), LOCK);
    return { unread };
  }

  *#renew(
    facts: CaseFacts,
    [name = '', version = 0, digest = '']: readonly (string | number)[],
  ): Steps<void> {
    const person = facts.person && personId(facts.person);
    if (person !== undefined) yield* this.#tables.know(person, facts);
    yield {
      sql: `UPDATE ${this.#tables.prefix}case_version SET facts = $1, person = $2, status = $3, date = $4
        WHERE case_name = $5 AND version = $6 AND digest = $7`,
      params: [
        this.#tables.seal(JSON.stringify(facts), String(name), Number(version), 'facts'),
        person ?? null,
        facts.status,
        facts.date,
        name,
        version,
        digest,
      ],
    };
  }

  async *records(from = '', to = '9999'): AsyncIterable<CaseText> {
    const keys = await this.#lists.read(
      'case_name, version, digest',
      'case_version v',
      `date >= $1 AND substr(date, 1, length($2)) <= $2 AND version =
        (SELECT max(w.version) FROM ${this.#tables.prefix}case_version w WHERE w.case_name = v.case_name)
       ORDER BY date, case_name, digest`,
      [from, to],
    );
    for (const { case_name: name, version, digest } of keys) {
      const params = [String(name), Number(version), String(digest)];
      const [row] = await this.#lists.read('facts, record', 'case_version', VERSION, params);
      if (!row) continue;
      const open = (what: 'facts' | 'record') =>
        this.#tables.open(row[what], String(name), Number(version), what);
      const facts = JSON.parse(open('facts')) as CaseFacts;
      if (facts.case.system === this.#tables.ownSystem) yield { case: String(name), record: open('record') };
    }
  }

  async record(name: string): Promise<string | undefined> {
    const rows = await this.#lists.read(
      'version, record',
      'case_version',
      'case_name = $1 ORDER BY version DESC',
      [name],
    );
    const [newest, next] = rows;
    if (!newest || next?.['version'] === newest['version']) return undefined;
    return this.#tables.open(newest['record'], name, Number(newest['version']), 'record');
  }

  rekey(): Promise<number> {
    return this.#db.transact(() => this.#tables.rekey(), LOCK);
  }

  async check(): Promise<readonly Unsound[]> {
    const unsound: Unsound[] = [];
    for (const { root } of await this.#lists.read('DISTINCT root', 'person', 'true', [])) {
      const person = String(root);
      const [kept, made] = await this.#db.transact(() => this.#both(person), LOCK);
      const text = (uses: readonly Use[]) => new Map(uses.map(use => [use.id, canonical(use)]));
      const [a, b] = [text(kept), text(made)];
      for (const id of new Set([...a.keys(), ...b.keys()]))
        if (a.get(id) !== b.get(id)) unsound.push({ person, use: id });
    }
    return unsound;
  }

  *#both(person: string): Steps<[Use[], readonly Use[]]> {
    const kept = yield* this.#tables.usesOf(person);
    const { uses } = yield* this.#tables.foldOf(person);
    return [kept, uses];
  }

  people(value: string, system?: string): Promise<readonly PersonRow[]> {
    return this.#lists.people(value, system);
  }

  person(id: string): Promise<PersonRow | undefined> {
    return this.#lists.person(id);
  }

  plans(filter: PlanFilter): Promise<readonly PlanRow[]> {
    return this.#lists.plans(filter);
  }

  planCount(filter: PlanFilter): Promise<number> {
    return this.#lists.planCount(filter);
  }

  unreviewed(on: string): Promise<readonly UseSummary[]> {
    return this.#lists.unreviewed(on);
  }

  unlinked(): Promise<readonly Unlinked[]> {
    return this.#lists.unlinked();
  }

  gaps(): Promise<readonly Gap[]> {
    return this.#lists.gaps();
  }

  recall(lines: readonly RecallLine[]): Promise<readonly RecallHit[]> {
    return this.#lists.recall(lines);
  }

  insideWithoutIdentifier(): Promise<number> {
    return this.#lists.insideWithoutIdentifier();
  }

  counts(): Promise<RegisterCounts> {
    return this.#lists.counts();
  }

  measureRows(from: string, to: string): Promise<MeasureRows> {
    return measureRows(this.#lists, this.#tables, from, to);
  }

  sameSerials(): Promise<readonly SameSerial[]> {
    return this.#lists.sameSerials();
  }

  notReplayed(items: readonly string[]): Promise<readonly string[]> {
    return this.#lists.notReplayed(items);
  }

  integrity(): Promise<readonly string[]> {
    return this.#db.integrity();
  }

  close(): Promise<void> {
    return this.#db.close();
  }
}

/** Where a case was withdrawn from one person and holds of another, the other is meant. */
const TOLD_AS = "told_as = $1 ORDER BY CASE kind WHEN 'withdrawn' THEN 1 ELSE 0 END, person, use_id LIMIT 1";

/** Text that is the same for the same use, whatever the order of its fields. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
