import { createHash } from 'node:crypto';
import type { Statement } from '../../delivery/outbox/connection.js';
import type { RowSealing } from '../../delivery/outbox/sealing.js';
import { insert } from '../../delivery/outbox/statements.js';
import { grouped } from '../../record/grouped.js';
import { normalNumber } from '../../registry/patient-number.js';
import type { PersonNumber } from '../facts.js';
import type { Decision, Use, UseEvent, UsePlan } from '../use.js';
import type { UseSummary } from './register.js';
import { eventColumns, planColumns, useColumns } from './schema.js';

type Value = string | number | null;
export type Row = Readonly<Record<string, unknown>>;

/** Id of a person: a digest of the number, so that tables name nobody. */
export function personId(number: PersonNumber): string {
  const { system, value } = normalNumber(number);
  return createHash('sha256')
    .update(`person\u0000${system}\u0000${value}`, 'utf8')
    .digest('hex')
    .slice(0, 32);
}

/** Digest of a number by itself, to find people by it. */
export function numberKey(value: string): string {
  const normal = normalNumber({ system: '', value }).value;
  return createHash('sha256').update(`number\u0000${normal}`, 'utf8').digest('hex').slice(0, 32);
}

const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
const count = (value: unknown): number => Number(value ?? 0);
const flag = (value: boolean): number => (value ? 1 : 0);
const orNull = <T extends Value>(value: T | undefined): T | null => value ?? null;

/** What is there, under the names of the type. */
function given<T extends object>(values: Record<string, unknown>): T {
  for (const name of Object.keys(values)) if (values[name] === undefined) delete values[name];
  return values as T;
}

/** The rows of one use: itself, its events and its plans. */
export function rowsOfUse(prefix: string, use: Use, { seal }: RowSealing): Statement[] {
  const sealed = (value: string | undefined) => (value === undefined ? null : seal(value));
  const [first] = use.events;
  const values: Record<(typeof useColumns)[number], Value> = {
    id: use.id,
    person: use.person,
    case_name: first?.case ?? '',
    device: use.device,
    part: orNull(use.part),
    name: seal(use.name),
    kind: use.kind,
    family: use.family,
    di: orNull(use.di),
    lot: orNull(use.lot),
    serial: orNull(use.serial),
    expires: orNull(use.expires),
    maker: sealed(use.maker),
    model: sealed(use.model),
    reference: sealed(use.reference),
    site: sealed(use.site),
    side: orNull(use.side),
    purpose: orNull(use.purpose),
    retrievable: flag(use.retrievable),
    state: use.state,
    placed: orNull(use.placed),
    insertion_held: flag(use.insertionHeld),
    ended: orNull(use.ended),
    dwell_days: orNull(use.dwellDays),
    count: use.count,
    inside: use.inside,
    due: orNull(use.due),
    latest: orNull(use.latest),
  };
  return [
    insert(
      `${prefix}use`,
      useColumns,
      useColumns.map(column => values[column]),
    ),
    ...use.events.map((event, n) => rowOfEvent(prefix, use, event, n, sealed)),
    ...use.plans.map((plan, n) => rowOfPlan(prefix, use, plan, n, sealed)),
  ];
}

type SealPart = (value: string | undefined) => string | null;

function rowOfEvent(prefix: string, use: Use, event: UseEvent, n: number, sealed: SealPart): Statement {
  const values: Record<(typeof eventColumns)[number], Value> = {
    use_id: use.id,
    n,
    person: use.person,
    kind: event.kind,
    date: orNull(event.date),
    case_name: event.case,
    version: event.version,
    told_as: event.as,
    count: orNull(event.count),
    evidence: orNull(event.evidence),
    note: sealed(event.note),
  };
  return insert(
    `${prefix}use_event`,
    eventColumns,
    eventColumns.map(column => values[column]),
  );
}

