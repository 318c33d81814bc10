import type { CaseFacts, CaseFigures } from '../facts.js';
import type { LastDayRow, MeasureRows, UseRow } from '../measures/rows.js';
import type { UsePlan, UseState } from '../use.js';
import type { RegisterLists } from './lists.js';
import type { Row } from './rows.js';
import type { RegisterTables } from './tables.js';

/** Cases that are opened at a time: their facts are long. */
const PAGE = 2_000;

/** What measures of a period are made of, read from the tables. */
export async function measureRows(
  lists: RegisterLists,
  tables: RegisterTables,
  from: string,
  to: string,
): Promise<MeasureRows> {
  const figures: CaseFigures[] = [];
  const deaths = new Map<string, string>();
  let withoutFigures = 0;
  for await (const { facts, root } of newestOf(lists, tables, from, to)) {
    if (facts.figures) figures.push(facts.figures);
    else withoutFigures += 1;
    if (facts.died !== undefined && root !== undefined && !deaths.has(root)) deaths.set(root, facts.died);
  }
  return {
    figures,
    withoutFigures,
    uses: await usesPlaced(lists, tables, from, to, deaths),
    plans: await plansEnding(lists, tables, from, to),
    notPlacedHere: await notPlacedHere(lists),
  };
}

/** The newest version of each case of the period, where it was not withdrawn. */
async function* newestOf(
  lists: RegisterLists,
  tables: RegisterTables,
  from: string,
  to: string,
): AsyncGenerator<{ readonly facts: CaseFacts; readonly root: string | undefined }> {
  for (let last: string | undefined = ''; last !== undefined; ) {
    const rows: readonly Row[] = await lists.read(
      'v.case_name, v.version, v.facts, p.root',
      `case_version v LEFT JOIN ${tables.prefix}person p ON p.id = v.person`,
      `v.case_name > $1 AND v.date >= $2 AND v.date <= $3 AND v.status <> 'withdrawn' AND NOT EXISTS (
         SELECT 1 FROM ${tables.prefix}case_version w WHERE w.case_name = v.case_name AND (w.version > v.version
           OR (w.version = v.version AND w.digest > v.digest)))
       ORDER BY v.case_name LIMIT ${PAGE}`,
      [last, from, to],
    );
    for (const row of rows) {
      const facts = tables.open(row['facts'], String(row['case_name']), Number(row['version']), 'facts');
      yield { facts: JSON.parse(facts) as CaseFacts, root: textOf(row['root']) };
    }
    last = rows.length < PAGE ? undefined : String(rows.at(-1)?.['case_name']);
  }
}

/** Uses placed in the period and meant to outlast the case: what the same case took out again never stayed. */
async function usesPlaced(
  lists: RegisterLists,
  { prefix }: RegisterTables,
  from: string,
  to: string,
  deaths: ReadonlyMap<string, string>,
): Promise<UseRow[]> {
  const rows = await lists.read(
    'u.kind, u.family, u.retrievable, u.state, u.placed, u.ended, u.person',
    'use u',
    `u.state <> 'withdrawn' AND u.insertion_held = 1 AND length(u.placed) = 10 AND u.placed >= $1 AND u.placed <= $2
     AND (u.state <> 'removed' OR EXISTS (SELECT 1 FROM ${prefix}use_event e
       WHERE e.use_id = u.id AND e.person = u.person AND e.kind = 'removed' AND e.case_name <> u.case_name))`,
    [from, to],
  );
  return rows.map(row => {
    const [ended, died] = [textOf(row['ended']), deaths.get(String(row['person']))];
    return {
      kind: String(row['kind']),
      family: String(row['family']),
      retrievable: Number(row['retrievable']) === 1,
      state: row['state'] as UseState,
      placed: String(row['placed']),
      ...(ended !== undefined && { ended }),
      ...(died !== undefined && { died }),
    };
  });
}

async function plansEnding(
  lists: RegisterLists,
  { prefix }: RegisterTables,
  from: string,
  to: string,
): Promise<LastDayRow[]> {
  const rows = await lists.read(
    'u.kind, u.state, coalesce(p.latest, p.due) AS last, p.closed_how, p.closed_date',
    `plan p JOIN ${prefix}use u ON u.id = p.use_id AND u.person = p.person`,
    'coalesce(p.latest, p.due) >= $1 AND coalesce(p.latest, p.due) <= $2',
    [from, to],
  );
  return rows.map(row => {
    const [how, date] = [textOf(row['closed_how']), textOf(row['closed_date'])];
    const closed = { how: how as NonNullable<UsePlan['closed']>['how'], ...(date !== undefined && { date }) };
    return {
      kind: String(row['kind']),
      state: row['state'] as UseState,
      last: String(row['last']),
      ...(how !== undefined && { closed }),
    };
  });
}

async function notPlacedHere(lists: RegisterLists): Promise<number> {
  const where = "state <> 'withdrawn' AND (insertion_held = 0 OR placed IS NULL OR length(placed) < 10)";
  const [row] = await lists.read('count(*) AS n', 'use', where, []);
  return Number(row?.['n'] ?? 0);
}

const textOf = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