function rowOfPlan(prefix: string, use: Use, plan: UsePlan, n: number, sealed: SealPart): Statement {
  const values: Record<(typeof planColumns)[number], Value> = {
    use_id: use.id,
    n,
    person: use.person,
    case_name: plan.case,
    key: plan.key,
    what: sealed(plan.what),
    by_role: plan.by,
    earliest: orNull(plan.earliest),
    due: orNull(plan.due),
    latest: orNull(plan.latest),
    condition: sealed(plan.condition),
    day: orNull(plan.due ?? plan.latest),
    closed_how: orNull(plan.closed?.how),
    closed_case: orNull(plan.closed?.case),
    closed_date: orNull(plan.closed?.date),
  };
  return insert(
    `${prefix}plan`,
    planColumns,
    planColumns.map(column => values[column]),
  );
}

export function summaryOf(row: Row, { open }: RowSealing): UseSummary {
  const opened = (column: string) => (typeof row[column] === 'string' ? open(row[column]) : undefined);
  return given<UseSummary>({
    id: row['id'],
    person: row['person'],
    device: row['device'],
    part: text(row['part']),
    name: opened('name'),
    kind: row['kind'],
    family: row['family'],
    di: text(row['di']),
    lot: text(row['lot']),
    serial: text(row['serial']),
    expires: text(row['expires']),
    maker: opened('maker'),
    model: opened('model'),
    reference: opened('reference'),
    site: opened('site'),
    side: text(row['side']),
    purpose: text(row['purpose']),
    retrievable: row['retrievable'] === 1,
    state: row['state'],
    placed: text(row['placed']),
    insertionHeld: row['insertion_held'] === 1,
    ended: text(row['ended']),
    dwellDays: row['dwell_days'] === null ? undefined : count(row['dwell_days']),
    count: count(row['count']),
    inside: count(row['inside']),
    due: text(row['due']),
    latest: text(row['latest']),
  });
}

const eventOfRow = (row: Row, { open }: RowSealing): UseEvent =>
  given<UseEvent>({
    kind: row['kind'],
    date: text(row['date']),
    case: row['case_name'],
    version: count(row['version']),
    as: row['told_as'],
    count: row['count'] === null ? undefined : count(row['count']),
    evidence: text(row['evidence']),
    note: typeof row['note'] === 'string' ? open(row['note']) : undefined,
  });

/** @param as what stands before the names of the columns. */
export function planOfRow(row: Row, { open }: RowSealing, as = ''): UsePlan {
  const value = (column: (typeof planColumns)[number]) => row[`${as}${column}`];
  const how = text(value('closed_how'));
  const condition = text(value('condition'));
  return given<UsePlan>({
    case: value('case_name'),
    key: value('key'),
    what: open(String(value('what'))),
    by: value('by_role'),
    earliest: text(value('earliest')),
    due: text(value('due')),
    latest: text(value('latest')),
    condition: condition === undefined ? undefined : open(condition),
    closed:
      how === undefined
        ? undefined
        : given({ how, case: text(value('closed_case')), date: text(value('closed_date')) }),
  });
}

/** Uses with their events and plans, from the rows of each. */
export function usesOfRows(
  uses: readonly Row[],
  events: readonly Row[],
  plans: readonly Row[],
  sealing: RowSealing,
): Use[] {
  const of = (rows: readonly Row[]) => grouped(rows, row => String(row['use_id']));
  const [eventsOf, plansOf] = [of(events), of(plans)];
  return uses.map(row => {
    const summary = summaryOf(row, sealing);
    return {
      ...summary,
      events: (eventsOf.get(summary.id) ?? []).map(event => eventOfRow(event, sealing)),
      plans: (plansOf.get(summary.id) ?? []).map(plan => planOfRow(plan, sealing)),
    };
  });
}

export function decisionOf(row: Row): Decision {
  const [of, device] = [String(row['case_name']), String(row['device'])];
  const said = {
    case: of,
    device,
    by: String(row['by_name']),
    why: String(row['why']),
    at: Number(row['at']),
  };
  return row['kind'] === 'link'
    ? { kind: 'link', use: String(row['use_ref']), ...said }
    : { kind: 'unlink', ...said };
}
